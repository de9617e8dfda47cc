//! Bands: against closed forms, shared draws, seeds, stopping, draws without an answer.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops where it fails")]

mod documents;

use documents::{preset, with};
use std::cell::Cell;

use narrows::compare::{Bands, Basis, DrawPlan, Figure, Verdict, bands, inputs, side_by_side};
use narrows::scenario::{self, Document};

fn drawn(document: &Document, count: usize, seed: u32) -> Bands {
    bands(document, DrawPlan::new(count, seed).unwrap(), &|| false).unwrap()
}

/// With no wire between panel and motor the motor has the panel's voltage: 120 V ± 2 %, a triangle.
/// A tenth of a triangle of half-width h lies below `mode − h (1 − √0.2)`: 120 − 2.4 · 0.55279 =
/// 118.6733 V; by symmetry nine tenths below 121.3267 V.
#[test]
fn a_band_of_volts_by_hand() {
    let document = with(preset("reference-kits"), &[("supply.branch", "none"), ("supply.cords.0", "none")]);
    let bands = drawn(&document, 256, 1);
    let band = bands.kits[0].band(Figure::RunningVoltage).unwrap();
    assert!((band.low - 118.6733).abs() < 0.02, "{}", band.low);
    assert!((band.median - 120.0).abs() < 0.02, "{}", band.median);
    assert!((band.high - 121.3267).abs() < 0.02, "{}", band.high);
    assert_eq!(band.answered, 256);
}

/// The story of the bakery: the core tool is worth it, wide hoses cannot be told from it.
#[test]
fn b_and_c_are_too_close_to_call_and_a_is_not() {
    for (id, seed) in [("bakery-freezer", 1), ("bakery-freezer", 2), ("reference-kits", 1)] {
        let bands = drawn(&preset(id), 128, seed);
        let verdict = |from, to| bands.difference(from, to).unwrap().verdict(Figure::Rate);
        assert_eq!(verdict("B", "C"), Verdict::TooClose, "{id} {seed}");
        assert_eq!(verdict("A", "B"), Verdict::More, "{id} {seed}");
        assert_eq!(verdict("A", "C"), Verdict::More, "{id} {seed}");
    }
}

/// On a large machine the same wide hoses are worth it beyond doubt.
#[test]
fn with_a_large_machine_c_is_more_than_b() {
    let document = with(preset("reference-kits"), &[("machine.displacement", "1.6 cfm")]);
    let bands = drawn(&document, 64, 1);
    assert_eq!(bands.difference("B", "C").unwrap().verdict(Figure::Rate), Verdict::More);
}

/// What kits share cancels: the band of the difference is narrower than that of two strangers.
#[test]
fn the_band_of_a_difference_is_narrower_than_the_difference_of_bands() {
    let bands = drawn(&preset("bakery-freezer"), 128, 1);
    for difference in &bands.differences {
        for figure in [Figure::Rate, Figure::MachineInlet] {
            let of =
                |name: &str| *bands.kits.iter().find(|kit| kit.name == name).unwrap().band(figure).unwrap();
            let (from, to) = (of(&difference.from), of(&difference.to));
            // Independent bands of a difference would add their widths in squares at least.
            let independent = from.width().hypot(to.width());
            let own = difference.band(figure).unwrap().width();
            assert!(own < 0.95 * independent, "{figure:?}: {own} against {independent}");
            assert!(own < (to.high - from.low) - (to.low - from.high));
        }
        // One panel for all: volts do not differ at all.
        assert_eq!(difference.verdict(Figure::RunningVoltage), Verdict::Same);
    }
}

#[test]
fn the_same_seed_gives_the_same_bits_and_another_much_the_same_band() {
    let document = preset("reference-kits");
    let (once, again, other) = (drawn(&document, 128, 5), drawn(&document, 128, 5), drawn(&document, 128, 6));
    assert_eq!(once, again);
    assert_ne!(once, other);
    for (one, other) in once.kits.iter().zip(&other.kits) {
        let (one, other) = (one.band(Figure::Rate).unwrap(), other.band(Figure::Rate).unwrap());
        assert!((one.low - other.low).abs() < 0.2 * one.width());
        assert!((one.high - other.high).abs() < 0.2 * one.width());
    }
}

/// A kit's draws are its own: another kit beside it changes none of them.
#[test]
fn another_kit_does_not_change_a_band() {
    let all = preset("reference-kits");
    let alone = Document { kits: vec![all.kits[2].clone()], ..all.clone() };
    let (all, alone) = (drawn(&all, 64, 1), drawn(&alone, 64, 1));
    assert_eq!(all.kits[2], alone.kits[0]);
}

