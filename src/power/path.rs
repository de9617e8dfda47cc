//! The wiring between source and machine: branch circuit, receptacle, cords in series.
//!
//! Each conductor length is one way; current flows out and back, so every drop counts it twice.

use uom::si::electric_current::ampere;
use uom::si::electric_potential::volt;
use uom::si::electrical_resistance::ohm;
use uom::si::f64::{ElectricCurrent, ElectricPotential, ElectricalResistance, Length};
use uom::si::length::meter;

use super::ampacity::typical_marking_a;
use super::conductor::{Conductor, ResistancePerLength};
use super::error::{PowerError, checked};
use super::supply::Supply;
use super::warming::Lay;

/// Everything between the source and the machine's plug.
#[derive(Debug, Clone, PartialEq)]
pub struct PowerPath {
    /// The source.
    pub supply: Supply,
    /// From the panel to the receptacle.
    pub branch: Branch,
    /// Cords in series, the receptacle's first.
    pub cords: Vec<Cord>,
}

/// The circuit in the wall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Branch {
    pub(crate) conductor: Conductor,
    pub(crate) length_m: f64,
    pub(crate) breaker_a: f64,
    pub(crate) other_load_a: f64,
    pub(crate) contact_ohm: f64,
}

/// One extension cord.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cord {
    pub(crate) conductor: Conductor,
    pub(crate) length_m: f64,
    pub(crate) lay: Lay,
    pub(crate) marked_a: Option<f64>,
    pub(crate) contact_ohm: f64,
}

impl Branch {
    /// A branch circuit by conductor, one-way length and breaker.
    ///
    /// # Errors
    /// Length outside 0 to 300 m, breaker outside 1 to 100 A.
    pub fn new(conductor: Conductor, length: Length, breaker: ElectricCurrent) -> Result<Self, PowerError> {
        Ok(Self {
            conductor,
            length_m: checked("branch circuit length", length.get::<meter>(), "m", 0.0, 300.0)?,
            breaker_a: checked("breaker rating", breaker.get::<ampere>(), "A", 1.0, 100.0)?,
            other_load_a: 0.0,
            contact_ohm: 0.0,
        })
    }

    /// The same circuit with other loads on it, taken as resistive and at the receptacle.
    ///
    /// # Errors
    /// Current outside 0 to 100 A.
    pub fn with_other_loads(self, current: ElectricCurrent) -> Result<Self, PowerError> {
        let other_load_a = checked("other loads", current.get::<ampere>(), "A", 0.0, 100.0)?;
        Ok(Self { other_load_a, ..self })
    }

    /// The same circuit with the contact resistance of a worn receptacle, both blades together.
    ///
    /// # Errors
    /// Resistance outside 0 to 2 Ω.
    pub fn with_contact(self, contact: ElectricalResistance) -> Result<Self, PowerError> {
        let contact_ohm = checked("receptacle contact resistance", contact.get::<ohm>(), "ohm", 0.0, 2.0)?;
        Ok(Self { contact_ohm, ..self })
    }

    /// Conductor.
    pub fn conductor(&self) -> &Conductor {
        &self.conductor
    }

    /// One-way length.
    pub fn length(&self) -> Length {
        Length::new::<meter>(self.length_m)
    }

    /// Breaker rating.
    pub fn breaker(&self) -> ElectricCurrent {
        ElectricCurrent::new::<ampere>(self.breaker_a)
    }
}

impl Cord {
    /// A cord by conductor, one-way length and lay, without a marking of its own.
    ///
    /// # Errors
    /// Length outside 0 to 300 m.
    pub fn new(conductor: Conductor, length: Length, lay: Lay) -> Result<Self, PowerError> {
        Ok(Self {
            conductor,
            length_m: checked("cord length", length.get::<meter>(), "m", 0.0, 300.0)?,
            lay,
            marked_a: None,
            contact_ohm: 0.0,
        })
    }

    /// The same cord with the amps marked on it.
    ///
    /// # Errors
    /// Current outside 0.5 to 100 A.
    pub fn with_marking(self, marked: ElectricCurrent) -> Result<Self, PowerError> {
        let marked_a = checked("cord marking", marked.get::<ampere>(), "A", 0.5, 100.0)?;
        Ok(Self { marked_a: Some(marked_a), ..self })
    }

    /// The same cord with the contact resistance of its plug and adapters, both blades together.
    ///
    /// # Errors
    /// Resistance outside 0 to 2 Ω.
    pub fn with_contact(self, contact: ElectricalResistance) -> Result<Self, PowerError> {
        let contact_ohm = checked("cord contact resistance", contact.get::<ohm>(), "ohm", 0.0, 2.0)?;
        Ok(Self { contact_ohm, ..self })
    }

    /// The amps that the cord's use is judged by: its own marking, or the typical one.
    pub fn marking(&self) -> CordMarking {
        let typical_a = typical_marking_a(&self.conductor, self.length_m);
        CordMarking {
            amps: ElectricCurrent::new::<ampere>(self.marked_a.unwrap_or(typical_a)),
            typical: self.marked_a.is_none(),
        }
    }

    /// Conductor.
    pub fn conductor(&self) -> &Conductor {
        &self.conductor
    }

    /// One-way length.
    pub fn length(&self) -> Length {
        Length::new::<meter>(self.length_m)
    }
}

/// The amps marked on a cord, and whether anybody read them there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CordMarking {
    /// Largest marked current at the cord's length.
    pub amps: ElectricCurrent,
    /// True when the cord's own marking is unknown and a typical one stands in for it.
    pub typical: bool,
}

/// Voltage lost in a cord or circuit, out and back: `V = 2 I r L`.
///
/// - `resistance`: one conductor at its working temperature, per length
/// - `length`: one way
///
/// # Valid
/// Resistance only. Below unity power factor this is an upper bound on the loss in volts.
/// # Source
/// Ohm's law.
/// # Example
/// 16 AWG stranded at 75 °C, 50 ft, 12 A: 2 × 12 × 4.99 mΩ/ft × 50 ft = 5.988 V
pub fn voltage_drop(
    current: ElectricCurrent,
    resistance: ResistancePerLength,
    length: Length,
) -> ElectricPotential {
    let drop: ElectricPotential = current * (resistance * length) * 2.0;
    ElectricPotential::new::<volt>(drop.get::<volt>())
}
