//! Time of whole jobs. Run with `cargo bench --no-default-features --bench job`.

#[path = "../job_support/mod.rs"]
mod job_support;
#[path = "../support/mod.rs"]
mod support;

use std::hint::black_box;
use std::time::Instant;

use job_support::*;
use narrows::flow::Path;
use narrows::job::over_time::*;
use support::{Kit, parts};
use uom::si::f64::Ratio;
use uom::si::ratio::ratio;
use uom::si::time::minute;

/// Time this thread has spent on a processor, where the system tells: others' work does not count.
fn processor_s() -> Option<f64> {
    let text = std::fs::read_to_string("/proc/thread-self/schedstat").ok()?;
    Some(text.split_whitespace().next()?.parse::<f64>().ok()? * 1e-9)
}

/// Prints the best of some rounds.
fn time(what: &str, job: &JobSetup) {
    let mut best = f64::INFINITY;
    for _ in 0..8 {
        let (start, before) = (Instant::now(), processor_s());
        black_box(follow(black_box(job)).is_ok());
        let wall = start.elapsed().as_secs_f64();
        best = best.min(before.and_then(|b| Some(processor_s()? - b)).unwrap_or(wall));
    }
    let answer = follow(job).unwrap();
    println!(
        "{what:<60} {:>7.1} ms   ({:.1} min, {} samples, {:?})",
        1e3 * best,
        answer.total.get::<minute>(),
        answer.trace.len(),
        answer.ends_because,
    );
}

fn main() {
    time("R-22 tail, kit C", &reference_tail(Kit::C));
    time("R-22 tail, kit A", &reference_tail(Kit::A));
    let mut chilling = vapor_job("R-22", Kit::B, 0.42, kg(10.0), cubic_feet(0.6), 101_325.0);
    chilling.system.heat_gain = watts_per_kelvin(20.0);
    time("10 kg of R-22 as vapour, kit B", &chilling);
    let mut liquid = vapor_job("R-410A", Kit::A, 0.42, kg(10.0), cubic_feet(0.6), 101_325.0);
    liquid.system.heat_gain = watts_per_kelvin(15.0);
    liquid.method = Recovery::LiquidThenVapor { change_over_ratio: Ratio::new::<ratio>(0.0) };
    liquid.cylinders = vec![cylinder(12.0, 6.0), cylinder(12.0, 8.0)];
    time("10 kg of R-410A liquid then vapour, kit A, two cylinders", &liquid);
    let mut large = vapor_job("R-22", Kit::C, 1.6, kg(408.0), cubic_feet(25.0), TEN_INCHES_PA);
    large.system.heat_gain = watts_per_kelvin(30.0);
    large.cylinders = vec![cylinder(108.0, 86.0); 6];
    large.method = Recovery::LiquidThenVapor { change_over_ratio: Ratio::new::<ratio>(0.0) };
    time("408 kg of R-22 liquid then vapour, kit C, six cylinders", &large);
    let lines = PushPull {
        liquid_line: Path::series(parts(Kit::A)),
        vapor_line: parts(Kit::C),
        gas_line: parts(Kit::C),
        finish: Finish::VaporOnly,
    };
    large.method = Recovery::PushPull(lines);
    for interphase in [20.0, 300.0, 1e5] {
        large.system.contents = Contents::TwoZone { interphase: watts_per_kelvin(interphase) };
        time(&format!("the same by push-pull, kit A as liquid line, {interphase} W/K"), &large);
    }
}
