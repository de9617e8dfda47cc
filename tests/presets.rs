//! What is built in: every file loads, says where it comes from, and can be used.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops where it fails")]

use narrows::kit::{Machine, Part};
use narrows::presets::{PresetError, Shelf, scenarios};
use narrows::scenario;
use std::collections::BTreeSet;

fn shelf() -> Shelf {
    Shelf::built_in().unwrap_or_else(|error| panic!("{error}"))
}

/// Ids are promises: documents remember them. An id may be added here, never taken away.
const IDS: &[&str] = &[
    "hose-quarter",
    "hose-quarter-3-ft",
    "hose-quarter-25-ft",
    "hose-three-eighths",
    "hose-three-eighths-25-ft",
    "hose-half",
    "hose-three-eighths-metric",
    "dip-tube",
    "core-depressed",
    "stem-quarter",
    "stem-wide",
    "piercing-valve",
    "end-self-sealing",
    "ball-valve-quarter",
    "ball-valve-three-eighths",
    "adapter-three-eighths-quarter",
    "tee-three-eighths",
    "service-valve-open",
    "service-valve-half",
    "sight-glass",
    "inlet-screen-clean",
    "inlet-screen-clogged",
    "cylinder-valve",
    "valve-kv-1",
    "gauge-set-two-seats",
    "gauge-set-one-seat",
    "gauge-set-wide",
    "drier-3-tons-clean",
    "drier-3-tons-used",
    "drier-3-tons-loaded",
    "drier-8-tons-clean",
    "drier-by-flow",
    "machine-small",
    "machine-large",
    "machine-vapour-only",
    "machine-small-230",
    "motor-electronic-115",
    "motor-induction-115-12-a",
    "motor-induction-115-15-a",
    "motor-universal-115",
    "motor-electronic-230",
    "motor-induction-230-50-hz",
    "cylinder-30",
    "cylinder-50",
    "cylinder-125",
    "cylinder-239",
    "cylinder-27-l",
    "cord-16-awg-25-ft",
    "cord-16-awg-50-ft",
    "cord-16-awg-100-ft",
    "cord-14-awg-50-ft",
    "cord-14-awg-100-ft",
    "cord-12-awg-50-ft",
    "cord-12-awg-100-ft",
    "cord-10-awg-100-ft",
    "cord-1-5-mm2-25-m",
    "cord-1-5-mm2-50-m-reel",
    "cord-2-5-mm2-50-m",
    "wiring-14-awg",
    "wiring-12-awg",
    "wiring-10-awg",
    "wiring-12-awg-aluminium",
    "wiring-1-5-mm2",
    "wiring-2-5-mm2",
];

#[test]
fn every_promised_id_is_there_once() {
    let shelf = shelf();
    let there: Vec<&str> = shelf.ids().collect();
    let unique: BTreeSet<&str> = there.iter().copied().collect();
    assert_eq!(unique.len(), there.len());
    for id in IDS {
        assert!(unique.contains(id), "{id} is gone");
    }
}

#[test]
fn a_shelf_file_is_read_whole_or_not_at_all() {
    let before = shelf();
    let refused = |text: &str| {
        let mut shelf = before.clone();
        let error = shelf.add("own.ron", text).unwrap_err();
        assert_eq!(shelf, before);
        error
    };
    let cord = |id: &str, length: &str| {
        format!(
            "(schema: 1, cords: [(id: \"own-cord\", name: \"x\", origin: typical, item: (gauge: \"14 AWG\", length: \"7 m\")), \
                 (id: \"{id}\", name: \"x\", origin: typical, item: (gauge: \"14 AWG\", length: \"{length}\"))])"
        )
    };
    assert!(matches!(refused("(schema: 2)"), PresetError::Schema { found: 2, .. }));
    assert!(matches!(refused("(schema: 1, cords: ["), PresetError::Unreadable { .. }));
    assert!(matches!(refused("(schema: 1, hoses: [])"), PresetError::Unreadable { .. }));
    assert!(matches!(refused(&cord("hose-quarter", "5 m")), PresetError::TakenId { .. }));
    assert!(matches!(refused(&cord("own-cord", "5 m")), PresetError::TakenId { .. }));
    assert!(matches!(refused(&cord("Own Cord", "5 m")), PresetError::MalformedId { .. }));
    assert!(matches!(refused(&cord("other-cord", "-5 m")), PresetError::Faulty { .. }));
    let mut more = before.clone();
    more.add("own.ron", &cord("other-cord", "5 m")).unwrap();
    assert_eq!(more.cords.len(), before.cords.len() + 2);
}

