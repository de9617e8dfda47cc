//! What must always hold of a power path, over random paths and motors.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may fail loudly")]

mod power_parts;

use narrows::power::*;
use power_parts::*;
use proptest::prelude::*;
use uom::si::electric_current::ampere;
use uom::si::electric_potential::volt;
use uom::si::electrical_resistance::ohm;
use uom::si::power::watt;

const GAUGES: [i64; 9] = [18, 17, 16, 14, 12, 10, 8, 6, 4];

/// Slack for rounding in voltage comparisons.
const SLACK_V: f64 = 1e-6;

fn any_motor() -> impl Strategy<Value = Motor> {
    let kind = prop_oneof![
        Just(MotorKind::Induction(InductionStart::CapacitorStart)),
        Just(RUN_CAPACITOR),
        Just(MotorKind::Induction(InductionStart::SplitPhase)),
        Just(MotorKind::Universal),
        Just(MotorKind::ElectronicDrive { under_voltage_trip: Some(volts(60.0)), inrush_ratio: None }),
    ];
    (kind, 3.0..18.0f64, 3.5..7.0f64).prop_map(|(kind, rated_a, times)| {
        let plate = Nameplate::new(volts(115.0), amps(rated_a), LockedRotor::TimesRated(times));
        Motor::new(kind, &plate).unwrap()
    })
}

fn any_path() -> impl Strategy<Value = PowerPath> {
    let cords = prop::collection::vec((0..GAUGES.len(), 0.0..150.0f64, any::<bool>()), 0..4);
    (100.0..130.0f64, 2..6usize, 0.0..150.0f64, 0.0..12.0f64, cords, any::<bool>()).prop_map(
        |(panel_v, branch_gauge, branch_ft, other_a, cords, service)| {
            let branch =
                branch(GAUGES[branch_gauge], branch_ft, 20.0).with_other_loads(amps(other_a)).unwrap();
            let cords = cords
                .into_iter()
                .map(|(gauge, length_ft, coiled)| {
                    let lay = if coiled { Lay::Coiled } else { Lay::Straight };
                    let conductor = Conductor::stranded_copper(awg(GAUGES[gauge]));
                    Cord::new(conductor, feet(length_ft), lay).unwrap()
                })
                .collect();
            let mut path = path(panel_v, branch, cords);
            if service {
                let source = Source::Service(SourceImpedance::typical_service());
                let hz = path.supply.frequency();
                path.supply = Supply::new(volts(panel_v), hz, source).unwrap();
            }
            path
        },
    )
}

/// Volts running, with "cannot hold" as the lowest of all.
fn running_v(point: &PowerPoint) -> f64 {
    point.running.point().map_or(0.0, |run| run.voltage.get::<volt>())
}

