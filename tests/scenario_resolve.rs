//! From the document to physics: what a kit takes from the document, what is refused and where.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops where it fails")]

mod documents;

use documents::{preset, with};
use narrows::flow::Element;
use narrows::job::Port;
use narrows::power::{self, Conditions, Load, Running};
use narrows::scenario::{self, Document, Fault, KitSetup};
use narrows::units::Measure;

fn resolved(document: &Document) -> Vec<KitSetup> {
    scenario::resolve(document).unwrap_or_else(|faults| panic!("{faults:?}"))
}

#[test]
fn a_gauge_set_is_one_part_with_two_seats() {
    let setups = resolved(&preset("reference-kits"));
    let names: Vec<&str> = setups.iter().map(|kit| kit.name.as_str()).collect();
    assert_eq!(names, ["A", "B", "C"]);
    let counts: Vec<usize> = setups[0].setup.path.parts.iter().map(|part| part.elements.len()).collect();
    assert_eq!(counts, [1, 1, 2, 1, 1]);
    assert_eq!(setups[0].parts[2].name, "Gauge set");
    assert_eq!(setups[0].parts[2].path, "kits.A.parts.2");
    // 0.7 · π/4 · 2.2² = 2.661 mm², by hand.
    match setups[0].setup.path.parts[0].elements[0] {
        Element::Restriction(core) => assert!((core.effective_area().value * 1e6 - 2.661).abs() < 1e-3),
        Element::Tube(_) => panic!("a core is no tube"),
    }
}

#[test]
fn a_kit_overrides_only_what_it_names() {
    let document = with(
        preset("reference-kits"),
        &[
            ("kits.B.port", "liquid"),
            ("kits.B.method.flashing", "delayed"),
            ("kits.B.cords.0", "(gauge: \"10 AWG\", length: \"7 ft\")"),
        ],
    );
    let setups = resolved(&document);
    assert_eq!(setups[0].setup.source.first, Port::Vapor);
    assert_eq!(setups[1].setup.source.first, Port::Liquid);
    assert_ne!(setups[0].setup.method, setups[1].setup.method);
    assert_ne!(setups[0].setup.power.cords, setups[1].setup.power.cords);
    assert_eq!(setups[0].setup.machine, setups[1].setup.machine);
    assert_eq!(setups[1].cords, ["10 AWG cord, 7 ft"]);
}

#[test]
fn both_opens_two_ports_or_draws_a_mixture() {
    let document =
        with(preset("hospital-two-ports"), &[("source.port", "both"), ("kits.B.second_port.port", "none")]);
    let setups = resolved(&document);
    assert!(matches!(setups[0].setup.source.first, Port::Mixed { .. }), "one connection");
    assert_eq!((setups[1].setup.source.first, setups[1].setup.source.second), (Port::Liquid, Port::Vapor));
    assert_eq!(setups[1].setup.path.second.as_ref().unwrap().joins_before, 2);
    assert_eq!(setups[1].second_parts.len(), 2);
    assert_eq!(setups[1].second_parts[1].path, "kits.B.second_port.parts.1");
}

#[track_caller]
fn refused(edits: &[(&str, &str)], path: &str, needles: &[&str]) -> Vec<Fault> {
    let faults = scenario::resolve(&with(preset("reference-kits"), edits)).unwrap_err();
    let found =
        faults.iter().find(|fault| fault.path == path).unwrap_or_else(|| panic!("{path} in {faults:?}"));
    for needle in needles {
        assert!(found.message.contains(needle), "{found} lacks {needle:?}");
    }
    faults
}

#[test]
fn what_physics_refuses_is_said_at_its_field() {
    refused(&[("refrigerant", "R-9999")], "refrigerant", &["R-9999", "did you mean"]);
    refused(&[("source.temperature", "-300 degF")], "source.temperature", &["-300 degF"]);
    refused(&[("source.temperature", "170 degF")], "source.temperature", &["170 degF", "R-410A", "at most"]);
    refused(&[("refrigerant", "R-744")], "machine.condenser.condensing_temperature", &["100 degF", "R-744"]);
    refused(&[("supply.voltage", "40 V")], "supply.voltage", &["40 V", "80 to 280 V"]);
    refused(&[("supply.cords.0.gauge", "24 AWG")], "supply.cords.0", &["24 AWG", "16"]);
    refused(&[("kits.A.parts.0.bore", "0 mm")], "kits.A.parts.0.bore", &["0 mm"]);
    refused(&[("kits.A.parts.1.length", "-5 ft")], "kits.A.parts.1.length", &["-5 ft"]);
    refused(&[("machine.motor.code_letter", "I")], "machine.motor.code_letter", &["code letter"]);
}

