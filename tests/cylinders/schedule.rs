//! Charges spread over a stock of cylinders.

use super::*;
use proptest::prelude::*;

/// A rink: R-22, cylinders of 239 lb WC. 0.8 · 239 = 191.2; · 1.194 = 228.3; 0.8 · 239 · 1.062
/// (SG at 130 °F) = 203.0, which is the hot rule with 20 % kept free. By hand.
#[test]
fn the_rinks_cylinders() {
    let stock: Vec<StockCylinder> = (0..6).map(|_| cylinder(239.0)).collect();
    let trade = FillingTable { hot_margin: share(0.2), hot_temperature: celsius(54.44), ..table() };
    let limits = fill_limits(&load("R-22"), &stock[0], &trade);
    for (kind, expected) in [
        (FillRuleKind::WaterCapacity, 191.2),
        (FillRuleKind::SpecificGravity, 228.3),
        (FillRuleKind::HotLiquid, 203.0),
    ] {
        near(in_lb(limits.rule(kind).unwrap().limit.clone().unwrap()), expected, 0.5, "limit");
    }
    assert_eq!(limits.lowest().unwrap().0.kind, FillRuleKind::WaterCapacity);

    let answers: Vec<CylinderAnswer> = stock.iter().map(|one| answer("R-22", one)).collect();
    let plan = cylinder_schedule(&answers, lb(900.0), lb(990.0));
    assert_eq!((plan.likely_count, plan.high_count), (5, 6));
    assert_eq!((plan.likely_swaps, plan.high_swaps), (4, 5));
    assert!(!plan.covers_high && plan.more.is_none());
    // 5 · 191.2 − 900 = 56 lb; 990 − 956 = 34 lb in the sixth.
    near(in_lb(plan.likely_spare), 56.0, 1e-6, "spare");
    near(in_lb(plan.fills[5].high), 34.0, 1e-6, "sixth");
    near(in_lb(plan.fills[5].likely), 0.0, 0.0, "sixth, likely");
    near(in_lb(plan.fills[4].likely), 900.0 - 4.0 * 191.2, 1e-6, "fifth");
    near(in_lb(plan.fills[0].stop_gross.unwrap()), 28.0 + 191.2, 1e-6, "gross");
    // With four cylinders, two more are missing; by the more generous rule four would just do:
    // 4 · 228 − 900 = 12 lb to spare, less than the charge may be off by.
    let plan = cylinder_schedule(&answers[..4], lb(900.0), lb(990.0));
    assert_eq!(plan.more, Some(MoreCylinders { like: 3, likely: 1, high: 2 }));
    assert_eq!((plan.likely_count, plan.high_count), (5, 6));
    let generous: Vec<CylinderAnswer> =
        answers.iter().map(|one| CylinderAnswer { remaining: lb(228.0), ..one.clone() }).collect();
    let plan = cylinder_schedule(&generous, lb(900.0), lb(990.0));
    assert_eq!((plan.likely_count, plan.high_count, plan.covers_high), (4, 5, false));
    near(in_lb(plan.likely_spare), 12.0, 1e-6, "spare of four");
}

#[test]
fn a_charge_that_nothing_takes_is_said() {
    let stopped = StockCylinder { disposable: true, ..cylinder(47.6) };
    let plan = cylinder_schedule(&[answer("R-22", &stopped)], lb(10.0), lb(12.0));
    assert_eq!((plan.likely_count, plan.fills.len(), plan.covers_high), (0, 0, false));
    near(in_lb(plan.homeless), 12.0, 1e-9, "homeless");
    let nothing = cylinder_schedule(&[], lb(10.0), lb(10.0));
    near(in_lb(nothing.homeless), 10.0, 1e-9, "homeless");
    let zero = cylinder_schedule(&[answer("R-22", &cylinder(47.6))], lb(0.0), lb(0.0));
    assert_eq!((zero.likely_count, zero.likely_swaps, zero.covers_high), (0, 0, true));
    // 10 t into small cylinders: a number, not a list.
    let ton = Mass::new::<kilogram>(10_000.0);
    let many = cylinder_schedule(&[answer("R-22", &cylinder(1.0))], ton, ton);
    // 10 000 / (0.8 · 0.45359237) = 27 557.8
    assert_eq!((many.likely_count, many.fills.len()), (27_558, 1));
}

proptest! {
    /// The schedule puts the whole charge somewhere, and nothing above any limit.
    #[test]
    fn a_schedule_keeps_the_mass(
        capacities_lb in prop::collection::vec(5.0..300.0f64, 1..8),
        charge_lb in 0.1..3000.0f64,
        band in 0.0..0.5f64,
    ) {
        let answers: Vec<CylinderAnswer> =
            capacities_lb.iter().map(|capacity| answer("R-22", &cylinder(*capacity))).collect();
        let plan = cylinder_schedule(&answers, lb(charge_lb), lb(charge_lb * (1.0 + band)));
        let placed: f64 = plan.fills.iter().map(|fill| in_lb(fill.high)).sum();
        let like = plan.more.as_ref().map_or(0.0, |more| {
            more.high as f64 * in_lb(answers[more.like].empty_room)
        });
        prop_assert!(placed + like >= charge_lb * (1.0 + band) - 1e-6);
        for fill in &plan.fills {
            prop_assert!(fill.high <= answers[fill.index].remaining && fill.likely <= fill.high);
        }
        prop_assert!(plan.likely_count <= plan.high_count);
        prop_assert_eq!(plan.covers_high, plan.likely_count == plan.high_count);
    }
}
