//! Setups built by hand for the tests, without the document.
#![allow(dead_code)]

use narrows::flow::{
    Element, Flashing, Method, Path, PathPart, Restriction, SecondBranch, Tube, TwoPhaseFriction,
};
use narrows::fluid::Refrigerant;
use narrows::job::{Ambient, AtOnce, Cylinder, LoadBasis, Port, Setup, Source};
use narrows::machine::{Compressor, Condenser, Exponent, RecoveryMachine};
use narrows::power::{
    Awg, Branch, Conductor, Gauge, LockedRotor, Motor, MotorKind, Nameplate, PowerPath, Supply,
};
use uom::si::electric_current::ampere;
use uom::si::electric_potential::volt;
use uom::si::f64::*;
use uom::si::length::{foot, millimeter};
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::degree_fahrenheit;
use uom::si::volume_rate::cubic_foot_per_minute;

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kit {
    Open,
    A,
    B,
    C,
}

pub fn hole(diameter_mm: f64, coefficient: f64) -> PathPart {
    let diameter = Length::new::<millimeter>(diameter_mm);
    let coefficient = Ratio::new::<ratio>(coefficient);
    let restriction = Restriction::from_hole(diameter, coefficient, Ratio::new::<ratio>(1.0)).unwrap();
    PathPart { elements: vec![Element::Restriction(restriction)] }
}

pub fn hose(bore_mm: f64, feet: f64) -> PathPart {
    let mm = Length::new::<millimeter>;
    let tube = Tube::new(mm(bore_mm), Length::new::<foot>(feet), mm(0.01), mm(0.0)).unwrap();
    PathPart { elements: vec![Element::Tube(tube)] }
}

fn gauge_set() -> PathPart {
    let mut seats = hole(3.6, 0.8);
    seats.elements.extend(hole(3.6, 0.8).elements);
    seats
}

pub fn parts(kit: Kit) -> Vec<PathPart> {
    match kit {
        Kit::Open => vec![],
        Kit::A => vec![hole(2.2, 0.7), hose(4.8, 5.0), gauge_set(), hose(4.8, 3.0), hole(2.6, 0.8)],
        Kit::B => vec![hole(4.2, 0.8), hose(4.8, 5.0), hole(4.2, 0.8)],
        Kit::C => vec![hole(4.8, 0.8), hose(8.0, 5.0), hole(7.0, 0.8)],
    }
}

fn fahrenheit(value: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<degree_fahrenheit>(value)
}

pub fn compressor(cfm: f64) -> Compressor {
    Compressor::new(
        VolumeRate::new::<cubic_foot_per_minute>(cfm),
        Ratio::new::<ratio>(0.05),
        Ratio::new::<ratio>(0.95),
        Exponent::Given(1.1),
        Ratio::new::<ratio>(0.8),
    )
    .unwrap()
}

/// 120 V close by and an electronically driven motor: the speed is the rated one.
pub fn setup(refrigerant: &str, kit: Kit, cfm: f64, port: Port) -> Setup {
    let gauge = Gauge::Awg(Awg::new(12).unwrap());
    let plate = Nameplate::new(
        ElectricPotential::new::<volt>(115.0),
        ElectricCurrent::new::<ampere>(12.0),
        LockedRotor::Unknown,
    );
    let drive = MotorKind::ElectronicDrive { under_voltage_trip: None, inrush_ratio: None };
    let branch = Branch::new(
        Conductor::stranded_copper(gauge),
        Length::new::<foot>(10.0),
        ElectricCurrent::new::<ampere>(20.0),
    );
    Setup {
        refrigerant: Refrigerant::load(refrigerant).unwrap(),
        source: Source { temperature: fahrenheit(75.0), first: port, second: port },
        path: Path::series(parts(kit)),
        machine: RecoveryMachine {
            compressor: compressor(cfm),
            inlet_throttle: None,
            condenser: Condenser::FixedTemperature(fahrenheit(100.0)),
            cut_out: None,
            takes_liquid: true,
        },
        discharge: vec![],
        cylinder: Cylinder { temperature: fahrenheit(75.0), non_condensables: Pressure::new::<pascal>(0.0) },
        ambient: Ambient { temperature: fahrenheit(75.0), pressure: Pressure::new::<pascal>(101_325.0) },
        method: Method { flashing: Flashing::Equilibrium, two_phase_friction: TwoPhaseFriction::Homogeneous },
        power: PowerPath {
            supply: Supply::held_panel(ElectricPotential::new::<volt>(120.0)).unwrap(),
            branch: branch.unwrap(),
            cords: vec![],
        },
        motor: Motor::new(drive, &plate).unwrap(),
        load: LoadBasis::Nameplate,
        machines: AtOnce::ONE,
    }
}

pub fn with_displacement(mut setup: Setup, cfm: f64) -> Setup {
    setup.machine.compressor = compressor(cfm);
    setup
}

/// The first kit, and the second's first two parts on a second port; they meet after two parts.
pub fn two_ports(refrigerant: &str, kits: (Kit, Kit), cfm: f64, ports: (Port, Port)) -> Setup {
    let mut setup = setup(refrigerant, kits.0, cfm, ports.0);
    setup.source.second = ports.1;
    let second = SecondBranch { parts: parts(kits.1)[..2].to_vec(), joins_before: 2 };
    setup.path = Path::with_second(parts(kits.0), second).unwrap();
    setup
}
