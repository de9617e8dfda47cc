//! What counts: the order of things in kit A, ideals against kits without the part, changes.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops where it fails")]

mod documents;

use documents::{preset, with};
use narrows::compare::{
    CompareError, Figure, Group, Headline, Prices, Row, ToStart, WhatCounts, what_counts,
};
use narrows::job::solve;
use narrows::kit::PartKind;
use narrows::power::StartOutcome;
use narrows::presets::{Shelf, scenarios};
use narrows::scenario::{self, Document};

fn ranked(document: &Document, kit: &str) -> WhatCounts {
    what_counts(document, kit, &Shelf::built_in().unwrap(), &Prices::default()).unwrap()
}

fn solved(document: &Document, kit: &str) -> Headline {
    let setups = scenario::resolve(document).unwrap();
    Headline::of(&solve(&setups.iter().find(|one| one.name == kit).unwrap().setup))
}

fn rate(headline: &Headline) -> f64 {
    headline.si(Figure::Rate).unwrap()
}

#[track_caller]
fn check_same(got: &Headline, expected: &Headline) {
    for figure in [Figure::Rate, Figure::MachineInlet, Figure::RunningVoltage, Figure::StartingVoltage] {
        let (got, expected) = (got.si(figure).unwrap(), expected.si(figure).unwrap());
        assert!((got / expected - 1.0).abs() < 1e-5, "{figure:?}: {got}, expected {expected}");
    }
}

/// The agreed order of the story: core, then the self-sealing end, then seats and hoses.
#[test]
fn in_kit_a_the_core_counts_most_and_the_end_next() {
    for id in ["bakery-freezer", "reference-kits"] {
        let counts = ranked(&preset(id), "A");
        let parts: Vec<&Row> = counts.rows.iter().filter(|row| row.group == Group::Path).collect();
        let kinds: Vec<_> = parts.iter().map(|row| row.kind.unwrap()).collect();
        assert_eq!(kinds[..2], [PartKind::ValveCore, PartKind::SelfSealingEnd], "{id}: {kinds:?}");
        assert!(counts.rows[0].kind == Some(PartKind::ValveCore), "{id}");
        let rest = |kind: PartKind| kinds[2..].iter().filter(|one| **one == kind).count();
        assert_eq!((rest(PartKind::GaugeSet), rest(PartKind::Hose)), (1, 2), "{id}: {kinds:?}");
    }
}

/// One small hole costs more than 20 ft of hose.
#[test]
fn the_core_costs_more_than_twenty_feet_of_hose() {
    let document = preset("reference-kits");
    let counts = ranked(&document, "A");
    let stretched = solved(&with(&document, &[("kits.A.parts.1.length", "25 ft")]), "A");
    let core = counts.gain(&counts.row("kits.A.parts.0").unwrap().without).rate_kg_s.unwrap();
    assert!(core > rate(&counts.base) - rate(&stretched), "{core}");
}

/// An ideal part is one that is not there, and so is an ideal cord.
#[test]
fn ideal_is_as_good_as_not_there() {
    let document = preset("long-cord");
    let counts = ranked(&document, "A");
    check_same(&counts.base, &solved(&document, "A"));
    for id in ["kits.A.parts.0", "kits.A.parts.2", "kits.A.parts.4", "supply.cords.0", "supply.branch"] {
        let without = solved(&with(&document, &[(id, "none")]), "A");
        check_same(&counts.row(id).unwrap().without, &without);
    }
}

/// "Only this" is a kit of that one part, with nothing else in the way.
#[test]
fn only_this_leaves_that_part_alone() {
    let document = preset("reference-kits");
    let counts = ranked(&document, "A");
    let bare = [
        ("kits.A.parts.4", "none"),
        ("kits.A.parts.3", "none"),
        ("kits.A.parts.2", "none"),
        ("kits.A.parts.1", "none"),
        ("machine.condenser.condensing_temperature", "75 degF"),
        ("cylinder.temperature", "32 degF"),
        ("supply.branch", "none"),
        ("supply.cords.0", "none"),
    ];
    let core_alone = solved(&with(&document, &bare), "A");
    check_same(&counts.row("kits.A.parts.0").unwrap().only_this, &core_alone);
    let nothing = solved(&with(with(&document, &bare), &[("kits.A.parts.0", "none")]), "A");
    check_same(&counts.ideal, &nothing);
}

