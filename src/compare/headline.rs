//! The figures that comparisons are about, taken from a kit's answer in one place.
//!
//! This is the seam for the job over time: what fills `minutes` here reaches every comparison,
//! ranking, band and sweep.

use uom::si::f64::{ElectricPotential, MassRate, Pressure, Time};

use crate::job::{KitAnswer, solve};
use crate::scenario::KitSetup;
use crate::units::Measure;

/// One of the figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Figure {
    /// Recovery rate, in kg/s.
    Rate,
    /// Absolute pressure at the machine's inlet, in Pa.
    MachineInlet,
    /// Voltage at the running motor, in V.
    RunningVoltage,
    /// Voltage at the motor as it starts, in V.
    StartingVoltage,
    /// Time of the whole job, in s.
    Minutes,
}

impl Figure {
    /// Every figure.
    pub const ALL: [Self; 5] =
        [Self::Rate, Self::MachineInlet, Self::RunningVoltage, Self::StartingVoltage, Self::Minutes];

    /// The word that programs read, with its SI unit.
    pub fn tag(self) -> &'static str {
        match self {
            Self::Rate => "rate_kg_s",
            Self::MachineInlet => "machine_inlet_pa",
            Self::RunningVoltage => "running_v",
            Self::StartingVoltage => "starting_v",
            Self::Minutes => "total_s",
        }
    }
}

/// A kit's headline figures; none where there is no answer. Pressures absolute.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Headline {
    /// Recovery rate.
    pub rate: Option<MassRate>,
    /// Pressure at the machine's inlet.
    pub machine_inlet: Option<Pressure>,
    /// Voltage at the running motor.
    pub running_voltage: Option<ElectricPotential>,
    /// Voltage at the motor as it starts.
    pub starting_voltage: Option<ElectricPotential>,
    /// Time of the whole job; none as long as only the operating point is solved.
    pub minutes: Option<Time>,
}

impl Headline {
    /// The figures of an answer.
    pub fn of(answer: &KitAnswer) -> Self {
        let point = answer.point.as_ref().ok();
        let power = answer.power.as_ref().ok();
        Self {
            rate: point.map(|point| point.mass_flow),
            machine_inlet: point.map(|point| point.machine_inlet_pressure),
            running_voltage: power.and_then(|power| power.running.point()).map(|running| running.voltage),
            starting_voltage: power.map(|power| power.starting.voltage),
            minutes: None,
        }
    }

    /// Solves a kit for its figures.
    pub fn solved(kit: &KitSetup) -> Self {
        Self::of(&solve(&kit.setup))
    }

    /// The same with another rate, in proportion.
    pub(super) fn with_rate_times(self, factor_ratio: f64) -> Self {
        Self { rate: self.rate.map(|rate| rate * factor_ratio), ..self }
    }

    /// One figure in SI units.
    pub fn si(&self, figure: Figure) -> Option<f64> {
        match figure {
            Figure::Rate => self.rate.map(Measure::si),
            Figure::MachineInlet => self.machine_inlet.map(Measure::si),
            Figure::RunningVoltage => self.running_voltage.map(Measure::si),
            Figure::StartingVoltage => self.starting_voltage.map(Measure::si),
            Figure::Minutes => self.minutes.map(Measure::si),
        }
    }

    /// This figure less another's, in SI units; none if either is missing.
    pub fn less(&self, other: &Self, figure: Figure) -> Option<f64> {
        Some(self.si(figure)? - other.si(figure)?)
    }
}
