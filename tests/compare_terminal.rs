//! `narrows compare`, `rank` and `sweep` as a person or a program runs them.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops where it fails")]

mod terminal_support;

use terminal_support::{json, narrows, refused, text};

#[track_caller]
fn check_refused(arguments: &[&str], expected: &str) {
    refused(&narrows(arguments), &[expected]);
}

#[test]
fn the_bakery_side_by_side() {
    let value = json(&["compare", "bakery-freezer", "--json", "--draws", "128", "--job-draws", "4"]);
    let kits = value["kits"].as_array().unwrap();
    assert_eq!(kits.len(), 3);
    let solved = json(&["solve", "bakery-freezer", "--json"]);
    for (kit, solved) in kits.iter().zip(solved["kits"].as_array().unwrap()) {
        assert_eq!(kit["rate_kg_s"], solved["rate_kg_s"], "the same text, so the same bits");
        assert_eq!(kit["running_v"], solved["supply"]["running_v"]);
        assert_eq!(kit["cautions"], solved["cautions"]);
        let band = &kit["band"]["rate_kg_s"];
        assert!(band["low"].as_f64() < kit["rate_kg_s"].as_f64());
        assert!(band["high"].as_f64() > kit["rate_kg_s"].as_f64());
    }
    let pair = |from: &str, to: &str| {
        let pairs = value["differences"].as_array().unwrap();
        pairs.iter().find(|pair| pair["from"] == from && pair["to"] == to).unwrap().clone()
    };
    assert_eq!(pair("B", "C")["verdict"], "too close to call");
    assert_eq!(pair("A", "B")["verdict"], "more");
    let jobs = json(&["job", "bakery-freezer", "--json", "--draws", "4"]);
    for (kit, job) in kits.iter().zip(jobs["kits"].as_array().unwrap()) {
        assert_eq!(kit["total_s"], job["total_s"], "the same job");
        assert_eq!(kit["recovered_kg"], job["recovered_kg"]);
        assert_eq!(kit["band"]["total_s"], job["band"]["total_s"], "the same draws");
        assert_eq!(job["band"]["cylinder_count"]["median"], 1.0);
    }
    let time = |at: usize| kits[at]["total_s"].as_f64().unwrap();
    assert!((pair("A", "B")["total_s"].as_f64().unwrap() - (time(1) - time(0))).abs() < 1e-9);
    assert_eq!(pair("A", "B")["verdicts"]["total_s"], "less");
    assert_eq!(value["job_draws"]["made"], 4);
    let rate = |at: usize| kits[at]["rate_kg_s"].as_f64().unwrap();
    assert!((pair("A", "B")["rate_kg_s"].as_f64().unwrap() - (rate(1) - rate(0))).abs() < 1e-15);
    assert_eq!(value["draws"]["made"], 128);
    let table = text(&["compare", "bakery-freezer", "--draws", "128", "--job-draws", "4"]);
    assert!(table.contains("too close to call"), "{table}");
    assert!(table.contains("Difference in time\n  B less A      \u{2212}"), "{table}");
    assert!(table.contains("planning estimate"), "{table}");
}

#[test]
fn the_same_seed_prints_the_same() {
    let arguments =
        ["compare", "reference-kits", "--json", "--draws", "32", "--job-draws", "2", "--seed", "4"];
    assert_eq!(text(&arguments), text(&arguments));
}

#[test]
fn what_counts_in_kit_a() {
    let value = json(&[
        "rank",
        "reference-kits",
        "--kits",
        "A",
        "--json",
        "--price",
        "kits.A.parts.0=25",
        "--draws",
        "32",
        "--job-draws",
        "2",
        "--minute-price",
        "2",
    ]);
    let kit = &value["kits"][0];
    let rows = kit["rows"].as_array().unwrap();
    let kinds: Vec<&str> = rows.iter().filter_map(|row| row["kind"].as_str()).collect();
    assert_eq!(kinds[..2], ["ValveCore", "SelfSealingEnd"], "{kinds:?}");
    assert_eq!(kit["best_change"]["id"], "kits.A.parts.0");
    let better = &rows[0]["better"];
    assert_eq!(better["price"], 25.0);
    assert!(better["price_per_lb_min"].as_f64().unwrap() > 0.0);
    let saved_min = -better["gain"]["total_s"].as_f64().unwrap() / 60.0;
    assert!((better["price_per_minute"].as_f64().unwrap() * saved_min - 25.0).abs() < 1e-9);
    assert!((better["pay_back_jobs"].as_f64().unwrap() * saved_min * 2.0 - 25.0).abs() < 1e-9);
    assert_eq!(better["drawn"]["verdicts"]["rate_kg_s"], "more");
    assert!(rows[0]["drawn"]["band"]["total_s"]["low"].is_f64());
    let table = text(&["rank", "reference-kits", "--kits", "A", "--draws", "32", "--job-draws", "2"]);
    assert!(table.contains("Change first   Valve core, 2.2 mm: take the core out"), "{table}");
    assert!(table.contains("do not add up"), "{table}");
}