#[test]
fn a_fault_that_kits_share_is_told_once() {
    let faults = refused(&[("supply.voltage", "40 V")], "supply.voltage", &[]);
    assert_eq!(faults.len(), 1, "{faults:?}");
}

#[test]
fn extremes_and_an_empty_kit_reach_physics() {
    let document = with(
        preset("reference-kits"),
        &[
            ("kits.A.parts.1.length", "3 km"),
            ("kits.B.parts.0", "Stem(bore: \"0.1 mm\")"),
            ("kits.C.parts", "none"),
        ],
    );
    let setups = resolved(&document);
    assert!(setups[2].setup.path.parts.is_empty());
}

/// The cord on the library's roof: ranges that were agreed before any code was written.
#[test]
fn the_long_cord_falls_in_its_agreed_ranges() {
    let check =
        |edits: &[(&str, &str)], run_v: [f64; 2], run_a: [f64; 2], start_v: [f64; 2], torque: [f64; 2]| {
            let setups = resolved(&with(preset("long-cord"), edits));
            let setup = &setups[0].setup;
            let conditions = Conditions::new(setup.ambient.temperature).unwrap();
            let point = power::solve(&setup.power, &setup.motor, Load::Nameplate, &conditions).unwrap();
            let Running::Holds(running) = &point.running else { panic!("{:?}", point.running) };
            let within = |what: &str, got: f64, [low, high]: [f64; 2]| {
                assert!((low..=high).contains(&got), "{what} {got}")
            };
            within("running V", running.voltage.si(), run_v);
            within("running A", running.current.si(), run_a);
            within("starting V", point.starting.voltage.si(), start_v);
            within("starting torque", point.starting.torque_ratio, torque);
        };
    let any = [0.0, 1e3];
    check(&[], [105.0, 108.0], [12.6, 13.3], [78.0, 90.0], [0.46, 0.61]);
    check(
        &[("supply.cords.0.gauge", "12 AWG"), ("supply.cords.0.length", "50 ft")],
        [114.0, 116.0],
        any,
        [101.0, 106.0],
        any,
    );
    check(
        &[
            ("machine.motor.rated_current", "15 A"),
            ("machine.motor.locked_rotor_current", "75 A"),
            ("supply.voltage", "117 V"),
            ("supply.branch.gauge", "12 AWG"),
            ("supply.branch.length", "80 ft"),
            ("supply.cords.0.gauge", "14 AWG"),
        ],
        [103.0, 106.0],
        [16.2, 16.9],
        any,
        any,
    );
}

/// Liquid R-134a weighs 1225 kg/m³ at 20 °C (its tables): 30 L hold 36.8 kg, 81.0 lb.
#[test]
fn a_charge_that_does_not_fit_is_refused_in_its_own_unit() {
    let charged = |charge: &str| {
        let fields =
            [("source.temperature", "20 degC"), ("source.volume", "30 L"), ("source.charge", charge)];
        scenario::resolve(&with(with(preset("reference-kits"), &[("refrigerant", "R-134a")]), &fields))
    };
    assert!(charged("36.5 kg").is_ok() && charged("80 lb").is_ok());
    for (charge, holds) in [("37 kg", "36.8 kg"), ("100 lb", "81.0 lb"), ("81 lb 8 oz", "81.0 lb")] {
        let faults = charged(charge).unwrap_err();
        assert_eq!(faults.len(), 1, "{faults:?}");
        assert_eq!(faults[0].path, "source.charge");
        for said in [charge, "source.volume 30 L", holds, "expected less"] {
            assert!(faults[0].message.contains(said), "{said:?} is not in {:?}", faults[0].message);
        }
    }
}
