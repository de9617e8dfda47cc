//! Find the cause: the three reading sets, what is missing, two faults at once.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops where it fails")]

mod documents;

use documents::{preset, with};
use narrows::advice::diagnose::{Cause, Check, DiagnoseError, Diagnosis, Group, diagnose};
use narrows::report::{cannot_tell_text, diagnosis_json, diagnosis_table};
use narrows::scenario::{self, Document, ReadingKind, readings_of};
use narrows::units::UnitSet;

fn document(id: &str, edits: &[(&str, &str)]) -> Document {
    with(preset(id), edits)
}

fn found(id: &str, edits: &[(&str, &str)]) -> Diagnosis {
    let setup = readings_of(&document(id, edits)).unwrap_or_else(|faults| panic!("{faults:?}"));
    diagnose(&setup).unwrap_or_else(|error| panic!("{error}"))
}

/// The three reading sets on one rack: path, machine, power, each sure and each with a next check.
#[test]
fn three_reading_sets_have_three_causes() {
    for (id, group) in
        [("slow-path", Group::Path), ("slow-machine", Group::Machine), ("slow-power", Group::Power)]
    {
        let found = found(id, &[]);
        assert_eq!(found.verdict(), Some(group), "{id}: {:?}", found.groups);
        assert_eq!(found.hypotheses[0].group, group, "{id}");
        assert!(found.cannot_tell.is_none(), "{id}");
        assert!(found.next_check.is_some(), "{id}");
    }
}

/// At 70 psig about 0.59 lb/min is expected from an unhindered machine (one independent model).
#[test]
fn the_expected_rate_is_that_of_the_pressure_that_was_read() {
    let lb_min = found("slow-machine", &[]).expected.rate_kg_s * 60.0 / 0.453_592_37;
    assert!((lb_min / 0.59 - 1.0).abs() < 0.1, "{lb_min} lb/min");
}

/// The filter-drier is the part that most often blocks; cold felt at it makes it sure, cold felt
/// elsewhere points there.
#[test]
fn feeling_for_cold_tells_the_part() {
    let unsure = found("slow-path", &[]);
    assert_eq!(unsure.next_check.unwrap().check, Check::Read(ReadingKind::ColdPart));
    let at_drier = found("slow-path", &[("readings.cold_part", "Filter-drier")]);
    assert_eq!(at_drier.hypotheses[0].cause, Cause::PartBlocked(3));
    assert!(at_drier.hypotheses[0].likelihood_ratio > 0.8);
    let at_valve = found("slow-path", &[("readings.cold_part", "5")]);
    assert_eq!(at_valve.hypotheses[0].cause, Cause::PartBlocked(5));
}

#[test]
fn screen_and_wear_are_told_apart_by_looking() {
    let found = found("slow-machine", &[]);
    assert_eq!(found.next_check.unwrap().check, Check::LookAtScreen);
    let causes: Vec<Cause> = found.hypotheses.iter().take(2).map(|one| one.cause).collect();
    assert!(causes.contains(&Cause::WornMachine) && causes.contains(&Cause::InletScreen), "{causes:?}");
}

#[test]
fn volts_at_the_receptacle_tell_supply_from_cord() {
    let unsure = found("slow-power", &[]);
    assert_eq!(unsure.next_check.unwrap().check, Check::Read(ReadingKind::ReceptacleVoltage));
    let cord = found("slow-power", &[("readings.receptacle_voltage", "118 V")]);
    assert_eq!(cord.hypotheses[0].cause, Cause::LossyCord);
    let supply = found("slow-power", &[("readings.receptacle_voltage", "102 V")]);
    assert_eq!(supply.hypotheses[0].cause, Cause::WeakSupply);
}

/// Without the system gauge a blocked path and an empty system read alike.
#[test]
fn without_the_system_gauge_nobody_can_tell() {
    let found = found("slow-path", &[("readings.system_pressure", "none")]);
    let cannot = found.cannot_tell.unwrap();
    assert_eq!((cannot.first, cannot.second), (Group::Path, Group::Source));
    assert!(
        cannot_tell_text(&cannot).starts_with("Cannot tell between path and low system pressure"),
        "{}",
        cannot_tell_text(&cannot)
    );
    assert_eq!(found.next_check.unwrap().check, Check::Read(ReadingKind::SystemPressure));
}

