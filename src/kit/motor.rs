//! A motor as its nameplate prints it.

use super::Door;
use crate::units::Typed;
use serde::{Deserialize, Serialize};
use uom::si::f64::{AngularVelocity, ElectricCurrent, ElectricPotential, Frequency, Power, Ratio};

/// What a motor is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum MotorKind {
    /// Single-phase induction, with or without capacitors.
    Induction,
    /// With brushes.
    Universal,
    /// Fed through electronics: constant power, no inrush to speak of.
    Electronic,
}

/// How a single-phase induction motor starts, which fixes its usual starting torque.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum MotorStart {
    /// Resistance start winding, switched out.
    SplitPhase,
    /// Start capacitor, switched out.
    CapacitorStart,
    /// Start capacitor and run capacitor.
    #[default]
    CapacitorStartCapacitorRun,
    /// Run capacitor only.
    PermanentCapacitor,
}

/// A motor. What its plate does not say is assumed by its kind, and the answer says so.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Motor {
    /// What its owner calls it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// The shelf part it was copied from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,
    /// What it is.
    pub kind: MotorKind,
    /// How an induction motor starts; with both capacitors if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub start: Option<MotorStart>,
    /// Rated voltage.
    pub rated_voltage: Typed<ElectricPotential>,
    /// Rated current at that voltage.
    pub rated_current: Typed<ElectricCurrent>,
    /// Power at the shaft.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shaft_power: Option<Typed<Power>>,
    /// Power factor at rated load.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub power_factor: Option<Typed<Ratio>>,
    /// Speed at rated load.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub speed: Option<Typed<AngularVelocity>>,
    /// Frequency it is rated at; 60 Hz if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub frequency: Option<Typed<Frequency>>,
    /// Locked-rotor current at rated voltage.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub locked_rotor_current: Option<Typed<ElectricCurrent>>,
    /// Code letter, which stands for kVA per hp with the rotor locked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub code_letter: Option<String>,
    /// Power factor with the rotor locked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub starting_power_factor: Option<Typed<Ratio>>,
    /// Torque with the rotor locked, over rated torque.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub starting_torque: Option<Typed<Ratio>>,
    /// Voltage below which an electronic drive stops.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub trip_voltage: Option<Typed<ElectricPotential>>,
    /// Largest current of an electronic drive while starting, over rated current.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub inrush: Option<Typed<Ratio>>,
}

impl Motor {
    /// A motor of which only volts and amps are known.
    pub fn new(
        kind: MotorKind,
        rated_voltage: Typed<ElectricPotential>,
        rated_current: Typed<ElectricCurrent>,
    ) -> Self {
        Self {
            name: None,
            from: None,
            kind,
            start: None,
            rated_voltage,
            rated_current,
            shaft_power: None,
            power_factor: None,
            speed: None,
            frequency: None,
            locked_rotor_current: None,
            code_letter: None,
            starting_power_factor: None,
            starting_torque: None,
            trip_voltage: None,
            inrush: None,
        }
    }

    pub(crate) fn check(&self, door: &mut Door<'_>) {
        door.range("rated_voltage", &self.rated_voltage, 10.0..=1000.0, "10 to 1000 V");
        door.range("rated_current", &self.rated_current, 0.05..=500.0, "0.05 to 500 A");
        door.optional("shaft_power", self.shaft_power.as_ref(), 1.0..=2e5, "1 W to 200 kW");
        door.optional("power_factor", self.power_factor.as_ref(), 0.2..=1.0, "a power factor of 0.2 to 1");
        door.optional("speed", self.speed.as_ref(), 5.0..=5e3, "50 to 48000 rpm");
        door.optional("frequency", self.frequency.as_ref(), 40.0..=70.0, "40 to 70 Hz");
        door.optional(
            "locked_rotor_current",
            self.locked_rotor_current.as_ref(),
            0.05..=5000.0,
            "0.05 to 5000 A",
        );
        door.optional(
            "starting_power_factor",
            self.starting_power_factor.as_ref(),
            0.1..=1.0,
            "a power factor of 0.1 to 1",
        );
        door.optional(
            "starting_torque",
            self.starting_torque.as_ref(),
            0.1..=10.0,
            "0.1 to 10 times rated torque",
        );
        door.optional("trip_voltage", self.trip_voltage.as_ref(), 1.0..=1000.0, "1 to 1000 V");
        door.optional("inrush", self.inrush.as_ref(), 0.5..=20.0, "0.5 to 20 times rated current");
        if let Some(letter) = &self.code_letter
            && !(letter.len() == 1
                && letter
                    .chars()
                    .all(|c| c.is_ascii_alphabetic() && !matches!(c, 'I' | 'O' | 'Q' | 'i' | 'o' | 'q')))
        {
            door.fault(
                "code_letter",
                format!("{letter:?} is no code letter; expected A to V without I, O and Q"),
            );
        }
        if let Some(locked) = &self.locked_rotor_current
            && locked.si() < self.rated_current.si()
        {
            door.fault(
                "locked_rotor_current",
                format!("{locked} is less than the rated current, {}", self.rated_current),
            );
        }
        let input_w = self.rated_voltage.si()
            * self.rated_current.si()
            * self.power_factor.as_ref().map_or(1.0, Typed::si);
        if let Some(power) = &self.shaft_power
            && power.si() >= input_w
        {
            door.fault(
                "shaft_power",
                format!(
                    "{power} at the shaft is more than goes in: {} at {} is {input_w:.0} W",
                    self.rated_voltage, self.rated_current,
                ),
            );
        }
    }
}
