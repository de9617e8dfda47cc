//! The power room against published tables, closed forms and hand calculations. Each case names
//! where its numbers come from.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may fail loudly")]
#![allow(clippy::approx_constant, reason = "3.14 ohm per kft is printed so; it is no pi")]

mod power_parts;

use narrows::power::*;
use power_parts::*;
use uom::si::area::square_millimeter;
use uom::si::electric_current::ampere;
use uom::si::electric_potential::volt;
use uom::si::electrical_resistance::ohm;
use uom::si::f64::*;
use uom::si::frequency::hertz;
use uom::si::length::{foot, inch, meter};
use uom::si::power::watt;
use uom::si::thermodynamic_temperature::degree_celsius;

#[track_caller]
fn close(got: f64, expected: f64, relative: f64) {
    assert!((got - expected).abs() <= relative * expected.abs(), "got {got}, expected {expected}");
}

fn celsius(c: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<degree_celsius>(c)
}

fn ohm_per_kft(conductor: Conductor, temperature_c: f64) -> f64 {
    let r = conductor.resistance_per_length(celsius(temperature_c));
    (r * Length::new::<foot>(1000.0)).get::<ohm>()
}

fn ohm_per_km(conductor: Conductor, temperature_c: f64) -> f64 {
    let r = conductor.resistance_per_length(celsius(temperature_c));
    (r * Length::new::<meter>(1000.0)).get::<ohm>()
}

fn mm2(area: f64) -> Gauge {
    Gauge::Metric(MetricArea::new(Area::new::<square_millimeter>(area)).unwrap())
}

/// NEC Chapter 9 Table 8, uncoated copper at 75 °C, Ω/kft: AWG, solid, stranded, stranded Ω/km.
#[test]
fn nec_table_8() {
    for (number, solid, stranded, stranded_km) in [
        (18, Some(7.77), 7.95, 26.0827),
        (16, Some(4.89), 4.99, 16.3714),
        (14, Some(3.07), 3.14, 10.3018),
        (12, Some(1.93), 1.98, 6.4961),
        (10, Some(1.21), 1.24, 4.0682),
        (8, Some(0.764), 0.778, 2.5525),
        (6, None, 0.491, 1.6109),
        (4, None, 0.308, 1.0105),
    ] {
        if let Some(solid) = solid {
            close(ohm_per_kft(Conductor::solid_copper(awg(number)), 75.0), solid, 1e-9);
        }
        close(ohm_per_kft(Conductor::stranded_copper(awg(number)), 75.0), stranded, 1e-9);
        close(ohm_per_km(Conductor::stranded_copper(awg(number)), 75.0), stranded_km, 2e-5);
    }
}

/// ASTM B258 closed form: AWG, inches, mm², circular mils.
#[test]
fn b258_geometry() {
    for (number, diameter_in, area_mm2, circular_mils) in [
        (16, 0.050821, 1.3087, 2582.7),
        (14, 0.064084, 2.08091, 4106.7),
        (12, 0.080808, 3.30877, 6529.9),
        (8, 0.12849, 8.36556, 16509.7),
        (6, 0.162023, 13.30177, 26251.4),
        (4, 0.204307, 21.15064, 41741.3),
    ] {
        let gauge = Awg::new(number).unwrap();
        close(gauge.solid_diameter().get::<inch>(), diameter_in, 1e-5);
        close(gauge.area().get::<square_millimeter>(), area_mm2, 2e-5);
        close((1000.0 * gauge.solid_diameter().get::<inch>()).powi(2), circular_mils, 2e-5);
    }
}

/// The printed table against geometry: annealed copper of 0.017241 Ω·mm²/m at 20 °C (IACS) and
/// α = 0.00393/K on the B258 area. The table prints three digits.
#[test]
fn table_8_agrees_with_b258_geometry() {
    for number in [18, 17, 16, 14, 12, 10, 8, 6, 4] {
        let area = Awg::new(number).unwrap().area().get::<square_millimeter>();
        let expected = 17.241 / area * (1.0 + 0.00393 * 55.0) * 0.3048;
        close(ohm_per_kft(Conductor::solid_copper(awg(number)), 75.0), expected, 0.005);
    }
}