#[test]
fn holes_and_hoses_carry_a_band() {
    for item in &shelf().parts {
        let has_band = match &item.item {
            Part::Hose(tube) | Part::DipTube(tube) => tube.bore_band.is_some(),
            Part::Valve(valve) => valve.flow_coefficient_band.is_some(),
            Part::FilterDrier(_) => true,
            other => other.hole().is_some_and(|hole| hole.bore_band.is_some()),
        };
        assert!(has_band, "{}", item.id);
    }
}

/// The reference parts, each with its likely value: the table that the parts were agreed in.
#[test]
fn reference_parts_have_the_agreed_bores() {
    let shelf = shelf();
    for (id, bore_mm, low_mm, high_mm) in [
        ("hose-quarter", 4.8, 3.8, 5.2),
        ("hose-three-eighths", 8.0, 7.0, 9.5),
        ("core-depressed", 2.2, 1.8, 2.8),
        ("stem-quarter", 4.2, 3.8, 5.0),
        ("end-self-sealing", 2.6, 2.0, 3.2),
        ("gauge-set-two-seats", 3.6, 2.8, 4.5),
    ] {
        let part = &shelf.part(id).unwrap().item;
        let band = match part {
            Part::Hose(tube) => tube.bore_band.clone(),
            other => other.hole().unwrap().bore_band,
        };
        let band = band.unwrap();
        let got = [part.bore().unwrap().si(), band.low.si(), band.high.si()];
        for (got_m, expected_mm) in got.into_iter().zip([bore_mm, low_mm, high_mm]) {
            assert!((got_m * 1e3 - expected_mm).abs() < 1e-9, "{id}: {got_m}");
        }
    }
}

#[test]
fn what_is_taken_remembers_its_shelf() {
    let shelf = shelf();
    assert_eq!(shelf.part("core-depressed").unwrap().taken().from(), Some("core-depressed"));
    let machine = shelf.machines[0].taken();
    assert_eq!(machine.from.as_deref().map(narrows::kit::shelf_id), Some("machine-small"));
}

#[test]
fn every_scenario_reads_checks_resolves_and_round_trips() {
    let mut ids = BTreeSet::new();
    for preset in scenarios() {
        assert!(ids.insert(preset.id));
        let document = scenario::read(preset.text).unwrap_or_else(|error| panic!("{}: {error}", preset.id));
        assert_eq!(scenario::check(&document), [], "{}", preset.id);
        let setups =
            scenario::resolve(&document).unwrap_or_else(|faults| panic!("{}: {faults:?}", preset.id));
        assert_eq!(setups.len(), document.kits.len());
        let text = scenario::write(&document).unwrap();
        assert_eq!(scenario::read(&text).as_ref(), Ok(&document), "{}", preset.id);
        assert!(document.place.is_some_and(|place| place.ends_with("(invented)")), "{}", preset.id);
    }
    assert!(ids.len() >= 6);
}

#[test]
fn what_scenarios_say_they_took_is_on_the_shelf() {
    let shelf = shelf();
    let ids: BTreeSet<&str> = shelf.ids().collect();
    for preset in scenarios() {
        for quoted in preset.text.split("from: \"").skip(1) {
            let id = quoted.split('"').next().unwrap();
            assert!(ids.contains(id), "{}: {id}", preset.id);
        }
    }
}

/// A machine must run with whatever it is said to be suitable for, as far as a document goes.
#[test]
fn every_machine_resolves_in_a_document() {
    let reference = scenario::read(scenarios()[0].text).unwrap();
    let mut tried = 0;
    for item in shelf().machines {
        let machine: Machine = item.taken();
        let mut document = reference.clone();
        document.supply.voltage = machine.motor.rated_voltage.clone();
        document.machine = machine;
        scenario::resolve(&document).unwrap_or_else(|faults| panic!("{}: {faults:?}", item.id));
        tried += 1;
    }
    assert!(tried >= 2);
}

