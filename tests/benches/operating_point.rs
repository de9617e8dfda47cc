//! Time of one operating point; at most 0.3 ms for six parts. Volts are solved with it.
//! `cargo bench --no-default-features --bench operating_point`.

#[path = "../power_parts/mod.rs"]
mod power_parts;
#[path = "../support/mod.rs"]
mod support;

use divan::{Bencher, black_box};
use narrows::job::{Port, Setup, meeting_curves, solve};
use support::{Kit, setup, two_ports};

fn main() {
    divan::main();
}

const VAPOR: [(&str, Kit, f64); 4] = [
    ("no parts", Kit::Open, 0.42),
    ("kit A (six holes and hoses)", Kit::A, 0.42),
    ("kit A, choked by a large machine", Kit::A, 4.0),
    ("kit C", Kit::C, 1.6),
];
const LIQUID: [(&str, Kit, f64); 2] = [("kit A, choked", Kit::A, 1.6), ("kit C", Kit::C, 0.42)];

/// A case by its name: divan prints what it is handed.
fn named(cases: &[(&str, Kit, f64)], name: &str, port: Port) -> Setup {
    let (_, kit, cfm) = *cases.iter().find(|case| case.0 == name).expect("a case");
    setup("R-410A", kit, cfm, port)
}

fn point(bencher: Bencher, setup: &Setup) {
    assert!(solve(setup).point.is_ok());
    bencher.bench(|| solve(black_box(setup)));
}

#[divan::bench(args = VAPOR.map(|case| case.0))]
fn vapour(bencher: Bencher, name: &str) {
    point(bencher, &named(&VAPOR, name, Port::Vapor));
}

#[divan::bench(args = LIQUID.map(|case| case.0))]
fn liquid(bencher: Bencher, name: &str) {
    point(bencher, &named(&LIQUID, name, Port::Liquid));
}

#[divan::bench(args = [0.42, 4.0])]
fn two_vapour_ports_kits_a_and_b(bencher: Bencher, cfm: f64) {
    point(bencher, &two_ports("R-410A", (Kit::A, Kit::B), cfm, (Port::Vapor, Port::Vapor)));
}

#[divan::bench(args = [0.42, 4.0])]
fn liquid_and_vapour_port_kits_a_and_b(bencher: Bencher, cfm: f64) {
    point(bencher, &two_ports("R-410A", (Kit::A, Kit::B), cfm, (Port::Liquid, Port::Vapor)));
}

#[divan::bench(args = [1, 2])]
fn meeting_curves_of_60_points(bencher: Bencher, ports: usize) {
    let setup = match ports {
        1 => setup("R-410A", Kit::A, 0.42, Port::Vapor),
        _ => two_ports("R-410A", (Kit::A, Kit::B), 0.42, (Port::Vapor, Port::Vapor)),
    };
    bencher.bench(|| meeting_curves(black_box(&setup), 60));
}

/// Volts and amps alone, running and starting.
#[divan::bench]
fn power_path(bencher: Bencher) {
    let (path, motor) = (power_parts::roof_path(16, 100.0), power_parts::motor(12.0, 60.0));
    bencher.bench(|| power_parts::solve_at(black_box(&path), black_box(&motor), 75.0));
}
