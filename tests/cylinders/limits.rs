//! How much may go in: the rules beside their published figures, and which of them wins.

use super::contents::HYDROSTATIC;
use super::*;
use narrows::presets::read_rules;
use proptest::prelude::*;
use uom::si::volume::cubic_meter;

/// AHRI Guideline K (2004), as quoted in the trade press: WC 1000 lb, SG 1.197, tare 380 lb. The
/// older guideline leaves SG out: 800 lb.
#[test]
fn the_published_gross_weight() {
    let net = net_by_specific_gravity(lb(1000.0), share(0.8), share(1.197));
    near(in_lb(net), 957.60, 1e-3, "net");
    near(in_lb(net + lb(380.0)), 1337.60, 1e-3, "gross");
    let half_ton = cylinder(1000.0);
    near(limit_lb("R-22", &half_ton, FillRuleKind::WaterCapacity), 800.0, 1e-6, "older guideline");
    near(limit_lb("R-22", &half_ton, FillRuleKind::SpecificGravity), 957.6, 0.005 * 957.6, "by our own SG");
}

/// WC 47.7 lb, tare 28 lb; density CoolProp 8.0.0, SG relative to water at 25 °C.
#[test]
fn fifty_pound_cylinders_by_specific_gravity() {
    for (name, net, gross) in
        [("R-22", 45.57, 73.57), ("R-134a", 46.18, 74.18), ("R-410A", 40.53, 68.53), ("R-290", 18.84, 46.84)]
    {
        let got = limit_lb(name, &cylinder(47.7), FillRuleKind::SpecificGravity);
        near(got, net, 0.005 * net, name);
        near(got + 28.0, gross, 0.005 * gross, name);
    }
}

/// 49 CFR 173.304a Table 1: R-22 105, R-12 119, ammonia 54 % of the water capacity. Liquid-full at
/// 55 °C by CoolProp 8.0.0, relative to water at 60 °F: 105.8, 119.2, 55.5.
#[test]
fn filling_densities_stand_beside_what_is_computed() {
    for (name, regulation, computed) in
        [("R-22", 105.0, 105.8), ("R-12", 119.0, 119.2), ("R-717", 54.0, 55.5)]
    {
        let one = StockCylinder { service_pressure: Some(psig(480.0)), ..cylinder(100.0) };
        near(limit_lb(name, &one, FillRuleKind::FillingDensity), regulation, 1e-9 * regulation, name);
        let no_margin = FillingTable { hot_margin: share(0.0), ..table() };
        let limits = fill_limits(&load(name), &one, &no_margin);
        let hot = limits.rule(FillRuleKind::HotLiquid).unwrap().limit.clone().unwrap();
        near(in_lb(hot), computed, 0.1, name);
    }
    // R-410A is not named.
    let limits = fill_limits(&load("R-410A"), &cylinder(47.6), &table());
    let density = &limits.rule(FillRuleKind::FillingDensity).unwrap().limit;
    assert!(matches!(density, Err(NoLimit::NotNamed { .. })), "{density:?}");
}

/// Common practice, no source: a nominal 50 lb cylinder, WC 47.6 lb. The figures were worked out by
/// hand from specific gravities of CoolProp 8.0.0 (R-22 1.194, R-410A 1.062, R-404A 1.047 at 77 °F
/// and 0.866 at 130 °F).
#[test]
fn the_rules_side_by_side_for_a_common_cylinder() {
    let one = cylinder(47.6);
    for (name, by_capacity, by_gravity) in
        [("R-22", 38.1, 45.5), ("R-410A", 38.1, 40.4), ("R-404A", 38.1, 39.9)]
    {
        near(limit_lb(name, &one, FillRuleKind::WaterCapacity), by_capacity, 0.06, name);
        near(limit_lb(name, &one, FillRuleKind::SpecificGravity), by_gravity, 0.06, name);
    }
    // At 55 °C, a little warmer than 130 °F: 0.9 · 47.6 · 0.866 = 37.1 lb, and it is the lowest.
    near(limit_lb("R-404A", &one, FillRuleKind::HotLiquid), 37.1, 0.25, "R-404A when hot");
    let answer = answer("R-404A", &one);
    let (kind, net) = answer.lowest.unwrap();
    assert_eq!(kind, FillRuleKind::HotLiquid);
    near(in_lb(net), 37.1, 0.25, "lowest");
    near(in_lb(answer.stop_gross.unwrap()), 28.0 + 37.1, 0.25, "gross weight to stop at");
    assert!(answer.stops.is_empty() && answer.notes.is_empty(), "{answer:?}");
}

