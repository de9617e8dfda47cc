//! The document's file, its edits and its checks, from outside.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops where it fails")]

use narrows::scenario::{self, Document, ReadError, SetError};
use proptest::prelude::*;

const REFERENCE: &str = include_str!("../presets/scenarios/reference-kits.ron");

fn reference() -> Document {
    scenario::read(REFERENCE).unwrap()
}

#[test]
fn the_reference_kits_read_check_and_round_trip() {
    let document = reference();
    assert_eq!(scenario::check(&document), []);
    let text = scenario::write(&document).unwrap();
    assert_eq!(scenario::read(&text).unwrap(), document, "{text}");
    assert!(text.contains("\"75 degF\"") && text.contains("\"0.42 cfm\""), "texts stay as typed");
}

/// The paths that programs rely on.
#[test]
fn every_promised_path_can_be_set() {
    let mut document = reference();
    scenario::set(&mut document, "supply.cords.0", "(gauge: \"16 AWG\", length: \"100 ft\")").unwrap();
    for (path, text) in [
        ("refrigerant", "R-22"),
        ("source.temperature", "60 degF"),
        ("source.port", "liquid"),
        ("source.port", "vapour"),
        ("source.port", "both"),
        ("source.volume", "25 ft3"),
        ("ambient.temperature", "95 degF"),
        ("machine.displacement", "1.6 cfm"),
        ("machine.clearance", "4 %"),
        ("machine.loss_factor", "0.9"),
        ("machine.polytropic_exponent", "1.2"),
        ("machine.polytropic_exponent", "from properties"),
        ("cylinder.temperature", "125 degF"),
        ("method.flashing", "delayed"),
        ("method.flashing", "equilibrium"),
        ("method.two_phase_friction", "mueller_steinhagen_heck"),
        ("method.two_phase_friction", "homogeneous"),
        ("kits.A.parts.0.bore", "2.4 mm"),
        ("kits.A.parts.1.length", "25 ft"),
        ("kits.A.parts.1.working_pressure", "55 bar g"),
        ("kits.A.parts.2.working_pressure", "500 psig"),
        ("supply.voltage", "117 V"),
        ("supply.cords.0.length", "50 ft"),
        ("supply.cords.0.gauge", "12 AWG"),
        ("supply.branch.length", "80 ft"),
    ] {
        scenario::set(&mut document, path, text).unwrap_or_else(|error| panic!("{error}"));
        assert_eq!(scenario::get(&document, path).unwrap(), text, "{path}");
    }
    assert_eq!(scenario::check(&document), []);
}

#[track_caller]
fn refused(path: &str, text: &str, needles: &[&str]) {
    let before = reference();
    let mut document = before.clone();
    let error = scenario::set(&mut document, path, text).unwrap_err().to_string();
    assert_eq!(document, before, "{path}: the document is untouched");
    for needle in needles {
        assert!(error.contains(needle), "{path} = {text}: {error:?} lacks {needle:?}");
    }
}

