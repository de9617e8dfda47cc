//! What people ask of the power room: the roof cord, the generator, bad input. Ranges are the
//! acceptance ranges of the trade's planning cases; common practice, no source.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may fail loudly")]

mod power_parts;

use narrows::power::*;
use power_parts::*;
use uom::si::electric_current::ampere;
use uom::si::electric_potential::volt;
use uom::si::electrical_resistance::ohm;
use uom::si::f64::*;
use uom::si::frequency::hertz;
use uom::si::power::watt;
use uom::si::thermodynamic_temperature::degree_celsius;

#[track_caller]
fn within(what: &str, got: f64, low: f64, high: f64) {
    assert!((low..=high).contains(&got), "{what} is {got}, expected {low} to {high}");
}

fn has(point: &PowerPoint, grade: Grade, wanted: fn(&Finding) -> bool) -> bool {
    point.verdicts.iter().any(|verdict| verdict.grade == grade && wanted(&verdict.finding))
}

fn texts(point: &PowerPoint) -> String {
    let verdicts = point.verdicts.iter().map(|v| format!("{:?} {}\n", v.grade, v.finding));
    let notes = point.notes.iter().map(|note| format!("{note}\n"));
    verdicts.chain(notes).collect()
}

#[test]
fn the_roof_cord_of_16_awg() {
    for ambient_f in [75.0, 85.0, 95.0] {
        let point = solve_at(&roof_path(16, 100.0), &motor(12.0, 60.0), ambient_f);
        let run = point.running.point().unwrap();
        // One conductor only would give 112 to 114 V; fixed amps would stay at 12.0 A.
        within("volts running", run.voltage.get::<volt>(), 105.0, 108.0);
        within("amps running", run.current.get::<ampere>(), 12.6, 13.3);
        within("volts at the receptacle", point.receptacle.unwrap().get::<volt>(), 115.0, 117.5);
        within("volts starting", point.starting.voltage.get::<volt>(), 78.0, 90.0);
        within("starting voltage ratio", point.starting.voltage_ratio, 0.68, 0.78);
        within("starting torque ratio", point.starting.torque_ratio, 0.46, 0.61);
        assert!(has(&point, Grade::Warning, |f| matches!(f, Finding::CordOverMarking { .. })));
        assert!(has(&point, Grade::Warning, |f| matches!(f, Finding::MayNotStart(_))));
        assert!(point.notes.iter().any(|n| matches!(n, Note::SmallEffectOnRate { .. })));
        assert!(point.notes.contains(&Note::EqualiseBeforeStart));
        assert!(point.notes.contains(&Note::KeepGroundFaultProtection));
        within("speed ratio", run.speed_ratio, 0.97, 0.999);
    }
}

#[test]
fn equalised_the_same_machine_starts() {
    let equalised = conditions(75.0).with_start_load(EQUALISED_START_TORQUE_RATIO).unwrap();
    let point = solve(&roof_path(16, 100.0), &motor(12.0, 60.0), Load::Nameplate, &equalised).unwrap();
    assert_eq!(point.starting.outcome, StartOutcome::Starts);
}

#[test]
fn the_roof_cord_of_12_awg() {
    let m = motor(12.0, 60.0);
    for ambient_f in [75.0, 95.0] {
        let short = solve_at(&roof_path(12, 50.0), &m, ambient_f);
        let run = short.running.point().unwrap();
        within("volts running", run.voltage.get::<volt>(), 114.0, 116.0);
        within("volts starting", short.starting.voltage.get::<volt>(), 101.0, 106.0);
        assert_eq!(short.starting.outcome, StartOutcome::Starts);
        assert!(!has(&short, Grade::Warning, |f| matches!(f, Finding::CordOverMarking { .. })));
    }
    let long = solve_at(&roof_path(12, 100.0), &m, 75.0);
    within("volts running", long.running.point().unwrap().voltage.get::<volt>(), 112.0, 114.5);
    within("volts starting", long.starting.voltage.get::<volt>(), 96.0, 101.0);
}

#[test]
fn the_fifteen_amp_motor_and_its_breaker() {
    for ambient_f in [75.0, 95.0] {
        let twenty = solve_at(&third_path(20.0), &motor(15.0, 75.0), ambient_f);
        let run = twenty.running.point().unwrap();
        within("volts running", run.voltage.get::<volt>(), 103.0, 106.0);
        within("amps running", run.current.get::<ampere>(), 16.2, 16.9);
        assert!(has(&twenty, Grade::Warning, |f| matches!(f, Finding::BreakerContinuous { .. })));
        assert!(!has(&twenty, Grade::Stop, |f| matches!(f, Finding::BreakerExceeded { .. })));
        let fifteen = solve_at(&third_path(15.0), &motor(15.0, 75.0), ambient_f);
        assert!(has(&fifteen, Grade::Stop, |f| matches!(f, Finding::BreakerExceeded { .. })));
        assert_eq!(fifteen.verdicts[0].grade, Grade::Stop, "worst comes first");
    }
}

