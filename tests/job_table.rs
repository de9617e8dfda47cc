//! Words of the table of whole jobs.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops where it fails")]

mod documents;

use documents::{preset, with};
use narrows::presets::built_in_rules;
use narrows::report::{jobs_table, solve_jobs};
use narrows::units::UnitSet;

/// The table in one line, for its sentences are wrapped.
fn table(edits: &[(&str, &str)]) -> String {
    let document = with(preset("bakery-freezer"), edits);
    let jobs = solve_jobs(&document, &built_in_rules().unwrap(), &|| false).unwrap();
    let table = jobs_table(&document, &jobs, UnitSet::US_TRADE);
    table.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// By a limit of one's own of 30 lb: 40 lb are past it, 30 lb are there, 20 lb leave 10 lb; only a missing
/// tare is called missing.
#[test]
fn a_cylinder_says_where_it_stands_against_its_limit() {
    let marked = |contents: &str, tare: &str| {
        table(&[
            ("cylinder.marking_limit", "30 lb"),
            ("cylinder.contents", contents),
            ("cylinder.tare", tare),
            ("cylinder.refrigerant", "R-404A"),
        ])
    };
    let over = marked("40 lb", "27.5 lb");
    assert!(over.contains("holds 40.0 lb, more than its limit of 30.0 lb"), "{over}");
    assert!(over.contains("no cylinder that may be filled") && over.contains("by 10.0 lb"), "{over}");
    assert!(!over.contains("no tare") && !over.contains("Number of cylinders"), "{over}");
    // A hundredth of a pound is less than three digits show.
    assert!(marked("30.01 lb", "27.5 lb").contains("is past its limit of 30.0 lb"));
    let full = marked("30 lb", "27.5 lb");
    assert!(full.contains("is at its limit of 30.0 lb already") && !full.contains("no tare"), "{full}");
    assert!(marked("20 lb", "27.5 lb").contains("stop at 57.5 lb gross"));
    assert!(marked("20 lb", "none").contains("room for 10.0 lb (no tare given)"));
}

/// A damaged cylinder has a limit and may take nothing: no weight to stop at.
#[test]
fn a_cylinder_under_another_stop_names_no_weight() {
    let damaged = table(&[("cylinder.damaged", "yes")]);
    assert!(damaged.contains("may not be filled, see Stop") && !damaged.contains("gross"), "{damaged}");
}