/// Taking a loss away never lowers the rate, and no single one brings more than all together.
#[test]
fn no_ideal_makes_it_worse() {
    for preset in scenarios() {
        let document = scenario::read(preset.text).unwrap();
        for kit in &document.kits {
            let counts = ranked(&document, &kit.name);
            let all = counts.gain(&counts.ideal);
            // The solver's own error, as a share of the rate.
            let slack = 1e-5 * rate(&counts.ideal);
            for row in &counts.rows {
                let gain = counts.gain(&row.without).rate_kg_s.unwrap();
                assert!(gain > -slack, "{} {} {}: {gain}", preset.id, kit.name, row.id);
                assert!(gain < all.rate_kg_s.unwrap() + slack, "{} {} {}", preset.id, kit.name, row.id);
                // A cold source alone is no loss where nothing narrows the way: colder liquid is denser.
                if row.id == "source.temperature" {
                    continue;
                }
                let only_this = rate(&row.only_this);
                assert!(only_this < rate(&counts.ideal) + slack, "{} {} {}", preset.id, kit.name, row.id);
                assert!(only_this > rate(&counts.base) - slack, "{} {} {}", preset.id, kit.name, row.id);
            }
            let is_condition = |row: &Row| row.group == Group::Condition;
            for pair in counts.rows.windows(2) {
                assert!(is_condition(&pair[0]) <= is_condition(&pair[1]), "conditions come last");
                if is_condition(&pair[0]) != is_condition(&pair[1]) {
                    continue;
                }
                let gain = |row: &Row| counts.gain(&row.without).rate_kg_s.unwrap();
                assert!(gain(&pair[0]) > gain(&pair[1]) - slack, "{} {}", preset.id, kit.name);
            }
        }
    }
}

/// Behind one restriction the next one hides: on a large machine the gains one by one fall far
/// short of the gain of all.
#[test]
fn gains_do_not_add_up() {
    let document = with(preset("reference-kits"), &[("machine.displacement", "1.6 cfm")]);
    let counts = ranked(&document, "A");
    let all = counts.gain(&counts.ideal).rate_kg_s.unwrap();
    assert!(counts.sum_of_gains_kg_s() < 0.8 * all, "{} of {all}", counts.sum_of_gains_kg_s());
}

#[test]
fn the_first_change_is_the_core_and_the_pair_brings_more() {
    let counts = ranked(&preset("bakery-freezer"), "A");
    assert_eq!(counts.best_change.as_deref(), Some("kits.A.parts.0"));
    let single = counts.row("kits.A.parts.0").unwrap().better.as_ref().unwrap();
    assert_eq!(single.words, "Take the core out (4.2 mm bore)");
    let pair = counts.best_pair.as_ref().unwrap();
    assert_eq!(pair.rows, ["kits.A.parts.0", "kits.A.parts.4"]);
    assert!(rate(&pair.headline) > rate(&single.headline));
    let edits = [
        (
            "kits.A.parts.0",
            "Stem(bore: \"4.2 mm\", discharge_coefficient: \"0.8\", pressure_recovery: \"1\")",
        ),
        (
            "kits.A.parts.4",
            "BallValve(bore: \"4.2 mm\", discharge_coefficient: \"0.8\", pressure_recovery: \"1\")",
        ),
    ];
    check_same(&pair.headline, &solved(&with(preset("bakery-freezer"), &edits), "A"));
}

#[test]
fn a_filter_drier_is_freshened_and_never_left_out() {
    let document = preset("school-kitchen");
    let counts = ranked(&document, "A");
    let drier = counts.rows.iter().find(|row| row.kind == Some(PartKind::FilterDrier)).unwrap();
    assert_eq!(drier.better.as_ref().unwrap().words, "Fit a fresh one");
    assert_eq!(counts.best_change.as_ref(), Some(&drier.id), "a loaded drier is what to change first");
    let fresh = ranked(
        &with(
            &document,
            &[(&format!("{}.state", drier.id), "clean"), (&format!("{}.area_left", drier.id), "none")],
        ),
        "A",
    );
    let drier = fresh.rows.iter().find(|row| row.kind == Some(PartKind::FilterDrier)).unwrap();
    assert!(drier.better.is_none());
}