/// 20 °C solid copper, Ω/kft: the AWG table of HyperPhysics (Georgia State University).
#[test]
fn solid_copper_at_20_celsius() {
    for (number, expected) in
        [(18, 6.385), (16, 4.016), (14, 2.525), (12, 1.588), (10, 0.9989), (8, 0.6282), (4, 0.2485)]
    {
        close(ohm_per_kft(Conductor::solid_copper(awg(number)), 20.0), expected, 0.004);
    }
    close(ohm_per_kft(Conductor::solid_copper(awg(14)), 20.0), 2.525, 0.002);
}

/// NEC Table 8 note: 3.14 × (1 − 0.00323 × 55) = 2.5822 Ω/kft, by hand.
#[test]
fn temperature_correction_of_14_awg() {
    close(ohm_per_kft(Conductor::stranded_copper(awg(14)), 20.0), 2.5822, 1e-4);
}

/// IEC 60228 plain copper, class 5 and class 1 or 2, Ω/km at 20 °C; and 70 °C by K = 0.833.
#[test]
fn iec_60228() {
    for (area, expected) in
        [(0.5, 39.0), (0.75, 26.0), (1.0, 19.5), (1.5, 13.3), (2.5, 7.98), (4.0, 4.95), (6.0, 3.30)]
    {
        close(ohm_per_km(Conductor::stranded_copper(mm2(area)), 20.0), expected, 1e-9);
    }
    close(ohm_per_km(Conductor::solid_copper(mm2(1.5)), 20.0), 12.1, 1e-9);
    close(ohm_per_km(Conductor::solid_copper(mm2(2.5)), 20.0), 7.41, 1e-9);
    close(ohm_per_km(Conductor::stranded_copper(mm2(1.5)), 70.0), 15.966, 0.005);
}

/// Aluminium, Ω/kft at 75 °C: NEC Table 8 (8 to 4 AWG), and Table 9's one-conduit column for
/// 12 and 10 AWG (3.2 and 2.0, two digits).
#[test]
fn aluminium() {
    let wire = |number, stranding| Conductor { gauge: awg(number), metal: Metal::Aluminium, stranding };
    close(ohm_per_kft(wire(8, Stranding::Solid), 75.0), 1.26, 1e-9);
    close(ohm_per_kft(wire(6, Stranding::Stranded), 75.0), 0.808, 1e-9);
    close(ohm_per_kft(wire(4, Stranding::Stranded), 75.0), 0.508, 1e-9);
    close(ohm_per_kft(wire(12, Stranding::Stranded), 75.0), 3.2, 0.02);
    close(ohm_per_kft(wire(10, Stranding::Stranded), 75.0), 2.0, 0.025);
}

/// Copper-clad aluminium of 10 % copper by volume. Closed form: conductances in parallel,
/// 0.10 × 100 % + 0.90 × 61 % IACS = 64.9 %, near the 62.9 % minimum that wire makers print.
#[test]
fn copper_clad_aluminium_lies_by_its_metals() {
    let clad = Conductor { metal: Metal::CopperCladAluminium, ..Conductor::stranded_copper(awg(16)) };
    let copper = ohm_per_kft(Conductor::stranded_copper(awg(16)), 20.0);
    close(ohm_per_kft(clad, 20.0), copper / 0.649, 0.04);
}

/// `2 L R I` with NEC Table 8 and IEC 60228 resistances, by hand.
#[test]
fn voltage_drops() {
    for (number, one_way_ft, current_a, expected_v) in [
        (16, 50.0, 12.0, 5.988),
        (14, 50.0, 12.0, 3.768),
        (12, 100.0, 16.0, 6.336),
        (12, 100.0, 12.0, 4.752),
        (10, 100.0, 16.0, 3.968),
    ] {
        let r = Conductor::stranded_copper(awg(number)).resistance_per_length(celsius(75.0));
        close(voltage_drop(amps(current_a), r, feet(one_way_ft)).get::<volt>(), expected_v, 1e-4);
    }
    let r = Conductor::stranded_copper(mm2(1.5)).resistance_per_length(celsius(20.0));
    let drop = voltage_drop(amps(8.0), r, Length::new::<meter>(25.0));
    close(drop.get::<volt>(), 5.32, 1e-4);
}

