//! Time of bands (1,000 draws: at most 300 ms), of what counts (at most 10 ms), of kits side by
//! side and of a sweep. `cargo bench --no-default-features --bench bands`.

#[path = "scenarios/mod.rs"]
mod scenarios;

use divan::{Bencher, black_box};
use narrows::compare::{Axis, DrawPlan, Prices, bands, side_by_side, sweep, what_counts};
use narrows::presets::Shelf;
use narrows::scenario::resolve;
use scenarios::{four_kits, kit_of};

fn main() {
    divan::main();
}

#[divan::bench]
fn resolving_a_kit(bencher: Bencher) {
    let document = kit_of("reference-kits", "A");
    bencher.bench(|| resolve(black_box(&document)));
}

/// The last two are choked.
#[divan::bench(
    args = ["reference-kits", "long-cord", "ice-rink-liquid", "hospital-two-ports"],
    sample_count = 8,
    sample_size = 1
)]
fn thousand_draws_of_kit_a(bencher: Bencher, scenario: &str) {
    let document = kit_of(scenario, "A");
    let plan = DrawPlan::new(1000, 1).expect("a plan");
    bencher.bench(|| bands(black_box(&document), plan, &|| false));
}

/// Kit B of the hospital opens two ports.
#[divan::bench(
    args = [("reference-kits", "A"), ("long-cord", "A"), ("ice-rink-liquid", "A"), ("hospital-two-ports", "A"), ("hospital-two-ports", "B")],
    sample_count = 40
)]
fn what_counts_of(bencher: Bencher, (scenario, kit): (&str, &str)) {
    let (document, shelf) = (kit_of(scenario, kit), Shelf::built_in().expect("the shelf"));
    bencher.bench(|| what_counts(black_box(&document), kit, &shelf, &Prices::default()));
}

#[divan::bench]
fn four_kits_side_by_side(bencher: Bencher) {
    let document = four_kits();
    bencher.bench(|| side_by_side(black_box(&document)));
}

#[divan::bench(sample_count = 8, sample_size = 1)]
fn thousand_draws_of_four_kits(bencher: Bencher) {
    let (document, plan) = (four_kits(), DrawPlan::new(1000, 1).expect("a plan"));
    bencher.bench(|| bands(black_box(&document), plan, &|| false));
}

#[divan::bench]
fn sweep_of_46_points(bencher: Bencher) {
    let document = kit_of("reference-kits", "A");
    let axis = Axis::parse("kits.A.parts.1.length=5 ft..50 ft:46").expect("an axis");
    bencher.bench(|| sweep(black_box(&document), std::slice::from_ref(&axis), &|| false));
}