/// On the long cord the cord is what the volts hang on.
#[test]
fn the_cord_counts_in_volts() {
    let counts = ranked(&preset("long-cord"), "A");
    let volts = |row: &Row| counts.gain(&row.without).running_v.unwrap();
    let most = counts.rows.iter().max_by(|a, b| volts(a).total_cmp(&volts(b))).unwrap();
    assert_eq!(most.id, "supply.cords.0");
    let better = most.better.as_ref().unwrap();
    assert!(better.words.contains("12 AWG"), "{}", better.words);
    let thicker = with(preset("long-cord"), &[("supply.cords.0.gauge", "12 AWG")]);
    check_same(&better.headline, &solved(&thicker, "A"));
    assert_eq!(counts.to_start.change().unwrap().row, "supply.cords.0", "it may not start as it is");
    assert_eq!(ranked(&preset("bakery-freezer"), "A").to_start, ToStart::AsItIs);
}

/// A motor that cannot hold has no rate; what lets it run gains a rate from standstill.
#[test]
fn where_there_is_no_rate_a_change_gains_one() {
    let document =
        with(preset("long-cord"), &[("supply.cords.0.length", "600 ft"), ("supply.voltage", "105 V")]);
    let counts = ranked(&document, "A");
    assert_eq!(counts.base.rate, None);
    let cord = counts.row("supply.cords.0").unwrap();
    assert!(cord.without.rate.is_some());
    assert_eq!(counts.gain(&cord.without).rate_kg_s, Some(rate(&cord.without)));
    assert_eq!(counts.rows[0].id, "supply.cords.0");
}

#[test]
fn prices_make_a_cost_for_what_is_gained() {
    let document = preset("bakery-freezer");
    let shelf = Shelf::built_in().unwrap();
    let mut prices = Prices::default();
    prices.set("kits.A.parts.0", 25.0).unwrap();
    let counts = what_counts(&document, "A", &shelf, &prices).unwrap();
    let better = counts.row("kits.A.parts.0").unwrap().better.as_ref().unwrap();
    let gained = rate(&better.headline) - rate(&counts.base);
    assert_eq!(counts.price_per_rate(better), Some(25.0 / gained));
    assert_eq!(counts.pay_back_jobs(better), None, "no minutes, no pay-back");
    prices.set("kits.B.parts.0", 10.0).unwrap();
    assert!(what_counts(&document, "A", &shelf, &prices).is_ok(), "a price may belong to another kit");
    prices.set("kits.D.parts.0", 10.0).unwrap();
    let error = what_counts(&document, "A", &shelf, &prices).unwrap_err();
    assert!(matches!(&error, CompareError::Price { row, .. } if row == "kits.D.parts.0"), "{error}");
}

/// On the roof 12 AWG leaves the start in doubt and 10 AWG does not: set in the document, what is named starts
/// the motor, and the thinner one does not.
#[test]
fn the_change_to_start_does_start_the_motor() {
    let document = preset("long-cord");
    let starts = |gauge: &str| {
        let document = with(&document, &[("supply.cords.0.gauge", gauge)]);
        let kits = scenario::resolve(&document).unwrap();
        matches!(solve(&kits[0].setup).power.unwrap().starting.outcome, StartOutcome::Starts)
    };
    let counts = ranked(&document, "A");
    let start = counts.to_start.change().unwrap();
    let (thin, thick) = ("12 AWG", "10 AWG");
    assert_eq!([starts("16 AWG"), starts(thin), starts(thick)], [false, false, true]);
    assert_eq!(start.row, "supply.cords.0");
    assert!(start.better.words.contains(thick), "{}", start.better.words);
    check_same(&start.better.headline, &solved(&with(&document, &[("supply.cords.0.gauge", thick)]), "A"));
}

/// A generator of 2,200 VA for a motor that asks for 60 A · 115 V = 6,900 VA: even plugged straight in it does
/// not start, so no cord lets it.
#[test]
fn no_cord_makes_up_for_a_generator_that_is_too_small() {
    let generator = "(continuous: \"1800 VA\", surge: \"2200 VA\")";
    let document = with(preset("long-cord"), &[("supply.branch", "none"), ("supply.generator", generator)]);
    let counts = ranked(&document, "A");
    let cord = counts.row("supply.cords.0").unwrap().better.as_ref().unwrap();
    let volts = counts.gain(&cord.headline).starting_v.unwrap();
    assert!(volts > 0.0, "{volts}");
    assert_eq!(counts.to_start, ToStart::NoChange);
}
