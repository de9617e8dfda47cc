//! The rating card of a document, read.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops where it fails")]

mod documents;

use documents::{preset, with};
use narrows::advice::rating::{RatingReading, read_rating};
use narrows::machine::rating::{CeilingKind, TestKind};
use narrows::presets::built_in_scenario;
use narrows::report::{rating_json, rating_notes, rating_table};
use narrows::scenario::{self, Document, card_of};
use narrows::units::UnitSet;
use uom::si::volume_rate::cubic_foot_per_minute;

fn document(edits: &[(&str, &str)]) -> Document {
    with(preset("rating-card"), edits)
}

fn reading(edits: &[(&str, &str)]) -> RatingReading {
    read_rating(&card_of(&document(edits)).unwrap_or_else(|faults| panic!("{faults:?}")))
}

fn cfm(reading: &RatingReading) -> f64 {
    reading.fit.as_ref().unwrap().displacement.get::<cubic_foot_per_minute>()
}

/// The invented card fits near the displacement that one independent model gives, and is
/// reproduced within 2 %.
#[test]
fn the_card_is_reproduced() {
    let document = document(&[]);
    let reading = read_rating(&card_of(&document).unwrap());
    assert!((cfm(&reading) / 0.42 - 1.0).abs() < 0.05, "{} cfm", cfm(&reading));
    let json = rating_json(&document, &reading, UnitSet::US_TRADE);
    let fit = &json["fit"];
    assert!(
        fit["displacement_m3_s"].as_f64().unwrap() > 0.0 && fit["inlet_throttle_m2"].as_f64().unwrap() > 0.0
    );
    let rows = fit["reproduces"].as_array().unwrap();
    assert_eq!(rows.len(), 2);
    for row in rows {
        let share = row["model_kg_s"].as_f64().unwrap() / row["rated_kg_s"].as_f64().unwrap();
        assert!((share - 1.0).abs() < 0.02, "{row}");
    }
    assert_eq!(json["ceilings"].as_array().unwrap().len(), 12);
    assert!(rating_table(&document, &reading, UnitSet::SI).contains("Displacement"));
}

/// Push-pull is a prediction; between its two limits or below them the card needs nothing more.
#[test]
fn push_pull_is_predicted_not_fitted() {
    let usual = reading(&[]);
    let one = usual.push_pull.unwrap();
    assert!(one.likely < one.most && one.rated.unwrap() < one.likely);
    let bold = reading(&[("rating_card.push_pull.rate", "60 lb/min")]);
    assert_eq!(cfm(&usual), cfm(&bold));
    let notes = rating_notes(&bold, UnitSet::US_TRADE).join(" ");
    assert!(notes.contains("needs evidence"), "{notes}");
}

/// Each of the four ceilings can be passed, and then asks for evidence.
#[test]
fn a_claim_above_a_ceiling_needs_evidence() {
    for (kind, over, edits) in [
        (CeilingKind::Displacement, TestKind::Vapour, vec![("rating_card.displacement", "0.2 cfm")]),
        (CeilingKind::MotorPower, TestKind::Vapour, vec![("machine.motor.shaft_power", "50 W")]),
        (CeilingKind::Condenser, TestKind::Vapour, vec![("rating_card.condenser_conductance", "5 W/K")]),
        (CeilingKind::PortBore, TestKind::Liquid, vec![("rating_card.port_bore", "0.8 mm")]),
    ] {
        let ceiling = |reading: &RatingReading| {
            *reading.ceilings.iter().find(|one| one.kind == kind && one.over == over).unwrap()
        };
        assert!(!ceiling(&reading(&[])).needs_evidence(), "{kind:?}");
        let bold = reading(&edits);
        assert!(ceiling(&bold).needs_evidence(), "{kind:?}: {:?}", ceiling(&bold));
        let notes = rating_notes(&bold, UnitSet::US_TRADE).join(" ").to_lowercase();
        assert!(notes.contains("needs evidence") && !notes.contains("false"), "{notes}");
    }
}

