//! Motors by their nameplate: what is printed, what has to be assumed beside it, and the circuit
//! that follows from both.
//!
//! Steady state and sinusoidal. Every value that was assumed is listed, so that a report can say
//! so.

use uom::si::angular_velocity::revolution_per_minute;
use uom::si::electric_current::ampere;
use uom::si::electric_potential::volt;
use uom::si::f64::{AngularVelocity, ElectricCurrent, ElectricPotential, Frequency, Power};
use uom::si::frequency::hertz;
use uom::si::power::watt;

use super::drive::Drive;
use super::error::{PowerError, checked};
use super::induction::InductionCircuit;
use super::nameplate_tables::{CodeLetter, full_load_current};
use super::phasor::Phasor;
use super::universal::UniversalCircuit;

/// The kinds of motor that drive recovery machines.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum MotorKind {
    /// Single-phase induction.
    Induction(InductionStart),
    /// Series-wound with brushes.
    Universal,
    /// Brushless with a converter: constant power, little inrush.
    ElectronicDrive {
        /// Input voltage below which the drive switches off; 80 % of rated when unknown.
        under_voltage_trip: Option<ElectricPotential>,
        /// Largest current while starting, as a ratio of rated current; the nameplate's
        /// locked-rotor current when it has one, else 1.5.
        inrush_ratio: Option<f64>,
    },
}

/// How a single-phase induction motor starts, which fixes its usual starting torque.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum InductionStart {
    /// Resistance start winding, switched out.
    SplitPhase,
    /// Start capacitor, switched out; runs on one winding.
    CapacitorStart,
    /// Start capacitor and run capacitor.
    CapacitorStartCapacitorRun,
    /// Run capacitor only.
    PermanentCapacitor,
}

/// What is known about locked-rotor current.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LockedRotor {
    /// Printed in amps.
    Current(ElectricCurrent),
    /// Printed as a code letter; its upper end is used. Needs the shaft power.
    Code(CodeLetter),
    /// A multiple of the rated current.
    TimesRated(f64),
    /// Not known: five times the rated current.
    Unknown,
}

/// What a nameplate says. Fields left out are assumed and listed by [`Motor::assumed`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Nameplate {
    /// Rated voltage.
    pub voltage: ElectricPotential,
    /// Rated current.
    pub current: ElectricCurrent,
    /// Rated frequency.
    pub frequency: Frequency,
    /// Rated power at the shaft.
    pub shaft_power: Option<Power>,
    /// Rated speed.
    pub speed: Option<AngularVelocity>,
    /// Rated power factor.
    pub power_factor_ratio: Option<f64>,
    /// Locked-rotor current.
    pub locked_rotor: LockedRotor,
    /// Power factor with the rotor locked.
    pub locked_rotor_power_factor_ratio: Option<f64>,
    /// Torque with the rotor locked at rated voltage, as a ratio of rated torque.
    pub locked_rotor_torque_ratio: Option<f64>,
}

impl Nameplate {
    /// Voltage, current and locked-rotor current at 60 Hz, the rest unknown.
    pub fn new(voltage: ElectricPotential, current: ElectricCurrent, locked_rotor: LockedRotor) -> Self {
        Self {
            voltage,
            current,
            frequency: Frequency::new::<hertz>(60.0),
            shaft_power: None,
            speed: None,
            power_factor_ratio: None,
            locked_rotor,
            locked_rotor_power_factor_ratio: None,
            locked_rotor_torque_ratio: None,
        }
    }

    /// Only horsepower and voltage known: current from NEC Table 430.248.
    ///
    /// # Errors
    /// See [`full_load_current`].
    pub fn from_shaft_power(shaft_power: Power, voltage: ElectricPotential) -> Result<Self, PowerError> {
        let current = full_load_current(shaft_power, voltage)?;
        Ok(Self { shaft_power: Some(shaft_power), ..Self::new(voltage, current, LockedRotor::Unknown) })
    }
}

/// A value that the nameplate did not give.
///
/// The values behind them are common practice for small single-phase motors, no source, unless
/// said otherwise.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Assumption {
    /// Rated power factor.
    PowerFactor(f64),
    /// Shaft power over electrical input.
    Efficiency(f64),
    /// Rated speed in revolutions per minute.
    SpeedRpm(f64),
    /// Locked-rotor current over rated current.
    LockedRotorTimesRated(f64),
    /// Power factor with the rotor locked.
    LockedRotorPowerFactor(f64),
    /// Locked-rotor torque over rated torque.
    LockedRotorTorque(f64),
    /// Under-voltage trip over rated voltage.
    UnderVoltageTrip(f64),
    /// Drive inrush over rated current.
    Inrush(f64),
}

