//! Quantities as people type them: kept, read back, and refused in words.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops where it fails")]

use narrows::units::{
    ApparentPower, CoolingCapacity, FlowCoefficient, Measure, PressureDifference, Typed, TypedPressure,
    UnitError,
};
use proptest::prelude::*;
use uom::si::f64::*;

#[track_caller]
fn reads<Q: Measure>(text: &str, expected_si: f64) {
    let typed = Typed::<Q>::parse(text).unwrap_or_else(|error| panic!("{error}"));
    assert!((typed.si() - expected_si).abs() <= 1e-12 * expected_si.abs(), "{text}: {}", typed.si());
    assert_eq!(typed.as_typed(), text, "kept as typed");
}

/// Factors by definition: foot 0.3048 m, pound 0.45359237 kg, horsepower 550 ft lbf/s.
#[test]
fn quantities_as_people_type_them() {
    reads::<Length>("25 ft", 7.62);
    reads::<Length>("25ft", 7.62);
    reads::<Length>("4.80 mm", 0.0048);
    reads::<Length>("4,8 mm", 0.0048);
    reads::<Length>("1/4 in", 0.00635);
    reads::<Length>("1 1/2 in.", 0.0381);
    reads::<Length>("3/8\"", 0.009525);
    reads::<Length>("5 ft 6 in", 1.6764);
    reads::<Length>("5' 6\"", 1.6764);
    reads::<Length>("−4 m", -4.0);
    reads::<Length>("25 FT", 7.62);
    reads::<ThermodynamicTemperature>("59 °F", 288.15);
    reads::<ThermodynamicTemperature>("75 degF", 297.038_888_888_888_9);
    reads::<ThermodynamicTemperature>("-40 F", 233.15);
    reads::<ThermodynamicTemperature>("−40 °C", 233.15);
    reads::<ThermodynamicTemperature>("20 degC", 293.15);
    reads::<TemperatureInterval>("18 degF", 10.0);
    reads::<Volume>("25 ft3", 0.707_921_164_8);
    reads::<Volume>("25 cu ft", 0.707_921_164_8);
    reads::<Volume>("30 L", 0.03);
    reads::<VolumeRate>("0.42 cfm", 0.42 * 0.028_316_846_592 / 60.0);
    reads::<VolumeRate>("12 L/min", 2e-4);
    reads::<VolumeRate>("1 m3/h", 1.0 / 3600.0);
    reads::<Mass>("22 lb", 9.979_032_14);
    reads::<Mass>("12 lb 4 oz", 5.556_506_532_5);
    reads::<Mass>("3,5 kg", 3.5);
    reads::<MassRate>("1 lb/min", 0.007_559_872_833_333_333);
    reads::<Ratio>("5 %", 0.05);
    reads::<Ratio>("0.95", 0.95);
    reads::<Power>("1 hp", 745.699_871_582_270_2);
    reads::<Power>("1/2 hp", 372.849_935_791_135_1);
    reads::<ElectricPotential>("120 V", 120.0);
    reads::<ElectricCurrent>("12 amps", 12.0);
    reads::<ElectricalResistance>("50 mΩ", 0.05);
    reads::<AngularVelocity>("60 rpm", std::f64::consts::TAU);
    reads::<Frequency>("50 Hz", 50.0);
    reads::<Time>("1 h 20 min", 4800.0);
    reads::<ThermalConductance>("60 W/K", 60.0);
    reads::<ApparentPower>("2.2 kVA", 2200.0);
    reads::<PressureDifference>("1 psi", 6_894.757_293_168_361);
    reads::<Pressure>("29.921 inHg", 29.921 * 25.4 * 133.322_387_415);
    reads::<Pressure>("98.5 kPa", 98_500.0);
    reads::<CoolingCapacity>("1 ton", 12_000.0 * 1_055.055_852_62 / 3600.0);
    reads::<FlowCoefficient>("1,2 Kv", 1.2);
}

#[track_caller]
fn refuses<Q: Measure>(text: &str, needles: &[&str]) {
    let error = Typed::<Q>::parse(text).unwrap_err().to_string();
    for needle in needles {
        assert!(error.contains(needle), "{text}: {error:?} lacks {needle:?}");
    }
}

#[test]
fn refusals_say_what_was_expected() {
    refuses::<Length>("25", &["\"25\"", "no unit", "a length", "25 ft"]);
    refuses::<Length>("25 lb", &["\"lb\"", "no unit of a length", "ft, in, mm"]);
    refuses::<Length>("", &["a length", "25 ft"]);
    refuses::<Length>("ft", &["does not start with a number"]);
    refuses::<Length>("NaN m", &["does not start with a number"]);
    refuses::<Length>("inf m", &["does not start with a number"]);
    refuses::<Length>("1e999 m", &["not a finite number"]);
    refuses::<Length>("1,000 ft", &["two ways"]);
    refuses::<Length>("6 in 5 ft", &["no unit of a length"]);
    refuses::<Length>("25 ft long", &["\"ft long\""]);
    refuses::<Mass>("12 lb 4", &["no unit"]);
    refuses::<ThermodynamicTemperature>("-500 degF", &["below absolute zero"]);
    refuses::<ThermodynamicTemperature>("75", &["75 degF"]);
    refuses::<ThermodynamicTemperature>("75 F 3 F", &["no unit of a temperature"]);
    refuses::<Pressure>("14.7 psig", &["psig", "an absolute pressure", "14.7 psia"]);
    refuses::<Ratio>("5 ft", &["a ratio", "5 %"]);
    // Milli and mega are never exchanged.
    refuses::<ElectricalResistance>("50 Mohm", &["Mohm"]);
    refuses::<ElectricPotential>("5 MV", &["MV"]);
}

