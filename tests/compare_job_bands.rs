//! Bands of whole jobs and of gains: against each other, seeds, chunks, cancelling.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops where it fails")]

mod documents;

use documents::preset;
use narrows::compare::{
    Bands, Basis, Depth, DrawPlan, Drawing, Figure, GainDrawing, Prices, Verdict, inputs, what_counts,
};
use narrows::kit::Rules;
use narrows::presets::{Shelf, built_in_rules};
use narrows::scenario::{self, Document};

fn kits(document: &Document, names: &[&str]) -> Document {
    let kits = names.iter().map(|name| document.kit(name).unwrap().clone()).collect();
    Document { kits, ..document.clone() }
}

fn plan(count: usize, seed: u32) -> DrawPlan {
    DrawPlan::new(count, seed).unwrap()
}

fn job_bands(document: &Document, rules: &Rules, count: usize, seed: u32) -> Bands {
    let mut drawing = Drawing::new(document, plan(count, seed), Depth::WholeJob(rules)).unwrap();
    while drawing.step() {}
    drawing.bands()
}

#[test]
fn the_same_seed_gives_the_same_band_however_it_is_chunked() {
    let (document, rules) = (kits(&preset("bakery-freezer"), &["A", "B"]), built_in_rules().unwrap());
    let at_once = job_bands(&document, &rules, 10, 3);
    let mut chunked = Drawing::new(&document, plan(10, 3), Depth::WholeJob(&rules)).unwrap();
    for chunk in [1, 4, 2, 3] {
        (0..chunk).for_each(|_| assert!(chunked.step()));
        // Looking at it on the way changes nothing.
        assert!(chunked.made() == 10 || chunked.bands().stopped);
    }
    assert!(!chunked.step());
    assert_eq!(chunked.bands(), at_once);
    assert_ne!(job_bands(&document, &rules, 10, 4), at_once);
    let time = at_once.kits[0].band(Figure::Minutes).unwrap();
    assert!(time.low < time.median && time.median < time.high);
    assert_eq!(at_once.kits[0].band(Figure::Rate), None, "jobs only");
}

/// A copy of a kit is the same kit: not a bit of difference in time, mass or cylinders. Kits share
/// draws, so the band of a difference is narrower than that of two strangers.
#[test]
fn a_copy_takes_exactly_as_long_and_differences_are_narrow() {
    let mut document = kits(&preset("bakery-freezer"), &["A", "B"]);
    let copy = narrows::kit::Kit { name: "Z".to_owned(), ..document.kits[0].clone() };
    document.kits.push(copy);
    let bands = job_bands(&document, &built_in_rules().unwrap(), 24, 1);
    for figure in [Figure::Minutes, Figure::Recovered, Figure::Cylinders] {
        assert_eq!(bands.difference("A", "Z").unwrap().verdict(figure), Verdict::Same, "{figure:?}");
    }
    let of =
        |name: &str| *bands.kits.iter().find(|kit| kit.name == name).unwrap().band(Figure::Minutes).unwrap();
    let difference = bands.difference("A", "B").unwrap();
    let own = difference.band(Figure::Minutes).unwrap().width();
    let (a, b) = (of("A"), of("B"));
    assert!(own < 0.95 * a.width().hypot(b.width()), "{own}");
    assert!(own < (b.high - a.low) - (b.low - a.high));
    assert_eq!(difference.verdict(Figure::Minutes), Verdict::Less, "B is sooner");
}

/// A tail is vapour alone, so what it recovers goes with the system's volume, a triangle of ±15 %: a tenth
/// lies below `1 − 0.15 (1 − √0.2)` = 0.9171. Its time depends on the machine and the parts too.
#[test]
fn what_a_tail_recovers_goes_with_the_volume() {
    let rules = built_in_rules().unwrap();
    let document = kits(&preset("reference-tail"), &["C"]);
    let volume = |document: &Document| {
        let listed = inputs(document);
        let input = listed.iter().find(|input| input.places.contains(&"source.volume".to_owned())).unwrap();
        (input.spread.low(), input.spread.high())
    };
    let (low, high) = volume(&document);
    assert!((high / low - 1.15 / 0.85).abs() < 1e-9);
    let bands = job_bands(&document, &rules, 32, 1);
    let time = bands.kits[0].band(Figure::Minutes).unwrap();
    let mass = bands.kits[0].band(Figure::Recovered).unwrap();
    // Displacement ±8 %, volume ±15 %, losses: wider than the volume alone, and not absurdly so.
    let ratio = time.high / time.low;
    assert!((1.18..1.6).contains(&ratio), "{ratio}");
    // What is recovered goes with the volume and the source's pressure, hardly with anything else:
    // 0.9171 and 1.0829 by the volume, some 2 % more by ±3 °F on the pressure.
    assert!((mass.low / mass.median - 0.917).abs() < 0.04, "{mass:?}");
    assert!((mass.high / mass.median - 1.083).abs() < 0.04, "{mass:?}");
}

