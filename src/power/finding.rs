//! Findings and notes about a power path, as data; their `Display` is one plain sentence.

use std::fmt;

use super::motor::Assumption;
use super::point::{ElementKind, StartReason};
use super::running::CannotHold;
use super::warming::HIGHEST_CONDUCTOR_C;
use crate::units::both_scales;

/// How serious a verdict is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Grade {
    /// Worth knowing.
    Note,
    /// Change it if you can.
    Warning,
    /// Do not run it like this.
    Stop,
}

/// One finding with its grade.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Verdict {
    /// How serious.
    pub grade: Grade,
    /// What was found.
    pub finding: Finding,
}

/// What is wrong with a power path. Volts, amps and volt-amperes as plain numbers.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
#[expect(missing_docs, reason = "the variant's sentence covers its fields")]
pub enum Finding {
    /// No steady running point exists.
    CannotHold(CannotHold),
    /// The motor will not turn.
    WillNotStart(StartReason),
    /// The motor may not turn.
    MayNotStart(StartReason),
    /// Below rated voltage less 10 % (NEMA MG 1).
    UnderVoltage { voltage_v: f64, rated_v: f64 },
    /// Above rated voltage plus 10 % (NEMA MG 1).
    OverVoltage { voltage_v: f64, rated_v: f64 },
    /// Voltage too high for the frequency: the motor's iron saturates.
    OverFluxed { voltage_ratio: f64, frequency_ratio: f64 },
    /// More current than on the nameplate.
    MotorOverload { current_a: f64, rated_a: f64 },
    /// More current than the cord is marked for at its length.
    CordOverMarking { cord: usize, current_a: f64, marked_a: f64, typical: bool },
    /// More current than the cord's conductors may carry at this ambient and lay (NEC 400.5(A)).
    CordOverAmpacity { cord: usize, current_a: f64, ampacity_a: f64, temperature_c: f64, coiled: bool },
    /// More than 80 % of the breaker for a continuous load (NEC 210.19(A)(1)).
    BreakerContinuous { current_a: f64, breaker_a: f64 },
    /// More than the breaker's rating: it will trip.
    BreakerExceeded { current_a: f64, breaker_a: f64 },
    /// The starting current reaches the breaker's magnetic trip band.
    BreakerAtStart { current_a: f64, breaker_a: f64 },
    /// A breaker larger than the ampacity of the branch circuit's conductor.
    BreakerOverWire { breaker_a: f64, ampacity_a: f64 },
    /// More than a generator's continuous rating.
    GeneratorContinuous { asked_va: f64, rated_va: f64 },
    /// More than a generator's surge rating, by locked-rotor current at rated voltage.
    GeneratorSurge { asked_va: f64, rated_va: f64 },
}

/// What was assumed, or should be known beside the numbers.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
#[expect(missing_docs, reason = "the variant's sentence covers its fields")]
pub enum Note {
    /// The nameplate left a value out.
    Assumed(Assumption),
    /// A cord's marking is unknown; a typical one was used.
    TypicalMarking { cord: usize, marked_a: f64 },
    /// Voltage is low: small effect on rate, large effect on heat, trips and starting.
    SmallEffectOnRate { speed_ratio: f64, current_ratio: f64 },
    /// Over 3 % lost in the branch circuit; advice of an NEC informational note, not a rule.
    BranchDropAdvice { drop_ratio: f64 },
    /// Over 5 % lost in all; advice of an NEC informational note, not a rule.
    TotalDropAdvice { drop_ratio: f64 },
    /// A cord is coiled: roll it out.
    CoiledCord { cord: usize },
    /// Equalising before a start lowers the load torque.
    EqualiseBeforeStart,
    /// A conductor's temperature was capped; it would fail before it got there.
    ConductorTooHot(ElementKind),
    /// Keep the ground-fault protection and the grounding pin; never bypass them.
    KeepGroundFaultProtection,
}

