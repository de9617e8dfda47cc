//! A document's fields about cylinders, method and level: read, checked, worked out, warned of.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops where it fails")]

mod documents;

use documents::{preset, rink};
use narrows::advice::{Caution, limit_cautions};
use narrows::job::{FillRuleKind, JobLimits, job_limits};
use narrows::power::Grade;
use narrows::presets::{built_in_rules, scenarios};
use narrows::scenario::{self, Document, resolve_limits};
use narrows::units::TypedPressure;
use narrows::units::factors::POUND_KG;
use uom::si::mass::kilogram;

fn limits(document: &Document) -> (JobLimits, Vec<Caution>) {
    let ask =
        resolve_limits(document, &built_in_rules().unwrap()).unwrap_or_else(|faults| panic!("{faults:?}"));
    let limits = job_limits(&ask);
    let cautions = limit_cautions(&ask, &limits);
    (limits, cautions)
}

/// 900 lb ± 10 % of R-22 into cylinders of 239 lb WC: 191.2 lb each, 5 likely, 6 for 990 lb; 10 inHg.
#[test]
fn a_rink_from_document_to_answer() {
    let document = rink();
    let text = scenario::write(&document).unwrap();
    assert_eq!(scenario::read(&text).unwrap(), document, "{text}");
    assert!(text.contains("\"8 min\"") && text.contains("\"2024-05\"") && text.contains("since_1993"));
    let (limits, cautions) = limits(&document);
    assert_eq!(limits.cylinders.len(), 6);
    let schedule = limits.schedule.unwrap();
    assert_eq!((schedule.likely_count, schedule.high_count, schedule.more), (5, 6, None));
    assert_eq!(limits.level.unwrap().stated, "10 inHg vac");
    assert_eq!(limits.unsuited, []);
    let ids: Vec<&str> = cautions.iter().map(|caution| caution.id).collect();
    assert_eq!(
        ids,
        [
            "cylinders-just-enough",
            "push-pull",
            "not-dry",
            "heavy-cylinder",
            "hot-surfaces",
            "residue-in-hoses"
        ],
        "{cautions:?}"
    );
}

/// Ten alike need no ten lines.
#[test]
fn cylinders_alike_share_a_line() {
    let mut document = rink();
    scenario::set(&mut document, "date", "2029-06").unwrap();
    let count = |document: &Document| {
        limits(document).1.iter().filter(|caution| caution.id == "cylinder-out-of-date").count()
    };
    assert_eq!(count(&document), 2, "the one in use, and five that wait");
    scenario::set(&mut document, "cylinders.0.count", "200").unwrap();
    assert_eq!(count(&document), 2);
}

#[test]
fn push_pull_is_warned_of_and_vapour_is_not() {
    let mut document = rink();
    let words = |document: &Document| {
        limits(document).1.into_iter().find(|caution| caution.id == "push-pull").unwrap().text
    };
    assert!(words(&document).contains("Nothing is kept free") && words(&document).contains("30 s"));
    scenario::set(&mut document, "job.siphon_allowance", "11 lb").unwrap();
    assert!(words(&document).contains("11.0 lb"));
    let gross = limits(&document).0.cylinders[0].stop_gross.unwrap();
    // 150 + 0.8 · 239 − 11
    assert!((gross.get::<kilogram>() / POUND_KG - 330.2).abs() < 1e-9);
    for method in ["vapour", "vapor", "liquid_then_vapour", "liquid then vapour"] {
        scenario::set(&mut document, "job.method", method).unwrap();
        assert!(limits(&document).1.iter().all(|caution| caution.id != "push-pull"), "{method}");
    }
}

