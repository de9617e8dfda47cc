//! Push-pull: its two steady bounds, and jobs between them.

mod job_support;
mod support;

use job_support::*;
use narrows::flow::Path;
use narrows::job::Port;
use narrows::job::over_time::*;
use support::{Kit, parts, setup};
use uom::si::f64::*;
use uom::si::mass_rate::pound_per_minute;
use uom::si::thermodynamic_temperature::degree_celsius;

fn lines(kit: Kit) -> PushPull {
    PushPull {
        liquid_line: Path::series(parts(kit)),
        vapor_line: vec![],
        gas_line: vec![],
        finish: Finish::VaporOnly,
    }
}

/// R-22 at 24 °C; a system with some vapour space and a cylinder equalised with it.
fn job(kit: Kit, charge_kg: f64, liters: f64, contents: Contents) -> JobSetup {
    let mut job =
        vapor_job("R-22", kit, 0.42, kg(charge_kg), Volume::new::<uom::si::volume::liter>(liters), 101_325.0);
    let start = ThermodynamicTemperature::new::<degree_celsius>(24.0);
    job.kit = setup("R-22", kit, 0.42, Port::Vapor);
    job.kit.source.temperature = start;
    job.kit.ambient.temperature = start;
    job.system.contents = contents;
    job.cylinders = vec![JobCylinder { temperature: start, contents: kg(4.3), ..cylinder(100.0, 400.0) }];
    job.method = Recovery::PushPull(lines(kit));
    job
}

/// R-22 at 24 °C, kit A as liquid line, 0.42 cfm, gas loop without loss, choked saturated flow with
/// full condensation 3.87 lb/min, none 11.9 lb/min. Source: computed independently on CoolProp
/// 8.0.0. Within 5 %.
#[test]
fn the_two_steady_bounds() {
    let job = job(Kit::A, 60.0, 60.0, Contents::Equilibrium);
    let limits = push_pull_limits(&job, &lines(Kit::A)).unwrap();
    println!("{limits:#?}");
    for (what, got, expected) in [
        ("full", limits.full_condensation.get::<pound_per_minute>(), 3.87),
        ("none", limits.no_condensation.get::<pound_per_minute>(), 11.9),
    ] {
        println!("{what}: {got:.3} lb/min, expected {expected}");
        assert!((got / expected - 1.0).abs() < 0.05, "{what}: {got}");
    }
}