/// NEC Table 430.248: horsepower, amps at 115 V, amps at 230 V.
#[test]
fn nec_430_248() {
    for (hp, low, high) in [
        (1.0 / 6.0, 4.4, 2.2),
        (1.0 / 4.0, 5.8, 2.9),
        (1.0 / 3.0, 7.2, 3.6),
        (1.0 / 2.0, 9.8, 4.9),
        (3.0 / 4.0, 13.8, 6.9),
        (1.0, 16.0, 8.0),
        (1.5, 20.0, 10.0),
        (2.0, 24.0, 12.0),
        (3.0, 34.0, 17.0),
        (5.0, 56.0, 28.0),
    ] {
        let power = watts(hp * 745.6999);
        assert_eq!(full_load_current(power, volts(115.0)).unwrap().get::<ampere>(), low);
        assert_eq!(full_load_current(power, volts(230.0)).unwrap().get::<ampere>(), high);
    }
    let message = full_load_current(watts(700.0), volts(115.0)).unwrap_err().to_string();
    assert!(message.contains("0.9387") && message.contains("3/4"), "{message}");
}

/// Only horsepower known: a 1/2 hp motor becomes a 9.8 A motor that runs.
#[test]
fn horsepower_alone_makes_a_motor() {
    let plate = Nameplate::from_shaft_power(watts(372.85), volts(115.0)).unwrap();
    let motor = Motor::new(MotorKind::Induction(InductionStart::CapacitorStart), &plate).unwrap();
    assert_eq!(motor.rated_current().get::<ampere>(), 9.8);
    assert!(solve_at(&roof_path(12, 25.0), &motor, 75.0).running.point().is_some());
}

/// NEC 430.7(B): code L, 1/2 hp, 115 V: 1000 × 9.0 × 0.5 / 115 = 39.13 A to 43.43 A.
#[test]
fn code_letters() {
    let code = CodeLetter::new('l').unwrap();
    let (low, high) = code.locked_rotor_current(watts(0.5 * 745.6999), volts(115.0));
    close(low.get::<ampere>(), 39.13, 1e-3);
    close(high.get::<ampere>(), 43.43, 1e-3);
    for (letter, low, high) in [('B', 3.15, 3.54), ('H', 6.3, 7.09), ('K', 8.0, 8.99), ('U', 20.0, 22.39)] {
        assert_eq!(CodeLetter::new(letter).unwrap().kva_per_horsepower(), (low, high));
    }
    for unused in ['I', 'O', 'Q', 'W', '3', 'é'] {
        assert!(CodeLetter::new(unused).unwrap_err().to_string().contains(unused));
    }
    let mut plate = Nameplate::new(volts(115.0), amps(9.8), LockedRotor::Code(code));
    let missing = Motor::new(RUN_CAPACITOR, &plate).unwrap_err();
    assert_eq!(missing, PowerError::CodeLetterNeedsPower { letter: 'L' });
    plate.shaft_power = Some(watts(0.5 * 745.6999));
    let motor = Motor::new(RUN_CAPACITOR, &plate).unwrap();
    close(motor.locked_rotor_current().get::<ampere>(), 43.43, 1e-3);
}

/// A motor on its plug: no wiring but a contact resistance.
fn behind_ohms(supply_v: f64, contact_ohm: f64) -> PowerPath {
    let contact = ElectricalResistance::new::<ohm>(contact_ohm);
    path(supply_v, branch(14, 0.0, 15.0).with_contact(contact).unwrap(), vec![])
}