/// Under a Stop only the rate's absence is said: nothing is known of the level.
#[test]
fn a_withheld_rate_is_no_level_missed() {
    let stop = ["rank", "reference-kits", "--kits", "A", "--draws", "0", "--set"];
    let table = text(&[&stop[..], &["kits.A.parts.1.working_pressure=200 psig"]].concat());
    assert!(table.contains("rate withheld, see Stop, ") && table.contains("V running"), "{table}");
    assert!(!table.contains("level is not reached"), "{table}");
}

#[test]
fn a_sweep_is_a_table() {
    let table =
        text(&["sweep", "reference-kits", "--kits", "A", "--vary", "kits.A.parts.1.length=5 ft..50 ft:4"]);
    let lines: Vec<&str> = table.lines().collect();
    assert_eq!(lines.len(), 5, "{table}");
    assert!(lines[0].starts_with("kits.A.parts.1.length (ft),kit,rate_kg_s,"), "{table}");
    assert!(lines[2].starts_with("20,A,"), "{table}");
    let value = json(&["sweep", "reference-kits", "--vary", "machine.displacement=0.4..1.6 cfm:2", "--json"]);
    assert_eq!(value["points"][1]["at"]["machine.displacement"], 1.6);
    assert_eq!(value["points"][1]["kits"][2]["name"], "C");
}

#[test]
fn fields_are_set_before() {
    let slow = json(&["compare", "reference-kits", "--draws", "0", "--json"]);
    let fast = json(&[
        "compare",
        "reference-kits",
        "--draws",
        "0",
        "--json",
        "--set",
        "machine.displacement=1.6 cfm",
    ]);
    assert!(fast["kits"][2]["rate_kg_s"].as_f64() > slow["kits"][2]["rate_kg_s"].as_f64());
    assert!(fast["draws"].is_null());
}

/// A Stop withholds every rate, those of what-ifs too; the volts stay.
#[test]
fn a_stop_withholds_the_rates() {
    let unmarked = ["reference-kits", "--set", "machine.suitable_for=A2L"];
    let value = json(&[&["compare", "--json", "--draws", "8", "--job-draws", "2"][..], &unmarked].concat());
    let kit = &value["kits"][0];
    assert!(kit["rate_kg_s"].is_null() && kit["band"]["rate_kg_s"].is_null());
    assert!(kit["running_v"].is_f64() && kit["band"]["running_v"]["low"].is_f64());
    let pair = &value["differences"][0];
    assert!(pair["rate_kg_s"].is_null() && pair["band"]["rate_kg_s"].is_null() && pair["verdict"].is_null());
    let value = json(&[&["rank", "--json", "--draws", "4", "--job-draws", "2"][..], &unmarked].concat());
    let row = &value["kits"][0]["rows"][0];
    assert!(row["gain"]["rate_kg_s"].is_null() && row["without"]["rate_kg_s"].is_null());
    for command in [&["compare", "--draws", "8", "--job-draws", "2"][..], &["rank", "--draws", "0"]] {
        let table = text(&[command, &unmarked].concat());
        assert!(!table.contains("lb/min"), "{table}");
        assert!(table.contains("withheld"), "{table}");
    }
}

#[test]
fn what_cannot_be_done_is_said() {
    check_refused(&["compare", "reference-kits", "--kits", "A,Q"], "there is no kit \"Q\"");
    check_refused(&["compare", "reference-kits", "--draws", "1"], "1 draws; expected 2 to 65536");
    check_refused(&["rank", "reference-kits", "--price", "kits.A.parts.0"], "expected ID=PRICE");
    check_refused(&["rank", "reference-kits", "--price", "kits.Q.parts.0=3"], "nothing is ranked there");
    check_refused(&["rank", "reference-kits", "--price", "kits.A.parts.0=-3"], "is no price");
    check_refused(&["sweep", "reference-kits", "--vary", "source.temperature"], "has no =");
    check_refused(&["sweep", "reference-kits", "--vary", "source.temperature=1..2 ft"], "source.temperature");
    check_refused(
        &["compare", "reference-kits", "--set", "source.temperature=5000 degF"],
        "source.temperature",
    );
}

/// 2,200 VA for a motor that asks for 60 A · 115 V = 6,900 VA to start: no cord makes up for that, 10 AWG on the
/// wall does.
#[test]
fn what_to_do_to_start_is_said_only_where_it_starts() {
    let said = |more: &[&str]| {
        let table = text(&[&["rank", "long-cord", "--kits", "A", "--draws", "0"], more].concat());
        table.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let generator = "supply.generator=(continuous: \"1800 VA\", surge: \"2200 VA\")";
    let weak = said(&["--set", "supply.branch=none", "--set", generator]);
    assert!(weak.contains("To start no single change listed here lets it start"), "{weak}");
    assert!(said(&[]).contains("take a thicker cord (10 AWG, 100 ft, laid out)"), "{}", said(&[]));
    let good = said(&["--set", "supply.cords.0.gauge=10 AWG"]);
    assert!(!good.contains("To start"), "{good}");
}