#[test]
fn refusals_name_field_value_and_expectation() {
    refused("kits.A.parts.0.boree", "3 mm", &["boree", "3 mm", "did you mean \"bore\""]);
    refused("kits.A.parts.0.bore", "3", &["kits.A.parts.0.bore", "\"3\"", "has no unit", "a length"]);
    refused("kits.A.parts.0.bore", "wide", &["\"wide\"", "a length", "25 ft"]);
    refused("kits.A.parts.0.bore", "none", &["kits.A.parts.0.bore", "cannot be none"]);
    refused("kits.D.parts.0.bore", "3 mm", &["kits has no entry \"D\"", "A, B or C"]);
    refused("kits.A.parts.9.bore", "3 mm", &["\"9\"", "0 to 4"]);
    refused("source.port", "gas", &["\"gas\"", "vapour"]);
    refused("machin.displacement", "1 cfm", &["machin", "did you mean \"machine\""]);
    refused("refrigerant.name", "R-22", &["refrigerant", "has no fields"]);
    refused("machine.inlet_throttle.discharge_coefficient", "0.7", &["bore", "set it first"]);
    refused("kits.A.parts.0", "BallValve(bore: \"4\")", &["BallValve", "has no unit", "a length"]);
    refused("kits.A.parts.0", "BallValve(boar: \"4 mm\")", &["boar", "bore"]);
    refused("kits.A.parts.0", "BalValve(bore: \"4 mm\")", &["BalValve", "BallValve"]);
    refused("supply.cords.0", "(gauge: \"16\", length: \"7 m\")", &["16", "is no wire size"]);
    refused("machine.takes_liquid", "perhaps", &["perhaps", "boolean"]);
    refused("kits.A.parts.2.seats", "-1", &["-1"]);
    refused("machine.cut_out", "550 psi", &["550 psig", "550 psia"]);
    refused("", "1", &["no path"]);
    refused("kits..parts", "1", &["no path"]);
}

#[test]
fn optional_fields_come_and_go() {
    let mut document = reference();
    scenario::set(&mut document, "machine.inlet_throttle.bore", "3 mm").unwrap();
    assert!(document.machine.inlet_throttle.is_some());
    scenario::set(&mut document, "machine.inlet_throttle", "none").unwrap();
    assert!(document.machine.inlet_throttle.is_none());
    scenario::set(&mut document, "supply.branch", "none").unwrap();
    scenario::set(&mut document, "kits.A.parts.2", "none").unwrap();
    assert_eq!(document.kit("A").unwrap().parts.len(), 4, "the gauge set is out");
    scenario::set(&mut document, "kits.A.parts.3", "BallValve(bore: \"4.2 mm\")").unwrap();
    assert_eq!(document.kit("A").unwrap().parts[3].label(), "Ball valve");
    scenario::set(&mut document, "machine.suitable_for", "A1, A2L, A3").unwrap();
    assert_eq!(document.machine.suitable_for.len(), 3);
    scenario::set(&mut document, "kits.B", "none").unwrap();
    assert_eq!(document.kits.len(), 2);
    scenario::set(&mut document, "supply.cords", "none").unwrap();
    scenario::set(&mut document, "source.charge", "12 lb 4 oz").unwrap();
    assert_eq!(scenario::check(&document), []);
    assert_eq!(scenario::get(&document, "supply.branch"), Ok("none".to_owned()));
    assert!(matches!(scenario::get(&document, "supply.volts"), Err(SetError::UnknownField { .. })));
}

#[track_caller]
fn unreadable(text: &str, needles: &[&str]) -> ReadError {
    let error = scenario::read(text).unwrap_err();
    let sentence = error.to_string();
    for needle in needles {
        assert!(sentence.contains(needle), "{sentence:?} lacks {needle:?}");
    }
    error
}

/// `line _, column` of the first line that holds `word`, counted from 1.
fn place_of(word: &str) -> String {
    let line = REFERENCE.lines().position(|line| line.contains(word)).unwrap() + 1;
    format!("line {line}, column")
}

#[test]
fn damaged_files_are_refused_in_words() {
    unreadable("", &["empty"]);
    unreadable("Dear diary,\nnothing worked.", &["line 1", "not a Narrows document"]);
    unreadable("{\"a\": 1}", &["line 1"]);
    unreadable("(title: \"x\")", &["does not say its version", "narrows: 1"]);
    unreadable(
        &REFERENCE.replace("narrows: 1", "narrows: 99"),
        &["newer version of Narrows", "99", "reads 1"],
    );
    unreadable("(narrows: 0)", &["version 0"]);
    unreadable(
        &REFERENCE.replace("clearance:", "clearanse:"),
        &[&place_of("clearance:"), "clearanse", "did you mean \"clearance\""],
    );
    unreadable(
        &REFERENCE.replace("BallValve(", "BalValve("),
        &[&place_of("BallValve("), "did you mean \"BallValve\""],
    );
    unreadable(&REFERENCE.replace("refrigerant: \"R-410A\",", ""), &["\"refrigerant\" is missing"]);
    let place = place_of("0.42 cfm");
    unreadable(&REFERENCE.replace("\"0.42 cfm\"", "\"0.42 ft\""), &[&place, "0.42 ft", "a volume rate"]);
    unreadable(&REFERENCE.replace("\"0.42 cfm\"", "0.42"), &[&place, "has no unit", "a volume rate"]);
}

