//! The reference kits against an independent march straight on CoolProp 8.0.0 (equilibrium,
//! homogeneous, roughness 0.01 mm, F_L 1), and laws that must hold for any kit.

mod support;

use narrows::job::{Port, solve};
use support::{Kit, setup, with_displacement};
use uom::si::f64::{MassRate, Pressure};
use uom::si::mass_rate::pound_per_minute;
use uom::si::pressure::psi;

fn lb_min(rate: MassRate) -> f64 {
    rate.get::<pound_per_minute>()
}

fn psig(pressure: Pressure) -> f64 {
    pressure.get::<psi>() - 14.696
}

/// R-410A, saturated vapour at 75 °F, condensing at 100 °F, clearance 5 %, loss factor 0.95,
/// exponent 1.1. Rate within 2 %, inlet pressure within 2 psi.
#[test]
fn vapour_rates_and_inlet_pressures() {
    for (kit, cfm, rate, inlet) in [
        (Kit::A, 0.42, 1.294, 185.0),
        (Kit::B, 0.42, 1.505, 211.9),
        (Kit::C, 0.42, 1.544, 216.7),
        (Kit::A, 1.6, 2.055, 81.2),
        (Kit::B, 1.6, 4.250, 161.5),
        (Kit::C, 1.6, 5.452, 202.5),
    ] {
        let point = solve(&setup("R-410A", kit, cfm, Port::Vapor)).point.unwrap();
        let got = (lb_min(point.mass_flow), psig(point.machine_inlet_pressure));
        println!("{kit:?} {cfm}: {got:.4?} expected {rate} {inlet}");
        assert!((got.0 / rate - 1.0).abs() < 0.02, "{kit:?} {cfm} cfm: {} lb/min, expected {rate}", got.0);
        assert!((got.1 - inlet).abs() < 2.0, "{kit:?} {cfm} cfm: {} psig, expected {inlet}", got.1);
    }
}

/// Saturated liquid at 75 °F, choked. Within 3 %.
#[test]
fn choked_liquid_rates() {
    for (kit, rate) in [(Kit::A, 5.11), (Kit::B, 14.94), (Kit::C, 27.80)] {
        let point = solve(&setup("R-410A", kit, 40.0, Port::Liquid)).point.unwrap();
        let got = lb_min(point.mass_flow);
        println!("{kit:?} liquid: {got:.4} expected {rate}; {:?}", point.choked_part);
        assert!(point.choked_part.is_some(), "{kit:?} is not choked");
        assert!((got / rate - 1.0).abs() < 0.03, "{kit:?}: {got} lb/min, expected {rate}");
    }
}

#[test]
fn drops_add_up_to_the_whole() {
    for kit in [Kit::A, Kit::B, Kit::C] {
        for port in [Port::Vapor, Port::Liquid] {
            for cfm in [0.1, 0.42, 1.6, 12.0] {
                let point = solve(&setup("R-410A", kit, cfm, port)).point.unwrap();
                let sum: f64 = point.parts.iter().map(|part| part.drop().value).sum();
                let whole = (point.system_pressure - point.machine_inlet_pressure).value;
                assert!((sum - whole).abs() < 1e-4 * whole + 1.0, "{kit:?} {cfm}: {sum} Pa of {whole} Pa");
            }
        }
    }
}

/// A flow too small to lose pressure is no choked flow: a tiny machine stands at the system's
/// pressure and draws in proportion to its displacement.
#[test]
fn a_tiny_machine_loses_nothing() {
    for kit in [Kit::A, Kit::C] {
        let rate = |cfm: f64| solve(&setup("R-22", kit, cfm, Port::Vapor)).point.unwrap().mass_flow.value;
        let ratio = rate(1e-3) / rate(3e-4);
        assert!((ratio / (1e-3 / 3e-4) - 1.0).abs() < 1e-4, "{kit:?}: {ratio}");
        let point = solve(&setup("R-22", kit, 3e-4, Port::Vapor)).point.unwrap();
        assert!(point.choked_part.is_none());
    }
}

#[test]
fn a_bigger_machine_draws_more_from_a_lower_inlet() {
    for kit in [Kit::A, Kit::C] {
        let mut last = (0.0, f64::INFINITY);
        for step in 0..30 {
            let cfm = 0.05 * 1.25f64.powi(step);
            let with = with_displacement(setup("R-22", kit, 0.42, Port::Vapor), cfm);
            let point = solve(&with).point.unwrap();
            let next = (point.mass_flow.value, point.machine_inlet_pressure.value);
            assert!(
                next.0 >= last.0 * (1.0 - 1e-6) && next.1 <= last.1,
                "{kit:?} {cfm}: {next:?} after {last:?}"
            );
            last = next;
        }
    }
}
