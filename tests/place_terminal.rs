//! `narrows place` as a person or a program runs it.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops where it fails")]

mod terminal_support;

use serde_json::Value;
use terminal_support::{narrows, refused};

fn place<'a>(arguments: &[&'a str]) -> Vec<&'a str> {
    [&["place"][..], arguments].concat()
}

fn text(arguments: &[&str]) -> String {
    terminal_support::text(&place(arguments))
}

fn json(arguments: &[&str]) -> Value {
    terminal_support::json(&place(arguments))
}

#[track_caller]
fn check_refused(arguments: &[&str], expected: &[&str]) {
    refused(&narrows(&place(arguments)), expected);
}

#[test]
fn the_table_says_what_to_do_and_holds_every_place() {
    let table = text(&["long-cord", "--kits", "A", "--draws", "16"]);
    for said in [
        "Where to put the machine, kit A",
        "To do",
        "Put the machine at 105 ft of hose, plugged straight in",
        "the motor may not start",
        "no shorter than 3 ft",
        "> 5 ft",
        "today",
        "highest rate",
        "From 3 ft to",
        "planning estimate",
    ] {
        // Sentences are wrapped.
        let table = table.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(table.contains(said), "{said:?} is not in:\n{table}");
    }
    let si = text(&["museum-metric", "--draws", "0", "--units", "si"]);
    assert!(si.contains("kg/min") && si.contains("no shorter than 1 m") && !si.contains("Certainty"), "{si}");
}

/// Today's place has the bits of `solve`; another one those of `solve` with its edits set.
#[test]
fn programs_get_the_numbers_of_solve() {
    let value = json(&["long-cord", "--kits", "A", "--steps", "3", "--draws", "16", "--json"]);
    let kit = &value["kits"][0];
    let places = kit["places"].as_array().unwrap();
    assert_eq!(places.len(), 4, "three and today's");
    for place in places {
        let edits = place["edits"].as_array().unwrap();
        let mut arguments = vec!["solve", "long-cord", "--json"];
        for edit in edits {
            arguments.extend(["--set", edit.as_str().unwrap()]);
        }
        let output = narrows(&arguments);
        let solved: Value = serde_json::from_slice(&output.stdout).unwrap();
        let solved = &solved["kits"][0];
        assert_eq!(place["rate_kg_s"], solved["rate_kg_s"]);
        assert_eq!(place["machine_inlet_pa"], solved["machine_inlet_pa"]);
        for field in ["running_v", "running_a", "starting_v", "running", "starting_words"] {
            assert_eq!(place[field], solved["supply"][field], "{field}");
        }
    }
    assert!(places[kit["today"].as_u64().unwrap() as usize]["edits"].as_array().unwrap().is_empty());
    let advised = kit["advised"].as_u64().unwrap() as usize;
    assert_eq!(places[advised]["cord_m"], 0.0);
    assert_eq!(places[advised]["troubles"].as_array().unwrap().len(), 0);
    assert_eq!(kit["rate_difference"]["verdict"], "less");
}

#[test]
fn a_hose_and_a_cord_can_be_named() {
    let hose = ["long-cord", "--kits", "A", "--hose", "parts.3", "--cord", "1", "--draws", "0", "--json"];
    assert_eq!(json(&hose)["kits"][0]["hose"]["path"], "kits.A.parts.3");
    let ends = ["long-cord", "--shortest-hose", "1 m", "--shortest-cord", "25 ft", "--draws", "0", "--json"];
    let value = json(&ends);
    let places = value["kits"][0]["places"].as_array().unwrap();
    // 1 m is more than 3 ft, 0.9144 m.
    assert!((places[0]["hose_m"].as_f64().unwrap() - 1.0).abs() < 1e-9);
    assert!((places.last().unwrap()["cord_m"].as_f64().unwrap() - 25.0 * 0.3048).abs() < 1e-9);
}

#[test]
fn what_cannot_be_moved_is_said_in_words() {
    let straight = text(&["ice-rink-liquid", "--draws", "0"]);
    assert!(straight.contains("plugged straight into the receptacle"), "{straight}");
    let none = ["long-cord", "--set", "supply.cords=none", "--kits", "A", "--json"];
    assert!(json(&none)["kits"][0]["no_way"].as_str().unwrap().contains("no cord"));
    let hard = ["long-cord", "--kits", "A", "--set", "kits.A.parts.3=none", "--set", "kits.A.parts.1=none"];
    assert!(text(&hard).contains("has no hose in front of its machine"));
}

/// A Stop withholds rates, and with them any advice by rate; the volts stand.
#[test]
fn a_stop_withholds_the_rates_of_all_places() {
    let value = json(&["long-cord", "--set", "machine.suitable_for=A3", "--kits", "A", "--json"]);
    let kit = &value["kits"][0];
    assert!(kit["advised"].is_null() && kit["fastest"].is_null() && kit["rate_difference"].is_null());
    for place in kit["places"].as_array().unwrap() {
        assert!(place["rate_kg_s"].is_null() && place["machine_inlet_pa"].is_null());
        assert!(place["running_v"].is_f64());
        assert!(place["no_answer"].as_str().unwrap().contains("not marked"));
    }
}

/// So much load that no place holds it: words, no numbers, no panic.
#[test]
fn where_no_motor_runs_it_is_said() {
    let table = text(&["long-cord", "--set", "supply.voltage=80 V", "--kits", "A", "--draws", "16"]);
    assert!(table.contains("No place on this way will do"), "{table}");
}

#[test]
fn what_there_is_not_is_refused() {
    check_refused(&["long-cord", "--hose", "x"], &["hose \"x\"", "no such hose", "parts.1", "parts.3"]);
    check_refused(&["long-cord", "--cord", "2"], &["cord 2", "expected 1 to 1"]);
    check_refused(&["ice-rink-liquid", "--cord", "1"], &["cord 1", "has no cord"]);
    check_refused(&["long-cord", "--steps", "1"], &["1 places", "2 to 1000"]);
    check_refused(&["long-cord", "--kits", "Z"], &["\"Z\"", "A, B"]);
    check_refused(&["long-cord", "--draws", "1"], &["1 draws", "2 to"]);
    check_refused(&["long-cord", "--shortest-hose", "3"], &["--shortest-hose", "3", "no unit"]);
    check_refused(&["long-cord", "--shortest-cord", "-3 ft"], &["--shortest-cord", "-3 ft", "0 or more"]);
    check_refused(
        &["long-cord", "--set", "supply.cords.0.length=-1 ft"],
        &["supply.cords.0.length", "-1 ft"],
    );
    check_refused(&["no-such-file"], &["no-such-file"]);
}

/// Where the generator is too small no cord helps, however near the receptacle: the generator is named.
#[test]
fn a_generator_that_is_too_small_is_not_blamed_on_the_cord() {
    let generator = "supply.generator=(continuous: \"1800 VA\", surge: \"2200 VA\")";
    let weak =
        ["long-cord", "--kits", "A", "--draws", "0", "--set", "supply.branch=none", "--set", generator];
    let table = text(&weak).split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(table.contains("No place on this way will do"), "{table}");
    assert!(table.contains("Most volts are lost in the generator: a larger generator"), "{table}");
    assert!(!table.contains("hicker cord"), "{table}");
}