#[test]
fn a_file_cut_anywhere_is_refused_without_panic() {
    let body = REFERENCE.trim_end();
    for (at, _) in body.char_indices().step_by(7) {
        let cut = &body[..at];
        let error = scenario::read(cut).unwrap_err();
        assert!(!error.to_string().is_empty());
        if cut.lines().count() > 6 {
            assert!(matches!(error, ReadError::Truncated { .. }), "cut at {at}: {error}");
        }
    }
}

#[track_caller]
fn faulty(path: &str, text: &str, expected_path: &str, needle: &str) {
    let mut document = reference();
    scenario::set(&mut document, path, text).unwrap();
    let faults = scenario::check(&document);
    assert!(
        faults.iter().any(|fault| fault.path == expected_path && fault.message.contains(needle)),
        "{path} = {text}: {faults:?}",
    );
}

#[test]
fn values_out_of_range_are_faults_at_their_field() {
    faulty("kits.A.parts.0.bore", "0 mm", "kits.A.parts.0.bore", "0 mm");
    faulty("kits.A.parts.1.length", "-5 ft", "kits.A.parts.1.length", "-5 ft");
    faulty("source.temperature", "-300 degF", "source.temperature", "-300 degF");
    faulty("machine.loss_factor", "2", "machine.loss_factor", "2");
    faulty("ambient.altitude", "20 km", "ambient.altitude", "20 km");
    faulty("kits.A.name", "B", "kits.1.name", "two kits");
    faulty("kits.A.name", "7", "kits.0.name", "no name");
    faulty("machine.condenser.conductance", "60 W/K", "machine.condenser.conductance", "both given");
    faulty("kits.A.parts.0.bore_band.low", "5 mm", "kits.A.parts.0.bore_band", "no band");
    faulty("refrigerant", "R-411X", "refrigerant", "did you mean");
    faulty("refrigerant", "", "refrigerant", "empty");
}

#[test]
fn all_faults_are_reported_at_once() {
    let mut document = reference();
    for (path, text) in [
        ("kits.A.parts.0.bore", "0 mm"),
        ("kits.B.parts.1.length", "0 ft"),
        ("source.temperature", "-300 degF"),
    ] {
        scenario::set(&mut document, path, text).unwrap();
    }
    let faults = scenario::check(&document);
    for path in ["kits.A.parts.0.bore", "kits.B.parts.1.length", "source.temperature"] {
        assert!(faults.iter().any(|fault| fault.path == path), "{path} in {faults:?}");
    }
}