#[test]
fn what_is_in_a_cylinder_counts() {
    let half = StockCylinder { contents: lb(20.0), holds: Holds::Same, ..cylinder(47.6) };
    let got = answer("R-22", &half);
    near(in_lb(got.remaining), 0.8 * 47.6 - 20.0, 1e-9, "remaining");
    near(in_lb(got.stop_gross.unwrap()), 28.0 + 0.8 * 47.6, 1e-9, "gross");
    let full = StockCylinder { contents: lb(0.8 * 47.6), holds: Holds::Same, ..cylinder(47.6) };
    let got = answer("R-22", &full);
    assert!(got.stops.is_empty() && matches!(got.notes[..], [FillNote::Full { .. }]), "{got:?}");
    // A schedule goes past it.
    let answers = [got, answer("R-22", &cylinder(47.6))];
    let plan = cylinder_schedule(&answers, lb(10.0), lb(10.0));
    assert_eq!((plan.fills.len(), plan.fills[0].index, plan.covers_high), (1, 1, true));
}

/// 20 lb/min for half a minute and 1 lb in the line: 11 lb, by hand.
#[test]
fn push_pull_stops_short() {
    let rate = MassRate::new::<uom::si::mass_rate::kilogram_per_second>(20.0 * POUND_KG / 60.0);
    let allowance = siphon_allowance(rate, Time::new::<uom::si::time::second>(30.0), lb(1.0));
    near(in_lb(allowance), 11.0, 1e-9, "allowance");
    let short = RecoveryDay { siphon_allowance: allowance, ..day() };
    let got = cylinder_answer(&load("R-22"), &cylinder(239.0), &table(), &short);
    near(in_lb(got.remaining), 191.2 - 11.0, 1e-9, "remaining");
    near(in_lb(got.stop_gross.unwrap()), 28.0 + 180.2, 1e-9, "stop");
    near(in_lb(got.limit_gross.unwrap()), 28.0 + 191.2, 1e-9, "limit");
}

/// R-410A has no table at 70 °C: without the hot rule the others would allow too much.
#[test]
fn no_limit_is_given_where_the_hot_rule_has_no_answer() {
    let hot = FillingTable { hot_temperature: celsius(70.0), ..table() };
    let limits = fill_limits(&load("R-410A"), &cylinder(47.6), &hot);
    assert!(limits.rule(FillRuleKind::WaterCapacity).unwrap().limit.is_ok());
    assert_eq!(limits.lowest(), None);
}

#[test]
fn a_marking_that_is_lower_wins() {
    let marked = |value: f64| StockCylinder { marking_limit: Some(lb(value)), ..cylinder(47.6) };
    assert_eq!(answer("R-22", &marked(30.0)).lowest.unwrap().0, FillRuleKind::Marking);
    assert_eq!(answer("R-22", &marked(50.0)).lowest.unwrap().0, FillRuleKind::WaterCapacity);
    let unread = StockCylinder { water_capacity: None, ..cylinder(47.6) };
    let got = answer("R-22", &unread);
    assert!(got.stops.is_empty() && got.lowest.is_none() && got.remaining == Mass::default());
    assert!(matches!(got.notes[..], [FillNote::NoWaterCapacity { .. }]), "{:?}", got.notes);
}

#[test]
fn rule_files_are_checked() {
    let own = |from: &str, to: &str| {
        let text = include_str!("../../presets/rules/us-filling.ron");
        assert!(text.contains(from), "{from}");
        read_rules("own.ron", &text.replace(from, to)).map_err(|error| error.to_string())
    };
    assert!(own("fill: \"80 %\"", "fill: \"75 %\"").unwrap().filling.is_some());
    let refused = |from: &str, to: &str, needle: &str| {
        let error = own(from, to).unwrap_err();
        assert!(error.contains(needle), "{error}");
    };
    refused("fill: \"80 %\"", "fill: \"101 %\"", "10 to 90 %");
    refused("schema: 1", "schema: 2", "schema 2");
    refused("hot_margin", "margin", "margin");
    refused("\"105 %\"", "\"105 lb\"", "ratio");
    assert!(read_rules("own.ron", "(schema: 1").is_err());
}

proptest! {
    /// Whatever is in it, a cylinder is never filled past its lowest rule, nor over 80 % of its
    /// volume at 25 °C, and stays short of liquid-full at 55 °C.
    #[test]
    fn no_cylinder_is_overfilled(
        capacity_lb in 5.0..2000.0f64,
        held in 0.0..1.2f64,
        which in 0..HYDROSTATIC.len(),
    ) {
        let (name, ..) = HYDROSTATIC[which];
        let refrigerant = load(name);
        let mut one = cylinder(capacity_lb);
        one.holds = Holds::Same;
        one.contents = lb(held * capacity_lb);
        let got = cylinder_answer(&refrigerant, &one, &table(), &day());
        let (_, net) = got.lowest.unwrap();
        let total = one.contents + got.remaining;
        prop_assert!(total <= net * (1.0 + 1e-12) || got.remaining == Mass::default());
        for rule in &got.limits.rules {
            if let Ok(limit) = rule.limit {
                prop_assert!(net <= limit);
            }
        }
        let volume = inside_volume(one.water_capacity.unwrap()).get::<cubic_meter>();
        let mean = MassDensity::new::<kilogram_per_cubic_meter>(net.get::<kilogram>() / volume);
        let hot = contents_at(&refrigerant, mean, celsius(55.0)).unwrap().liquid().get::<ratio>();
        prop_assert!(hot <= 0.9 + 1e-9, "{name}: {hot}");
    }
}