#[track_caller]
fn pressure(text: &str, expected_pa: f64) {
    let ambient = Pressure::from_si(100_000.0);
    let got_pa = TypedPressure::parse(text).unwrap().absolute(ambient).si();
    assert!((got_pa - expected_pa).abs() < 1e-6, "{text}: {got_pa}");
}

/// In air of 100 kPa, so that no reading agrees with another by chance.
#[test]
fn pressures_know_what_they_are_measured_from() {
    pressure("10 psig", 100_000.0 + 68_947.572_931_683_61);
    pressure("10 psia", 68_947.572_931_683_61);
    pressure("10 PSIG", 100_000.0 + 68_947.572_931_683_61);
    pressure("2 bar g", 300_000.0);
    pressure("2 bar(g)", 300_000.0);
    pressure("2 bar a", 200_000.0);
    pressure("250 kPa", 250_000.0);
    pressure("250 kPa g", 350_000.0);
    pressure("10 inHg vac", 100_000.0 - 33_863.886_403_41);
    pressure("10 inHg", 100_000.0 - 33_863.886_403_41);
    pressure("10 inHg abs", 33_863.886_403_41);
    pressure("-2 psig", 100_000.0 - 13_789.514_586_336_72);
    pressure("500 micron", 66.661_193_707_5);
}

#[test]
fn an_unclear_pressure_is_refused() {
    let refusal = |text: &str| TypedPressure::parse(text).unwrap_err();
    assert!(matches!(refusal("219 psi"), UnitError::Reference { .. }));
    assert!(refusal("219 psi").to_string().contains("219 psig or 219 psia"));
    assert!(matches!(refusal("15 bar"), UnitError::Reference { .. }));
    assert!(matches!(refusal("219"), UnitError::NoUnit { .. }));
    assert!(matches!(refusal("-10 inHg vac"), UnitError::BelowZero { .. }));
    assert!(matches!(refusal("-1 psia"), UnitError::BelowZero { .. }));
    assert!(matches!(refusal("10 ft"), UnitError::UnknownUnit { .. }));
    assert!(matches!(refusal("1,000 psig"), UnitError::Separator { .. }));
}

#[test]
fn a_number_typed_over_keeps_the_unit() {
    let length = Typed::<Length>::parse("25 ft").unwrap();
    assert_eq!(length.retyped("50").unwrap().as_typed(), "50 ft");
    assert_eq!(length.retyped("3 m").unwrap().as_typed(), "3 m");
    assert_eq!(length.stepped(0.1).unwrap().as_typed(), "25.1 ft");
    assert_eq!(Typed::<Length>::parse("0.3 mm").unwrap().stepped(-0.1).unwrap().as_typed(), "0.2 mm");
    assert_eq!(TypedPressure::parse("219 psig").unwrap().retyped("220").unwrap().as_typed(), "220 psig");
    assert!(length.retyped("abc").is_err());
}

/// Every unit of a quantity, there and back.
fn both_directions<Q: Measure>(number: f64) {
    for unit in Q::UNITS {
        let spelling = unit.spellings[0];
        let text = format!("{number} {spelling}");
        let typed = Typed::<Q>::parse(text.trim()).unwrap_or_else(|error| panic!("{error}"));
        let back = unit.from_si(typed.si());
        // A shift costs digits: 1e-12 of what is added.
        assert!((back - number).abs() <= 1e-13 * (number.abs() + 2.0 * unit.shift), "{text}: {back}");
        assert!((typed.number() - number).abs() <= 1e-13 * (number.abs() + 2.0 * unit.shift), "{text}");
    }
}

proptest! {
    #[test]
    fn every_unit_goes_both_ways(number in 1e-3..1e4_f64) {
        both_directions::<Length>(number);
        both_directions::<ThermodynamicTemperature>(number);
        both_directions::<TemperatureInterval>(number);
        both_directions::<Volume>(number);
        both_directions::<VolumeRate>(number);
        both_directions::<Mass>(number);
        both_directions::<MassRate>(number);
        both_directions::<Pressure>(number);
        both_directions::<Ratio>(number);
        both_directions::<ElectricPotential>(number);
        both_directions::<ElectricCurrent>(number);
        both_directions::<ElectricalResistance>(number);
        both_directions::<Power>(number);
        both_directions::<Frequency>(number);
        both_directions::<AngularVelocity>(number);
        both_directions::<Time>(number);
        both_directions::<ThermalConductance>(number);
        both_directions::<HeatCapacity>(number);
        both_directions::<ApparentPower>(number);
        both_directions::<PressureDifference>(number);
        both_directions::<FlowCoefficient>(number);
        both_directions::<CoolingCapacity>(number);
    }

    #[test]
    fn no_text_panics_and_none_is_infinite(text in "\\PC{0,16}") {
        if let Ok(typed) = Typed::<Length>::parse(&text) {
            prop_assert!(typed.si().is_finite());
        }
        if let Ok(typed) = Typed::<ThermodynamicTemperature>::parse(&text) {
            prop_assert!(typed.si() >= 0.0);
        }
        let _ = TypedPressure::parse(&text);
        let _ = narrows::units::TypedWire::parse(&text);
    }

    #[test]
    fn near_quantities_do_not_panic(text in "[-+−]?[0-9½¼.,/eE ]{0,8} ?(ft|in|'|\"|mm|°F|%|psig)? ?[0-9]{0,2}") {
        let _ = Typed::<Length>::parse(&text).map(|typed| (typed.unit(), typed.number(), typed.stepped(1.0)));
        let _ = Typed::<Ratio>::parse(&text);
        let _ = TypedPressure::parse(&text);
    }
}