/// A motor whose nameplate is free of contradictions, with its circuit.
#[derive(Debug, Clone, PartialEq)]
pub struct Motor {
    pub(crate) plate: Plate,
    pub(crate) model: Model,
    kind: MotorKind,
    assumed: Vec<Assumption>,
}

/// The nameplate with every gap filled, in SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Plate {
    pub voltage_v: f64,
    pub current_a: f64,
    pub frequency_hz: f64,
    pub power_factor_ratio: f64,
    pub shaft_power_w: f64,
    pub speed_rpm: f64,
    pub locked_rotor_a: f64,
    pub locked_rotor_power_factor_ratio: f64,
    pub locked_rotor_torque_ratio: f64,
}

impl Plate {
    pub fn input_w(&self) -> f64 {
        self.voltage_v * self.current_a * self.power_factor_ratio
    }

    /// Impedance of the running motor at its rated point.
    pub fn rated_impedance(&self) -> Phasor {
        Phasor::lagging(self.voltage_v / self.current_a, self.power_factor_ratio)
    }

    /// Impedance with the rotor locked.
    pub fn locked_impedance(&self) -> Phasor {
        Phasor::lagging(self.voltage_v / self.locked_rotor_a, self.locked_rotor_power_factor_ratio)
    }
}

/// The circuit behind a motor kind.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Model {
    Induction(InductionCircuit),
    Universal(UniversalCircuit),
    Drive(Drive),
}

/// Usual values of a motor kind: power factor, efficiency, locked-rotor torque ratio.
fn usual(kind: MotorKind) -> (f64, f64, f64) {
    match kind {
        MotorKind::Induction(InductionStart::SplitPhase) => (0.70, 0.60, 1.5),
        MotorKind::Induction(InductionStart::CapacitorStart) => (0.75, 0.62, 2.5),
        MotorKind::Induction(InductionStart::CapacitorStartCapacitorRun) => (0.87, 0.65, 2.5),
        MotorKind::Induction(InductionStart::PermanentCapacitor) => (0.90, 0.65, 0.7),
        MotorKind::Universal => (0.92, 0.60, 3.0),
        // A drive limits its current, not its torque: at a crawl it gives full torque and more.
        MotorKind::ElectronicDrive { .. } => (0.90, 0.75, 2.0),
    }
}

impl Motor {
    /// Fits a motor's circuit to its nameplate.
    ///
    /// # Errors
    /// A value out of its range, or values that contradict each other: the error says which.
    pub fn new(kind: MotorKind, nameplate: &Nameplate) -> Result<Self, PowerError> {
        let mut assumed = Vec::new();
        let mut plate = fill(kind, nameplate, &mut assumed)?;
        assumed.retain(|assumption| matters(kind, assumption));
        let model = match kind {
            MotorKind::Induction(_) => Model::Induction(InductionCircuit::fit(&plate)?),
            MotorKind::Universal => Model::Universal(UniversalCircuit::fit(&plate)?),
            MotorKind::ElectronicDrive { under_voltage_trip, inrush_ratio } => {
                let known = nameplate.locked_rotor != LockedRotor::Unknown;
                let inrush_ratio = inrush_ratio.or(known.then_some(plate.locked_rotor_a / plate.current_a));
                let drive = Drive::new(&plate, under_voltage_trip, inrush_ratio, &mut assumed)?;
                plate.locked_rotor_a = plate.voltage_v / drive.starting_impedance().magnitude();
                Model::Drive(drive)
            }
        };
        Ok(Self { plate, model, kind, assumed })
    }

    /// Kind of motor.
    pub fn kind(&self) -> MotorKind {
        self.kind
    }

    /// Values that the nameplate left out.
    pub fn assumed(&self) -> &[Assumption] {
        &self.assumed
    }

    /// Rated voltage.
    pub fn rated_voltage(&self) -> ElectricPotential {
        ElectricPotential::new::<volt>(self.plate.voltage_v)
    }

    /// Rated current.
    pub fn rated_current(&self) -> ElectricCurrent {
        ElectricCurrent::new::<ampere>(self.plate.current_a)
    }

    /// Rated shaft power, printed or assumed.
    pub fn rated_shaft_power(&self) -> Power {
        Power::new::<watt>(self.plate.shaft_power_w)
    }

    /// Locked-rotor current at rated voltage; of a drive, its inrush.
    pub fn locked_rotor_current(&self) -> ElectricCurrent {
        ElectricCurrent::new::<ampere>(self.plate.locked_rotor_a)
    }
}

