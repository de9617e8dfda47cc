//! What a kit's answer hangs on, one thing at a time: parts, cords, conditions.
//!
//! Neglected: the compressor's own efficiency and the motor, which are what a machine is, and the
//! refrigerant.

use crate::kit::Kit;
use crate::scenario::{Document, KitSetup, PartName};

/// Where a thing belongs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Group {
    /// Between the system and the machine.
    Path,
    /// Between the machine and the cylinder.
    Discharge,
    /// Between the panel and the motor.
    Power,
    /// The day, the condenser, the cylinder.
    Condition,
}

impl Group {
    /// The word that programs read.
    pub fn tag(self) -> &'static str {
        match self {
            Self::Path => "path",
            Self::Discharge => "discharge",
            Self::Power => "power",
            Self::Condition => "condition",
        }
    }
}

/// One thing that can be made ideal by itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Aspect {
    PathPart(usize),
    SecondPart(usize),
    InletThrottle,
    DischargePart(usize),
    Source,
    Condenser,
    CylinderTemperature,
    CylinderAir,
    Supply,
    Branch,
    Cord(usize),
}

/// An aspect, where it stands, and what is ideal for it.
#[derive(Debug, Clone)]
pub(super) struct Listed {
    pub aspect: Aspect,
    pub id: String,
    pub name: String,
    pub group: Group,
    pub ideal: &'static str,
}

/// Half a kelvin colder than the air is as warm as the air.
const AS_WARM_K: f64 = 0.5;
/// What melting ice holds.
pub(super) const ICE_WATER: &str = "0 degC";
const ICE_WATER_K: f64 = 273.15;

/// Everything the only kit of a document hangs on, in the order refrigerant and power pass it.
pub(super) fn aspects(document: &Document, kit: &KitSetup) -> Vec<Listed> {
    let mut listed = Vec::new();
    parts(&kit.parts, Group::Path, Aspect::PathPart, &mut listed);
    parts(&kit.second_parts, Group::Path, Aspect::SecondPart, &mut listed);
    conditions(document, kit, &mut listed);
    parts(&kit.discharge_parts, Group::Discharge, Aspect::DischargePart, &mut listed);
    power(document, kit, &mut listed);
    listed
}

fn parts(names: &[PartName], group: Group, aspect: fn(usize) -> Aspect, listed: &mut Vec<Listed>) {
    listed.extend(names.iter().enumerate().map(|(index, part)| Listed {
        aspect: aspect(index),
        id: part.path.clone(),
        name: part.name.clone(),
        group,
        ideal: "passes everything without loss, or is not there",
    }));
}

fn conditions(document: &Document, kit: &KitSetup, listed: &mut Vec<Listed>) {
    let mut add = |aspect, id: &str, name: &str, ideal| {
        let (id, name) = (id.to_owned(), name.to_owned());
        listed.push(Listed { aspect, id, name, group: Group::Condition, ideal });
    };
    let own_machine = document.kits.first().and_then(|one| one.machine.as_ref());
    let machine = match own_machine {
        Some(_) => format!("kits.{}.machine", kit.name),
        None => "machine".to_owned(),
    };
    let air_k = document.ambient.temperature.si();
    if document.source.temperature.si() < air_k - AS_WARM_K {
        add(Aspect::Source, "source.temperature", "Cold source", "as warm as the air");
    }
    if kit.setup.machine.inlet_throttle.is_some() {
        let id = format!("{machine}.inlet_throttle");
        add(Aspect::InletThrottle, &id, "Machine's own inlet", "passes everything without loss");
    }
    let held_k = own_machine
        .unwrap_or(&document.machine)
        .condenser
        .condensing_temperature
        .as_ref()
        .map(|held| held.si());
    if held_k.is_none_or(|held_k| held_k > air_k) {
        let id = format!("{machine}.condenser");
        add(Aspect::Condenser, &id, "Condenser", "condenses at the temperature of the air");
    }
    let cylinder = &document.cylinder;
    if cylinder.temperature.si() > ICE_WATER_K {
        add(Aspect::CylinderTemperature, "cylinder.temperature", "Warm cylinder", "stands in ice water");
    }
    if cylinder.excess_pressure.as_ref().is_some_and(|excess| excess.si() > 0.0) {
        add(Aspect::CylinderAir, "cylinder.excess_pressure", "Air in the cylinder", "none in it");
    }
}

fn power(document: &Document, kit: &KitSetup, listed: &mut Vec<Listed>) {
    let mut add = |aspect, id: String, name: &str, ideal| {
        listed.push(Listed { aspect, id, name: name.to_owned(), group: Group::Power, ideal });
    };
    let supply = &document.supply;
    let own_kit = document.kits.first();
    let motor = &own_kit.and_then(|one| one.machine.as_ref()).unwrap_or(&document.machine).motor;
    let gives_way =
        supply.generator.is_some() || supply.source_resistance.is_some() || supply.source_reactance.is_some();
    if gives_way || supply.voltage.si() < motor.rated_voltage.si() {
        let ideal = "holds the motor's rated voltage, or more where it has more";
        add(Aspect::Supply, "supply".to_owned(), "Supply", ideal);
    }
    if supply.branch.is_some() {
        add(
            Aspect::Branch,
            "supply.branch".to_owned(),
            "Branch circuit",
            "no resistance, nothing else on it",
        );
    }
    let at = own_kit.map_or("supply.cords".to_owned(), Kit::cords_path);
    for (index, cord) in kit.cords.iter().enumerate() {
        add(Aspect::Cord(index), format!("{at}.{index}"), cord, "no resistance, or is not there");
    }
}
