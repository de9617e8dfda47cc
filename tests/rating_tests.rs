//! Rating tests simulated, and machines fitted to their cards.
#![allow(clippy::unwrap_used, reason = "a test stops where it fails")]

mod support;

use narrows::flow::{Flashing, Method, TwoPhaseFriction};
use narrows::fluid::Refrigerant;
use narrows::machine::rating::{
    Averaging, Bench, Fit, FitInput, RatedTest, RatingError, TestKind, blow_down, fit, push_pull, simulate,
};
use narrows::machine::{Compressor, Condenser, Exponent, RecoveryMachine};
use support::compressor;
use uom::si::area::square_millimeter;
use uom::si::f64::*;
use uom::si::mass_rate::pound_per_minute;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::{degree_celsius, degree_fahrenheit};
use uom::si::volume_rate::cubic_foot_per_minute;

fn machine(cfm: f64) -> RecoveryMachine {
    RecoveryMachine {
        compressor: compressor(cfm),
        inlet_throttle: None,
        condenser: Condenser::FixedTemperature(ThermodynamicTemperature::new::<degree_fahrenheit>(100.0)),
        cut_out: None,
        takes_liquid: true,
    }
}

fn method() -> Method {
    Method { flashing: Flashing::Equilibrium, two_phase_friction: TwoPhaseFriction::Homogeneous }
}

fn test(kind: TestKind, refrigerant: &str, lb_min: f64) -> RatedTest {
    let source = if kind == TestKind::HighTemperatureVapour { 40.0 } else { 24.0 };
    RatedTest {
        kind,
        refrigerant: Refrigerant::load(refrigerant).unwrap(),
        source: ThermodynamicTemperature::new::<degree_celsius>(source),
        ambient: ThermodynamicTemperature::new::<degree_celsius>(24.0),
        final_vacuum: None,
        averaging: Averaging::WholeTest,
        rated: MassRate::new::<pound_per_minute>(lb_min),
    }
}

#[test]
fn probe() {
    for (cond, n) in [(75.0, 1.1), (85.0, 1.1), (90.0,1.1), (100.0, 1.1)] {
        let mut m = machine(0.42);
        m.condenser = Condenser::FixedTemperature(ThermodynamicTemperature::new::<degree_fahrenheit>(cond));
        let _ = n;
        let v = test(TestKind::Vapour, "R-22", 0.3);
        let mut s = v.clone();
        s.averaging = Averaging::Start;
        println!("cond {cond}: avg {:.4} start {:.4}", simulate(&m, method(), &v).unwrap().get::<pound_per_minute>(), simulate(&m, method(), &s).unwrap().get::<pound_per_minute>());
        for fl in [Flashing::Equilibrium, Flashing::Delayed] {
            let tests = [v.clone(), test(TestKind::Liquid, "R-22", 3.0)];
            let t0 = std::time::Instant::now();
            let f = fit(&FitInput { template: &m, method: Method { flashing: fl, ..method() }, tests: &tests }).unwrap();
            println!("  {fl:?} {:.4} cfm {:.3} mm2 {:?} {:?}", f.displacement.get::<cubic_foot_per_minute>(), f.inlet_throttle.map_or(0.0, |a| a.get::<square_millimeter>()), f.conflict, t0.elapsed());
            let tests = [v.clone()];
            let f = fit(&FitInput { template: &m, method: Method { flashing: fl, ..method() }, tests: &tests }).unwrap();
            println!("  vapour only {:.4} cfm", f.displacement.get::<cubic_foot_per_minute>());
        }
    }
}
