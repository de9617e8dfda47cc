//! Short constructors for the power room's tests: feet, volts and amps in, checked parts out.
#![allow(dead_code, reason = "each test file uses its own part of this")]

use narrows::power::*;
use uom::si::electric_current::ampere;
use uom::si::electric_potential::volt;
use uom::si::f64::*;
use uom::si::length::foot;
use uom::si::power::watt;
use uom::si::thermodynamic_temperature::degree_fahrenheit;

pub fn amps(a: f64) -> ElectricCurrent {
    ElectricCurrent::new::<ampere>(a)
}

pub fn volts(v: f64) -> ElectricPotential {
    ElectricPotential::new::<volt>(v)
}

pub fn watts(w: f64) -> Power {
    Power::new::<watt>(w)
}

pub fn feet(ft: f64) -> Length {
    Length::new::<foot>(ft)
}

pub fn awg(number: i64) -> Gauge {
    Gauge::Awg(Awg::new(number).unwrap())
}

pub fn cord(gauge: i64, length_ft: f64) -> Cord {
    Cord::new(Conductor::stranded_copper(awg(gauge)), feet(length_ft), Lay::Straight).unwrap()
}

pub fn branch(gauge: i64, length_ft: f64, breaker_a: f64) -> Branch {
    Branch::new(Conductor::solid_copper(awg(gauge)), feet(length_ft), amps(breaker_a)).unwrap()
}

pub fn path(panel_v: f64, branch: Branch, cords: Vec<Cord>) -> PowerPath {
    PowerPath { supply: Supply::held_panel(volts(panel_v)).unwrap(), branch, cords }
}

pub const RUN_CAPACITOR: MotorKind = MotorKind::Induction(InductionStart::CapacitorStartCapacitorRun);

/// A 115 V motor of which only the nameplate amps are known.
pub fn motor(rated_a: f64, locked_a: f64) -> Motor {
    let plate = Nameplate::new(volts(115.0), amps(rated_a), LockedRotor::Current(amps(locked_a)));
    Motor::new(RUN_CAPACITOR, &plate).unwrap()
}

/// The library roof: 120 V panel, 50 ft of 14 AWG on 15 A, one cord.
pub fn roof_path(gauge: i64, length_ft: f64) -> PowerPath {
    path(120.0, branch(14, 50.0, 15.0), vec![cord(gauge, length_ft)])
}

/// 117 V panel, 80 ft of 12 AWG, 100 ft of 14 AWG cord.
pub fn third_path(breaker_a: f64) -> PowerPath {
    path(117.0, branch(12, 80.0, breaker_a), vec![cord(14, 100.0)])
}

pub fn conditions(ambient_f: f64) -> Conditions {
    Conditions::new(ThermodynamicTemperature::new::<degree_fahrenheit>(ambient_f)).unwrap()
}

pub fn solve_at(path: &PowerPath, motor: &Motor, ambient_f: f64) -> PowerPoint {
    solve(path, motor, Load::Nameplate, &conditions(ambient_f)).unwrap()
}