/// What the card does not say is named and widens the band, one condition after another.
#[test]
fn missing_conditions_are_named_and_widen_the_band() {
    let edits = [
        ("rating_card.conditions.certified", "none"),
        ("rating_card.conditions.ambient", "none"),
        ("rating_card.conditions.refrigerant", "none"),
        ("rating_card.conditions.test_method", "none"),
    ];
    // A condenser that feels the ambient, so that not knowing it matters.
    let base =
        [("machine.condenser.condensing_temperature", "none"), ("machine.condenser.conductance", "50 W/K")];
    let mut last = 0.0;
    for count in 0..=edits.len() {
        let reading = reading(&[&base[..], &edits[..count]].concat());
        let band = reading.band.clone().unwrap();
        let width = (band.high / band.low).value;
        assert!(width > last, "{count}: {width} after {last}");
        last = width;
        let named: Vec<&str> =
            reading.unknown.iter().filter(|one| one.of == TestKind::Vapour).map(|one| one.what).collect();
        assert!(named.len() >= count, "{named:?}");
    }
    let words = rating_notes(&reading(&edits), UnitSet::US_TRADE).join(" ");
    assert!(words.contains("test method") && words.contains("refrigerant"), "{words}");
}

/// R-134a vapour is thinner than R-22's at one temperature: restated rates follow.
#[test]
fn ratings_are_restated_for_the_documents_job() {
    let at = |refrigerant: &str| {
        let reading = reading(&[("refrigerant", refrigerant), ("source.temperature", "75 degF")]);
        reading.restated.unwrap()
    };
    let (thin, thick) = (at("R-134a"), at("R-410A"));
    assert!(thin.vapour_start.unwrap() < thick.vapour_start.unwrap());
    for (a, b) in thin.kits.iter().zip(&thick.kits) {
        assert!(a.rate.as_ref().unwrap() < b.rate.as_ref().unwrap());
    }
    // A narrow kit never beats the machine's open inlet.
    assert!(*thin.kits[0].rate.as_ref().unwrap() < *thin.kits[1].rate.as_ref().unwrap());
}

/// Two cards are compared where their conditions are said and agree, and not otherwise.
#[test]
fn cards_are_compared_only_where_conditions_allow() {
    let text = built_in_scenario("rating-card").unwrap();
    let with = |conditions: &str| {
        let other = format!(
            "port_bore: \"4.8 mm\",\n        against: (conditions: ({conditions}), vapour: (rate: \"0.6 lb/min\")),"
        );
        let document = scenario::read(&text.replacen("port_bore: \"4.8 mm\",", &other, 1)).unwrap();
        read_rating(&card_of(&document).unwrap()).comparisons.remove(0)
    };
    let same = with("refrigerant: \"R-22\", test_method: ahri_740, ambient: \"75 degF\"");
    assert!((same.ratio.unwrap() - 0.5).abs() < 1e-12, "{same:?}");
    let other = with("refrigerant: \"R-134a\", test_method: ahri_740, ambient: \"75 degF\"");
    assert!(other.ratio.is_none() && other.because[0].contains("R-134a"), "{other:?}");
    let unsaid = with("refrigerant: \"R-22\", ambient: \"75 degF\"");
    assert!(
        unsaid.ratio.is_none() && unsaid.because.iter().any(|one| one.contains("test method")),
        "{unsaid:?}"
    );
}

#[test]
fn faults_of_a_card_name_the_field() {
    let faults = |edits: &[(&str, &str)]| card_of(&document(edits)).unwrap_err();
    let one = faults(&[("rating_card.vapour.rate", "0 lb/min")]);
    assert_eq!(one[0].path, "rating_card.vapour.rate");
    let none = faults(&[("rating_card", "none")]);
    assert_eq!(none[0].path, "rating_card");
    let unknown = faults(&[("rating_card.conditions.refrigerant", "R-999")]);
    assert!(unknown[0].path.starts_with("rating_card."), "{unknown:?}");
    let deep = faults(&[("rating_card.final_vacuum", "40 inHg vac")]);
    assert_eq!(deep[0].path, "rating_card.final_vacuum");
}
