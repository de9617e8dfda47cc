//! Documents, presets, quantities and tables of a log.

use narrows::kit::{TargetLevel, TypedDate};
use narrows::presets::{Shelf, read_rules};
use narrows::scenario::{self, Document, SiteLog, log_from_csv, log_of};
use narrows::units::{
    ApparentPower, CoolingCapacity, FlowCoefficient, Measure, PressureDifference, Typed, TypedPressure,
    TypedWire,
};
use std::fmt::Debug;

use super::budget::in_time;
use super::edits::scenario_document;

/// A text as a document: read, checked, resolved; written, it reads back the same.
pub fn document(data: &[u8]) {
    let Ok(text) = str::from_utf8(data) else { return };
    in_time("reading a document", || match scenario::read(text) {
        Ok(document) => {
            comes_back(&document);
            for fault in scenario::check(&document) {
                assert!(!fault.to_string().is_empty());
            }
            let _ = scenario::resolve(&document);
        }
        Err(error) => assert!(!error.to_string().is_empty()),
    });
}

/// Writes a document and reads it again.
pub fn comes_back(document: &Document) {
    let text = scenario::write(document).expect("a document that was read can be written");
    let again = scenario::read(&text).unwrap_or_else(|error| panic!("{error} in\n{text}"));
    assert!(again == *document, "not what was written:\n{text}");
}

/// A text as a shelf file and as a rule file. What is refused leaves the shelf as it was.
pub fn preset(data: &[u8]) {
    let Ok(text) = str::from_utf8(data) else { return };
    in_time("reading a preset", || {
        let mut shelf = Shelf::default();
        match shelf.add("own.ron", text) {
            Ok(()) => {
                let known = shelf.ids().count();
                let twice = shelf.add("own.ron", text);
                assert!(twice.is_err() || known == 0, "the same ids twice");
                assert_eq!(shelf.ids().count(), known, "a refused file added something");
            }
            Err(error) => {
                assert!(!error.to_string().is_empty());
                assert!(shelf == Shelf::default(), "a refused file added something");
            }
        }
        match read_rules("own.ron", text) {
            Ok(rules) => {
                if let Some(levels) = &rules.levels {
                    let _ = levels.table();
                }
            }
            Err(error) => assert!(!error.to_string().is_empty()),
        }
    });
}

/// A text as a quantity; a letter in front says of which kind.
pub fn quantity(data: &[u8]) {
    use uom::si::f64::*;
    let Ok(text) = str::from_utf8(data) else { return };
    let Some(kind) = text.chars().next() else { return };
    let text = &text[kind.len_utf8()..];
    in_time("reading a quantity", || match kind {
        'a' => typed::<Length>(text),
        'b' => typed::<ThermodynamicTemperature>(text),
        'c' => typed::<TemperatureInterval>(text),
        'd' => typed::<Volume>(text),
        'e' => typed::<VolumeRate>(text),
        'f' => typed::<Mass>(text),
        'g' => typed::<MassRate>(text),
        'h' => typed::<Pressure>(text),
        'i' => typed::<Ratio>(text),
        'j' => typed::<ElectricPotential>(text),
        'k' => typed::<ElectricCurrent>(text),
        'l' => typed::<Power>(text),
        'm' => typed::<ElectricalResistance>(text),
        'n' => typed::<Frequency>(text),
        'o' => typed::<AngularVelocity>(text),
        'p' => typed::<Time>(text),
        'q' => typed::<ThermalConductance>(text),
        'r' => typed::<HeatCapacity>(text),
        's' => typed::<ApparentPower>(text),
        't' => typed::<PressureDifference>(text),
        'u' => typed::<FlowCoefficient>(text),
        'v' => typed::<CoolingCapacity>(text),
        'w' => gauge(text),
        'x' => read_back(TypedWire::parse(text)),
        'y' => read_back(TypedDate::parse(text)),
        _ => read_back(serde_json::from_value::<TargetLevel>(text.into())),
    });
}

fn read_back<T, E>(read: Result<T, E>)
where
    T: serde::Serialize + serde::de::DeserializeOwned + PartialEq + Debug,
    E: ToString,
{
    match read {
        Ok(value) => as_typed(&value),
        Err(error) => assert!(!error.to_string().is_empty()),
    }
}

/// Text and value of one kind of quantity, and what fields do with it.
fn typed<Q: Measure>(text: &str) {
    let typed = match Typed::<Q>::parse(text) {
        Ok(typed) => typed,
        Err(error) => return assert!(!error.to_string().is_empty()),
    };
    assert!(typed.si().is_finite(), "{text:?}");
    assert!(Q::FLOOR.is_none_or(|(floor, _)| typed.si() >= floor), "{text:?}");
    assert_eq!(typed.as_typed(), text.trim());
    as_typed(&typed);
    // Number and unit say the same quantity; at the ends of what a number holds rounding may not.
    let (number, unit) = (typed.number(), typed.unit());
    if number == 0.0 || (1e-200..1e200).contains(&number.abs()) {
        let again = Typed::<Q>::of(number, &unit);
        let again = again.unwrap_or_else(|error| panic!("{text:?}: {number} {unit:?}: {error}"));
        // Shifted scales (degF) cancel: the shift is of the order of 500.
        let slack = 1e-9 * typed.si().abs()
            + 1e-9 * Q::UNITS.iter().map(|u| (u.shift * u.scale).abs()).fold(0.0, f64::max);
        assert!((again.si() - typed.si()).abs() <= slack, "{text:?} is {} {unit:?}", number);
    }
    let _ = typed.stepped(1.0);
    let _ = typed.retyped(text);
    let _ = typed.retyped("7");
}

fn gauge(text: &str) {
    let pressure = match TypedPressure::parse(text) {
        Ok(pressure) => pressure,
        Err(error) => return assert!(!error.to_string().is_empty()),
    };
    assert_eq!(pressure.as_typed(), text.trim());
    as_typed(&pressure);
    // Gauge readings move with the air around, absolute ones do not.
    let at = |ambient_pa: f64| pressure.absolute(uom::si::f64::Pressure::from_si(ambient_pa)).si();
    assert!(at(1e5).is_finite(), "{text:?}");
    let moved = at(9e4) - at(1e5);
    assert!(moved.abs() <= 1e4 * (1.0 + 1e-9) + 1e-12 * at(1e5).abs(), "{text:?} moved by {moved} Pa");
}

/// What was typed comes back from a file as it was typed.
fn as_typed<T>(typed: &T)
where
    T: serde::Serialize + serde::de::DeserializeOwned + PartialEq + Debug,
{
    let text = serde_json::to_string(typed).expect("texts can be written");
    let again: T = serde_json::from_str(&text).unwrap_or_else(|error| panic!("{text}: {error}"));
    assert_eq!(again, *typed);
    let text = ron::to_string(typed).expect("texts can be written");
    let again: T = ron::from_str(&text).unwrap_or_else(|error| panic!("{text}: {error}"));
    assert_eq!(again, *typed);
}

/// A text as a site log: read, taken into a document, and back.
pub fn log(data: &[u8]) {
    let Ok(text) = str::from_utf8(data) else { return };
    in_time("reading a log", || match log_from_csv(text) {
        Ok(rows) => {
            let mut document = scenario_document("slow-path");
            document.log = Some(SiteLog { rows, ..SiteLog::default() });
            comes_back(&document);
            if let Ok(setup) = log_of(&document) {
                assert!(setup.steps.iter().all(|step| step.time_s.is_finite() && step.gained_kg.is_finite()));
            }
        }
        Err(error) => assert!(!error.to_string().is_empty()),
    });
}
