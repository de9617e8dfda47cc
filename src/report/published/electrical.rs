//! Conductors, motors and the roof cord.

use uom::si::area::square_millimeter;
use uom::si::electric_current::ampere;
use uom::si::electric_potential::volt;
use uom::si::electrical_resistance::ohm;
use uom::si::f64::{Area, ElectricPotential, Length, Power, ThermodynamicTemperature};
use uom::si::length::{foot, inch, meter};
use uom::si::power::watt;
use uom::si::thermodynamic_temperature::degree_celsius;

use super::{Group, Within, words};
use crate::power::{Awg, Conductor, Gauge, MetricArea, PowerError, full_load_current};
use crate::presets::built_in_scenario;
use crate::report::solve_document;
use crate::scenario::{read, set};

const NEC_8: &str = "NEC Chapter 9 Table 8, uncoated stranded copper at 75 °C";
const B258: &str = "ASTM B258: d = 0.005 · 92^((36−n)/39) in";
const IEC_60228: &str = "IEC 60228 class 5, plain copper at 20 °C";
const NEC_430_248: &str = "NEC Table 430.248, single-phase full-load current";
const ROOF_CORD: &str = "Common practice, no source: what a roof job on a long thin cord reads";

pub(super) fn groups() -> Vec<Group> {
    vec![stranded(), diameters(), metric(), full_load(), roof_cord()]
}

fn awg(number: i64) -> Result<Gauge, PowerError> {
    Ok(Gauge::Awg(Awg::new(number)?))
}

/// Resistance of a length of one conductor.
fn resistance(gauge: Result<Gauge, PowerError>, celsius: f64, length: Length) -> Result<f64, String> {
    let conductor = Conductor::stranded_copper(gauge.map_err(words)?);
    let temperature = ThermodynamicTemperature::new::<degree_celsius>(celsius);
    Ok((conductor.resistance_per_length(temperature) * length).get::<ohm>())
}

/// AWG and Ω/kft.
#[expect(clippy::approx_constant, reason = "14 AWG has 3.14 ohms a thousand feet; it is not pi")]
const STRANDED: [(i64, f64); 8] =
    [(18, 7.95), (16, 4.99), (14, 3.14), (12, 1.98), (10, 1.24), (8, 0.778), (6, 0.491), (4, 0.308)];

fn stranded() -> Group {
    let mut group = Group::new(NEC_8);
    for (number, ohms) in STRANDED {
        let got = resistance(awg(number), 75.0, Length::new::<foot>(1000.0));
        group.case(format!("{number} AWG"), (ohms, "Ω/kft", Within::Share(1e-6)), got);
    }
    group
}

fn diameters() -> Group {
    let mut group = Group::new(B258);
    for (number, inches) in [(16, 0.050821), (14, 0.064084), (12, 0.080808), (10, 0.101897)] {
        let got = Awg::new(number).map(|awg| awg.solid_diameter().get::<inch>()).map_err(words);
        group.case(format!("{number} AWG, solid diameter"), (inches, "in", Within::Share(2e-5)), got);
    }
    group
}

fn metric() -> Group {
    let mut group = Group::new(IEC_60228);
    for (area, ohms) in [(1.0, 19.5), (1.5, 13.3), (2.5, 7.98), (4.0, 4.95), (6.0, 3.30)] {
        let gauge = MetricArea::new(Area::new::<square_millimeter>(area)).map(Gauge::Metric);
        let got = resistance(gauge, 20.0, Length::new::<meter>(1000.0));
        group.case(format!("{area} mm²"), (ohms, "Ω/km", Within::Share(1e-6)), got);
    }
    group
}

/// One mechanical horsepower, 550 ft·lbf/s.
const HORSEPOWER_W: f64 = 745.699_871_582;

fn full_load() -> Group {
    let mut group = Group::new(NEC_430_248);
    for (what, hp, amps) in [
        ("1/6 hp", 1.0 / 6.0, 4.4),
        ("1/4 hp", 0.25, 5.8),
        ("1/3 hp", 1.0 / 3.0, 7.2),
        ("1/2 hp", 0.5, 9.8),
        ("3/4 hp", 0.75, 13.8),
        ("1 hp", 1.0, 16.0),
        ("1 1/2 hp", 1.5, 20.0),
        ("2 hp", 2.0, 24.0),
    ] {
        let power = Power::new::<watt>(hp * HORSEPOWER_W);
        let got = full_load_current(power, ElectricPotential::new::<volt>(115.0))
            .map(|current| current.get::<ampere>())
            .map_err(words);
        group.case(format!("{what} at 115 V"), (amps, "A", Within::Amount(1e-9)), got);
    }
    group
}

/// Running volts, running amps, starting volts and torque (%), as ranges.
type Ranges = [(f64, f64); 4];

const THIN: Ranges = [(105.0, 108.0), (12.6, 13.3), (78.0, 90.0), (46.0, 61.0)];
const THICK: Ranges = [(114.0, 116.0), (11.5, 12.5), (101.0, 106.0), (76.0, 86.0)];

fn roof_cord() -> Group {
    let mut group = Group::new(ROOF_CORD);
    let thick = [("supply.cords.0.gauge", "12 AWG"), ("supply.cords.0.length", "50 ft")];
    for (what, changes, ranges) in [("16 AWG 100 ft", &[][..], THIN), ("12 AWG 50 ft", &thick[..], THICK)] {
        let read = ["running volts", "running amps", "starting volts", "starting torque"];
        let units = ["V", "A", "V", "%"];
        let answer = readings(changes);
        for index in 0..4 {
            let (low, high) = ranges[index];
            let got = answer.clone().map(|readings| readings[index]);
            group.case(
                format!("12 A motor on {what}, {}", read[index]),
                (low, units[index], Within::UpTo(high)),
                got,
            );
        }
    }
    group
}

fn readings(changes: &[(&str, &str)]) -> Result<[f64; 4], String> {
    let text = built_in_scenario("long-cord").ok_or("the cord scenario is missing")?;
    let mut document = read(text).map_err(words)?;
    for (path, value) in changes {
        set(&mut document, path, value).map_err(words)?;
    }
    let solved = solve_document(&document).map_err(|faults| format!("{faults:?}"))?;
    let first = solved.into_iter().next().ok_or("no kit")?;
    let power = first.answer.power.map_err(words)?;
    let running = power.running.point().ok_or("it does not run")?;
    Ok([
        running.voltage.get::<volt>(),
        running.current.get::<ampere>(),
        power.starting.voltage.get::<volt>(),
        100.0 * power.starting.torque_ratio,
    ])
}
