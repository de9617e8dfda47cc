//! Numbers on an axis in a set of units: how many units one SI unit is, and what it is called.

use narrows::units::UnitSet;
use uom::si::f64::Mass;
use uom::si::mass::kilogram;

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
    Unit { per_si: 1.0 / units.mass.size_si(), name: units.mass.name() }
}

/// Mass flow.
pub fn rate(units: UnitSet) -> Unit {
    Unit { per_si: 1.0 / units.rate.size_si(), name: units.rate.name() }
}

/// A temperature as a number, and its unit.
pub fn temperature(units: UnitSet, kelvins: f64) -> (f64, &'static str) {
    (units.temperature.of_kelvin(kelvins), units.temperature.name())
}

/// Kelvins of a number on the temperature scale.
pub fn kelvins(units: UnitSet, number: f64) -> f64 {
    units.temperature.to_kelvin(number)
}

/// A mass on a scale: one decimal, as scales show it.
pub fn scale_text(units: UnitSet, weight: Mass) -> String {
    let unit = mass(units);
    format!("{} {}", units.decimals(weight.get::<kilogram>() * unit.per_si, 1), unit.name)
}