#[test]
fn extreme_but_possible_parts_pass_the_door() {
    let mut document = reference();
    scenario::set(&mut document, "kits.A.parts.1.length", "3 km").unwrap();
    scenario::set(&mut document, "kits.A.parts.0", "ValveCore(bore: \"0.1 mm\")").unwrap();
    scenario::set(&mut document, "supply.voltage", "40 V").unwrap();
    assert_eq!(scenario::check(&document), []);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Whatever is typed: the document changes or it does not, and stays one that can be written.
    #[test]
    fn no_edit_panics(
        path in "(kits|machine|source|supply|refrigerant|notes|method|narrows)(\\.(A|B|parts|cords|bore|0|9|motor|gauge|second_port|machine)){0,4}",
        text in prop_oneof!["\\PC{0,10}", Just("none".to_owned()), Just("-1".to_owned()), Just("(gauge: \"12 AWG\", length: \"1 m\")".to_owned())],
    ) {
        let before = reference();
        let mut document = before.clone();
        match scenario::set(&mut document, &path, &text) {
            Ok(()) => {
                let _ = scenario::resolve(&document);
                if document.version == scenario::VERSION {
                    let text = scenario::write(&document).unwrap();
                    prop_assert_eq!(scenario::read(&text), Ok(document));
                }
            }
            Err(error) => {
                prop_assert!(!error.to_string().is_empty());
                prop_assert_eq!(document, before);
            }
        }
    }

    /// A file with one character lost or changed reads, or is refused in words.
    #[test]
    fn no_damage_panics(at in 0..REFERENCE.len(), put in prop_oneof!["", "[(){}\\[\\]\",:x0]"]) {
        if REFERENCE.is_char_boundary(at) && REFERENCE.is_char_boundary(at + 1) {
            let damaged = format!("{}{put}{}", &REFERENCE[..at], &REFERENCE[at + 1..]);
            if let Err(error) = scenario::read(&damaged) {
                prop_assert!(error.to_string().len() > 20);
            }
        }
    }
}

/// ISO 2533:1975, table 1: 0, 1000, 1500 and 3000 m give 101325, 89876, 84559 and 70121 Pa (from
/// memory); 5000 ft by hand in the function's comment.
#[test]
fn air_pressure_by_altitude() {
    use narrows::units::{Measure, Typed};
    for (height, expected_pa) in [
        ("0 m", 101_325.0),
        ("1000 m", 89_876.0),
        ("1500 m", 84_559.0),
        ("3000 m", 70_121.0),
        ("5000 ft", 84_307.0),
    ] {
        let height = Typed::parse(height).unwrap();
        let got_pa = scenario::standard_atmosphere(height.value()).si();
        // Geometric against geopotential height: 3 Pa at 1.5 km, 12 Pa at 3 km.
        assert!((got_pa - expected_pa).abs() < 25.0, "{height}: {got_pa}");
    }
}

/// Whole things are written as in a file, at any place of the document.
#[test]
fn whole_things_can_be_set_anywhere() {
    let whole = [
        (
            "machine.inlet_throttle",
            r#"(bore: "2 mm", discharge_coefficient: "0.8")"#,
            "machine.inlet_throttle.bore",
            "2 mm",
        ),
        ("source", r#"(temperature: "60 degF", port: liquid)"#, "source.port", "liquid"),
        ("job", r#"(method: push_pull, swap: "9 min")"#, "job.swap", "9 min"),
        ("machine.suitable_for", "[A1, A3]", "machine.suitable_for.1", "A3"),
        ("kits.A.parts", r#"[Hose(bore: "8 mm", length: "5 ft")]"#, "kits.A.parts.0.bore", "8 mm"),
        (
            "kits.A",
            r#"(name: "Z", parts: [BallValve(bore: "7 mm", discharge_coefficient: "0.8")])"#,
            "kits.Z.parts.0.bore",
            "7 mm",
        ),
        ("supply.cords", r#"[(gauge: "12 AWG", length: "50 ft")]"#, "supply.cords.0.gauge", "12 AWG"),
    ];
    for (path, text, inside, expected) in whole {
        let mut document = reference();
        scenario::set(&mut document, path, text).unwrap_or_else(|error| panic!("{path}: {error}"));
        assert_eq!(scenario::get(&document, inside).unwrap(), expected, "{path}");
    }
    let mut document = reference();
    let before = document.clone();
    let error =
        scenario::set(&mut document, "machine.inlet_throttle", r#"(boar: "2 mm")"#).unwrap_err().to_string();
    assert!(error.contains("machine.inlet_throttle") && error.contains("\"bore\""), "{error}");
    assert_eq!(document, before);
}