/// 205 psig at 75 °F, where R-404A saturates near 160: air or a hot cylinder first, whatever else is
/// wrong; the other cause stays in sight.
#[test]
fn a_cylinder_above_saturation_comes_first() {
    for (id, other) in
        [("slow-path", Group::Path), ("slow-machine", Group::Machine), ("slow-power", Group::Power)]
    {
        let found = found(id, &[("readings.cylinder_pressure", "205 psig")]);
        assert_eq!(found.hypotheses[0].cause, Cause::AirInCylinder, "{id}");
        assert_eq!(found.verdict(), Some(Group::Cylinder), "{id}");
        assert_eq!(found.groups[1].0, other, "{id}: {:?}", found.groups);
    }
    let unmeasured = found(
        "slow-path",
        &[("readings.cylinder_pressure", "205 psig"), ("readings.cylinder_temperature", "none")],
    );
    let causes: Vec<Cause> = unmeasured
        .hypotheses
        .iter()
        .map(|one| one.cause)
        .filter(|cause| cause.group() == Group::Cylinder)
        .collect();
    assert_eq!(causes.len(), 2, "hot or air: {causes:?}");
}

#[test]
fn readings_as_expected_find_nothing_wrong() {
    let edits = [
        ("readings.rate", "0.95 lb/min"),
        ("readings.system_pressure", "124 psig"),
        ("readings.machine_inlet_pressure", "118 psig"),
    ];
    let found = found("slow-path", &edits);
    assert_eq!(found.verdict(), Some(Group::None), "{:?}", found.groups);
    assert_eq!(found.hypotheses[0].cause, Cause::Nothing);
}

/// 70 psig where 60 °F saturates near 126: the rate is what such a pressure gives.
#[test]
fn a_low_system_is_called_low() {
    let found = found(
        "slow-path",
        &[("readings.rate", "0.6 lb/min"), ("readings.machine_inlet_pressure", "65 psig")],
    );
    assert_eq!(found.verdict(), Some(Group::Source), "{:?}", found.groups);
}

/// One reading is no verdict.
#[test]
fn a_rate_alone_cannot_tell() {
    let only_rate = [
        ("readings.system_pressure", "none"),
        ("readings.machine_inlet_pressure", "none"),
        ("readings.cylinder_pressure", "none"),
        ("readings.cylinder_temperature", "none"),
        ("readings.running_voltage", "none"),
    ];
    let found = found("slow-path", &only_rate);
    assert!(found.cannot_tell.is_some(), "{:?}", found.groups);
    assert!(found.next_check.is_some());
}

#[test]
fn likelihoods_are_shares_and_repeat_to_the_bit() {
    for id in ["slow-path", "slow-machine", "slow-power"] {
        let (one, two) = (found(id, &[]), found(id, &[]));
        for (a, b) in one.hypotheses.iter().zip(&two.hypotheses) {
            assert!((0.0..=1.0).contains(&a.likelihood_ratio));
            assert_eq!(a.likelihood_ratio.to_bits(), b.likelihood_ratio.to_bits());
        }
    }
}

#[test]
fn programs_and_people_are_told() {
    let document = document("slow-path", &[]);
    let setup = readings_of(&document).unwrap();
    let found = diagnose(&setup).unwrap();
    let json = diagnosis_json(&document, &setup, &found, UnitSet::US_TRADE);
    let first = &json["hypotheses"][0];
    for key in ["name", "group", "likelihood", "because"] {
        assert!(!first[key].is_null(), "{key}");
    }
    assert_eq!(first["group"], "path");
    assert!(json["next_check"].is_string() && json["cannot_tell"].is_null());
    let table = diagnosis_table(&document, &setup, &found, UnitSet::SI);
    assert!(table.contains("Path:") && table.contains("bar"), "{table}");
}

#[test]
fn readings_that_cannot_be_are_refused_in_words() {
    let faults = |edits: &[(&str, &str)]| readings_of(&document("slow-path", edits)).unwrap_err();
    assert_eq!(faults(&[("readings", "none")])[0].path, "readings");
    assert_eq!(faults(&[("readings.kit", "Z")])[0].path, "readings.kit");
    assert_eq!(faults(&[("readings.cold_part", "carburettor")])[0].path, "readings.cold_part");
    assert_eq!(faults(&[("readings.system_pressure", "35 inHg vac")])[0].path, "readings.system_pressure");
    let high = readings_of(&document("slow-path", &[("readings.system_pressure", "3000 psig")])).unwrap();
    assert!(matches!(diagnose(&high), Err(DiagnoseError::SystemPressure { .. })));
    let mut nothing = readings_of(&document("slow-path", &[])).unwrap();
    nothing.observed.clear();
    assert!(matches!(diagnose(&nothing), Err(DiagnoseError::NothingRead)));
}