/// A document's own band of the charge is drawn, not the assumed one.
#[test]
fn a_documents_band_of_the_charge_is_drawn() {
    let mut document = preset("ice-rink-liquid");
    scenario::set(&mut document, "charge_band", "23 %").unwrap();
    let listed = inputs(&document);
    let charge = listed.iter().find(|input| input.places.contains(&"source.charge".to_owned())).unwrap();
    let likely = document.source.charge.as_ref().unwrap().si();
    assert!((charge.spread.low() / likely - 0.77).abs() < 1e-9);
    assert!((charge.spread.high() / likely - 1.23).abs() < 1e-9);
    assert_eq!(charge.basis, Basis::Document);
}

/// What counts says of a change what side by side says of the kit with that change: the same draws.
#[test]
fn a_changes_band_is_that_of_the_two_kits_side_by_side() {
    let document = kits(&preset("bakery-freezer"), &["A"]);
    let rules = built_in_rules().unwrap();
    let shelf = Shelf::built_in().unwrap();
    let counts = what_counts(&document, "A", &shelf, &Prices::default()).unwrap();
    let mut both = document.clone();
    let mut changed = narrows::kit::Kit { name: "Z".to_owned(), ..document.kits[0].clone() };
    changed.parts[0] = shelf.part("stem-quarter").unwrap().taken();
    both.kits.push(changed);
    let mut without = narrows::kit::Kit { name: "Y".to_owned(), ..document.kits[0].clone() };
    without.parts.remove(2);
    both.kits.push(without);
    for (depth, count, figure) in
        [(Depth::Point, 48, Figure::Rate), (Depth::WholeJob(&rules), 8, Figure::Minutes)]
    {
        let mut gains = GainDrawing::new(&document, &counts, plan(count, 1), depth).unwrap();
        while gains.step() {}
        let mut beside = Drawing::new(&both, plan(count, 1), depth).unwrap();
        while beside.step() {}
        let (gains, beside) = (gains.bands(), beside.bands());
        for (row, kit) in [("kits.A.parts.0", "Z"), ("kits.A.parts.2", "Y")] {
            let one = gains.row(row).unwrap().change.as_ref().unwrap().band(figure).unwrap();
            let other = beside.difference("A", kit).unwrap().band(figure).unwrap();
            let slack = 1e-3 * other.width();
            assert!((one.low - other.low).abs() < slack, "{row} {figure:?}: {one:?} {other:?}");
            assert!((one.high - other.high).abs() < slack, "{row} {figure:?}: {one:?} {other:?}");
        }
    }
}

/// The core's gain is certain in kit A, a wider hose's is not; made ideal, no gain is negative.
#[test]
fn gains_have_bands() {
    let document = kits(&preset("bakery-freezer"), &["A"]);
    let counts = what_counts(&document, "A", &Shelf::built_in().unwrap(), &Prices::default()).unwrap();
    let mut drawing = GainDrawing::new(&document, &counts, plan(64, 1), Depth::Point).unwrap();
    while drawing.step() {}
    let gains = drawing.bands();
    assert_eq!(gains.draws, 64);
    assert_eq!(gains.rows.len(), counts.rows.len());
    let change = |id: &str| gains.row(id).unwrap().change.as_ref().unwrap().verdict(Figure::Rate);
    assert_eq!(change("kits.A.parts.0"), Verdict::More);
    assert_eq!(change("kits.A.parts.1"), Verdict::TooClose, "a wider hose");
    for row in &counts.rows {
        let ideal = &gains.row(&row.id).unwrap().ideal;
        let band = ideal.band(Figure::Rate).unwrap();
        let slack = 1e-6 * counts.base.si(Figure::Rate).unwrap();
        assert!(band.low > -slack, "{}: {band:?}", row.id);
        let likely = counts.gain(&row.without).rate_kg_s.unwrap();
        assert!(band.low - slack <= likely && likely <= band.high + slack, "{}: {likely} {band:?}", row.id);
    }
    let cord = &gains.row("supply.cords.0").unwrap().ideal;
    assert_eq!(cord.verdict(Figure::RunningVoltage), Verdict::More);
}
