//! The rating tests as data, and their simulation.

use std::sync::Arc;

use uom::si::f64::{MassRate, Pressure, ThermodynamicTemperature};
use uom::si::mass_rate::kilogram_per_second;
use uom::si::pressure::pascal;
use uom::si::thermodynamic_temperature::kelvin;

use super::bench::Bench;
use super::blow_down::blow_down;
use super::error::RatingError;
use super::push_pull::push_pull;
use crate::flow::{Medium, Method};
use crate::fluid::Refrigerant;
use crate::machine::RecoveryMachine;

/// What a rating was measured with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum TestKind {
    /// Saturated vapour from a closed vessel at 24 °C.
    Vapour,
    /// Saturated liquid, steadily.
    Liquid,
    /// Liquid driven by gas from the machine.
    PushPull,
    /// The vapour test at 40 °C, cylinder at 40 °C too.
    HighTemperatureVapour,
}

impl TestKind {
    /// In words.
    pub fn label(self) -> &'static str {
        match self {
            Self::Vapour => "vapour",
            Self::Liquid => "liquid",
            Self::PushPull => "push-pull",
            Self::HighTemperatureVapour => "high-temperature vapour",
        }
    }

    /// The word that programs read.
    pub fn tag(self) -> &'static str {
        match self {
            Self::Vapour => "vapour",
            Self::Liquid => "liquid",
            Self::PushPull => "push_pull",
            Self::HighTemperatureVapour => "high_temperature_vapour",
        }
    }

    /// It draws vapour from a falling pressure.
    pub fn is_vapour(self) -> bool {
        matches!(self, Self::Vapour | Self::HighTemperatureVapour)
    }
}

/// What a printed vapour rate is the rate of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Averaging {
    /// Mass over time of the whole test, as AHRI 740 has it.
    WholeTest,
    /// The rate at the test's start.
    Start,
}

/// One printed rating and the conditions it is taken to have been measured at.
#[derive(Debug, Clone)]
pub struct RatedTest {
    /// Which test.
    pub kind: TestKind,
    /// With what.
    pub refrigerant: Arc<Refrigerant>,
    /// Temperature of the source.
    pub source: ThermodynamicTemperature,
    /// Temperature of air and cylinder.
    pub ambient: ThermodynamicTemperature,
    /// The vapour test does not go below this.
    pub final_vacuum: Option<Pressure>,
    /// What the printed rate means.
    pub averaging: Averaging,
    /// As printed.
    pub rated: MassRate,
}

/// The rate that a machine would be given by a test.
///
/// # Errors
/// As [`blow_down`], [`Bench::draw`] and [`push_pull`].
pub fn simulate(
    machine: &RecoveryMachine,
    method: Method,
    test: &RatedTest,
) -> Result<MassRate, RatingError> {
    let source_k = test.source.get::<kelvin>();
    let cylinder = match test.kind {
        // The cylinder stands at the source's 40 °C.
        TestKind::HighTemperatureVapour => test.source,
        _ => test.ambient,
    };
    let bench = Bench::new(&test.refrigerant, machine, method, test.ambient, cylinder)?;
    let rate_kg_s = match test.kind {
        TestKind::Vapour | TestKind::HighTemperatureVapour => {
            let done = blow_down(&bench, source_k, test.final_vacuum.map(|p| p.get::<pascal>()))?;
            match test.averaging {
                Averaging::WholeTest => done.average_kg_s,
                Averaging::Start => done.start.mass_flow_kg_s,
            }
        }
        TestKind::Liquid => {
            let saturation = test.refrigerant.saturation_at_bubble_temperature(source_k)?;
            let point =
                Medium::point(&*test.refrigerant, saturation.pressure_pa, saturation.liquid_enthalpy_j_kg)?;
            bench.draw(point)?.mass_flow_kg_s
        }
        TestKind::PushPull => push_pull(&bench, source_k)?.likely_kg_s,
    };
    Ok(MassRate::new::<kilogram_per_second>(rate_kg_s))
}
