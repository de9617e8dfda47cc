//! The power path as written: supply, branch circuit, cords.

use super::Door;
use crate::units::{ApparentPower, Typed, TypedWire};
use serde::{Deserialize, Serialize};
use uom::si::f64::{ElectricCurrent, ElectricPotential, ElectricalResistance, Frequency, Length, Ratio};

/// What a conductor is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Material {
    /// Copper.
    #[default]
    Copper,
    /// Aluminium.
    #[serde(alias = "aluminum")]
    Aluminium,
    /// Aluminium with a skin of copper.
    #[serde(alias = "copper_clad_aluminum")]
    CopperCladAluminium,
}

/// How a conductor is built.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Stranding {
    /// One wire.
    Solid,
    /// Many wires.
    Stranded,
}

/// How a cord lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Lay {
    /// Laid out.
    #[default]
    Straight,
    /// On its reel, where it cannot cool.
    Coiled,
}

/// An extension cord.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cord {
    /// What its owner calls it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// The shelf cord it was copied from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,
    /// Size of each conductor.
    pub gauge: TypedWire,
    /// From plug to receptacle, one way.
    pub length: Typed<Length>,
    /// What the conductors are made of.
    #[serde(default)]
    pub material: Material,
    /// How it lies.
    #[serde(default)]
    pub lay: Lay,
    /// Current printed on its jacket or tag.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub marked_current: Option<Typed<ElectricCurrent>>,
    /// Of its plug and adapters, both blades together; none if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub contact_resistance: Option<Typed<ElectricalResistance>>,
}

impl Cord {
    /// A copper cord, laid out.
    pub fn new(gauge: TypedWire, length: Typed<Length>) -> Self {
        Self {
            name: None,
            from: None,
            gauge,
            length,
            material: Material::Copper,
            lay: Lay::Straight,
            marked_current: None,
            contact_resistance: None,
        }
    }

    pub(crate) fn check(&self, door: &mut Door<'_>) {
        door.range("length", &self.length, 0.0..=2e3, "a length of 0 to 2 km");
        door.optional("marked_current", self.marked_current.as_ref(), 0.1..=500.0, "0.1 to 500 A");
        check_contact(self.contact_resistance.as_ref(), door);
    }
}

fn check_contact(contact: Option<&Typed<ElectricalResistance>>, door: &mut Door<'_>) {
    door.optional("contact_resistance", contact, 0.0..=2.0, "0 to 2 ohm");
}

/// The wiring from the panel to the receptacle.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Branch {
    /// What its owner calls it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// The shelf conductor it was copied from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,
    /// Size of each conductor.
    pub gauge: TypedWire,
    /// From panel to receptacle, one way.
    pub length: Typed<Length>,
    /// What the conductors are made of.
    #[serde(default)]
    pub material: Material,
    /// Solid up to 10 AWG and stranded beyond, if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stranding: Option<Stranding>,
    /// Rating of the breaker or fuse; [`super::BREAKER_A`] if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub breaker: Option<Typed<ElectricCurrent>>,
    /// What else the circuit carries.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub other_load: Option<Typed<ElectricCurrent>>,
    /// Of a worn receptacle, both blades together; none if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub contact_resistance: Option<Typed<ElectricalResistance>>,
}

impl Branch {
    pub(crate) fn check(&self, door: &mut Door<'_>) {
        door.range("length", &self.length, 0.0..=2e3, "a length of 0 to 2 km");
        door.optional("breaker", self.breaker.as_ref(), 0.5..=1000.0, "0.5 to 1000 A");
        door.optional("other_load", self.other_load.as_ref(), 0.0..=1000.0, "0 to 1000 A");
        check_contact(self.contact_resistance.as_ref(), door);
    }
}

/// A generator in the panel's place.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Generator {
    /// What it carries for hours.
    pub continuous: Typed<ApparentPower>,
    /// What it carries for a start.
    pub surge: Typed<ApparentPower>,
    /// Share of its voltage lost at continuous load; typical if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sag: Option<Typed<Ratio>>,
}

/// Where the power comes from, and how it gets to the machine.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Supply {
    /// Voltage at the panel or generator with nothing drawn.
    pub voltage: Typed<ElectricPotential>,
    /// 60 Hz if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub frequency: Option<Typed<Frequency>>,
    /// Resistance of all that lies behind the panel; a stiff supply if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub source_resistance: Option<Typed<ElectricalResistance>>,
    /// Reactance of all that lies behind the panel.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub source_reactance: Option<Typed<ElectricalResistance>>,
    /// The generator, if it is one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub generator: Option<Generator>,
    /// The wiring to the receptacle, if any.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub branch: Option<Branch>,
    /// Cords from the receptacle on, in order.
    #[serde(default)]
    pub cords: Vec<Cord>,
}

impl Supply {
    /// A supply at this voltage with nothing between it and the machine.
    pub fn new(voltage: Typed<ElectricPotential>) -> Self {
        Self {
            voltage,
            frequency: None,
            source_resistance: None,
            source_reactance: None,
            generator: None,
            branch: None,
            cords: Vec::new(),
        }
    }

    pub(crate) fn check(&self, door: &mut Door<'_>) {
        door.range("voltage", &self.voltage, 1.0..=1000.0, "1 to 1000 V");
        door.optional("frequency", self.frequency.as_ref(), 40.0..=70.0, "40 to 70 Hz");
        door.optional("source_resistance", self.source_resistance.as_ref(), 0.0..=100.0, "0 to 100 ohm");
        door.optional("source_reactance", self.source_reactance.as_ref(), 0.0..=100.0, "0 to 100 ohm");
        if self.generator.is_some() && (self.source_resistance.is_some() || self.source_reactance.is_some()) {
            door.fault(
                "generator",
                "a generator and a source resistance or reactance are both given; set one of them to none",
            );
        }
        if let Some(generator) = &self.generator {
            let mut door = door.at("generator");
            door.range("continuous", &generator.continuous, 10.0..=1e6, "10 VA to 1000 kVA");
            door.range("surge", &generator.surge, 10.0..=1e6, "10 VA to 1000 kVA");
            door.optional("sag", generator.sag.as_ref(), 0.0..=0.3, "0 to 30 %");
            if generator.surge.si() < generator.continuous.si() {
                door.fault(
                    "surge",
                    format!(
                        "{} is less than the continuous rating, {}",
                        generator.surge, generator.continuous
                    ),
                );
            }
        }
        if let Some(branch) = &self.branch {
            branch.check(&mut door.at("branch"));
        }
        check_cords(&self.cords, door);
    }
}

pub(crate) fn check_cords(cords: &[Cord], door: &mut Door<'_>) {
    let mut door = door.at("cords");
    for (index, cord) in cords.iter().enumerate() {
        cord.check(&mut door.at(index));
    }
}
