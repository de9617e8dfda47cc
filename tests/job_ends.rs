//! Why jobs end, in every way they can, and what interrupts them. None runs for ever.

mod job_support;
mod support;

use job_support::*;
use narrows::job::over_time::*;
use narrows::job::{JobError, Port};
use narrows::machine::Condenser;
use support::{Kit, hose, setup};
use uom::si::f64::*;
use uom::si::mass::kilogram;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermal_conductance::watt_per_kelvin;
use uom::si::thermodynamic_temperature::{degree_celsius, degree_fahrenheit};
use uom::si::time::{hour, minute};

fn small() -> JobSetup {
    vapor_job("R-410A", Kit::B, 0.42, kg(5.0), cubic_feet(0.4), 101_325.0)
}

fn ends(job: &JobSetup) -> EndsBecause {
    let answer = follow(job).unwrap();
    println!("{:?} after {:.1} min", answer.ends_because, answer.total.get::<minute>());
    answer.ends_because
}

#[test]
fn a_level_deeper_than_the_machine_reaches() {
    let mut job = vapor_job("R-22", Kit::C, 1.6, kg(1.0), cubic_feet(1.0), 5_000.0);
    job.system.charge = vapor_charge(&job);
    job.system.contents = Contents::Isothermal;
    let EndsBecause::BeyondMachine { ultimate_pa, discharge_pa } = ends(&job) else { panic!() };
    // Closed form: p_d/((1 + c)/c)^n with c 5 %, n 1.1; it stops half a percent above.
    let expected = discharge_pa / 21f64.powf(1.1);
    assert!((ultimate_pa / expected - 1.0).abs() < 0.01, "{ultimate_pa} {expected}");
}

#[test]
fn cylinders_full_at_the_start_and_on_the_way() {
    let mut job = small();
    job.cylinders = vec![JobCylinder { contents: kg(5.0), ..cylinder(12.0, 5.0) }];
    assert_eq!(ends(&job), EndsBecause::CylindersFull { count: 1 });
    job.cylinders = vec![cylinder(12.0, 2.0)];
    let answer = follow(&job).unwrap();
    assert_eq!(answer.ends_because, EndsBecause::CylindersFull { count: 1 });
    assert!((answer.cylinders[0].net.get::<kilogram>() - 2.0).abs() < 1e-5);
    // A full one among them is passed over.
    job.cylinders.insert(0, JobCylinder { contents: kg(5.0), ..cylinder(12.0, 5.0) });
    job.cylinders.push(cylinder(12.0, 8.0));
    let answer = follow(&job).unwrap();
    assert_eq!(answer.ends_because, EndsBecause::LevelReached);
    assert!(answer.notes.contains(&JobNote::CylinderFullAtStart { index: 0 }));
    assert_eq!(answer.cylinders.iter().map(|c| c.index).collect::<Vec<_>>(), [1, 2]);
}

#[test]
fn a_cylinder_that_fills_with_liquid_before_its_stop_weight() {
    let mut job = small();
    job.system.heat_gain = watts_per_kelvin(60.0);
    job.cylinders = vec![cylinder(3.0, 20.0)];
    let EndsBecause::CylinderLiquidFull { index: 0, net_kg } = ends(&job) else { panic!() };
    assert!((2.5..4.0).contains(&net_kg), "{net_kg}");
}

#[test]
fn nothing_and_next_to_nothing() {
    let mut job = small();
    job.system.charge = kg(0.0);
    assert_eq!(ends(&job), EndsBecause::NothingToRecover);
    job.system.charge = kg(0.01);
    assert_eq!(ends(&job), EndsBecause::AlreadyAtLevel);
}

#[test]
fn ten_tonnes_and_a_small_machine() {
    let mut job = vapor_job("R-22", Kit::B, 0.42, kg(10_000.0), cubic_feet(400.0), 101_325.0);
    job.system.heat_gain = watts_per_kelvin(500.0);
    job.limits.time = Time::new::<hour>(48.0);
    assert_eq!(ends(&job), EndsBecause::TimeLimit);
    job.system.volume = cubic_feet(100.0);
    assert!(matches!(follow(&job), Err(JobError::DoesNotFit { .. })));
}

/// A source colder than the cylinder: slow, but it goes. Much colder: the machine draws nothing.
#[test]
fn a_source_colder_than_the_cylinder() {
    let mut job = small();
    job.kit.source.temperature = ThermodynamicTemperature::new::<degree_celsius>(-20.0);
    let cold = follow(&job).unwrap();
    assert_eq!(cold.ends_because, EndsBecause::LevelReached);
    let mut frozen = vapor_job("R-134a", Kit::B, 0.42, kg(5.0), cubic_feet(0.4), 5e3);
    frozen.kit.source.temperature = ThermodynamicTemperature::new::<degree_celsius>(-63.0);
    frozen.kit.machine.condenser =
        Condenser::FixedTemperature(ThermodynamicTemperature::new::<degree_celsius>(60.0));
    assert!(matches!(ends(&frozen), EndsBecause::BeyondMachine { .. }));
}

