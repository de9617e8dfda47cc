//! `narrows rating` and `narrows diagnose` as a person types them.
#![allow(clippy::unwrap_used, reason = "a test stops where it fails")]

mod terminal_support;

use serde_json::Value;
use terminal_support::{json, narrows};

fn scenario(id: &str) -> String {
    format!("{}/presets/scenarios/{id}.ron", env!("CARGO_MANIFEST_DIR"))
}

#[test]
fn rating_answers_from_a_file_and_by_name() {
    let by_file = json(&["rating", &scenario("rating-card"), "--json"]);
    assert_eq!(by_file, json(&["rating", "rating-card", "--json"]));
    for row in by_file["fit"]["reproduces"].as_array().unwrap() {
        assert!(row["rating"].is_string() && row["rated_kg_s"].is_f64() && row["model_kg_s"].is_f64());
    }
    assert!(by_file["notes"].is_array());
    let people = narrows(&["rating", "rating-card", "--units", "si"]);
    assert!(String::from_utf8_lossy(&people.stdout).contains("kg/min"));
}

#[test]
fn diagnose_answers_and_follows_set() {
    let path = json(&["diagnose", &scenario("slow-path"), "--json"]);
    assert_eq!(path["hypotheses"][0]["group"], "path");
    let unsure =
        json(&["diagnose", &scenario("slow-path"), "--json", "--set", "readings.system_pressure=none"]);
    assert!(unsure["cannot_tell"].as_str().unwrap().contains("between path and low system pressure"));
    assert!(unsure["verdict"].is_null());
}

/// The Stops of `solve` and of `job` stand over a diagnosis, too: the kit's, then the cylinder's.
#[test]
fn diagnose_says_every_stop() {
    let changes = ["--set", "kits.0.parts.1.working_pressure=50 psig", "--set", "cylinder.damaged=yes"];
    let ask = |command: &str| json(&[&[command, "slow-path", "--json"], &changes[..]].concat());
    let ids = |cautions: &Value| -> Vec<String> {
        let stops = cautions.as_array().unwrap().iter().filter(|one| one["grade"] == "Stop");
        stops.map(|one| one["id"].as_str().unwrap().to_owned()).collect()
    };
    let (solved, job) = (ask("solve"), ask("job"));
    let expected = [ids(&solved["kits"][0]["cautions"]), ids(&job["cautions"])].concat();
    assert_eq!(expected.len(), 2, "{expected:?}");
    assert_eq!(ids(&ask("diagnose")["stops"]), expected);
    let people = narrows(&[&["diagnose", "slow-path"], &changes[..]].concat());
    let text = String::from_utf8_lossy(&people.stdout).into_owned();
    assert!(text.starts_with("  Stop ") && text.contains("is made for 50 psig"), "{text}");
    assert!(text.contains("damaged") || text.contains("Dented"), "{text}");
    let plain = json(&["diagnose", "slow-path", "--json"]);
    assert_eq!(plain["stops"].as_array().unwrap().len(), 0, "none where there is none");
}

#[test]
fn a_log_comes_from_a_table() {
    let file = std::env::temp_dir().join(format!("narrows-log-{}.csv", std::process::id()));
    let rows = "time (min),weight (lb),system_pressure (psig),machine_inlet_pressure (psig)\n\
                0,40,110,104\n2,41.5,100,95\n4,42.9,90,85\n6,44.1,80,76\n8,45.2,70,66\n";
    std::fs::write(&file, rows).unwrap();
    let table = file.to_string_lossy().into_owned();
    let answer = json(&["diagnose", "school-kitchen", "--json", "--log", &table]);
    assert!(answer["log"]["machine_health"]["ratio"].as_f64().unwrap() > 0.0);
    assert_eq!(answer["log"]["rows"].as_array().unwrap().len(), 5);
    assert!(answer["hypotheses"].is_null(), "no readings, no causes");
    let people = narrows(&["diagnose", "school-kitchen", "--log", &table]);
    std::fs::remove_file(&file).unwrap();
    assert!(String::from_utf8_lossy(&people.stdout).contains("Machine health"));
}

#[test]
fn what_is_missing_is_said_on_the_error_stream() {
    for (arguments, words) in [
        (vec!["rating", "reference-kits"], "rating_card"),
        (vec!["diagnose", "reference-kits"], "readings"),
        (vec!["diagnose", "slow-path", "--log", "no-such-table.csv"], "no-such-table.csv"),
        (vec!["diagnose", "slow-path", "--set", "readings.rate=0.14"], "unit"),
        (vec!["diagnose", "slow-path", "--set", "readings.system_presure=70 psig"], "system_pressure"),
    ] {
        let output = narrows(&arguments);
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        assert_eq!(output.status.code(), Some(2), "{arguments:?}: {said}");
        assert!(said.contains(words), "{said}");
    }
}
