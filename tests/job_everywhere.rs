//! Every refrigerant by every method, cold and hot, small and large: each job comes to an end that
//! is said, keeps its mass, and never runs backwards.

mod job_support;
mod support;

use job_support::*;
use narrows::flow::Path;
use narrows::fluid::list;
use narrows::job::over_time::*;
use narrows::job::{JobError, Port};
use narrows::machine::{Condenser, MachineError};
use support::{Kit, parts, setup};
use uom::si::f64::*;
use uom::si::mass::kilogram;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::degree_celsius;
use uom::si::volume::liter;

fn methods(kit: Kit) -> [Recovery; 3] {
    [
        Recovery::VaporOnly,
        Recovery::LiquidThenVapor { change_over_ratio: Ratio::new::<ratio>(0.1) },
        Recovery::PushPull(PushPull {
            liquid_line: Path::series(parts(kit)),
            vapor_line: parts(kit),
            gas_line: parts(kit),
            finish: Finish::LiquidThenVapor { change_over_ratio: Ratio::new::<ratio>(0.0) },
        }),
    ]
}

fn check(job: &JobSetup, what: &str) {
    let answer = match follow(job) {
        Ok(answer) => answer,
        // A start outside the refrigerant's table is said at once.
        Err(JobError::Fluid(_) | JobError::DoesNotFit { .. }) => return,
        Err(other) => panic!("{what}: {other}"),
    };
    let whole = (answer.recovered + answer.remaining).get::<kilogram>();
    let charge = job.system.charge.get::<kilogram>();
    assert!((whole / charge - 1.0).abs() < 1e-9, "{what}: {whole} of {charge}");
    let trace = &answer.trace;
    if let (Some(first), false) = (trace.cylinder_kg.first(), answer.cylinders.is_empty()) {
        let held: f64 = answer.cylinders.iter().map(|c| c.net.get::<kilogram>()).sum();
        // Evacuated cylinders hold the same grams each.
        let heels = first * answer.cylinders.len() as f64;
        let recovered = answer.recovered.get::<kilogram>();
        assert!((held - heels - recovered).abs() < 1e-6 * charge, "{what}: {held} {heels} {recovered}");
    }
    assert!(trace.time_s.windows(2).all(|pair| pair[0] <= pair[1]), "{what}");
    assert!(trace.phase.iter().all(|phase| *phase < answer.phases.len()), "{what}");
    assert!(trace.rate_kg_s.iter().chain(&trace.system_pa).all(|value| value.is_finite()), "{what}");
    // Carbon dioxide cannot be condensed in this machine at room temperature; all else has an answer.
    let is_answer = match &answer.ends_because {
        EndsBecause::NoPoint(error) => {
            matches!(error, JobError::Machine(MachineError::CannotCondense { .. }))
        }
        _ => true,
    };
    assert!(is_answer, "{what}: {:?}", answer.ends_because);
    println!("{what}: {:?} after {:.0} s, {} samples", answer.ends_because, answer.total.value, trace.len());
}

fn job(
    refrigerant: &str,
    kit: Kit,
    cfm: f64,
    celsius: f64,
    fill: f64,
    method: &Recovery,
) -> Option<JobSetup> {
    let temperature = ThermodynamicTemperature::new::<degree_celsius>(celsius);
    let mut job = vapor_job(refrigerant, kit, cfm, kg(1.0), Volume::new::<liter>(20.0), 101_325.0);
    job.kit = setup(refrigerant, kit, cfm, Port::Vapor);
    job.kit.source.temperature = temperature;
    job.kit.ambient.temperature = temperature;
    job.kit.machine.condenser = Condenser::Conductance(watts_per_kelvin(250.0));
    let at = job.kit.refrigerant.saturation_at_bubble_temperature(celsius + 273.15).ok()?;
    job.system.charge = kg(0.02 * fill * at.liquid_density_kg_m3);
    job.system.heat_gain = watts_per_kelvin(15.0);
    if matches!(method, Recovery::PushPull(_)) {
        job.system.contents = Contents::TwoZone { interphase: watts_per_kelvin(25.0) };
    }
    let stop_kg = 0.012 * at.liquid_density_kg_m3;
    let one = JobCylinder { temperature, ..cylinder(20.0, stop_kg) };
    let walls = CylinderWalls::Exchange { conductance: watts_per_kelvin(8.0), surroundings: temperature };
    job.cylinders = vec![JobCylinder { walls, ..one }; 3];
    job.method = method.clone();
    Some(job)
}

#[test]
fn every_refrigerant_by_every_method() {
    // A debug build takes a sample.
    let step = if cfg!(debug_assertions) { 9 } else { 1 };
    for listing in list().step_by(step) {
        for (kit, cfm) in [(Kit::A, 0.42), (Kit::C, 1.6)] {
            for (index, method) in methods(kit).iter().enumerate() {
                let Some(job) = job(listing.designation, kit, cfm, 24.0, 0.6, method) else { continue };
                check(&job, &format!("{} {kit:?} method {index}", listing.designation));
            }
        }
    }
}

#[test]
fn cold_and_hot_nearly_empty_and_nearly_full() {
    let all = ["R-407C", "R-22", "R-410A"];
    let count = if cfg!(debug_assertions) { 1 } else { 3 };
    for refrigerant in &all[..count] {
        for celsius in [-25.0, 5.0, 45.0] {
            for fill in [0.004, 0.05, 0.97] {
                for (index, method) in methods(Kit::B).iter().enumerate() {
                    let Some(job) = job(refrigerant, Kit::B, 0.42, celsius, fill, method) else { continue };
                    check(&job, &format!("{refrigerant} {celsius} °C, {fill} full, method {index}"));
                }
            }
        }
    }
}