/// The general table of motor handbooks for 90 % voltage (common practice, no source; from memory):
/// current +11 %, slip +23 %, full-load speed −1.5 %, starting torque −19 %, starting current −10 to
/// −12 %. Slip +23 % is `1/V²`, the limit without stator impedance; a small motor's slip rises
/// by more, a strong one's comes near.
#[test]
fn induction_motor_at_90_percent_voltage() {
    for (locked_a, power_factor_ratio, slip_low, slip_high) in
        [(60.0, 0.87, 0.22, 0.29), (60.0, 0.90, 0.22, 0.29), (110.0, 0.90, 0.22, 0.26)]
    {
        let locked = LockedRotor::Current(amps(locked_a));
        let plate = Nameplate {
            power_factor_ratio: Some(power_factor_ratio),
            ..Nameplate::new(volts(115.0), amps(12.0), locked)
        };
        let motor = Motor::new(RUN_CAPACITOR, &plate).unwrap();
        let full = solve_at(&behind_ohms(115.0, 0.0), &motor, 75.0);
        let low = solve_at(&behind_ohms(103.5, 0.0), &motor, 75.0);
        let (run_full, run_low) = (full.running.point().unwrap(), low.running.point().unwrap());
        close(run_full.current.get::<ampere>(), 12.0, 1e-9);
        close(run_full.slip_ratio.unwrap(), 1.0 - 1725.0 / 1800.0, 1e-9);
        close(run_full.speed_ratio, 1.0, 1e-9);
        let current_change = run_low.current.get::<ampere>() / 12.0 - 1.0;
        assert!((0.09..=0.13).contains(&current_change), "current {current_change}");
        let slip_change = run_low.slip_ratio.unwrap() / run_full.slip_ratio.unwrap() - 1.0;
        assert!((slip_low..=slip_high).contains(&slip_change), "slip {slip_change}");
        let speed_change = run_low.speed_ratio - 1.0;
        assert!((-0.016..=-0.008).contains(&speed_change), "speed {speed_change}");
        let efficiency =
            |run: &RunningPoint| (run.shaft_power / run.input_power).get::<uom::si::ratio::ratio>();
        let efficiency_change = efficiency(run_low) - efficiency(run_full);
        assert!((-0.025..=-0.01).contains(&efficiency_change), "efficiency {efficiency_change}");
        close(low.starting.torque_ratio / full.starting.torque_ratio, 0.81, 1e-9);
        close(low.starting.current.get::<ampere>(), 0.9 * locked_a, 1e-9);
    }
}

/// Starting behind 1 Ω, by hand: Z = 115/60 Ω at 0.65 = 1.2458 + j1.4565; with 1 Ω 2.6768 Ω;
/// 120/2.6768 = 44.83 A; 85.92 V; torque (85.92/115)² = 0.5583.
#[test]
fn starting_by_hand() {
    let point = solve_at(&behind_ohms(120.0, 1.0), &motor(12.0, 60.0), 75.0);
    close(point.starting.current.get::<ampere>(), 44.83, 2e-4);
    close(point.starting.voltage.get::<volt>(), 85.92, 2e-4);
    close(point.starting.torque_ratio, 0.5583, 5e-4);
    close(point.starting.receptacle.get::<volt>(), 85.92, 2e-4);
}

fn drive(trip_v: f64) -> Motor {
    let kind =
        MotorKind::ElectronicDrive { under_voltage_trip: Some(volts(trip_v)), inrush_ratio: Some(1.0) };
    let plate = Nameplate {
        power_factor_ratio: Some(1.0),
        ..Nameplate::new(volts(100.0), amps(10.0), LockedRotor::Unknown)
    };
    Motor::new(kind, &plate).unwrap()
}

