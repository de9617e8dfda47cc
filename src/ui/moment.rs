//! The operating point at one moment of a job: where the pressure is lost then.

use narrows::job::over_time::PhaseKind;
use narrows::job::{OperatingPoint, Port, solve};
use narrows::report::SolvedJob;
use narrows::scenario::Document;
use uom::si::f64::ThermodynamicTemperature;
use uom::si::thermodynamic_temperature::kelvin;

use super::present::clock::Sample;

/// A moment and its operating point.
#[derive(Clone, Debug)]
pub struct Moment {
    /// The document it is for.
    pub document: Document,
    /// Place of the kit.
    pub kit: usize,
    /// Minutes since the machine started.
    pub minutes: f64,
    /// The point.
    pub point: OperatingPoint,
}

/// The kit's operating point as the job has it at this moment; none in a pause, in push-pull, with
/// several machines, or where there is none.
///
/// The system is taken as saturated at its pressure of that moment: in the last vapour it is
/// warmer than that, which thins the vapour a little more.
pub fn at(document: &Document, kit: usize, job: &SolvedJob, minutes: f64) -> Option<Moment> {
    let answer = job.shown().ok()?;
    let sample = Sample::at(&answer.trace, 60.0 * minutes)?;
    let kind = answer.phases.get(sample.phase)?.kind;
    let is_alone = job.setup.machines.count == 1;
    if !kind.flows() || kind == PhaseKind::PushPull || !is_alone {
        return None;
    }
    let mut setup = job.setup.kit.clone();
    let saturation = setup.refrigerant.saturation_at_pressure(sample.system_pa).ok()?;
    if kind == PhaseKind::Liquid {
        setup.source.temperature = ThermodynamicTemperature::new::<kelvin>(saturation.bubble_temperature_k);
    } else {
        setup.source.temperature = ThermodynamicTemperature::new::<kelvin>(saturation.dew_temperature_k);
        (setup.source.first, setup.source.second) = (Port::Vapor, Port::Vapor);
    }
    // Below saturation's table (a cylinder just evacuated) the condensing pressure rules anyway.
    if let Ok(cylinder) = setup.refrigerant.saturation_at_pressure(sample.cylinder_pa) {
        setup.cylinder.temperature = ThermodynamicTemperature::new::<kelvin>(cylinder.bubble_temperature_k);
        setup.cylinder.non_condensables = Default::default();
    }
    let point = solve(&setup).point.ok()?;
    Some(Moment { document: document.clone(), kit, minutes, point })
}
