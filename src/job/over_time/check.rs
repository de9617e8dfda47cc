//! Refuses figures that make no sense, before anything is computed.

use std::ops::RangeInclusive;

use uom::si::heat_capacity::joule_per_kelvin;
use uom::si::mass::kilogram;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermal_conductance::watt_per_kelvin;
use uom::si::time::second;
use uom::si::volume::cubic_meter;

use super::setup::{Contents, CylinderWalls, Finish, JobCylinder, JobSetup, Recovery, System};
use crate::job::JobError;

fn within(
    quantity: &'static str,
    got: f64,
    range: RangeInclusive<f64>,
    expected: &'static str,
) -> Result<(), JobError> {
    if range.contains(&got) { Ok(()) } else { Err(JobError::OutOfRange { quantity, got, expected }) }
}

const YEAR_S: f64 = 3.2e7;

/// The first figure that makes no sense, if any.
pub(super) fn check(job: &JobSetup) -> Result<(), JobError> {
    system(&job.system)?;
    if job.cylinders.is_empty() {
        return Err(JobError::NoCylinder);
    }
    job.cylinders.iter().try_for_each(cylinder)?;
    let change_over = match &job.method {
        Recovery::LiquidThenVapor { change_over_ratio } => change_over_ratio.get::<ratio>(),
        Recovery::PushPull(push_pull) => match push_pull.finish {
            Finish::LiquidThenVapor { change_over_ratio } => change_over_ratio.get::<ratio>(),
            Finish::VaporOnly => 0.0,
        },
        Recovery::VaporOnly => 0.0,
    };
    within("share of liquid left at the change-over", change_over, 0.0..=1.0, "0 to 100 %")?;
    within("number of machines", f64::from(job.machines.count), 1.0..=32.0, "1 to 32")?;
    let target = &job.target;
    within(
        "level (Pa, absolute)",
        target.level.get::<pascal>(),
        1.0..=1e8,
        "an absolute pressure above zero",
    )?;
    within("allowed rise (Pa)", target.allowed_rise.get::<pascal>(), 0.0..=1e7, "zero or more")?;
    for (quantity, time) in [
        ("wait at the level (s)", target.wait),
        ("minutes of a cylinder swap, in s,", job.pauses.swap),
        ("minutes of a hose change, in s,", job.pauses.hose_change),
        ("minutes before a restart, in s,", job.pauses.restart),
    ] {
        within(quantity, time.get::<second>(), 0.0..=YEAR_S, "zero to a year")?;
    }
    within("time limit (s)", job.limits.time.get::<second>(), 1.0..=YEAR_S, "a second to a year")?;
    within("tolerance", job.limits.tolerance, 1e-9..=1e-2, "1e-9 to 0.01")
}

fn system(system: &System) -> Result<(), JobError> {
    within("charge (kg)", system.charge.get::<kilogram>(), 0.0..=1e6, "zero to 1000 t")?;
    within("volume of the system (m³)", system.volume.get::<cubic_meter>(), 1e-6..=1e4, "1 ml to 10000 m³")?;
    let metal = system.metal_heat_capacity.get::<joule_per_kelvin>();
    within("heat capacity of the system's metal (J/K)", metal, 0.0..=1e10, "zero or more")?;
    let gain = system.heat_gain.get::<watt_per_kelvin>();
    within("heat gain of the system (W/K)", gain, 0.0..=1e6, "zero to 1000 kW/K")?;
    if let Contents::TwoZone { interphase } = system.contents {
        let interphase = interphase.get::<watt_per_kelvin>();
        within("interphase conductance (W/K)", interphase, 0.0..=1e9, "zero or more")?;
    }
    let unreachable = system.unreachable_ratio.get::<ratio>();
    within("liquid out of reach, share of the charge,", unreachable, 0.0..=1.0, "0 to 100 %")?;
    let dissolved = system.dissolved.share_ratio.get::<ratio>();
    within("refrigerant in the oil, share of the charge,", dissolved, 0.0..=0.9, "0 to 90 %")?;
    let release = system.dissolved.release_time.get::<second>();
    within("time of release from the oil (s)", release, 1.0..=YEAR_S, "a second to a year")
}

fn cylinder(cylinder: &JobCylinder) -> Result<(), JobError> {
    within("volume of a cylinder (m³)", cylinder.volume.get::<cubic_meter>(), 1e-6..=1e3, "1 ml to 1000 m³")?;
    within("contents of a cylinder (kg)", cylinder.contents.get::<kilogram>(), 0.0..=1e6, "zero or more")?;
    within("net stop weight (kg)", cylinder.stop_net.get::<kilogram>(), 0.0..=1e6, "zero or more")?;
    let air = cylinder.non_condensables.get::<pascal>();
    within("pressure of non-condensables (Pa)", air, 0.0..=1e7, "zero to 100 bar")?;
    let metal = cylinder.metal_heat_capacity.get::<joule_per_kelvin>();
    within("heat capacity of a cylinder's steel (J/K)", metal, 0.0..=1e8, "zero or more")?;
    match cylinder.walls {
        CylinderWalls::Held => Ok(()),
        CylinderWalls::Exchange { conductance, .. } => {
            let conductance = conductance.get::<watt_per_kelvin>();
            within("heat exchange of a cylinder (W/K)", conductance, 0.0..=1e6, "zero to 1000 kW/K")
        }
    }
}
