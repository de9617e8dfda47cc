//! The scales of the drawings' axes in a set of units, and small words about numbers.

use narrows::units::UnitSet;
use narrows::units::factors::PSI_PA;
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
}

impl PressureScale {
    /// The scale of a set of units.
    pub fn of(units: UnitSet) -> Self {
        match units {
            UnitSet::UsTrade => {
                Self { unit_pa: PSI_PA, absolute: "psia", gauge: "psig", difference: "psi", decimals: 1 }
            }
            UnitSet::Si => {
                Self { unit_pa: 1e5, absolute: "bar a", gauge: "bar g", difference: "bar", decimals: 2 }
            }
        }
    }

    /// A pressure on this scale.
    pub fn on(&self, pressure: Pressure) -> f64 {
        pressure.get::<pascal>() / self.unit_pa
    }

    /// A loss in words, without its unit.
    pub fn loss(&self, loss: f64) -> String {
        if loss >= 100.0 { format!("{loss:.0}") } else { format!("{loss:.*}", self.decimals) }
    }
}

/// A formatted quantity as number and unit.
pub fn number_and_unit(text: &str) -> (String, String) {
    match text.split_once(' ') {
        Some((number, unit)) => (number.to_owned(), unit.to_owned()),
        None => (text.to_owned(), String::new()),
    }
}

/// The first letter as a capital.
pub fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().collect::<String>() + letters.as_str(),
        None => String::new(),
    }
}
