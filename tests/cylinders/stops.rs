//! What forbids filling a cylinder, and the reason said.

use super::*;

#[track_caller]
fn stopped(refrigerant: &str, one: &StockCylinder, is_meant: fn(&FillStop) -> bool, needles: &[&str]) {
    let got = answer(refrigerant, one);
    let stop = got.stops.iter().find(|stop| is_meant(stop)).unwrap_or_else(|| panic!("{:?}", got.stops));
    for needle in needles {
        assert!(stop.to_string().contains(needle), "{stop} lacks {needle:?}");
    }
    assert_eq!(got.remaining, Mass::default(), "nothing may go in");
    assert_eq!(got.stop_gross, None, "and there is no weight to stop at");
}

#[test]
fn stops_name_their_reason() {
    let sound = cylinder(47.6);
    assert_eq!(answer("R-22", &sound).stops, []);
    let is = |f: fn(&mut StockCylinder)| {
        let mut one = sound.clone();
        f(&mut one);
        one
    };
    stopped(
        "R-22",
        &is(|c| c.disposable = true),
        |s| matches!(s, FillStop::Disposable { .. }),
        &["it", "disposable"],
    );
    stopped("R-22", &is(|c| c.damaged = true), |s| matches!(s, FillStop::Damaged { .. }), &["damaged"]);
    stopped(
        "R-22",
        &is(|c| c.test_date = Some(YearMonth::parse("2021-10").unwrap())),
        |s| matches!(s, FillStop::OutOfDate { .. }),
        &["2021-10", "2026-10", "2026-11"],
    );
    stopped(
        "R-22",
        &is(|c| c.test_date = Some(YearMonth::parse("2027-01").unwrap())),
        |s| matches!(s, FillStop::TestedLater { .. }),
        &["2027-01"],
    );
    stopped(
        "R-22",
        &is(|c| c.holds = Holds::Other("R-410A".to_owned())),
        |s| matches!(s, FillStop::OtherRefrigerant { .. }),
        &["R-410A", "R-22", "mixture"],
    );
    // 40 − 0.8 · 47.6 = 1.92 lb
    stopped("R-22", &is(|c| c.contents = lb(40.0)), |s| matches!(s, FillStop::OverLimit { .. }), &["1.9 lb"]);
    // Minimum service pressure of the filling-density table for R-22: 240 psig.
    stopped(
        "R-22",
        &is(|c| c.service_pressure = Some(psig(225.0))),
        |s| matches!(s, FillStop::TooWeak { .. }),
        &["240 psig", "225 psig"],
    );
    // R-410A at 75 °F stands at 219 psig (published saturation table).
    stopped(
        "R-410A",
        &is(|c| c.service_pressure = Some(psig(200.0))),
        |s| matches!(s, FillStop::AboveServicePressure { .. }),
        &["200 psig", "219 psig"],
    );
}

/// The last month of a test still counts.
#[test]
fn a_test_is_good_to_the_end_of_its_month() {
    let tested =
        |text: &str| StockCylinder { test_date: Some(YearMonth::parse(text).unwrap()), ..cylinder(47.6) };
    assert_eq!(answer("R-22", &tested("2021-11")).stops, []);
    assert_ne!(answer("R-22", &tested("2021-10")).stops, []);
    let no_day = RecoveryDay { date: None, ..day() };
    let got = cylinder_answer(&load("R-22"), &tested("1990-01"), &table(), &no_day);
    assert!(got.stops.is_empty(), "without a day nothing can be out of date");
    assert!(matches!(got.notes[..], [FillNote::DateUnsaid { .. }]), "{:?}", got.notes);
}

/// 5/4 of the service pressure at 55 °C (49 CFR 173.301a, from memory): R-410A stands at 484.2 psig
/// (CoolProp 8.0.0); 5/4 · 400 = 500 is enough, 5/4 · 350 = 437.5 is not. R-22, 300.8 psig, goes
/// into 240 psig cylinders by 49 CFR 173.304a: its 300 psig must not be called too weak.
#[test]
fn a_cylinder_must_hold_the_pressure_of_a_hot_day() {
    let made_for = |value: f64| StockCylinder { service_pressure: Some(psig(value)), ..cylinder(47.6) };
    let is_weak = |name: &str, value: f64| {
        answer(name, &made_for(value)).notes.iter().any(|note| matches!(note, FillNote::WeakWhenHot { .. }))
    };
    assert!(!is_weak("R-410A", 400.0) && is_weak("R-410A", 350.0));
    assert!(!is_weak("R-22", 240.0));
}

/// CO2 (critical at 31 °C): rules by liquid volume say nothing; 49 CFR 173.304a gives 68 % in
/// cylinders of 1800 psig and 73.2 % in those of 2265. R-23 (critical at 26 °C) is not named.
#[test]
fn above_the_critical_point_only_the_filling_density_counts() {
    let strong = |value: f64| StockCylinder { service_pressure: Some(psig(value)), ..cylinder(100.0) };
    for (service_psig, percent) in [(1800.0, 68.0), (1999.0, 68.0), (2265.0, 73.2), (3000.0, 74.5)] {
        let got = answer("R-744", &strong(service_psig));
        let (kind, net) = got.lowest.unwrap();
        assert_eq!(kind, FillRuleKind::FillingDensity);
        near(in_lb(net), percent, 1e-9 * percent, "R-744");
        assert_eq!(got.stops, []);
    }
    stopped("R-744", &strong(400.0), |s| matches!(s, FillStop::TooWeak { .. }), &["1800 psig", "400 psig"]);
    stopped("R-744", &strong(400.0), |s| matches!(s, FillStop::NoLimit { .. }), &["no liquid", "31 °C"]);
    stopped("R-23", &cylinder(100.0), |s| matches!(s, FillStop::NoLimit { .. }), &["no liquid", "55 °C"]);
}