#[test]
fn rules_of_ones_own_replace_the_built_in_ones() {
    let mut document = rink();
    let mut own = built_in_rules().unwrap();
    own.levels.title = "House rule".to_owned();
    for row in &mut own.levels.rows {
        row.since = TypedPressure::parse("20 inHg vac").unwrap();
    }
    document.rules = Some(narrows::kit::OwnRules { filling: None, levels: Some(own.levels) });
    let text = scenario::write(&document).unwrap();
    assert_eq!(scenario::read(&text).unwrap(), document, "the document carries them");
    let level = limits(&document).0.level.unwrap();
    assert_eq!((level.source.as_str(), level.stated.as_str()), ("House rule", "20 inHg vac"));
    scenario::set(&mut document, "filling.fill", "70 %").unwrap();
    let (limits, _) = limits(&document);
    let (kind, net) = limits.cylinders[0].lowest.unwrap();
    assert_eq!(kind, FillRuleKind::WaterCapacity);
    assert!((net.get::<kilogram>() / POUND_KG - 0.7 * 239.0).abs() < 1e-9);
}

#[track_caller]
fn faulty(path: &str, text: &str, needle: &str) {
    let mut document = rink();
    scenario::set(&mut document, path, text).unwrap_or_else(|error| panic!("{error}"));
    let faults = scenario::check(&document);
    assert!(
        faults.iter().any(|fault| fault.path == path && fault.message.contains(needle)),
        "{path} = {text}: {faults:?}"
    );
    assert_eq!(resolve_limits(&document, &built_in_rules().unwrap()).unwrap_err(), faults);
}

#[test]
fn bad_values_are_refused_with_path_and_expectation() {
    faulty("charge_band", "95 %", "0 to 90 %");
    faulty("cylinder.count", "2", "under cylinders");
    faulty("cylinders.0.count", "0", "1 to 200");
    faulty("cylinders.0.water_capacity", "0 lb", "0.1 kg");
    faulty("cylinder.marking_limit", "0 lb", "10 g");
    faulty("cylinder.service_pressure", "5 inHg vac", "vacuum");
    faulty("kits.A.parts.1.working_pressure", "5 inHg vac", "expected one as 800 psig");
    faulty("filling.fill", "100 %", "10 to 90 %");
    faulty("filling.hot_temperature", "20 degC", "40 to 100 degC");
    faulty("filling.retest_years", "0", "1 to 20");
    faulty("job.machines", "0", "1 to 20");
    faulty("job.change_over", "120 %", "0 to 1");
    faulty("job.swap", "-1 min", "0 s");
    faulty("target.level", "40 inHg vac", "absolute vacuum");
    faulty("target.rechecks", "99", "0 to 20");
    faulty("source.dissolved", "2", "0 to 1");
    let mut document = rink();
    for (path, text, needle) in [
        ("date", "yesterday", "2024-05"),
        ("cylinder.test_date", "2024-13", "1 to 12"),
        ("target.level", "10", "rule"),
        ("target.machine_made", "1992", "before_1993"),
        ("job.method", "siphon", "push_pull"),
        ("job.tea", "20 min", "set_up"),
    ] {
        let error = scenario::set(&mut document, path, text).unwrap_err().to_string();
        assert!(error.contains(needle), "{error}");
    }
    assert_eq!(document, rink());
}

/// Files from before these fields open, and their limits are worked out.
#[test]
fn older_documents_have_limits_too() {
    for preset in scenarios() {
        let document = scenario::read(preset.text).unwrap();
        let (limits, cautions) = limits(&document);
        assert!(limits.level.is_ok(), "{}", preset.id);
        assert!(cautions.iter().all(|caution| caution.grade != Grade::Stop), "{}: {cautions:?}", preset.id);
    }
}

/// A level that a person typed is not laid at the rule's door.
#[test]
fn a_typed_level_names_no_rule() {
    let origin = |id: &str| {
        let document = preset(id);
        let ask = resolve_limits(&document, &built_in_rules().unwrap()).unwrap();
        job_limits(&ask).level.unwrap().origin()
    };
    assert!(origin("ice-rink-liquid").contains("40 CFR 82.156"));
    assert!(!origin("reference-tail").contains("CFR"));
}
