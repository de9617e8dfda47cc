//! Time of bands, of what counts and of a sweep. Run with `cargo bench --bench bands`.

use std::hint::black_box;
use std::time::Instant;

use narrows::compare::{Axis, DrawPlan, Prices, bands, sweep, what_counts};
use narrows::presets::{Shelf, built_in_scenario};
use narrows::scenario::{Document, read, resolve};

/// Prints the best of five rounds: other work on the machine can only add time.
fn time(what: &str, target: &str, mut work: impl FnMut()) {
    work();
    let best = (0..5)
        .map(|_| {
            let start = Instant::now();
            work();
            start.elapsed().as_secs_f64()
        })
        .fold(f64::INFINITY, f64::min);
    println!("{what:<58} {:>9.2} ms  {target}", best * 1e3);
}

fn document(id: &str, kits: &[usize]) -> Document {
    let mut document = read(built_in_scenario(id).expect("built in")).expect("reads");
    let all = std::mem::take(&mut document.kits);
    document.kits =
        all.into_iter().enumerate().filter(|(at, _)| kits.contains(at)).map(|(_, kit)| kit).collect();
    document
}

fn main() {
    let plan = DrawPlan::new(1000, 1).expect("a plan");
    let one = document("reference-kits", &[0]);
    time("resolving one kit, 1000 times", "", || {
        for _ in 0..1000 {
            black_box(resolve(black_box(&one)).is_ok());
        }
    });
    for (what, id, kits) in [
        ("1000 draws, kit A (six holes and hoses), vapour", "reference-kits", &[0][..]),
        ("1000 draws, kits A, B and C", "reference-kits", &[0, 1, 2]),
        ("1000 draws, kit A with an induction motor", "long-cord", &[0]),
    ] {
        let document = document(id, kits);
        time(what, "one kit: at most 300 ms", || {
            black_box(bands(black_box(&document), plan, &|| false).is_ok());
        });
    }
    let shelf = Shelf::built_in().expect("the shelf");
    for (what, id) in [
        ("what counts, kit A of the reference kits", "reference-kits"),
        ("what counts, kit A on the long cord", "long-cord"),
        ("what counts, two ports", "hospital-two-ports"),
    ] {
        let document = document(id, &[0, 1]);
        let name =
            document.kits.last().filter(|_| id == "hospital-two-ports").map_or("A", |kit| kit.name.as_str());
        time(what, "at most 10 ms", || {
            black_box(what_counts(black_box(&document), name, &shelf, &Prices::default()).is_ok());
        });
    }
    let axis = Axis::parse("kits.A.parts.1.length=5 ft..50 ft:46").expect("an axis");
    time("sweep of 46 points, one kit", "", || {
        black_box(sweep(black_box(&one), std::slice::from_ref(&axis), &|| false).is_ok());
    });
}
