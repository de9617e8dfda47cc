//! Numbers on an axis in a set of units: how many units one SI unit is, and what it is called.

use narrows::units::{Measure as _, Typed, UnitSet};
use uom::si::f64::{Length, Mass};
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

/// A typed bore in the unit of answers, if it was typed in another.
pub fn also_bore(units: UnitSet, typed: &Typed<Length>) -> Option<String> {
    is_other(units.bore.size_si(), typed).then(|| format!("= {}", units.bore(typed.value())))
}

/// The same of a length run.
pub fn also_length(units: UnitSet, typed: &Typed<Length>) -> Option<String> {
    is_other(units.length.size_si(), typed).then(|| format!("= {}", units.length(typed.value())))
}

fn is_other(size_si: f64, typed: &Typed<Length>) -> bool {
    let own = Typed::<Length>::of(1.0, &typed.unit());
    own.is_ok_and(|one| (one.value().si() - size_si).abs() > 1e-9 * size_si)
}

#[cfg(test)]
mod tests {
    use super::*;
    use narrows::units::BoreUnit;

    /// By hand: 4.8 / 25.4 in; 5 · 0.3048 m.
    #[test]
    fn typed_sizes_are_said_also_in_the_chosen_unit() {
        let typed = |text: &str| Typed::<Length>::parse(text).unwrap();
        let inch = UnitSet { bore: BoreUnit::Inch, ..UnitSet::SI };
        assert_eq!(also_bore(inch, &typed("4,8 mm")).as_deref(), Some("= 0.189 in"));
        assert_eq!(also_bore(inch, &typed("3/8\"")), None);
        assert_eq!(also_length(inch, &typed("5 ft")).as_deref(), Some("= 1.52 m"));
        assert_eq!(also_length(UnitSet::US_TRADE, &typed("5 feet")), None);
    }
}
