//! Bad input through the terminal twin: every fault is said in words that name the thing, its
//! value and what was expected; the exit code is 2; nothing panics and no file is changed.

mod terminal_support;

use std::path::PathBuf;
use std::process::Output;

use narrows::fluid;
use narrows::presets::built_in_scenario;
use terminal_support::{narrows, refused, words};

fn solve(changes: &[&str]) -> Output {
    let mut arguments = vec!["solve", "reference-kits"];
    arguments.extend(changes.iter().flat_map(|change| ["--set", change]));
    narrows(&arguments)
}

/// The command answers, and its text holds all of `said`.
#[track_caller]
fn answered(output: &Output, said: &[&str]) -> String {
    let (text, error) = (words(&output.stdout), words(&output.stderr));
    assert_eq!(output.status.code(), Some(0), "{error}");
    assert!(error.is_empty(), "{error}");
    for word in said {
        assert!(text.contains(word), "{word:?} is not said in: {text}");
    }
    text
}

fn scratch(name: &str, content: &[u8]) -> PathBuf {
    let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::write(&path, content).unwrap();
    path
}

/// A file is refused and left as it is.
#[track_caller]
fn file_refused(name: &str, content: &[u8], said: &[&str]) {
    let path = scratch(name, content);
    let shown = path.to_str().unwrap();
    let output = narrows(&["solve", shown]);
    refused(&output, said);
    assert!(words(&output.stderr).contains(shown), "the file is not named");
    assert_eq!(std::fs::read(&path).unwrap(), content, "the file was changed");
}

#[test]
fn values_out_of_range_are_named_with_their_range() {
    for (change, said) in [
        ("refrigerant=R-999", ["refrigerant", "R-999", "did you mean"]),
        ("kits.A.parts.0.bore=0 mm", ["kits.A.parts.0.bore", "0 mm", "0.05 to 200 mm"]),
        ("kits.A.parts.1.length=-5 ft", ["kits.A.parts.1.length", "-5 ft", "0.04 in to 32000 ft"]),
        ("source.temperature=-300 degF", ["source.temperature", "-300 degF", "−262 to 314 degF"]),
        ("supply.voltage=40 V", ["supply.voltage", "40 V", "80 to 280 V"]),
        ("kits.A.parts.0.bore=1e300 mm", ["kits.A.parts.0.bore", "1e300 mm", "0.05 to 200 mm"]),
        ("machine.displacement=0 cfm", ["machine.displacement", "0 cfm", "0.0003 to 2100 cfm"]),
        ("machine.displacement=1e300 cfm", ["machine.displacement", "1e300 cfm", "0.0003 to 2100 cfm"]),
        ("machine.cut_out=5000 psig", ["machine.cut_out", "5000 psig", "15 to 2885 psig"]),
    ] {
        refused(&solve(&[change]), &said);
    }
}

#[test]
fn numbers_that_are_none_are_refused() {
    for (change, said) in [
        ("kits.A.parts.0.bore=NaN mm", ["kits.A.parts.0.bore", "NaN mm", "say a length, as 25 ft"]),
        ("kits.A.parts.0.bore=inf mm", ["kits.A.parts.0.bore", "inf mm", "say a length, as 25 ft"]),
        ("kits.A.parts.0.bore=12", ["kits.A.parts.0.bore", "12", "no unit"]),
        ("kits.A.parts.0.bore=12 psi", ["kits.A.parts.0.bore", "12 psi", "no unit of a length"]),
        ("source.port=gas", ["source.port", "gas", "liquid, vapor, vapour or both"]),
    ] {
        refused(&solve(&[change]), &said);
    }
}

#[test]
fn paths_that_lead_nowhere_are_refused() {
    for (change, said) in [
        ("foo.bar=1", ["foo.bar", "no field \"foo\"", "expected narrows, title"]),
        ("kits.Z.parts.0.bore=1 mm", ["kits.Z", "no entry \"Z\"", "A, B or C"]),
        ("kits.A.parts.9.bore=1 mm", ["kits.A.parts", "no entry \"9\"", "0 to 4"]),
        ("nothing", ["\"nothing\"", "PATH=VALUE", "kits.A.parts.0.bore"]),
        ("=5", ["\"\"", "path", "kits.A.parts.0.bore"]),
    ] {
        refused(&solve(&[change]), &said);
    }
}

#[test]
fn beyond_the_critical_point_there_is_no_liquid() {
    refused(
        &solve(&["refrigerant=R-744", "source.temperature=100 degF"]),
        &["source.temperature", "100 degF", "R-744", "critical", "°F"],
    );
    refused(&solve(&["refrigerant=R-508B"]), &["R-508B", "cylinder.temperature", "at most", "°F"]);
}

