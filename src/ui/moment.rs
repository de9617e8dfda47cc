//! One moment of a job: where the pressure is lost then, or why nothing is drawn.

use narrows::job::over_time::PhaseKind;
use narrows::job::{OperatingPoint, Port, solve};
use narrows::report::SolvedJob;
use narrows::scenario::Document;
use uom::si::f64::{MassRate, Pressure, ThermodynamicTemperature};
use uom::si::mass_rate::kilogram_per_second;
use uom::si::pressure::pascal;
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
    /// What there is to see.
    pub seen: Seen,
}

/// What a moment shows.
#[derive(Clone, Debug)]
pub enum Seen {
    /// An operating point.
    Point(Box<OperatingPoint>),
    /// Nothing flows: every gauge up to the machine reads the system, those behind it the cylinder.
    Rest {
        /// Pressure of the system.
        system: Pressure,
        /// Pressure of the cylinder.
        cylinder: Pressure,
    },
    /// Liquid goes from the system straight into the cylinder, past the machine.
    PushPull {
        /// Pressure of the system.
        system: Pressure,
        /// Pressure of the cylinder.
        cylinder: Pressure,
        /// What leaves the system.
        rate: MassRate,
    },
}

/// The kit as the job has it at this moment; none where there is no operating point.
///
/// The system is taken as saturated at its pressure of that moment: in the last vapour it is
/// warmer than that, which thins the vapour a little more.
pub fn at(document: &Document, kit: usize, job: &SolvedJob, minutes: f64) -> Option<Moment> {
    let answer = job.shown().ok()?;
    let sample = Sample::at(&answer.trace, 60.0 * minutes)?;
    let kind = answer.phases.get(sample.phase)?.kind;
    let (system, cylinder) = (pressure(sample.system_pa), pressure(sample.cylinder_pa));
    let moment = |seen| Some(Moment { document: document.clone(), kit, minutes, seen });
    if !kind.flows() {
        return moment(Seen::Rest { system, cylinder });
    }
    if kind == PhaseKind::PushPull {
        let rate = MassRate::new::<kilogram_per_second>(sample.rate_kg_s);
        return moment(Seen::PushPull { system, cylinder, rate });
    }
    let mut setup = job.setup.kit.clone();
    setup.machines = job.setup.machines.at_once(kind);
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
    let point = Box::new(solve(&setup).point.ok()?);
    moment(Seen::Point(point))
}

fn pressure(pa: f64) -> Pressure {
    Pressure::new::<pascal>(pa)
}