impl fmt::Display for Finding {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::CannotHold(reason) => reason.fmt(f),
            Self::WillNotStart(reason) => write!(f, "will not start: {reason}"),
            Self::MayNotStart(reason) => write!(f, "may not start: {reason}"),
            Self::UnderVoltage { voltage_v, rated_v } => {
                write!(f, "{voltage_v:.0} V at the motor is below its nameplate of {rated_v:.0} V less 10 %")
            }
            Self::OverVoltage { voltage_v, rated_v } => {
                write!(f, "{voltage_v:.0} V at the motor is above its nameplate of {rated_v:.0} V plus 10 %")
            }
            Self::OverFluxed { voltage_ratio, frequency_ratio } => write!(
                f,
                "the motor gets {:.0} % of its voltage at {:.0} % of its frequency: it runs hot",
                voltage_ratio * 100.0,
                frequency_ratio * 100.0
            ),
            Self::MotorOverload { current_a, rated_a } => {
                write!(f, "the motor draws {current_a:.1} A, its nameplate says {rated_a:.1} A")
            }
            Self::CordOverMarking { cord, current_a, marked_a, typical } => write!(
                f,
                "cord {} carries {current_a:.1} A and is {} for {marked_a:.0} A at its length",
                cord + 1,
                if typical { "usually marked" } else { "marked" }
            ),
            Self::CordOverAmpacity { cord, current_a, ampacity_a, temperature_c, coiled } => write!(
                f,
                "cord {} carries {current_a:.1} A, more than the {ampacity_a:.1} A its conductors may carry{}: they reach {}",
                cord + 1,
                if coiled { " coiled" } else { "" },
                both_scales(temperature_c)
            ),
            Self::BreakerContinuous { current_a, breaker_a } => write!(
                f,
                "{current_a:.1} A is more than 80 % of the {breaker_a:.0} A breaker, its limit for a continuous load"
            ),
            Self::BreakerExceeded { current_a, breaker_a } => {
                write!(f, "{current_a:.1} A is more than the {breaker_a:.0} A breaker: it will trip")
            }
            Self::BreakerAtStart { current_a, breaker_a } => write!(
                f,
                "{current_a:.0} A at start is {:.1} times the {breaker_a:.0} A breaker: it may trip",
                current_a / breaker_a
            ),
            Self::BreakerOverWire { breaker_a, ampacity_a } => write!(
                f,
                "the {breaker_a:.0} A breaker is larger than the {ampacity_a:.0} A its branch circuit's conductors carry"
            ),
            Self::GeneratorContinuous { asked_va, rated_va } => {
                write!(f, "{asked_va:.0} VA running is more than the generator's continuous {rated_va:.0} VA")
            }
            Self::GeneratorSurge { asked_va, rated_va } => {
                write!(f, "{asked_va:.0} VA at start is more than the generator's surge {rated_va:.0} VA")
            }
        }
    }
}

impl fmt::Display for Note {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::Assumed(assumption) => assumption.fmt(f),
            Self::TypicalMarking { cord, marked_a } => write!(
                f,
                "marking of cord {} unknown; taken as the usual {marked_a:.0} A for its gauge and length",
                cord + 1
            ),
            Self::SmallEffectOnRate { speed_ratio, current_ratio } => write!(
                f,
                "low voltage has a small effect on rate (speed {:.1} % of rated) and a large effect on heat, trips and starting (current {:.0} % of rated)",
                speed_ratio * 100.0,
                current_ratio * 100.0
            ),
            Self::BranchDropAdvice { drop_ratio } => write!(
                f,
                "the branch circuit loses {:.1} %; an NEC note advises at most 3 %, which is advice and not a rule",
                drop_ratio * 100.0
            ),
            Self::TotalDropAdvice { drop_ratio } => write!(
                f,
                "{:.1} % is lost on the way to the motor; an NEC note advises at most 5 % for feeder and branch, which is advice and not a rule",
                drop_ratio * 100.0
            ),
            Self::CoiledCord { cord } => {
                write!(f, "cord {} is coiled and cannot shed its heat: roll it out", cord + 1)
            }
            Self::EqualiseBeforeStart => f.write_str(
                "equalise discharge and inlet before starting, as the machine's instructions say: it lowers the starting load",
            ),
            Self::ConductorTooHot(kind) => write!(
                f,
                "the {kind} would pass {limit}; its resistance is taken at {limit} and its insulation would fail before that",
                limit = both_scales(HIGHEST_CONDUCTOR_C)
            ),
            Self::KeepGroundFaultProtection => {
                f.write_str("keep ground-fault protection and the grounding pin in the circuit; never bypass them")
            }
        }
    }
}

impl fmt::Display for Assumption {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::PowerFactor(v) => write!(f, "rated power factor not given; assumed {v:.2}"),
            Self::Efficiency(v) => {
                write!(f, "shaft power not given; assumed {:.0} % of the input", v * 100.0)
            }
            Self::SpeedRpm(v) => write!(f, "rated speed not given; assumed {v:.0} rpm"),
            Self::LockedRotorTimesRated(v) => {
                write!(f, "locked-rotor current not given; assumed {v:.1} times the rated current")
            }
            Self::LockedRotorPowerFactor(v) => {
                write!(f, "locked-rotor power factor not given; assumed {v:.2}")
            }
            Self::LockedRotorTorque(v) => {
                write!(f, "locked-rotor torque not given; assumed {v:.1} times the rated torque")
            }
            Self::UnderVoltageTrip(v) => {
                write!(f, "under-voltage trip not given; assumed {:.0} % of rated voltage", v * 100.0)
            }
            Self::Inrush(v) => write!(f, "inrush not given; assumed {v:.1} times the rated current"),
        }
    }
}
