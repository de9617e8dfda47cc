//! Conductors, cords, supplies and motors: the volts that reach the motor and what it does with
//! them.
//!
//! ```text
//! source ── panel ── branch circuit ── receptacle ── cord ── cord ── motor
//! ```
//! [`solve`] finds voltage, current and speed of the motor together with the loss in the wiring,
//! running and starting, as sinusoidal phasors, and judges the result. A motor that cannot hold
//! its load is an answer in words. Neglected: harmonics, saturation, voltage to ground, the
//! grounding conductor.

mod ampacity;
mod conductor;
mod drive;
mod elements;
mod error;
mod finding;
mod gauge;
mod induction;
mod loss;
mod motor;
mod nameplate_tables;
mod network;
mod path;
mod phasor;
mod point;
mod running;
mod solve;
mod supply;
mod universal;
mod verdict;
mod warming;

pub use conductor::{Conductor, Metal, ResistancePerLength, Stranding};
pub use error::PowerError;
pub use finding::{Finding, Grade, Note, Verdict};
pub use gauge::{Awg, Gauge, MetricArea};
pub use loss::LosesMost;
pub use motor::{Assumption, InductionStart, LockedRotor, Motor, MotorKind, Nameplate};
pub use nameplate_tables::{CodeLetter, full_load_current};
pub use path::{Branch, Cord, CordMarking, PowerPath, voltage_drop};
pub use point::{
    Element, ElementKind, PowerPoint, Running, RunningPoint, StartOutcome, StartReason, StartingPoint,
};
pub use running::CannotHold;
pub use solve::{
    Conditions, EQUALISED_START_TORQUE_RATIO, LOADED_START_TORQUE_RATIO, Load, StartFrom, solve,
};
pub use supply::{Generator, Source, SourceImpedance, Supply};
pub use verdict::LEAST_VOLTAGE_RATIO;
pub use warming::Lay;
