//! What a motor sees of its wiring, and what it does with it: shared by all motor kinds.

use std::fmt;

use super::drive::Drive;
use super::motor::{Model, Motor};
use super::phasor::Phasor;

/// The wiring as the motor sees it: a voltage behind an impedance, at a frequency.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Feed {
    pub voltage: Phasor,
    pub impedance: Phasor,
    /// Supply frequency over rated frequency.
    pub frequency_ratio: f64,
}

/// A running motor: current into it and voltage across it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct MotorState {
    pub current: Phasor,
    pub voltage: Phasor,
    pub speed_ratio: f64,
    pub slip_ratio: Option<f64>,
}

/// Why a motor has no steady running point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum CannotHold {
    /// The load asks more torque than the motor can give at the voltage that is left: it stalls.
    PulledOut {
        /// Largest torque at hand over the torque needed.
        available_torque_ratio: f64,
    },
    /// The wiring cannot deliver the power that the drive asks for: the voltage collapses.
    VoltageCollapse {
        /// Largest power that the wiring can deliver over the power needed.
        available_power_ratio: f64,
    },
    /// The drive switches off before its voltage settles.
    UnderVoltageTrip {
        /// Voltage at the drive.
        voltage_v: f64,
        /// Voltage at which it switches off.
        trip_v: f64,
    },
    /// Warming conductors keep raising the current; no steady point was reached.
    Unsettled,
}

impl fmt::Display for CannotHold {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::PulledOut { available_torque_ratio } => write!(
                f,
                "cannot hold: the voltage collapses and the motor stalls; at most {:.0} % of the torque the load needs is left",
                available_torque_ratio * 100.0
            ),
            Self::VoltageCollapse { available_power_ratio } => write!(
                f,
                "cannot hold: the voltage collapses; the wiring can deliver at most {:.0} % of the power the drive needs",
                available_power_ratio * 100.0
            ),
            Self::UnderVoltageTrip { voltage_v, trip_v } => write!(
                f,
                "cannot hold: the drive would see {voltage_v:.0} V and switches off below {trip_v:.0} V"
            ),
            Self::Unsettled => {
                f.write_str("cannot hold: the conductors warm and the current rises without settling")
            }
        }
    }
}

impl Motor {
    /// Steady running on a feed with a load torque as a ratio of rated torque.
    pub(crate) fn run(&self, feed: &Feed, load_torque_ratio: f64) -> Result<MotorState, CannotHold> {
        match &self.model {
            Model::Induction(circuit) => circuit.run(feed, load_torque_ratio),
            Model::Universal(circuit) => circuit.run(feed, load_torque_ratio),
            Model::Drive(drive) => drive.run(feed, load_torque_ratio),
        }
    }

    /// Impedance that the motor presents while starting.
    pub(crate) fn starting_impedance(&self, frequency_ratio: f64) -> Phasor {
        match &self.model {
            Model::Drive(drive) => drive.starting_impedance(),
            Model::Induction(_) | Model::Universal(_) => {
                let locked = self.plate.locked_impedance();
                Phasor::new(locked.re, locked.im * frequency_ratio)
            }
        }
    }

    /// The drive, if this motor has one.
    pub(crate) fn drive(&self) -> Option<&Drive> {
        match &self.model {
            Model::Drive(drive) => Some(drive),
            Model::Induction(_) | Model::Universal(_) => None,
        }
    }
}
