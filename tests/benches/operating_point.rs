//! Time of one operating point. Run with `cargo bench --bench operating_point`.

#[path = "../support/mod.rs"]
mod support;

use std::hint::black_box;
use std::time::Instant;

use narrows::job::{Port, solve};
use support::{Kit, setup};

/// Prints the best of five rounds: other work on the machine can only add time.
fn time(what: &str, runs: u32, mut work: impl FnMut()) {
    work();
    let best = (0..5)
        .map(|_| {
            let start = Instant::now();
            (0..runs).for_each(|_| work());
            start.elapsed().as_secs_f64() / f64::from(runs)
        })
        .fold(f64::INFINITY, f64::min);
    println!("{what:<52} {:>9.1} µs", best * 1e6);
}

fn main() {
    for (what, kit, cfm, port) in [
        ("open inlet, vapour", Kit::Open, 0.42, Port::Vapor),
        ("kit A (six holes and hoses), vapour", Kit::A, 0.42, Port::Vapor),
        ("kit A, vapour, choked by a large machine", Kit::A, 4.0, Port::Vapor),
        ("kit C, vapour", Kit::C, 1.6, Port::Vapor),
        ("kit A, liquid, choked", Kit::A, 1.6, Port::Liquid),
        ("kit C, liquid", Kit::C, 0.42, Port::Liquid),
    ] {
        let setup = setup("R-410A", kit, cfm, port);
        time(what, 50, || {
            black_box(solve(black_box(&setup)).point.is_ok());
        });
    }
    let mut doubled = setup("R-410A", Kit::A, 0.42, Port::Vapor);
    let once = doubled.path.parts.clone();
    for times in [2, 4, 8] {
        while doubled.path.parts.len() < times * once.len() {
            doubled.path.parts.extend(once.iter().cloned());
        }
        time(&format!("kit A {times} times in a row, vapour"), 20, || {
            black_box(solve(black_box(&doubled)).point.is_ok());
        });
    }
}