/// A cylinder valve hardly opened: the discharge stands high and the scale crawls.
#[test]
fn a_blocked_discharge_is_a_cause_too() {
    let mut document = document("slow-machine", &[]);
    let valve = "ServiceValve(name: \"Cylinder valve\", bore: \"5 mm\")";
    document.discharge = vec![scenario_part(valve)];
    for (path, value) in [
        ("readings.rate", "0.4 lb/min"),
        ("readings.discharge_pressure", "500 psig"),
        ("readings.machine_inlet_pressure", "68 psig"),
    ] {
        scenario::set(&mut document, path, value).unwrap();
    }
    let found = diagnose(&readings_of(&document).unwrap()).unwrap();
    assert_eq!(found.hypotheses[0].cause, Cause::DischargePartBlocked(0), "{:?}", found.hypotheses[0]);
}

/// A part as a file writes it.
fn scenario_part(text: &str) -> narrows::kit::Part {
    let mut document = document("slow-path", &[]);
    scenario::set(&mut document, "kits.A.parts.0", text).unwrap();
    document.kits.remove(0).parts.remove(0)
}

/// Whatever is typed, an answer or a reason comes back.
#[test]
fn odd_readings_never_stop_the_program() {
    for edits in [
        [("readings.rate", "0 lb/min"), ("readings.system_pressure", "20 inHg vac")],
        [("readings.rate", "500 lb/min"), ("readings.machine_inlet_pressure", "400 psig")],
        [("readings.running_voltage", "1 V"), ("readings.running_current", "1000 A")],
        [("readings.cylinder_pressure", "29 inHg vac"), ("readings.cylinder_temperature", "-60 degF")],
    ] {
        let setup = readings_of(&document("slow-path", &edits)).unwrap();
        if let Ok(found) = diagnose(&setup) {
            assert!(found.hypotheses.iter().all(|one| one.likelihood_ratio.is_finite()), "{edits:?}");
            let table = diagnosis_table(&document("slow-path", &edits), &setup, &found, UnitSet::US_TRADE);
            assert!(!table.contains("no number"), "{table}");
        }
    }
}

/// More than any fault allows: no cause is blamed without a word.
#[test]
fn a_rate_too_good_to_be_true_is_a_misfit() {
    let found =
        found("slow-path", &[("readings.rate", "5 lb/min"), ("readings.machine_inlet_pressure", "66 psig")]);
    assert!(found.misfits.iter().any(|(kind, _)| *kind == ReadingKind::Rate), "{:?}", found.misfits);
}

/// A screen that is the kit's last part stands inside the machine, behind its gauge.
#[test]
fn a_screen_at_the_end_belongs_to_the_machine() {
    let mut document = preset("school-kitchen");
    document.readings = Some(scenario::Readings::default());
    for (path, value) in [
        ("kits.A.parts.5.bore", "6 mm"),
        ("readings.kit", "B"),
        ("readings.system_pressure", "70 psig"),
        ("readings.machine_inlet_pressure", "69 psig"),
        ("readings.rate", "0.14 lb/min"),
        ("readings.cold_part", "machine inlet"),
    ] {
        scenario::set(&mut document, path, value).unwrap_or_else(|error| panic!("{error}"));
    }
    let found = diagnose(&readings_of(&document).unwrap()).unwrap();
    assert_eq!(found.hypotheses[0].cause, Cause::InletScreen, "{:?}", found.groups);
    assert!(found.hypotheses.iter().all(|one| one.cause != Cause::PartBlocked(5)));
}

/// Liquid and mixtures are diagnosed as vapour is.
#[test]
fn liquid_ports_have_causes_too() {
    for port in ["liquid", "both"] {
        let edits = [
            ("source.port", port),
            ("readings.system_pressure", "130 psig"),
            ("readings.machine_inlet_pressure", "20 psig"),
            ("readings.rate", "0.5 lb/min"),
        ];
        let found = found("slow-path", &edits);
        assert_eq!(found.verdict(), Some(Group::Path), "{port}: {:?}", found.groups);
    }
}
