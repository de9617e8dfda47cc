//! How cost grows with parts, draws and kits: a straight line is wanted.
//! `cargo bench --no-default-features --bench scaling`.
//!
//! Prints the cost at each count, the least-squares line through them and how far they lie off it.
//! Each is the best of several rounds: other work on the machine can only add time.

#[path = "scenarios/mod.rs"]
mod scenarios;
#[path = "../support/mod.rs"]
mod support;

use std::hint::black_box;
use std::time::Instant;

use narrows::compare::{DrawPlan, bands, side_by_side};
use narrows::job::{Port, solve};
use scenarios::{first_kits, kit_of};
use support::{Kit, hole, hose, setup};

/// Best time of one call, in milliseconds.
fn best_ms(rounds: u32, mut work: impl FnMut()) -> f64 {
    work();
    let round = |_| {
        let start = Instant::now();
        work();
        start.elapsed().as_secs_f64() * 1e3
    };
    (0..rounds).map(round).fold(f64::INFINITY, f64::min)
}

/// Least-squares line `cost = start + slope · count`.
fn line(points: &[(f64, f64)]) -> (f64, f64) {
    let n = points.len() as f64;
    let mean = |f: fn(&(f64, f64)) -> f64| points.iter().map(f).sum::<f64>() / n;
    let (x, y) = (mean(|p| p.0), mean(|p| p.1));
    let cross: f64 = points.iter().map(|p| (p.0 - x) * (p.1 - y)).sum();
    let slope = cross / points.iter().map(|p| (p.0 - x).powi(2)).sum::<f64>();
    (y - slope * x, slope)
}

fn print(what: &str, points: &[(f64, f64)]) {
    println!("{what}");
    for (count, ms) in points {
        println!("  {count:>6} {ms:>10.4} ms {:>10.5} ms each", ms / count);
    }
    let (start, slope) = line(points);
    let largest = points.iter().map(|p| p.1).fold(0.0, f64::max);
    let off = points.iter().map(|p| (start + slope * p.0 - p.1).abs()).fold(0.0, f64::max);
    println!("  line: {start:.4} ms + {slope:.5} ms each; at most {:.1} % off it\n", 100.0 * off / largest);
}

/// A hose and a hole in turn, wide enough not to choke.
fn cost_of_parts(count: usize) -> f64 {
    let mut setup = setup("R-410A", Kit::Open, 0.42, Port::Vapor);
    setup.path.parts =
        (0..count).map(|at| if at % 2 == 0 { hose(6.0, 5.0) } else { hole(4.2, 0.8) }).collect();
    assert!(solve(&setup).point.is_ok());
    best_ms(300, || _ = black_box(solve(black_box(&setup))))
}

fn cost_of_draws(count: usize) -> f64 {
    let (document, plan) = (kit_of("reference-kits", "A"), DrawPlan::new(count, 1).expect("a plan"));
    best_ms(6, || _ = black_box(bands(black_box(&document), plan, &|| false)))
}

fn main() {
    let points = |counts: &[usize], cost: &dyn Fn(usize) -> f64| -> Vec<(f64, f64)> {
        counts.iter().map(|&count| (count as f64, cost(count))).collect()
    };
    print("parts in a row, one operating point", &points(&[1, 2, 4, 6, 8, 12, 16], &cost_of_parts));
    print("draws, bands of one kit", &points(&[100, 250, 500, 1000, 2000, 4000], &cost_of_draws));
    print(
        "kits side by side",
        &points(&[1, 2, 3, 4], &|count| {
            let document = first_kits(count);
            best_ms(100, || _ = black_box(side_by_side(black_box(&document))))
        }),
    );
}