#[test]
fn files_that_are_no_documents_are_refused_and_left_alone() {
    let good = built_in_scenario("reference-kits").unwrap();
    let cut = &good.as_bytes()[..good.len() / 2];
    file_refused("cut.ron", cut, &["ends too early"]);
    let newer = good.replacen("narrows: 1,", "narrows: 99,", 1);
    file_refused("newer.ron", newer.as_bytes(), &["newer version", "99"]);
    let misspelt = good.replacen("bore: \"2.2 mm\"", "boor: \"2.2 mm\"", 1);
    file_refused("misspelt.ron", misspelt.as_bytes(), &["line", "boor", "did you mean \"bore\"?"]);
    file_refused("empty.ron", b"", &["empty", "narrows: 1"]);
    file_refused("letter.ron", b"Dear all,", &["line 1, column 1", "starts with (narrows: 1"]);
    file_refused("bytes.ron", &[0x89, 0xff, 0x00, 0xc3], &["no text file"]);
}

#[test]
fn files_that_are_not_there_are_refused() {
    refused(&narrows(&["solve", "no-such.ron"]), &["no-such.ron", "no such file", "reference-kits"]);
    let folder = env!("CARGO_TARGET_TMPDIR");
    refused(&narrows(&["solve", folder]), &[folder, "folder", "scenario file"]);
    refused(&narrows(&["solve"]), &["<FILE>"]);
    refused(&narrows(&["solve", "reference-kits", "--unit", "si"]), &["--unit", "--units"]);
}

#[test]
fn what_is_odd_but_possible_is_answered() {
    let long = answered(&solve(&["kits.A.parts.1.length=3 km"]), &["Kit A"]);
    assert!(long.lines().any(|line| line.starts_with("A ") && line.contains("lb/min")), "{long}");
    answered(&solve(&["kits.A.parts.0.bore=0.1 mm"]), &["CHOKED", "Valve core"]);
    answered(&solve(&["kits.A.parts=none"]), &["Kit A"]);
    answered(&solve(&["source.port=both"]), &["liquid and vapour together"]);
    answered(&solve(&["machine.suitable_for=[A1, A2L]"]), &["Kit A"]);
}

/// Every refrigerant is answered, or the reason is its critical point.
#[test]
fn every_refrigerant_is_answered_or_refused_in_words() {
    for listing in fluid::list() {
        let output = solve(&[&format!("refrigerant={}", listing.designation)]);
        if output.status.success() {
            answered(&output, &[listing.designation, "lb/min"]);
        } else {
            refused(&output, &[listing.designation, "critical"]);
        }
    }
}

/// A machine that is not marked for a refrigerant gets a Stop and no rate.
#[test]
fn an_unmarked_machine_gets_no_rate() {
    let marked_a1 = ["machine.suitable_for=A1", "machine.takes_low_pressure=false"];
    for (refrigerant, said) in [
        ("R-32", "R-32 is class A2L"),
        ("R-290", "R-290 is class A3"),
        ("R-717", "R-717 is class B2L"),
        ("R-11", "R-11 is a low-pressure refrigerant"),
    ] {
        let refrigerant = format!("refrigerant={refrigerant}");
        let output = solve(&[&refrigerant, marked_a1[0], marked_a1[1]]);
        let text = answered(&output, &["Stop", "withheld"]);
        let plain = text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(plain.contains(said), "{text}");
        assert!(!text.contains("lb/min"), "a rate in spite of the Stop: {text}");
    }
}

#[test]
fn liquid_to_a_machine_that_takes_none_gets_no_rate() {
    let changes = ["machine.takes_liquid=false", "source.port=liquid"];
    let text = answered(&solve(&changes), &["Stop", "withheld", "not rated for liquid"]);
    assert!(!text.contains("lb/min"), "a rate in spite of the Stop: {text}");
    let mut arguments = vec!["solve", "reference-kits", "--json"];
    arguments.extend(changes.iter().flat_map(|change| ["--set", change]));
    let json: serde_json::Value = serde_json::from_slice(&narrows(&arguments).stdout).unwrap();
    for kit in json["kits"].as_array().unwrap() {
        assert!(kit["rate_kg_s"].is_null(), "{kit}");
    }
}

#[test]
fn words_of_the_trade_are_explained_by_what_people_call_them() {
    let text = answered(&narrows(&["words", "manifold"]), &["Gauge set", "seats"]);
    assert!(!text.contains("Push-pull"), "only what was asked for: {text}");
    answered(&narrows(&["words"]), &["Choked", "Water capacity", "Push-pull recovery"]);
    answered(&narrows(&["words", "water", "capacity", "--json"]), &["\"term\": \"Water capacity\""]);
    refused(&narrows(&["words", "turnip"]), &["turnip", "expected"]);
}
