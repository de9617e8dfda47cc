//! Built-in documents, from file to answer.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops where it fails")]

mod documents;

use documents::preset;
use narrows::job::{Note, OperatingPoint, solve};
use narrows::presets::scenarios;
use narrows::scenario::{self, Document};
use narrows::units::factors::{POUND_KG, PSI_PA, STANDARD_ATMOSPHERE_PA};
use narrows::units::{GaugePressure, Measure};

fn points(document: &Document) -> Vec<OperatingPoint> {
    let setups = scenario::resolve(document).unwrap_or_else(|faults| panic!("{faults:?}"));
    setups
        .iter()
        .map(|kit| solve(&kit.setup).point.unwrap_or_else(|error| panic!("{}: {error}", kit.name)))
        .collect()
}

fn lb_min(point: &OperatingPoint) -> f64 {
    point.mass_flow.si() * 60.0 / POUND_KG
}

fn inlet_psig(point: &OperatingPoint) -> f64 {
    let ambient = Measure::from_si(STANDARD_ATMOSPHERE_PA);
    GaugePressure::from_absolute(point.machine_inlet_pressure, ambient).above_ambient_pa() / PSI_PA
}

/// Rates in lb/min and inlets in psig of kits A, B, C: an independent march straight on CoolProp
/// 8.0.0, R-410A, saturated vapour at 75 °F, condensing at 100 °F. Within 2 % and 2 psi.
#[test]
fn the_reference_kits_file_gives_the_reference_rates() {
    for (displacement, expected) in [
        ("0.42 cfm", [(1.294, 185.0), (1.505, 211.9), (1.544, 216.7)]),
        ("1.6 cfm", [(2.055, 81.2), (4.250, 161.5), (5.452, 202.5)]),
    ] {
        let mut document = preset("reference-kits");
        scenario::set(&mut document, "machine.displacement", displacement).unwrap();
        for (point, (rate_lb_min, psig)) in points(&document).iter().zip(expected) {
            assert!(
                (lb_min(point) / rate_lb_min - 1.0).abs() < 0.02,
                "{displacement}: {} lb/min",
                lb_min(point)
            );
            assert!((inlet_psig(point) - psig).abs() < 2.0, "{displacement}: {} psig", inlet_psig(point));
        }
    }
}

/// Saturated liquid at 75 °F with a machine that never limits, lb/min within 3 %: same source.
#[test]
fn the_reference_kits_choke_on_liquid() {
    let mut document = preset("reference-kits");
    scenario::set(&mut document, "source.port", "liquid").unwrap();
    scenario::set(&mut document, "machine.displacement", "40 cfm").unwrap();
    for (point, rate_lb_min) in points(&document).iter().zip([5.11, 14.94, 27.80]) {
        assert!(point.choked_part.is_some());
        assert!((lb_min(point) / rate_lb_min - 1.0).abs() < 0.03, "{} lb/min", lb_min(point));
    }
}

/// The bakery: ranges that were agreed before any code was written.
#[test]
fn the_bakery_falls_in_its_agreed_ranges() {
    let points = points(&preset("bakery-freezer"));
    for (point, range) in points.iter().zip([0.95..=1.4, 1.3..=1.6, 1.4..=1.65]) {
        assert!(range.contains(&lb_min(point)), "{} lb/min, expected {range:?}", lb_min(point));
    }
    assert!((118.0..=140.0).contains(&inlet_psig(&points[0])), "{} psig", inlet_psig(&points[0]));
    assert!(lb_min(&points[2]) < 1.15 * lb_min(&points[1]), "wide hoses are worth little to a small machine");
}

#[test]
fn every_scenario_has_an_answer() {
    for preset in scenarios() {
        let document = scenario::read(preset.text).unwrap();
        for (kit, point) in document.kits.iter().zip(points(&document)) {
            let rate = lb_min(&point);
            println!("{} {}: {rate:.3} lb/min, {:.1} psig", preset.id, kit.name, inlet_psig(&point));
            assert!(rate.is_finite() && rate > 0.0, "{} {}: {rate}", preset.id, kit.name);
        }
    }
}

/// What each scenario is there to show.
#[test]
fn scenarios_show_what_they_say() {
    let rates = |id| points(&preset(id)).iter().map(lb_min).collect::<Vec<f64>>();
    let drier = rates("school-kitchen");
    assert!(drier[0] < 0.6 * drier[1], "a loaded drier costs most of the rate: {drier:?}");
    let ports = rates("hospital-two-ports");
    assert!(ports[0] < ports[1] && ports[1] < 2.0 * ports[0], "two ports help and do not double: {ports:?}");
    let yard = rates("market-generator");
    assert!(yard[0] > yard[1], "a short hose beats a long one: {yard:?}");
    let rink = rates("ice-rink-liquid");
    assert!(rink[0] < rink[1], "a wide hose beats a core and a gauge set: {rink:?}");
}

#[test]
fn liquid_into_an_inlet_that_nobody_described_is_said() {
    let notes = |throttle: Option<&str>| {
        let mut document = preset("reference-kits");
        scenario::set(&mut document, "source.port", "liquid").unwrap();
        if let Some(throttle) = throttle {
            scenario::set(&mut document, "machine.inlet_throttle", throttle).unwrap();
        }
        points(&document).remove(0).notes
    };
    assert!(notes(None).contains(&Note::OpenInlet));
    let narrow = "(bore: \"2 mm\", discharge_coefficient: \"0.8\")";
    assert!(!notes(Some(narrow)).contains(&Note::OpenInlet));
}

/// CoolProp 8.0.0 gives 273.15 K as the lowest temperature of R-114's equation of state
/// (`PropsSI("Tmin", "R114")`): an answer below that comes with a note.
#[test]
fn an_answer_beyond_the_equation_of_state_says_so() {
    let says = |temperature: &str| {
        let mut document = preset("reference-kits");
        for (path, text) in [("refrigerant", "R-114"), ("source.temperature", temperature)] {
            scenario::set(&mut document, path, text).unwrap();
        }
        let notes = points(&document).remove(2).notes;
        notes.contains(&Note::ExtrapolatedProperties { below_k: 273.15 })
    };
    assert!(says("-5 degC"));
    assert!(!says("60 degC"));
}