#[test]
fn other_loads_count_on_the_breaker_and_in_the_wall() {
    let m = motor(12.0, 60.0);
    let alone = path(120.0, branch(12, 50.0, 20.0), vec![cord(12, 50.0)]);
    let mut shared = alone.clone();
    shared.branch = shared.branch.with_other_loads(amps(9.0)).unwrap();
    let (a, b) = (solve_at(&alone, &m, 75.0), solve_at(&shared, &m, 75.0));
    assert!(b.running.point().unwrap().voltage < a.running.point().unwrap().voltage);
    assert!(b.starting.voltage < a.starting.voltage);
    assert!(has(&b, Grade::Stop, |f| matches!(f, Finding::BreakerExceeded { .. })));
    assert!(!has(&a, Grade::Stop, |f| matches!(f, Finding::BreakerExceeded { .. })));
}

fn on_generator(kind: MotorKind) -> PowerPoint {
    let generator = Generator::new(watts(1800.0), watts(2200.0)).unwrap();
    let supply =
        Supply::new(volts(120.0), Frequency::new::<hertz>(60.0), Source::Generator(generator)).unwrap();
    let mut path = path(120.0, branch(10, 5.0, 20.0), vec![cord(10, 100.0)]);
    path.supply = supply;
    let plate = Nameplate::new(volts(115.0), amps(12.0), LockedRotor::Current(amps(60.0)));
    solve_at(&path, &Motor::new(kind, &plate).unwrap(), 35.0)
}

/// 60 A × 115 V = 6.9 kVA against 2.2 kVA of surge: red for a capacitor-start motor. A drive limits its
/// own inrush: 12 A × 2.0 × 115 V = 2.76 kVA is amber, 12 A × 1.5 × 115 V = 2.07 kVA fits.
#[test]
fn the_parking_lot_generator() {
    let point = on_generator(MotorKind::Induction(InductionStart::CapacitorStart));
    let asked = point.verdicts.iter().find_map(|v| match v.finding {
        Finding::GeneratorSurge { asked_va, .. } if v.grade == Grade::Stop => Some(asked_va),
        _ => None,
    });
    within("VA at start", asked.unwrap(), 6899.0, 6901.0);
    let surge = |inrush_ratio: f64| {
        let drive = MotorKind::ElectronicDrive { under_voltage_trip: None, inrush_ratio: Some(inrush_ratio) };
        let mut verdicts = on_generator(drive).verdicts.into_iter();
        verdicts.find(|v| matches!(v.finding, Finding::GeneratorSurge { .. })).map(|v| v.grade)
    };
    assert_eq!((surge(2.0), surge(1.5)), (Some(Grade::Warning), None));
}

#[test]
fn a_hopeless_cord_cannot_hold_and_says_so_in_words() {
    let path = path(110.0, branch(14, 50.0, 15.0), vec![cord(18, 300.0)]);
    let universal = Nameplate::new(volts(115.0), amps(12.0), LockedRotor::Current(amps(60.0)));
    let drive = MotorKind::ElectronicDrive { under_voltage_trip: None, inrush_ratio: None };
    for m in [
        motor(12.0, 60.0),
        Motor::new(MotorKind::Universal, &universal).unwrap(),
        Motor::new(drive, &universal).unwrap(),
    ] {
        let heavy = Load::ShaftPower(m.rated_shaft_power() * 2.5);
        let point = solve(&path, &m, heavy, &conditions(75.0)).unwrap();
        let Running::CannotHold(reason) = point.running else {
            panic!("{:?} holds: {:?}", m.kind(), point.running);
        };
        assert!(reason.to_string().starts_with("cannot hold"), "{reason}");
        assert!(point.panel.is_none() && point.receptacle.is_none());
        assert!(point.elements.iter().all(|e| e.running_drop.is_none() && e.heat.is_none()));
        assert!(has(&point, Grade::Stop, |f| matches!(f, Finding::CannotHold(_))));
    }
}

#[test]
fn a_cord_left_on_its_reel_gets_hot() {
    let m = motor(12.0, 60.0);
    let reel = |lay| {
        let cord = Cord::new(Conductor::stranded_copper(awg(14)), feet(100.0), lay).unwrap();
        solve_at(&path(120.0, branch(12, 20.0, 20.0), vec![cord]), &m, 75.0)
    };
    let (straight, coiled) = (reel(Lay::Straight), reel(Lay::Coiled));
    let celsius =
        |p: &PowerPoint| p.elements.last().unwrap().conductor_temperature.unwrap().get::<degree_celsius>();
    assert!(celsius(&coiled) > celsius(&straight) + 20.0);
    assert!(coiled.running.point().unwrap().voltage < straight.running.point().unwrap().voltage);
    assert!(coiled.notes.contains(&Note::CoiledCord { cord: 0 }));
    assert!(
        coiled.verdicts.iter().any(|v| matches!(v.finding, Finding::CordOverAmpacity { coiled: true, .. }))
    );
}

