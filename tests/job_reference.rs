//! Whole jobs against an independent march straight on CoolProp 8.0.0, and the tail's laws.

mod job_support;
mod support;

use job_support::*;
use narrows::job::over_time::*;
use support::Kit;
use uom::si::time::minute;

#[track_caller]
fn check(what: &str, got: f64, expected: f64, share: f64) {
    println!("{what}: {got:.3}, expected {expected} within {} %", 100.0 * share);
    assert!((got / expected - 1.0).abs() < share, "{what}: {got}, expected {expected}");
}

/// R-22, 25 ft³ saturated vapour at 75 °F, contents held at that temperature, discharge at 100 °F
/// saturation, 1.6 cfm, clearance 5 %, loss factor 0.95, exponent 1.1, to 10 inHg.
/// Source: independent march on CoolProp 8.0.0.
#[test]
fn the_reference_tail() {
    check("kit C", total_minutes(&reference_tail(Kit::C)), 74.7, 0.03);
    check("kit A", total_minutes(&reference_tail(Kit::A)), 155.3, 0.03);
}

/// The same vessel, contents in equilibrium, no hoses, with heat from 75 °F air. The port draws
/// saturated vapour while there is fog and the superheated vapour after it.
/// Source: energy balance stepped through CoolProp 8.0.0 (Heun, 4 s), machine as above.
#[test]
fn a_tail_with_and_without_heat() {
    for (gain, expected) in [(0.0, 61.93), (10.0, 72.00), (30.0, 70.93)] {
        let mut job = reference_tail(Kit::Open);
        job.system.contents = Contents::Equilibrium;
        job.system.heat_gain = watts_per_kelvin(gain);
        check(&format!("{gain} W/K"), total_minutes(&job), expected, 0.005);
    }
    check("held", total_minutes(&reference_tail(Kit::Open)), 70.60, 0.005);
}

/// 10 kg of R-22 in 0.6 ft³, 20 W/K, no metal, kit B, 0.42 cfm, vapour only to 0 psig. The liquid
/// settles near −6.2 °C, where the heat that comes in boils what is drawn. Source: as above.
#[test]
fn vapour_only_chills_the_charge_to_where_heat_and_boiling_balance() {
    let mut job = vapor_job("R-22", Kit::B, 0.42, kg(10.0), cubic_feet(0.6), 101_325.0);
    job.system.heat_gain = watts_per_kelvin(20.0);
    let answer = follow(&job).unwrap();
    check("minutes", answer.total.get::<minute>(), 54.0, 0.03);
    let trace = &answer.trace;
    let settled: Vec<f64> = (0..trace.len())
        .filter(|i| (0.5..3.0).contains(&trace.liquid_kg[*i]))
        .map(|i| trace.system_k[i] - 273.15)
        .collect();
    assert!(settled.len() > 3);
    println!("liquid at {settled:.2?} °C");
    assert!(settled.iter().all(|c| (c + 6.2).abs() < 0.5), "{settled:?}");
}
