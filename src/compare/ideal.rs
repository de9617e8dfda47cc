//! A kit with some of what it hangs on made ideal.
//!
//! The kit is resolved once as it is and once with everything ideal; any mixture takes each aspect
//! from one or the other. A part made ideal keeps its place without anything in it.

use super::aspect::{Aspect, ICE_WATER, Listed, aspects};
use crate::flow::{Path, PathPart};
use crate::job;
use crate::kit::Condenser;
use crate::scenario::{Document, Fault, KitSetup, resolve};
use crate::units::Typed;

/// One kit as it is and with everything ideal.
pub(super) struct Mixture {
    /// The document with this kit only.
    pub document: Document,
    pub base: KitSetup,
    ideal: job::Setup,
    pub listed: Vec<Listed>,
}

impl Mixture {
    /// Of a document with one kit.
    pub fn new(document: Document) -> Result<Self, Vec<Fault>> {
        let base = only(&document)?;
        let listed = aspects(&document, &base);
        Ok(Self::with_listed(document, base, listed))
    }

    /// The same with what was listed in another draw of the document.
    pub fn of(document: Document, listed: Vec<Listed>) -> Result<Self, Vec<Fault>> {
        let base = only(&document)?;
        Ok(Self::with_listed(document, base, listed))
    }

    fn with_listed(document: Document, base: KitSetup, listed: Vec<Listed>) -> Self {
        let ideal = ideal_conditions(&document, &base, &listed);
        Self { document, base, ideal, listed }
    }

    /// The kit as it is, with these aspects ideal.
    pub fn with_ideal(&self, is_ideal: impl Fn(Aspect) -> bool) -> job::Setup {
        self.made_ideal(self.base.setup.clone(), is_ideal)
    }

    /// A changed kit with these aspects ideal. The change must have kept the number of parts.
    pub fn made_ideal(&self, mut setup: job::Setup, is_ideal: impl Fn(Aspect) -> bool) -> job::Setup {
        for listed in self.listed.iter().filter(|listed| is_ideal(listed.aspect)) {
            take(listed.aspect, &self.ideal, &mut setup);
        }
        let ideal_cord = |index| is_ideal(Aspect::Cord(index));
        let mut index = 0;
        setup.power.cords.retain(|_| {
            index += 1;
            !ideal_cord(index - 1)
        });
        settle_branches(&mut setup);
        setup
    }
}

/// The setup of the only kit of a document.
pub(super) fn only(document: &Document) -> Result<KitSetup, Vec<Fault>> {
    let nothing =
        || vec![Fault { path: "kits".to_owned(), message: "there is no kit; expected one".to_owned() }];
    resolve(document)?.into_iter().next().ok_or_else(nothing)
}

/// Everything ideal that is a matter of the document; what cannot be resolved stays as it is.
fn ideal_conditions(document: &Document, base: &KitSetup, listed: &[Listed]) -> job::Setup {
    let mut best = (document.clone(), base.setup.clone());
    for one in listed {
        let mut tried = best.0.clone();
        if !make_ideal(one.aspect, &mut tried) {
            continue;
        }
        if let Ok(kit) = only(&tried) {
            best = (tried, kit.setup);
        }
    }
    let mut setup = best.1;
    empty(&mut setup.path.parts);
    if let Some(second) = &mut setup.path.second {
        empty(&mut second.parts);
    }
    empty(&mut setup.discharge);
    setup.machine.inlet_throttle = None;
    setup
}

fn empty(parts: &mut [PathPart]) {
    parts.iter_mut().for_each(|part| *part = PathPart::default());
}

/// Whether the document had to be changed for it.
fn make_ideal(aspect: Aspect, document: &mut Document) -> bool {
    let air = document.ambient.temperature.clone();
    match aspect {
        Aspect::Source => document.source.temperature = air,
        Aspect::Condenser => {
            let ideal = Condenser { condensing_temperature: Some(air), conductance: None };
            let own = document.kits.first_mut().and_then(|kit| kit.machine.as_mut());
            match own {
                Some(machine) => machine.condenser = ideal,
                None => document.machine.condenser = ideal,
            }
        }
        Aspect::CylinderTemperature => match Typed::parse(ICE_WATER) {
            Ok(cold) => document.cylinder.temperature = cold,
            Err(_) => return false,
        },
        Aspect::CylinderAir => document.cylinder.excess_pressure = None,
        Aspect::Supply => {
            let own = document.kits.first().and_then(|kit| kit.machine.as_ref());
            let rated = own.unwrap_or(&document.machine).motor.rated_voltage.clone();
            let supply = &mut document.supply;
            (supply.generator, supply.source_resistance, supply.source_reactance) = (None, None, None);
            if supply.voltage.si() < rated.si() {
                supply.voltage = rated;
            }
        }
        Aspect::Branch => document.supply.branch = None,
        Aspect::PathPart(_)
        | Aspect::SecondPart(_)
        | Aspect::InletThrottle
        | Aspect::DischargePart(_)
        | Aspect::Cord(_) => return false,
    }
    true
}

/// Copies one aspect. Cords are taken out by the caller, all at once.
fn take(aspect: Aspect, from: &job::Setup, into: &mut job::Setup) {
    let clear = |parts: &mut Vec<PathPart>, index: usize| {
        if let Some(part) = parts.get_mut(index) {
            *part = PathPart::default();
        }
    };
    match aspect {
        Aspect::PathPart(index) => clear(&mut into.path.parts, index),
        Aspect::SecondPart(index) => {
            if let Some(second) = &mut into.path.second {
                clear(&mut second.parts, index);
            }
        }
        Aspect::InletThrottle => into.machine.inlet_throttle = None,
        Aspect::DischargePart(index) => clear(&mut into.discharge, index),
        Aspect::Source => into.source.temperature = from.source.temperature,
        Aspect::Condenser => into.machine.condenser = from.machine.condenser,
        Aspect::CylinderTemperature => into.cylinder.temperature = from.cylinder.temperature,
        Aspect::CylinderAir => into.cylinder.non_condensables = from.cylinder.non_condensables,
        Aspect::Supply => into.power.supply = from.power.supply,
        Aspect::Branch => into.power.branch = from.power.branch,
        Aspect::Cord(_) => {}
    }
}

/// A branch without any loss takes all the flow: the split of two such is not to be told, so the
/// other branch then passes nothing.
fn settle_branches(setup: &mut job::Setup) {
    let Path { parts, second } = &mut setup.path;
    let Some(branch) = second else { return };
    let is_open = |parts: &[PathPart]| parts.iter().all(|part| part.elements.is_empty());
    let joins = branch.joins_before.min(parts.len());
    let Some(own) = parts.get_mut(..joins) else { return };
    if is_open(own) {
        *second = None;
    } else if is_open(&branch.parts) {
        empty(own);
        *second = None;
        setup.source.first = setup.source.second;
    }
}
