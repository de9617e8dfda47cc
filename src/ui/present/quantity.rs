//! Numbers on an axis in a set of units: how many units one SI unit is, and what it is called.

use narrows::units::UnitSet;
use narrows::units::factors::POUND_KG;
use uom::si::f64::{Mass, ThermodynamicTemperature};
use uom::si::mass::kilogram;
use uom::si::thermodynamic_temperature::{degree_celsius, degree_fahrenheit, kelvin};

/// Units in one SI unit, and their name.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Unit {
    /// Factor from SI.
    pub per_si: f64,
    /// Its name.
    pub name: &'static str,
}

/// Mass.
pub fn mass(units: UnitSet) -> Unit {
    match units {
        UnitSet::UsTrade => Unit { per_si: 1.0 / POUND_KG, name: "lb" },
        UnitSet::Si => Unit { per_si: 1.0, name: "kg" },
    }
}

/// Mass flow.
pub fn rate(units: UnitSet) -> Unit {
    match units {
        UnitSet::UsTrade => Unit { per_si: 60.0 / POUND_KG, name: "lb/min" },
        UnitSet::Si => Unit { per_si: 60.0, name: "kg/min" },
    }
}

/// A temperature as a number, and its unit.
pub fn temperature(units: UnitSet, kelvins: f64) -> (f64, &'static str) {
    let temperature = ThermodynamicTemperature::new::<kelvin>(kelvins);
    match units {
        UnitSet::UsTrade => (temperature.get::<degree_fahrenheit>(), "°F"),
        UnitSet::Si => (temperature.get::<degree_celsius>(), "°C"),
    }
}

/// Kelvins of a number on the temperature scale.
pub fn kelvins(units: UnitSet, number: f64) -> f64 {
    match units {
        UnitSet::UsTrade => ThermodynamicTemperature::new::<degree_fahrenheit>(number).get::<kelvin>(),
        UnitSet::Si => ThermodynamicTemperature::new::<degree_celsius>(number).get::<kelvin>(),
    }
}

/// A mass on a scale: one decimal, as scales show it.
pub fn scale_text(units: UnitSet, weight: Mass) -> String {
    let unit = mass(units);
    format!("{:.1} {}", weight.get::<kilogram>() * unit.per_si, unit.name)
}
