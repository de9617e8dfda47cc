//! What `narrows job`, `compare`, `rank` and `solve` say of a job that is not as good as it looks.
#![allow(clippy::unwrap_used, reason = "a test stops where it fails")]

mod terminal_support;

use terminal_support::{json, text};

/// The answer as one line of words, wherever it was wrapped.
#[track_caller]
fn said(arguments: &[&str]) -> String {
    text(arguments).split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A motor that does not start and a cord over its marking are said where the job is planned, as they are where
/// the kit is solved.
#[test]
fn power_is_heeded_in_the_job_as_in_the_kit() {
    let set = "supply.cords.0.length=150 ft";
    let job = said(&["job", "long-cord", "--draws", "0", "--set", set]);
    let solved = json(&["solve", "long-cord", "--json", "--set", set]);
    let cautions = solved["kits"][0]["cautions"].as_array().unwrap();
    let serious = cautions.iter().filter(|caution| caution["grade"] != "Note");
    let texts: Vec<&str> = serious.map(|caution| caution["text"].as_str().unwrap()).collect();
    assert!(texts.len() > 3, "{texts:?}");
    for caution in texts {
        assert_eq!(job.matches(caution).count(), 1, "once for all kits: {caution}");
    }
}

/// 480 lb of which a third is gone when the gauge is at the level for the first time: wherever its time stands,
/// it is said that liquid is left. What is left besides is the vapour over it in 20 ft³: R-134a saturated at −40
/// °C weighs 2.77 and 1,418 kg/m³ (handbook tables, from memory).
#[test]
fn liquid_that_is_left_is_a_warning_beside_the_time() {
    let job = json(&["job", "hospital-two-ports", "--draws", "0", "--json"]);
    let remaining_kg = job["kits"][0]["remaining_kg"].as_f64().unwrap();
    let compared = json(&["compare", "hospital-two-ports", "--draws", "0", "--job-draws", "0", "--json"]);
    let liquid_kg = compared["kits"][0]["liquid_left_kg"].as_f64().unwrap();
    let vapour_kg = 2.77 * (20.0 * 0.028_316_85 - liquid_kg / 1418.0);
    let off_kg = remaining_kg - liquid_kg - vapour_kg;
    assert!(off_kg.abs() < 0.05, "{remaining_kg} kg left, {liquid_kg} kg liquid, {vapour_kg} kg vapour");
    let job = said(&["job", "hospital-two-ports", "--draws", "0"]);
    assert!(job.contains("level, liquid left"), "{job}");
    let liquid = format!("{:.0} lb of liquid", liquid_kg / 0.453_592_37);
    assert!(job.contains(&format!("Warning {liquid} at ")), "{job}");
    for command in ["compare", "rank"] {
        let words = said(&[command, "hospital-two-ports", "--draws", "0"]);
        assert!(
            words.contains(&format!("Warning Kit A reaches its level with {liquid} in the system")),
            "{words}"
        );
    }
    let dry = said(&["compare", "long-cord", "--draws", "0"]);
    assert!(!dry.contains("of liquid in the system"), "{dry}");
}

/// At 6,000 ft the air holds 24.0 inHg (ISO 2533 standard atmosphere: 811.99 hPa at 1,828.8 m); a level of 10
/// inHg below 29.92 is 19.92 inHg absolute, which a gauge there shows as 4.06 inHg of vacuum.
#[test]
fn the_level_is_said_as_a_gauge_in_thin_air_shows_it() {
    let high = ["job", "ice-rink-liquid", "--draws", "0", "--set", "ambient.altitude=6000 ft"];
    let words = said(&high);
    let (_, after) = words.split_once("on a gauge in this air ").unwrap();
    let vacuum: f64 = after.split(' ').next().unwrap().parse().unwrap();
    assert!((vacuum - 4.06).abs() < 0.03, "{vacuum} inHg vac");
    assert!(!said(&["job", "ice-rink-liquid", "--draws", "0"]).contains("on a gauge in this air"));
}

/// What was read after the wait and what still counts as holding.
#[test]
fn a_rise_that_still_counts_is_said() {
    let words = said(&["job", "ice-rink-liquid", "--draws", "0"]);
    assert!(words.contains("above the level counts as holding (common practice, no source)"), "{words}");
}

/// One zero: a cylinder is connected when its first phase begins.
#[test]
fn cylinders_and_phases_share_their_clock() {
    let table = text(&["job", "ice-rink-liquid", "--draws", "0"]);
    let begins = |lead: &str| {
        let line = table.lines().find(|line| line.trim_start().starts_with(lead)).unwrap();
        line.trim_start().trim_start_matches(lead).split(" to ").next().unwrap().trim().to_owned()
    };
    assert_eq!(begins("push-pull"), "20 min");
    assert_eq!(begins("1. Large cylinder"), "20 min");
    let words = said(&["job", "ice-rink-liquid", "--draws", "0"]);
    assert!(words.contains("of the job, 20 min to set up, 20 min to pack up"), "{words}");
}

/// Liquid at the port and a job of vapour alone contradict each other.
#[test]
fn a_port_that_contradicts_the_method_is_named() {
    let warning = "The port draws liquid, the job draws vapour only";
    let contradicting = ["rank", "hospital-two-ports", "--draws", "0", "--set", "source.port=liquid"];
    assert!(said(&contradicting).contains(warning));
    let agreeing = [&contradicting[..], &["--set", "job.method=liquid_then_vapour"]].concat();
    assert!(!said(&agreeing).contains(warning));
}

/// Cut out a little below what the discharge asks, the kit trips as written, though some of its draws run: no
/// range of theirs stands for it.
#[test]
fn no_range_without_an_answer() {
    let arguments = ["compare", "long-cord", "--job-draws", "0", "--set", "machine.cut_out=424 psig"];
    let kit = json(&[&arguments[..], &["--json"]].concat())["kits"][0].clone();
    assert!(kit["rate_kg_s"].is_null(), "{kit}");
    assert!(
        kit["band"]["rate_kg_s"]["answered"].as_u64().unwrap() > 0,
        "or there would be no range to leave out"
    );
    let table = text(&arguments);
    let lines: Vec<&str> = table.lines().collect();
    let rate = lines.iter().position(|line| line.starts_with("Rate")).unwrap();
    assert!(lines[rate].contains("none"), "{table}");
    assert!(!lines[rate + 1].contains("likely range"), "{table}");
}