#[test]
fn the_cut_out_trips_waits_and_in_the_end_gives_up() {
    let mut job = small();
    job.system.heat_gain = watts_per_kelvin(60.0);
    let hot = ThermodynamicTemperature::new::<degree_fahrenheit>(130.0);
    // A closed vessel that warms as it fills: little heat leaves it.
    job.cylinders = vec![JobCylinder {
        walls: CylinderWalls::Exchange { conductance: watts_per_kelvin(1.0), surroundings: hot },
        non_condensables: pa(2e5),
        temperature: hot,
        ..cylinder(6.0, 6.0)
    }];
    job.kit.machine.cut_out = Some(pa(3.45e6));
    let EndsBecause::CutOutLoop { trips, discharge_pa, cut_out_pa } = ends(&job) else { panic!() };
    assert_eq!(trips, 13);
    assert!(discharge_pa >= cut_out_pa);
    let answer = follow(&job).unwrap();
    assert!(answer.notes.contains(&JobNote::CutOutTripped { trips: 13 }));
    assert!(answer.phases.iter().any(|phase| phase.kind == PhaseKind::CutOut));
    job.kit.machine.cut_out = None;
    assert!(!matches!(ends(&job), EndsBecause::CutOutLoop { .. }));
}

/// Oil gives up its refrigerant slowly: the gauge rises in the wait, and the job goes on.
#[test]
fn the_gauge_rises_again_after_the_machine_stops() {
    let mut job = small();
    job.system.heat_gain = watts_per_kelvin(60.0);
    job.target = Target {
        level: pa(101_325.0),
        wait: Time::new::<minute>(20.0),
        rechecks: 6,
        allowed_rise: pa(5_000.0),
    };
    let plain = follow(&job).unwrap();
    job.system.dissolved = Dissolved { share_ratio: Ratio::new::<ratio>(0.05), ..Dissolved::none() };
    let oily = follow(&job).unwrap();
    let waits = |answer: &JobAnswer| answer.phases.iter().filter(|p| p.kind == PhaseKind::Wait).count();
    println!("{} waits, then with oil {} waits, {:?}", waits(&plain), waits(&oily), oily.ends_because);
    assert_eq!(oily.ends_because, EndsBecause::LevelReached);
    assert!(waits(&oily) > waits(&plain));
    assert!(oily.level.get::<pascal>() <= 101_325.0 + 5_000.0);
    job.target.rechecks = 1;
    let EndsBecause::LevelDoesNotHold { rebound_pa } = ends(&job) else { panic!() };
    assert!(rebound_pa > 106_325.0);
}

/// Liquid that the port does not reach is boiled off as vapour, which takes longer.
#[test]
fn change_over_and_liquid_out_of_reach() {
    let with = |change_over: f64, unreachable: f64| {
        let mut job = small();
        job.system.heat_gain = watts_per_kelvin(15.0);
        job.method = Recovery::LiquidThenVapor { change_over_ratio: Ratio::new::<ratio>(change_over) };
        job.system.unreachable_ratio = Ratio::new::<ratio>(unreachable);
        let answer = follow(&job).unwrap();
        assert_eq!(answer.ends_because, EndsBecause::LevelReached);
        let liquid = answer.phases.iter().find(|phase| phase.kind == PhaseKind::Liquid);
        (answer.total.get::<minute>(), liquid.map_or(0.0, |phase| phase.recovered.get::<kilogram>()))
    };
    let (all, half, trapped) = (with(0.0, 0.0), with(0.5, 0.0), with(0.0, 0.3));
    println!("{all:?} {half:?} {trapped:?}");
    assert!(half.0 > all.0 && trapped.0 > all.0);
    assert!(half.1 < 0.6 * all.1 && trapped.1 < 0.8 * all.1);
    // All of it out of reach: a vapour job.
    let mut job = small();
    job.method = Recovery::LiquidThenVapor { change_over_ratio: Ratio::new::<ratio>(0.0) };
    job.system.unreachable_ratio = Ratio::new::<ratio>(1.0);
    let answer = follow(&job).unwrap();
    assert!(answer.notes.contains(&JobNote::NoLiquidInReach));
    assert!((answer.total.get::<minute>() - total_minutes(&small())).abs() < 1e-6);
}

#[test]
fn a_machine_not_rated_for_liquid_refuses_it() {
    let mut job = small();
    job.kit.machine.takes_liquid = false;
    job.method = Recovery::LiquidThenVapor { change_over_ratio: Ratio::new::<ratio>(0.0) };
    assert_eq!(ends(&job), EndsBecause::NoPoint(JobError::LiquidRefused));
}

