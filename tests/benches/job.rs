//! Time of whole jobs; at most 20 ms. `cargo bench --no-default-features --bench job`.

#[path = "../job_support/mod.rs"]
mod job_support;
#[path = "../support/mod.rs"]
mod support;

use divan::{Bencher, black_box};
use job_support::*;
use narrows::flow::Path;
use narrows::job::over_time::*;
use support::{Kit, parts};
use uom::si::f64::Ratio;
use uom::si::ratio::ratio;

fn main() {
    divan::main();
}

fn whole(bencher: Bencher, job: &JobSetup) {
    assert!(follow(job).is_ok());
    bencher.bench(|| follow(black_box(job)));
}

#[divan::bench(args = ["A", "C"], sample_count = 40)]
fn tail_of_r_22(bencher: Bencher, kit: &str) {
    whole(bencher, &reference_tail(if kit == "A" { Kit::A } else { Kit::C }));
}

#[divan::bench(sample_count = 40)]
fn vapour_10_kg_of_r_22_kit_b(bencher: Bencher) {
    let mut job = vapor_job("R-22", Kit::B, 0.42, kg(10.0), cubic_feet(0.6), 101_325.0);
    job.system.heat_gain = watts_per_kelvin(20.0);
    whole(bencher, &job);
}

fn liquid_then_vapor() -> Recovery {
    Recovery::LiquidThenVapor { change_over_ratio: Ratio::new::<ratio>(0.0) }
}

#[divan::bench(sample_count = 40)]
fn liquid_then_vapour_10_kg_of_r_410a_kit_a_two_cylinders(bencher: Bencher) {
    let mut job = vapor_job("R-410A", Kit::A, 0.42, kg(10.0), cubic_feet(0.6), 101_325.0);
    job.system.heat_gain = watts_per_kelvin(15.0);
    job.method = liquid_then_vapor();
    job.cylinders = vec![cylinder(12.0, 6.0), cylinder(12.0, 8.0)];
    whole(bencher, &job);
}

/// 408 kg into six cylinders with kit C.
fn large() -> JobSetup {
    let mut job = vapor_job("R-22", Kit::C, 1.6, kg(408.0), cubic_feet(25.0), TEN_INCHES_PA);
    job.system.heat_gain = watts_per_kelvin(30.0);
    job.cylinders = vec![cylinder(108.0, 86.0); 6];
    job.method = liquid_then_vapor();
    job
}

#[divan::bench(sample_count = 40)]
fn liquid_then_vapour_408_kg_of_r_22_six_cylinders(bencher: Bencher) {
    whole(bencher, &large());
}

/// Kit A as the liquid line, by the conductance between liquid and vapour in W/K.
#[divan::bench(args = [20.0, 300.0, 1e5], sample_count = 40)]
fn push_pull_408_kg_of_r_22_six_cylinders(bencher: Bencher, interphase: f64) {
    let mut job = large();
    job.method = Recovery::PushPull(PushPull {
        liquid_line: Path::series(parts(Kit::A)),
        vapor_line: parts(Kit::C),
        gas_line: parts(Kit::C),
        finish: Finish::VaporOnly,
    });
    job.system.contents = Contents::TwoZone { interphase: watts_per_kelvin(interphase) };
    whole(bencher, &job);
}
