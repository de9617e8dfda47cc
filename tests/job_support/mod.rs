//! Jobs built by hand for the tests, on the kits of `tests/support`.
#![allow(dead_code)]

use narrows::job::Port;
use narrows::job::over_time::*;
use uom::si::f64::*;
use uom::si::heat_capacity::joule_per_kelvin;
use uom::si::mass::kilogram;
use uom::si::pressure::pascal;
use uom::si::thermal_conductance::watt_per_kelvin;
use uom::si::thermodynamic_temperature::{degree_fahrenheit, kelvin};
use uom::si::time::minute;
use uom::si::volume::{cubic_foot, cubic_meter};

use crate::support::{Kit, setup};

/// 10 inHg of vacuum below 29.9 inHg.
pub const TEN_INCHES_PA: f64 = (29.9 - 10.0) * 3386.389;

pub fn kg(value: f64) -> Mass {
    Mass::new::<kilogram>(value)
}

pub fn cubic_feet(value: f64) -> Volume {
    Volume::new::<cubic_foot>(value)
}

pub fn minutes(value: f64) -> Time {
    Time::new::<minute>(value)
}

pub fn pa(value: f64) -> Pressure {
    Pressure::new::<pascal>(value)
}

pub fn watts_per_kelvin(value: f64) -> ThermalConductance {
    ThermalConductance::new::<watt_per_kelvin>(value)
}

/// A cylinder that never fills and stays at 75 °F: only the condensing temperature is the discharge.
pub fn endless_cylinder() -> JobCylinder {
    JobCylinder {
        volume: Volume::new::<cubic_meter>(1000.0),
        contents: kg(0.0),
        stop_net: kg(1e5),
        temperature: ThermodynamicTemperature::new::<degree_fahrenheit>(75.0),
        non_condensables: pa(0.0),
        walls: CylinderWalls::Held,
        metal_heat_capacity: HeatCapacity::new::<joule_per_kelvin>(0.0),
    }
}

/// A cylinder of some liters in 75 °F air.
pub fn cylinder(liters: f64, stop_kg: f64) -> JobCylinder {
    JobCylinder {
        volume: Volume::new::<cubic_meter>(liters * 1e-3),
        stop_net: kg(stop_kg),
        walls: CylinderWalls::Exchange {
            conductance: watts_per_kelvin(8.0),
            surroundings: ThermodynamicTemperature::new::<degree_fahrenheit>(75.0),
        },
        ..endless_cylinder()
    }
}

/// Vapour of a bare system into the endless cylinder.
pub fn vapor_job(
    refrigerant: &str,
    kit: Kit,
    cfm: f64,
    charge: Mass,
    volume: Volume,
    level_pa: f64,
) -> JobSetup {
    JobSetup {
        kit: setup(refrigerant, kit, cfm, Port::Vapor),
        system: System::bare(charge, volume),
        cylinders: vec![endless_cylinder()],
        method: Recovery::VaporOnly,
        machines: Machines::ONE,
        target: Target::level(pa(level_pa)),
        pauses: Pauses::default(),
        limits: RunLimits::default(),
    }
}

/// The charge that is just saturated vapour.
pub fn vapor_charge(job: &JobSetup) -> Mass {
    let kelvins = job.kit.source.temperature.get::<kelvin>();
    let at = job.kit.refrigerant.saturation_at_dew_temperature(kelvins).unwrap();
    kg(at.vapor_density_kg_m3 * job.system.volume.get::<cubic_meter>())
}

/// R-22, 25 ft³ of saturated vapour at 75 °F, 1.6 cfm, to 10 inHg.
pub fn reference_tail(kit: Kit) -> JobSetup {
    let mut job = vapor_job("R-22", kit, 1.6, kg(1.0), cubic_feet(25.0), TEN_INCHES_PA);
    job.system.charge = vapor_charge(&job);
    job.system.contents = Contents::Isothermal;
    job
}

pub fn total_minutes(job: &JobSetup) -> f64 {
    let answer = follow(job).unwrap();
    assert_eq!(answer.ends_because, EndsBecause::LevelReached);
    answer.total.get::<minute>()
}