#[test]
fn the_likely_answer_lies_in_its_band() {
    for id in ["reference-kits", "bakery-freezer", "long-cord", "museum-metric"] {
        let document = preset(id);
        let side = side_by_side(&document).unwrap();
        for (column, kit) in side.columns.iter().zip(&drawn(&document, 64, 1).kits) {
            for figure in [Figure::Rate, Figure::MachineInlet, Figure::RunningVoltage] {
                let (likely, band) = (column.headline.si(figure).unwrap(), kit.band(figure).unwrap());
                assert!(band.low <= likely && likely <= band.high, "{id} {figure:?} {likely} {band:?}");
            }
        }
    }
}

#[test]
fn stopping_keeps_what_was_drawn() {
    let asked = Cell::new(0);
    let stop_after_ten = || {
        asked.set(asked.get() + 1);
        asked.get() > 10
    };
    let document = preset("reference-kits");
    let stopped = bands(&document, DrawPlan::new(64, 1).unwrap(), &stop_after_ten).unwrap();
    assert!(stopped.stopped);
    assert_eq!(stopped.draws, 10);
    assert_eq!(stopped.kits[0].band(Figure::Rate).unwrap().answered, 10);
    let none = bands(&document, DrawPlan::new(64, 1).unwrap(), &|| true).unwrap();
    assert_eq!((none.draws, none.kits[0].band(Figure::Rate)), (0, None));
    assert_eq!(none.differences[0].verdict(Figure::Rate), Verdict::Unknown);
}

/// A cut-out just above the likely discharge trips in about half of the draws: those are counted
/// and the others still make a band. R-410A condenses at 100 °F at 318.5 psig (CoolProp, bubble point).
#[test]
fn draws_without_an_answer_are_counted() {
    let document = with(preset("reference-kits"), &[("machine.cut_out", "318.5 psig")]);
    let bands = drawn(&document, 64, 1);
    let rate = bands.kits[0].band(Figure::Rate).unwrap();
    assert!((16..=48).contains(&rate.answered), "{}", rate.answered);
    assert_eq!(bands.kits[0].band(Figure::RunningVoltage).unwrap().answered, 64);
    let trips = with(preset("reference-kits"), &[("machine.cut_out", "270 psig")]);
    let bands = drawn(&trips, 16, 1);
    assert_eq!(bands.kits[0].band(Figure::Rate), None);
    assert_eq!(bands.differences[0].verdict(Figure::Rate), Verdict::Unknown);
}

#[test]
fn a_documents_own_band_is_drawn_and_an_outgrown_one_is_not() {
    let basis_of = |document: &Document, place: &str| {
        let listed = inputs(document);
        let input = listed.into_iter().find(|input| input.places.iter().any(|one| one == place)).unwrap();
        (input.spread.low(), input.spread.high(), input.basis, input.places.len())
    };
    let document = preset("reference-kits");
    let (low, high, basis, _) = basis_of(&document, "kits.A.parts.0.bore");
    assert!((low - 1.8e-3).abs() < 1e-9 && (high - 2.8e-3).abs() < 1e-9);
    assert_eq!(basis, Basis::Document);
    let outgrown = with(document.clone(), &[("kits.A.parts.0.bore", "3 mm")]);
    let (low, high, basis, _) = basis_of(&outgrown, "kits.A.parts.0.bore");
    assert!((low - 2.7e-3).abs() < 1e-9 && (high - 3.3e-3).abs() < 1e-9);
    assert!(matches!(basis, Basis::Assumed(_)));
    // The same shelf hose in A and B is one unknown.
    assert_eq!(basis_of(&document, "kits.A.parts.1.bore").3, 2);
}

/// Every input of every scenario can be drawn without a refusal, and low, likely and high are in order.
#[test]
fn every_scenario_can_be_drawn() {
    for preset in narrows::presets::scenarios() {
        let document = scenario::read(preset.text).unwrap();
        let bands = drawn(&document, 4, 9);
        assert_eq!((bands.draws, bands.refused), (4, 0), "{}", preset.id);
        for kit in &bands.kits {
            assert!(kit.band(Figure::Rate).is_some(), "{} {}", preset.id, kit.name);
        }
        for input in inputs(&document) {
            assert!(input.spread.low() <= input.spread.likely(), "{} {}", preset.id, input.name);
            assert!(input.spread.likely() <= input.spread.high(), "{} {}", preset.id, input.name);
        }
    }
}
