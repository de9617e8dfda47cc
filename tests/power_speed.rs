//! Prints what one solve costs: `cargo test --release --test power_speed -- --ignored --nocapture`.
//! It asserts no time; it checks only that the last answer is an answer.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may fail loudly")]

mod power_parts;

use std::hint::black_box;
use std::time::Instant;

use power_parts::*;

#[test]
#[ignore = "a measurement, not a check"]
fn print_the_cost_of_a_solve() {
    const SOLVES: u32 = 200_000;
    let (path, motor) = (roof_path(16, 100.0), motor(12.0, 60.0));
    let started = Instant::now();
    let mut last = None;
    for _ in 0..SOLVES {
        last = Some(solve_at(black_box(&path), black_box(&motor), 75.0));
    }
    let each = started.elapsed() / SOLVES;
    println!("power path solved in {} ns", each.as_nanos());
    assert!(last.is_some_and(|point| point.running.point().is_some()));
}