/// By hand: the band was 3.8 to 5.2 mm, the likely value stays; where there was none, the end that
/// is not given is the likely value.
#[test]
fn one_end_of_a_band_can_be_set_alone() {
    let mut hose = shelf().part("hose-quarter").unwrap().item.clone();
    scenario::set_in(&mut hose, "bore_band.low", "4 mm").unwrap();
    scenario::set_in(&mut hose, "bore_band", "none").unwrap();
    scenario::set_in(&mut hose, "bore_band.high", "5,4 mm").unwrap();
    let Part::Hose(tube) = &hose else { panic!("a hose") };
    let band = tube.bore_band.clone().unwrap();
    assert_eq!((band.low.as_typed(), band.high.as_typed()), ("4.8 mm", "5,4 mm"));
    assert!(scenario::set_in(&mut hose, "bore_band.low", "wide").is_err());
    assert!(scenario::set_in(&mut hose, "kits.A", "1").is_err());
}

/// A copy knows the figures it was made with; a name is no figure.
#[test]
fn a_copy_is_told_of_newer_figures_only() {
    let mut shelf = Shelf::built_in().unwrap();
    shelf
        .add("own.ron", "(schema: 1, parts: [(id: \"own-hose\", name: \"Mine\", origin: measured, item: Hose(bore: \"4.6 mm\", length: \"5 ft\"))])")
        .unwrap();
    let copy = shelf.part("own-hose").unwrap().taken();
    assert_eq!(shelf.newer(&copy), None);
    let mut edited = copy.clone();
    scenario::set_in(&mut edited, "bore", "4.2 mm").unwrap();
    assert_eq!(shelf.newer(&edited), None, "an edit of the copy is no news of the shelf");
    let at = shelf.parts.iter().position(|item| item.id == "own-hose").unwrap();
    shelf.parts[at].name = "Mine, blue".to_owned();
    shelf.parts[at].item.set_name(Some("Blue".to_owned()));
    assert_eq!(shelf.newer(&copy), None);
    scenario::set_in(&mut shelf.parts[at].item, "bore", "5.1 mm").unwrap();
    assert_eq!(shelf.newer(&copy).map(|item| item.id.as_str()), Some("own-hose"));
    assert!(shelf.newer(&edited).is_some());
    let updated = shelf.parts[at].taken();
    assert_eq!(shelf.newer(&updated), None);
    let mut unmarked = copy.clone();
    unmarked.set_from(Some("own-hose".to_owned()));
    assert_eq!(shelf.newer(&unmarked), None, "nobody knows which figures it was made with");
}

#[test]
fn what_is_ones_own_is_offered_first_and_what_is_retired_not_at_all() {
    let mut shelf = Shelf::built_in().unwrap();
    let text = "(schema: 1, cords: [\n (id: \"own-a\", name: \"a\", origin: measured, item: (gauge: \"14 AWG\", length: \"7 m\")),\n \
                (id: \"own-b\", name: \"b\", origin: measured, retired: true, item: (gauge: \"14 AWG\", length: \"7 m\"))])";
    shelf.add("own.ron", text).unwrap();
    let offered: Vec<&str> = shelf.offered::<narrows::kit::Cord>().map(|item| item.id.as_str()).collect();
    assert_eq!(offered[..2], ["own-a", "cord-16-awg-25-ft"]);
    assert!(!offered.contains(&"own-b"));
    assert_eq!(shelf.things().len(), shelf.ids().count());
}

#[test]
fn a_fault_in_a_shelf_file_is_said_with_its_line() {
    let text = "(schema: 1, cords: [\n (id: \"own-a\", name: \"a\", origin: measured, item: (gauge: \"14 AWG\", length: \"7 m\")),\n \
                (id: \"own-b\", name: \"b\", origin: measured, item: (gauge: \"14 AWG\", length: \"-7 m\"))])";
    let error = shelf().add("own.ron", text).unwrap_err().to_string();
    assert!(error.starts_with("own.ron, line 3: own-b: length: -7 m is out of range"), "{error}");
}
