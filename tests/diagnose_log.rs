//! The site log: two factors recovered from a made-up job, and tables of values.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops where it fails")]

mod documents;
mod noise;

use documents::preset;
use narrows::advice::diagnose::{DiagnoseError, fit_log};
use narrows::flow::{Element, Flashing, Method, TwoPhaseFriction};
use narrows::job::solve;
use narrows::report::{log_fit_json, log_fit_table};
use narrows::scenario::{self, LogError, LogSetup, LogStep, SiteLog, log_from_csv, log_of};
use narrows::units::UnitSet;
use noise::Noise;
use uom::si::f64::{Ratio, ThermodynamicTemperature};
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::degree_fahrenheit;

/// A job on a small used filter-drier, where the drier takes a good part of the pressure.
fn template(drier: &str) -> LogSetup {
    let mut document = preset("slow-path");
    scenario::set(&mut document, "kits.A.parts.3.rated_capacity", drier).unwrap();
    let rows = log_from_csv("time (min), weight (lb), system_pressure (psig)\n0,40,90\n5,44,80").unwrap();
    document.log = Some(SiteLog { fit_part: Some(3), rows, ..SiteLog::default() });
    log_of(&document).unwrap()
}

/// A log of a machine at 80 % through a half-blocked drier, made with the other friction model.
fn made(template: &LogSetup, noise_ratio: f64, seed: u64) -> LogSetup {
    let mut noise = Noise(seed);
    let mut truth = template.kit.setup.clone();
    truth.method =
        Method { flashing: Flashing::Equilibrium, two_phase_friction: TwoPhaseFriction::Homogeneous };
    let compressor = truth.machine.compressor;
    truth.machine.compressor = compressor.with_displacement(compressor.displacement() * 0.8).unwrap();
    for element in &mut truth.path.parts[3].elements {
        if let Element::Restriction(restriction) = element {
            *restriction = restriction.with_open_ratio(Ratio::new::<ratio>(0.5)).unwrap();
        }
    }
    let (rows, step_s) = (16, 225.0);
    let mut gained = 0.0;
    let mut last_rate = None;
    let mut clean = Vec::new();
    for row in 0..rows {
        let fahrenheit = 60.0 - 2.4 * f64::from(row);
        truth.source.temperature = ThermodynamicTemperature::new::<degree_fahrenheit>(fahrenheit);
        let point = solve(&truth).point.unwrap();
        let rate = point.mass_flow.value;
        gained += last_rate.map_or(0.0, |last: f64| 0.5 * (last + rate) * step_s);
        last_rate = Some(rate);
        clean.push((gained, point.system_pressure.value, point.machine_inlet_pressure.value));
    }
    let mut off = |value: f64| value * (1.0 + noise_ratio * noise.normal());
    let steps = clean
        .iter()
        .enumerate()
        .map(|(index, &(gained_kg, system_pa, inlet_pa))| LogStep {
            time_s: index as f64 * step_s,
            gained_kg: off(gained_kg),
            system_pa: Some(off(system_pa)),
            machine_inlet_pa: Some(off(inlet_pa)),
            cylinder_pa: None,
            running_v: None,
        })
        .collect();
    LogSetup { steps, ..template.clone() }
}

/// Both factors within 5 % under 2 % noise on weights and gauges; exactly without noise.
#[test]
fn a_log_recovers_health_and_open_area() {
    let template = template("0.5 tons");
    for (noise, seed, within) in [(0.0, 1, 1e-3), (0.02, 2, 0.05), (0.02, 3, 0.05)] {
        let fitted = fit_log(&made(&template, noise, seed)).unwrap();
        let (health, open) = (fitted.health.unwrap(), fitted.part_open.unwrap());
        println!("{noise} {seed}: health {health:?} open {open:?} {} {}", fitted.before_kg, fitted.after_kg);
        assert!((health.0 / 0.8 - 1.0).abs() < within, "health {health:?}");
        assert!((open.0 / 0.5 - 1.0).abs() < within, "open {open:?}");
        assert!(fitted.after_kg < fitted.before_kg);
    }
}