/// A warm cylinder and a long discharge hose raise the discharge and never hasten a job.
#[test]
fn the_cylinder_pushes_back() {
    let run = |fahrenheit: f64, feet: f64| {
        let mut job = small();
        job.kit = setup("R-410A", Kit::B, 0.42, Port::Vapor);
        job.kit.machine.condenser = Condenser::Conductance(ThermalConductance::new::<watt_per_kelvin>(150.0));
        job.system.heat_gain = watts_per_kelvin(15.0);
        if feet > 0.0 {
            job.kit.discharge = vec![hose(1.5, feet)];
        }
        let warm = ThermodynamicTemperature::new::<degree_fahrenheit>(fahrenheit);
        job.cylinders = vec![JobCylinder {
            temperature: warm,
            walls: CylinderWalls::Exchange { conductance: watts_per_kelvin(20.0), surroundings: warm },
            ..cylinder(12.0, 8.0)
        }];
        let answer = follow(&job).unwrap();
        assert_eq!(answer.ends_because, EndsBecause::LevelReached);
        let highest = answer.trace.discharge_pa.iter().copied().fold(0.0, f64::max);
        (answer.total.get::<minute>(), highest)
    };
    let (cool, warm, throttled) = (run(75.0, 0.0), run(105.0, 0.0), run(75.0, 20.0));
    println!("{cool:?} {warm:?} {throttled:?}");
    assert!(warm.0 > cool.0 && warm.1 > cool.1);
    assert!(throttled.0 > cool.0 && throttled.1 > cool.1);
}

/// Figures that make no sense are refused by name; the rest always comes to an end.
#[test]
fn nonsense_is_refused_by_name() {
    let refused = |change: fn(&mut JobSetup), name: &str| {
        let mut job = small();
        change(&mut job);
        let error = follow(&job).unwrap_err().to_string();
        assert!(error.contains(name), "{error}");
    };
    refused(|job| job.system.charge = kg(f64::NAN), "charge");
    refused(|job| job.system.charge = kg(-1.0), "charge");
    refused(|job| job.system.volume = cubic_feet(0.0), "volume");
    refused(|job| job.cylinders.clear(), "no cylinder");
    refused(|job| job.target.level = pa(-5.0), "level");
    refused(|job| job.machines.count = 0, "machines");
    refused(|job| job.limits.tolerance = 0.0, "tolerance");
    refused(|job| job.system.charge = kg(500.0), "do not fit");
}

/// A system below freezing whose contents are held there does not chill; left to itself it boils and does.
#[test]
fn only_a_system_that_gets_colder_is_said_to_chill() {
    let is_said = |contents: Contents| {
        let mut job = small();
        job.kit.source.temperature = ThermodynamicTemperature::new::<degree_fahrenheit>(20.0);
        job.system.contents = contents;
        let answer = follow(&job).unwrap();
        assert!(answer.recovered.get::<kilogram>() > 0.1, "{:?}", answer.ends_because);
        answer.notes.iter().any(|note| matches!(note, JobNote::ColdSystem { .. }))
    };
    assert!(is_said(Contents::Equilibrium));
    assert!(!is_said(Contents::Isothermal));
}

/// Blends with glide: liquid leaves from the bubble curve, and the note says what is not followed.
#[test]
fn a_blend_with_glide_uses_the_right_curve_for_each_phase() {
    let mut job = vapor_job("R-407C", Kit::B, 0.42, kg(8.0), cubic_feet(0.3), 101_325.0);
    job.system.heat_gain = watts_per_kelvin(15.0);
    let first_pa = |job: &JobSetup| follow(job).unwrap().trace.system_pa[0] / 6894.757 - 14.696;
    // Nearly full of liquid: bubble, 153 psig at 75 °F. All vapour: dew, 128.5 psig.
    let bubble = first_pa(&job);
    job.system.charge = vapor_charge(&job);
    let dew = first_pa(&job);
    println!("{bubble} {dew}");
    assert!((bubble - 153.0).abs() < 2.0 && (dew - 128.5).abs() < 1.0);
    let answer = follow(&job).unwrap();
    assert!(answer.notes.iter().any(|note| matches!(note, JobNote::FractionationNotFollowed { .. })));
    assert_eq!(answer.ends_because, EndsBecause::LevelReached);
}

/// Vapour drawn from a charge that no heat reaches chills it until its own saturation pressure is the
/// level: most of the liquid is still there (an energy balance, no source needed).
#[test]
fn liquid_left_at_the_level_is_said() {
    let left = |heat_w_k: f64| {
        let mut job = small();
        job.target.rechecks = 0;
        job.system.heat_gain = watts_per_kelvin(heat_w_k);
        let answer = follow(&job).unwrap();
        assert_eq!(answer.ends_because, EndsBecause::LevelReached);
        answer.notes.iter().find_map(|note| match note {
            JobNote::LiquidLeft { liquid_kg, .. } => Some(*liquid_kg),
            _ => None,
        })
    };
    assert!(left(0.0).is_some_and(|liquid| liquid > 0.25 * 5.0), "{:?}", left(0.0));
    assert_eq!(left(2000.0), None);
}
