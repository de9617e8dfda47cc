//! The scales of the drawings' axes in a set of units, and small words about numbers.

use narrows::units::{PressureUnit, UnitSet};
use uom::si::f64::Pressure;
use uom::si::pressure::pascal;

pub use narrows::report::typed_text as pretty;

/// A pressure scale for an axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PressureScale {
    /// Pascals in one unit.
    pub unit_pa: f64,
    /// Name of absolute pressure.
    pub absolute: &'static str,
    /// Name of gauge pressure.
    pub gauge: &'static str,
    /// Name of a difference.
    pub difference: &'static str,
    /// Decimals of a loss.
    pub decimals: usize,
    /// The set it is of.
    units: UnitSet,
}

impl PressureScale {
    /// The scale of a set of units.
    pub fn of(units: UnitSet) -> Self {
        let unit = units.pressure;
        let decimals = match unit {
            PressureUnit::Psi => 1,
            PressureUnit::Bar => 2,
            PressureUnit::Kilopascal => 0,
        };
        Self {
            unit_pa: unit.size_si(),
            absolute: unit.absolute(),
            gauge: unit.gauge(),
            difference: unit.name(),
            decimals,
            units,
        }
    }

    /// A pressure on this scale.
    pub fn on(&self, pressure: Pressure) -> f64 {
        pressure.get::<pascal>() / self.unit_pa
    }

    /// A loss in words, without its unit.
    pub fn loss(&self, loss: f64) -> String {
        self.units.decimals(loss, if loss >= 100.0 { 0 } else { self.decimals })
    }
}

/// A formatted quantity as number and unit.
pub fn number_and_unit(text: &str) -> (String, String) {
    match text.split_once(' ') {
        Some((number, unit)) => (number.to_owned(), unit.to_owned()),
        None => (text.to_owned(), String::new()),
    }
}

pub use narrows::units::with_capital as sentence;
