//! The figures that comparisons are about, taken from a kit's answer in one place.
//!
//! What fills a figure here reaches every comparison, ranking, band and sweep. Figures of the
//! operating point and figures of the whole job are filled apart: the latter cost much more.

use uom::si::f64::{ElectricPotential, Mass, MassRate, Pressure, Time};

use super::prices::Costs;
use super::whole_job::JobFigures;
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
    /// What the whole job recovers, in kg.
    Recovered,
    /// How many cylinders it takes.
    Cylinders,
    /// What the kit and the work with it cost, of any currency.
    Cost,
}

impl Figure {
    /// Every figure.
    pub const ALL: [Self; 8] = [
        Self::Rate,
        Self::MachineInlet,
        Self::RunningVoltage,
        Self::StartingVoltage,
        Self::Minutes,
        Self::Recovered,
        Self::Cylinders,
        Self::Cost,
    ];

    /// Whether it is a figure of the whole job, not of the operating point.
    pub fn is_of_job(self) -> bool {
        match self {
            Self::Rate | Self::MachineInlet | Self::RunningVoltage | Self::StartingVoltage => false,
            Self::Minutes | Self::Recovered | Self::Cylinders | Self::Cost => true,
        }
    }

    /// The word that programs read, with its SI unit.
    pub fn tag(self) -> &'static str {
        match self {
            Self::Rate => "rate_kg_s",
            Self::MachineInlet => "machine_inlet_pa",
            Self::RunningVoltage => "running_v",
            Self::StartingVoltage => "starting_v",
            Self::Minutes => "total_s",
            Self::Recovered => "recovered_kg",
            Self::Cylinders => "cylinder_count",
            Self::Cost => "cost",
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
    /// Time of the whole job; none if it does not reach its level, or was not followed.
    pub minutes: Option<Time>,
    /// What the whole job recovers.
    pub recovered: Option<Mass>,
    /// How many cylinders it takes.
    pub cylinders: Option<usize>,
    /// What the kit and the work with it cost.
    pub cost: Option<f64>,
    /// Liquid left in the system where the job reaches its level: the pressure comes back, and the time is
    /// not the whole of it.
    pub liquid_left: Option<Mass>,
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
            ..Self::default()
        }
    }

    /// The same with the figures of the whole job.
    pub fn with_job(self, job: &JobFigures) -> Self {
        let (recovered, cylinders) = (Some(job.recovered), Some(job.cylinders));
        Self { minutes: job.total, recovered, cylinders, liquid_left: job.liquid_left, ..self }
    }

    /// The same with what it costs.
    pub(super) fn with_cost(self, costs: &Costs) -> Self {
        Self { cost: costs.of(self.minutes), ..self }
    }

    /// What is left where a Stop withholds the rate: the volts.
    pub fn withheld(&self) -> Self {
        let Self { running_voltage, starting_voltage, .. } = *self;
        Self { running_voltage, starting_voltage, ..Self::default() }
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
            Figure::Recovered => self.recovered.map(Measure::si),
            Figure::Cylinders => self.cylinders.map(|count| count as f64),
            Figure::Cost => self.cost,
        }
    }

    /// This figure less another's, in SI units; none if either is missing.
    pub fn less(&self, other: &Self, figure: Figure) -> Option<f64> {
        Some(self.si(figure)? - other.si(figure)?)
    }
}