#[test]
fn the_users_own_marking_outranks_the_typical_one() {
    let marked = cord(16, 100.0).with_marking(amps(15.0)).unwrap();
    assert!(!marked.marking().typical);
    assert_eq!(cord(16, 100.0).marking().amps.get::<ampere>(), 10.0); // trade chart
    assert_eq!(cord(14, 50.0).marking().amps.get::<ampere>(), 15.0);
    assert_eq!(cord(12, 100.0).marking().amps.get::<ampere>(), 15.0);
    let point = solve_at(&path(120.0, branch(14, 50.0, 15.0), vec![marked]), &motor(12.0, 60.0), 75.0);
    assert!(!point.verdicts.iter().any(|v| matches!(v.finding, Finding::CordOverMarking { .. })));
}

#[test]
fn nonsense_is_refused_with_thing_value_and_expectation() {
    let error = |e: PowerError| e.to_string();
    let supply = |v: f64| error(Supply::held_panel(volts(v)).unwrap_err());
    assert_eq!(supply(40.0), "supply voltage is 40 V; expected 80 to 280 V");
    assert!(supply(0.0).contains("0 V") && supply(f64::NAN).contains("NaN"));
    let conductor = Conductor::stranded_copper(awg(16));
    let length = error(Cord::new(conductor, feet(-100.0), Lay::Straight).unwrap_err());
    assert!(length.starts_with("cord length is -30.48"), "{length}");
    assert!(error(Branch::new(conductor, feet(1e6), amps(15.0)).unwrap_err()).contains("branch"));
    assert!(error(Branch::new(conductor, feet(1.0), amps(0.0)).unwrap_err()).contains("breaker"));
    assert!(error(Awg::new(24).unwrap_err()).contains("24 AWG"));
    let hot = ThermodynamicTemperature::new::<degree_celsius>(95.0);
    assert!(error(Conditions::new(hot).unwrap_err()).contains("ambient"));
    assert!(error(conditions(75.0).with_start_load(f64::NAN).unwrap_err()).contains("NaN"));
    let hz = Frequency::new::<hertz>(400.0);
    assert!(error(Supply::new(volts(115.0), hz, Source::HeldPanel).unwrap_err()).contains("400 Hz"));
    assert!(error(Generator::new(watts(2000.0), watts(1500.0)).unwrap_err()).contains("1500 VA"));
    let negative = ElectricalResistance::new::<ohm>(-1.0);
    assert!(error(SourceImpedance::new(negative, negative).unwrap_err()).contains("-1 ohm"));
    let minus = Load::ShaftPower(watts(-5.0));
    let result = solve(&roof_path(16, 100.0), &motor(12.0, 60.0), minus, &conditions(75.0));
    assert!(error(result.unwrap_err()).contains("-5 W"));
}

/// Each contradiction between nameplate values is named by the value that cannot be right.
#[test]
fn contradictory_nameplates_say_which_value() {
    let good = Nameplate::new(volts(115.0), amps(12.0), LockedRotor::Current(amps(60.0)));
    let refuse = |plate: Nameplate| Motor::new(RUN_CAPACITOR, &plate).unwrap_err();
    let low = Nameplate { locked_rotor: LockedRotor::Current(amps(14.0)), ..good };
    assert!(matches!(refuse(low), PowerError::LockedRotorTooLow { .. }));
    // sin φ = 0.14 leaves 1.35 Ω at 12 A, less than the 1.46 Ω of the locked rotor.
    let unity = Nameplate { power_factor_ratio: Some(0.99), ..good };
    assert!(matches!(refuse(unity), PowerError::PowerFactorTooHigh { .. }));
    // 115 V × 12 A × 0.87 = 1201 W cannot give 1.5 hp.
    let strong = Nameplate { shaft_power: Some(watts(1118.5)), ..good };
    assert!(matches!(refuse(strong), PowerError::ShaftPowerTooHigh { .. }));
    let rpm = |v| Some(AngularVelocity::new::<uom::si::angular_velocity::revolution_per_minute>(v));
    assert!(matches!(refuse(Nameplate { speed: rpm(3599.0), ..good }), PowerError::NoSuchSpeed { .. }));
    let slow = Nameplate { speed: rpm(1460.0), ..good };
    assert!(matches!(refuse(slow), PowerError::SlipTooLarge { .. }));
    assert!(refuse(Nameplate { voltage: volts(f64::NAN), ..good }).to_string().contains("NaN"));
    assert!(refuse(Nameplate { current: amps(-12.0), ..good }).to_string().contains("-12 A"));
}

#[test]
fn every_finding_and_note_reads_as_a_sentence() {
    let point = on_generator(MotorKind::Induction(InductionStart::SplitPhase));
    let text = texts(&point);
    assert!(text.contains("generator") && text.contains("ground-fault"), "{text}");
    assert!(!text.contains("NaN") && !text.contains("inf"), "{text}");
    let shaft = point.running.point().map(|run| run.shaft_power.get::<watt>());
    assert!(shaft.is_none_or(|w| w > 100.0));
}