/// Constant power behind a resistance: `V = (E + √(E² − 4 P R))/2`. 1000 W behind 1 Ω at 120 V:
/// (120 + √10400)/2 = 110.990 V and 9.0098 A. Behind 1.8 Ω most power is 120²/7.2 = 2000 W.
#[test]
fn electronic_drive_by_hand() {
    let point = solve_at(&behind_ohms(120.0, 1.0), &drive(80.0), 75.0);
    let run = point.running.point().unwrap();
    close(run.voltage.get::<volt>(), 110.990, 1e-5);
    close(run.current.get::<ampere>(), 9.0098, 1e-5);
    close(run.input_power.get::<watt>(), 1000.0, 1e-9);
    assert_eq!(run.speed_ratio, 1.0);

    // The same power at 84 V behind 1.8 Ω: most is 84²/7.2 = 980 W, 98 % of what is needed.
    let Running::CannotHold(CannotHold::VoltageCollapse { available_power_ratio }) =
        solve_at(&behind_ohms(84.0, 1.8), &drive(40.0), 75.0).running
    else {
        panic!("84 V behind 1.8 Ω cannot deliver 1000 W");
    };
    close(available_power_ratio, 0.98, 1e-9);

    // A trip above 110.99 V switches off.
    let kind = MotorKind::ElectronicDrive { under_voltage_trip: Some(volts(112.0)), inrush_ratio: None };
    let plate = Nameplate {
        power_factor_ratio: Some(1.0),
        ..Nameplate::new(volts(115.0), amps(1000.0 / 115.0), LockedRotor::Unknown)
    };
    let tripping = Motor::new(kind, &plate).unwrap();
    let point = solve_at(&behind_ohms(120.0, 1.0), &tripping, 75.0);
    let Running::CannotHold(CannotHold::UnderVoltageTrip { voltage_v, trip_v }) = point.running else {
        panic!("110.99 V is below the trip");
    };
    close(voltage_v, 110.990, 1e-5);
    assert_eq!(trip_v, 112.0);
    assert!(matches!(
        point.starting.outcome,
        StartOutcome::WillNotStart(StartReason::UnderVoltageTrip { .. })
    ));
}

/// A series motor at constant torque keeps its current and loses speed. By hand at power factor
/// 1: 115 V, 10 A, 690 W of 1150 W: half of 460 W is heat, so 9.2 Ω motional and 2.3 Ω winding;
/// at 103.5 V (103.5 − 23)/10 = 8.05 Ω, speed 8.05/9.2 = 0.875.
#[test]
fn universal_motor_by_hand() {
    let plate = Nameplate {
        power_factor_ratio: Some(1.0),
        shaft_power: Some(watts(690.0)),
        ..Nameplate::new(volts(115.0), amps(10.0), LockedRotor::Current(amps(40.0)))
    };
    let motor = Motor::new(MotorKind::Universal, &plate).unwrap();
    let point = solve_at(&behind_ohms(103.5, 0.0), &motor, 75.0);
    let run = point.running.point().unwrap();
    close(run.current.get::<ampere>(), 10.0, 1e-9);
    close(run.speed_ratio, 0.875, 1e-9);
}

/// 60 Hz motor on 50 Hz: synchronous speed 5/6, so speed 5/6 but for slip.
#[test]
fn fifty_hertz_turns_five_sixths() {
    let supply = Supply::new(volts(115.0 * 5.0 / 6.0), Frequency::new::<hertz>(50.0), Source::HeldPanel);
    let mut path = behind_ohms(115.0, 0.0);
    path.supply = supply.unwrap();
    let point = solve_at(&path, &motor(12.0, 60.0), 75.0);
    close(point.running.point().unwrap().speed_ratio, 5.0 / 6.0, 0.01);
}

/// Ampacities of NEC 400.5(A), two current-carrying conductors: the cord verdict turns at them.
#[test]
fn cord_ampacity_turns_the_verdict() {
    // At 30 °C ambient (86 °F), marked generously so that only ampacity speaks.
    for (number, ampacity_a) in [(18, 10.0), (17, 12.0), (16, 13.0), (14, 18.0), (12, 25.0), (10, 30.0)] {
        for (ratio, over) in [(0.99, false), (1.01, true)] {
            let rated_a = ampacity_a * ratio;
            let motor = motor(rated_a, 6.0 * rated_a);
            let cord = cord(number, 0.01).with_marking(amps(99.0)).unwrap();
            let path = path(115.0, branch(4, 0.0, 100.0), vec![cord]);
            let point = solve_at(&path, &motor, 86.0);
            let said = point
                .verdicts
                .iter()
                .any(|verdict| matches!(verdict.finding, Finding::CordOverAmpacity { .. }));
            assert_eq!(said, over, "{number} AWG at {rated_a} A");
        }
    }
}