fn solve_load(path: &PowerPath, motor: &Motor, ratio: f64, start: StartFrom) -> PowerPoint {
    let load = Load::ShaftPower(motor.rated_shaft_power() * ratio);
    solve(path, motor, load, &conditions(80.0).with_start_from(start)).unwrap()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, ..ProptestConfig::default() })]

    #[test]
    fn drops_add_up_to_the_whole(path in any_path(), motor in any_motor(), ratio in 0.1..1.3f64) {
        let point = solve_load(&path, &motor, ratio, StartFrom::Warm);
        let supply_v = path.supply.open_circuit().get::<volt>();
        let lost: f64 = point.elements.iter().map(|e| e.starting_drop.get::<volt>()).sum();
        prop_assert!((supply_v - lost - point.starting.voltage.get::<volt>()).abs() < SLACK_V);
        if let Some(run) = point.running.point() {
            let lost: f64 = point.elements.iter().filter_map(|e| e.running_drop).map(|d| d.get::<volt>()).sum();
            prop_assert!((supply_v - lost - run.voltage.get::<volt>()).abs() < SLACK_V);
            let shaft_w = run.shaft_power.get::<watt>();
            prop_assert!(run.input_power.get::<watt>() > shaft_w, "a motor loses power");
        }
        prop_assert_eq!(point.elements.len(), 3 + path.cords.len());
    }

    /// The law of the mesh from the outputs alone: `E² = (V cos φ + I R)² + (V sin φ + I X)²`,
    /// R from the heat, X from the reactance per length, φ at the motor.
    #[test]
    fn running_voltages_close_the_mesh(path in any_path(), motor in any_motor(), ratio in 0.1..1.3f64) {
        let mut path = path;
        path.supply = Supply::held_panel(path.supply.open_circuit()).unwrap();
        path.branch = path.branch.with_other_loads(amps(0.0)).unwrap();
        let point = solve_load(&path, &motor, ratio, StartFrom::Cold);
        if let Some(run) = point.running.point() {
            let (v, i) = (run.voltage.get::<volt>(), run.current.get::<ampere>());
            let heat: f64 = point.elements.iter().filter_map(|e| e.heat).map(|h| h.get::<watt>()).sum();
            let resistance = heat / (i * i);
            let hz = path.supply.frequency();
            let wall = (path.branch.conductor(), path.branch.length());
            let cords = path.cords.iter().map(|cord| (cord.conductor(), cord.length()));
            let reactance: f64 = std::iter::once(wall)
                .chain(cords)
                .map(|(conductor, length)| (conductor.reactance_per_length(hz) * length * 2.0).get::<ohm>())
                .sum();
            let cosine = run.power_factor_ratio;
            let sine = (1.0 - cosine * cosine).max(0.0).sqrt();
            let e = (v * cosine + i * resistance).hypot(v * sine + i * reactance);
            let expected = path.supply.open_circuit().get::<volt>();
            prop_assert!((e - expected).abs() < 1e-9 * expected, "{} against {}", e, expected);
        }
    }

    #[test]
    fn a_longer_or_thinner_cord_never_raises_the_voltage(
        path in any_path(), motor in any_motor(), ratio in 0.2..1.3f64,
        gauge in 0..GAUGES.len(), length_ft in 0.0..140.0f64, more_ft in 0.0..100.0f64,
    ) {
        let with = |gauge: usize, length_ft: f64| {
            let mut changed = path.clone();
            changed.cords.push(cord(GAUGES[gauge], length_ft));
            solve_load(&changed, &motor, ratio, StartFrom::Warm)
        };
        let before = with(gauge, length_ft);
        let longer = with(gauge, length_ft + more_ft);
        let thinner = with(gauge.saturating_sub(1), length_ft);
        for after in [&longer, &thinner] {
            prop_assert!(running_v(after) <= running_v(&before) + SLACK_V);
        }
        // Starting from ambient: what warms the cord does not enter.
        let cold = |gauge: usize, length_ft: f64| {
            let mut changed = path.clone();
            changed.cords.push(cord(GAUGES[gauge], length_ft));
            solve_load(&changed, &motor, ratio, StartFrom::Cold).starting.voltage.get::<volt>()
        };
        prop_assert!(cold(gauge, length_ft + more_ft) <= cold(gauge, length_ft) + SLACK_V);
        prop_assert!(cold(gauge.saturating_sub(1), length_ft) <= cold(gauge, length_ft) + SLACK_V);
    }

    #[test]
    fn more_load_never_raises_the_voltage(
        path in any_path(), motor in any_motor(), ratio in 0.2..1.2f64, more in 0.0..0.5f64, other in 0.0..10.0f64,
    ) {
        let before = solve_load(&path, &motor, ratio, StartFrom::Cold);
        let after = solve_load(&path, &motor, ratio + more, StartFrom::Cold);
        prop_assert!(running_v(&after) <= running_v(&before) + SLACK_V);

        let mut shared = path.clone();
        shared.branch = shared.branch.with_other_loads(amps(13.0 + other)).unwrap();
        let shared = solve_load(&shared, &motor, ratio, StartFrom::Cold);
        prop_assert!(running_v(&shared) <= running_v(&before) + SLACK_V);
        prop_assert!(shared.starting.voltage.get::<volt>() <= before.starting.voltage.get::<volt>() + SLACK_V);
    }

    #[test]
    fn starting_voltage_stays_below_the_panel_and_running(path in any_path(), motor in any_motor()) {
        let point = solve_load(&path, &motor, 1.0, StartFrom::Cold);
        let start_v = point.starting.voltage.get::<volt>();
        prop_assert!(start_v <= point.starting.receptacle.get::<volt>() + SLACK_V);
        prop_assert!(point.starting.receptacle <= point.starting.panel + volts(SLACK_V));
        prop_assert!(point.starting.panel <= path.supply.open_circuit() + volts(SLACK_V));
        // A drive's torque does not go with the square of its voltage.
        let drive = matches!(motor.kind(), MotorKind::ElectronicDrive { .. });
        prop_assert!(drive || point.starting.torque_ratio <= (path.supply.open_circuit().get::<volt>() / 115.0).powi(2) + 1e-9);
    }

    #[test]
    fn the_order_of_cords_does_not_matter(path in any_path(), motor in any_motor()) {
        let mut turned = path.clone();
        turned.cords.reverse();
        let (a, b) = (solve_at(&path, &motor, 80.0), solve_at(&turned, &motor, 80.0));
        prop_assert!((running_v(&a) - running_v(&b)).abs() < SLACK_V);
        prop_assert!((a.starting.voltage - b.starting.voltage).get::<volt>().abs() < SLACK_V);
    }

    #[test]
    fn the_same_input_gives_the_same_bits(path in any_path(), motor in any_motor()) {
        prop_assert_eq!(solve_at(&path, &motor, 80.0), solve_at(&path, &motor, 80.0));
    }

    #[test]
    fn no_number_panics(
        v in any::<f64>(), a in any::<f64>(), w in any::<f64>(), ratio in any::<f64>(), kind in 0..3u8,
    ) {
        let kind = match kind {
            0 => RUN_CAPACITOR,
            1 => MotorKind::Universal,
            _ => MotorKind::ElectronicDrive { under_voltage_trip: Some(volts(v)), inrush_ratio: Some(ratio) },
        };
        for (v, a) in [(v, a), (115.0, a), (v, 12.0), (115.0, 12.0)] {
            let plate = Nameplate {
                shaft_power: Some(watts(w)),
                power_factor_ratio: Some(ratio),
                ..Nameplate::new(volts(v), amps(a), LockedRotor::TimesRated(ratio))
            };
            if let Ok(motor) = Motor::new(kind, &plate) {
                let point = solve_at(&roof_path(16, 100.0), &motor, 75.0);
                prop_assert!(point.starting.voltage.get::<volt>().is_finite());
                prop_assert!(running_v(&point).is_finite());
            }
        }
        let _ = Supply::held_panel(volts(v));
        let _ = Generator::new(watts(v), watts(w));
        let _ = full_load_current(watts(w), volts(v));
    }
}