/// One factor alone, and none at all.
#[test]
fn one_factor_or_none() {
    let template = template("0.5 tons");
    let one = LogSetup { fit_part: None, ..made(&template, 0.0, 1) };
    let fitted = fit_log(&one).unwrap();
    assert!(fitted.part_open.is_none() && fitted.health.is_some());
    let none = LogSetup { fit_health: false, fit_part: None, ..one.clone() };
    assert_eq!(fit_log(&none).unwrap_err(), DiagnoseError::NothingToFit);
    let mut short = one.clone();
    short.steps.truncate(2);
    assert!(matches!(fit_log(&short), Err(DiagnoseError::TooFewRows { usable: 2, needed: 3 })));
    let mut idle = one;
    idle.steps.iter_mut().for_each(|step| step.gained_kg = 0.0);
    assert!(matches!(fit_log(&idle), Err(DiagnoseError::NoGain { .. })));
}

#[test]
fn a_log_is_told_to_people_and_programs() {
    let log = made(&template("0.5 tons"), 0.02, 2);
    let fitted = fit_log(&log).unwrap();
    assert!(log_fit_table(&log, &fitted, UnitSet::US_TRADE).contains("Machine health"));
    let json = log_fit_json(&log, &fitted);
    assert!((json["machine_health"]["ratio"].as_f64().unwrap() - fitted.health.unwrap().0).abs() < 1e-12);
    assert_eq!(json["rows"].as_array().unwrap().len(), log.steps.len());
}

#[test]
fn tables_are_read_with_units_in_heading_or_cell() {
    let rows = log_from_csv(
        "Time (min), weight [kg], system pressure (bar g), running_voltage\n0, 18.1, 6, 117 V\n\n10 min,19.0,80 psig,\n",
    )
    .unwrap();
    assert_eq!(rows.len(), 2);
    assert!((rows[1].time.si() - 600.0).abs() < 1e-9 && (rows[1].weight.si() - 19.0).abs() < 1e-9);
    assert_eq!(rows[0].system_pressure.as_ref().unwrap().as_typed(), "6 bar g");
    assert_eq!(rows[1].system_pressure.as_ref().unwrap().as_typed(), "80 psig");
    assert!(rows[0].running_voltage.is_some() && rows[1].running_voltage.is_none());
}

#[test]
fn tables_that_cannot_be_read_name_line_and_column() {
    assert!(
        matches!(log_from_csv("time (min), mass (lb)\n1,2"), Err(LogError::UnknownColumn { found }) if found == "mass (lb)")
    );
    assert!(matches!(log_from_csv("time (min)\n1"), Err(LogError::MissingColumn { missing: "weight" })));
    let cell = log_from_csv("time (min),weight (lb)\n1,2\n2,heavy").unwrap_err();
    assert!(matches!(&cell, LogError::Cell { line: 3, column: "weight", .. }), "{cell}");
    assert!(matches!(log_from_csv(""), Err(LogError::MissingColumn { .. })));
    let empty = log_from_csv("time (min),weight (lb)\n1,").unwrap_err();
    assert!(matches!(empty, LogError::Cell { line: 2, column: "weight", .. }), "{empty}");
}

#[test]
fn a_log_that_cannot_be_names_its_field() {
    let mut document = preset("slow-path");
    let rows = |text: &str| log_from_csv(text).unwrap();
    let path = |document: &scenario::Document| log_of(document).unwrap_err()[0].path.clone();
    assert_eq!(path(&document), "log");
    document.log = Some(SiteLog { rows: rows("time (min),weight (lb)\n1,2"), ..SiteLog::default() });
    assert_eq!(path(&document), "log.rows");
    document.log = Some(SiteLog { rows: rows("time (min),weight (lb)\n5,2\n5,3"), ..SiteLog::default() });
    assert_eq!(path(&document), "log.rows.1.time");
    document.log = Some(SiteLog {
        fit_part: Some(9),
        rows: rows("time (min),weight (lb)\n1,2\n5,3"),
        ..SiteLog::default()
    });
    assert_eq!(path(&document), "log.fit_part");
}

/// The worked log was made with 80 % of the displacement and half of the drier's area, then read
/// like a scale and a gauge: both come back within 5 %, and what is left over is small.
#[test]
fn the_worked_log_gives_back_what_it_was_made_with() {
    let document = preset("cold-store-log");
    let fitted = fit_log(&log_of(&document).unwrap()).unwrap();
    let (health, open) = (fitted.health.unwrap(), fitted.part_open.unwrap());
    assert!((health.0 / 0.8 - 1.0).abs() < 0.05, "{health:?}");
    assert!((open.0 / 0.5 - 1.0).abs() < 0.05, "{open:?}");
    assert!(fitted.after_kg < 0.1 * fitted.before_kg, "{} {}", fitted.before_kg, fitted.after_kg);
}