/// Whether an assumption enters any answer for a motor of this kind.
fn matters(kind: MotorKind, assumption: &Assumption) -> bool {
    match assumption {
        Assumption::SpeedRpm(_) => matches!(kind, MotorKind::Induction(_)),
        Assumption::LockedRotorTimesRated(_)
        | Assumption::LockedRotorPowerFactor(_)
        | Assumption::LockedRotorTorque(_) => !matches!(kind, MotorKind::ElectronicDrive { .. }),
        Assumption::PowerFactor(_)
        | Assumption::Efficiency(_)
        | Assumption::UnderVoltageTrip(_)
        | Assumption::Inrush(_) => true,
    }
}

/// Fills the gaps of a nameplate and checks each value's own range.
fn fill(kind: MotorKind, given: &Nameplate, assumed: &mut Vec<Assumption>) -> Result<Plate, PowerError> {
    let (usual_power_factor, usual_efficiency, usual_torque) = usual(kind);
    let mut or_assume = |value: Option<f64>, usual: f64, assumption: fn(f64) -> Assumption| {
        value.unwrap_or_else(|| {
            assumed.push(assumption(usual));
            usual
        })
    };
    let voltage_v = checked("rated voltage", given.voltage.get::<volt>(), "V", 80.0, 280.0)?;
    let current_a = checked("rated current", given.current.get::<ampere>(), "A", 0.1, 100.0)?;
    let frequency_hz = checked("rated frequency", given.frequency.get::<hertz>(), "Hz", 45.0, 65.0)?;
    let power_factor = or_assume(given.power_factor_ratio, usual_power_factor, Assumption::PowerFactor);
    let power_factor_ratio = checked("rated power factor", power_factor, "(ratio)", 0.3, 1.0)?;
    let input_w = voltage_v * current_a * power_factor_ratio;
    let shaft_power_w = match given.shaft_power {
        Some(power) => checked("rated shaft power", power.get::<watt>(), "W", 1.0, 50e3)?,
        None => input_w * or_assume(None, usual_efficiency, Assumption::Efficiency),
    };
    if shaft_power_w > input_w {
        return Err(PowerError::ShaftPowerTooHigh { got_w: shaft_power_w, limit_w: input_w });
    }
    let speed_rpm = given.speed.map(|speed| speed.get::<revolution_per_minute>());
    let speed_rpm = or_assume(speed_rpm, usual_speed_rpm(kind, frequency_hz), Assumption::SpeedRpm);
    let speed_rpm = checked("rated speed", speed_rpm, "rpm", 200.0, 60e3)?;

    let locked_rotor_a = locked_rotor_a(given, current_a)?
        .unwrap_or_else(|| current_a * or_assume(None, 5.0, Assumption::LockedRotorTimesRated));
    let locked_rotor_a = checked("locked-rotor current", locked_rotor_a, "A", 0.1, 2000.0)?;
    let locked_factor =
        or_assume(given.locked_rotor_power_factor_ratio, 0.65, Assumption::LockedRotorPowerFactor);
    let torque = or_assume(given.locked_rotor_torque_ratio, usual_torque, Assumption::LockedRotorTorque);
    Ok(Plate {
        voltage_v,
        current_a,
        frequency_hz,
        power_factor_ratio,
        shaft_power_w,
        speed_rpm,
        locked_rotor_a,
        locked_rotor_power_factor_ratio: checked(
            "locked-rotor power factor",
            locked_factor,
            "(ratio)",
            0.1,
            0.99,
        )?,
        locked_rotor_torque_ratio: checked("locked-rotor torque", torque, "of rated torque", 0.1, 6.0)?,
    })
}

/// Locked-rotor current as far as the nameplate tells it.
fn locked_rotor_a(given: &Nameplate, current_a: f64) -> Result<Option<f64>, PowerError> {
    Ok(match given.locked_rotor {
        LockedRotor::Current(current) => Some(current.get::<ampere>()),
        LockedRotor::Code(code) => {
            let letter = code.letter();
            let power = given.shaft_power.ok_or(PowerError::CodeLetterNeedsPower { letter })?;
            Some(code.locked_rotor_current(power, given.voltage).1.get::<ampere>())
        }
        LockedRotor::TimesRated(times) => Some(current_a * times),
        LockedRotor::Unknown => None,
    })
}

/// Four poles at a slip of 1/24 (1725 rpm at 60 Hz) for induction and drives' own speed; a
/// typical brush motor turns far faster.
fn usual_speed_rpm(kind: MotorKind, frequency_hz: f64) -> f64 {
    match kind {
        MotorKind::Universal => 12_000.0,
        _ => 1725.0 * frequency_hz / 60.0,
    }
}
