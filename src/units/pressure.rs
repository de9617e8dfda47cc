//! A pressure as typed: gauge, absolute, or inches of vacuum.
//!
//! `psi` and `bar` alone are refused, since they do not say what they are measured from. `inHg`
//! alone is a vacuum, as the trade reads its compound gauges; `kPa` alone is absolute, as in SI.

use super::error::UnitError;
use super::factors::{INCH_OF_MERCURY_PA, MILLIMETRE_OF_MERCURY_PA, PSI_PA};
use super::gauge::GaugePressure;
use super::measure::{Measure, Unit};
use super::number::{leading_number, plain_signs};
use super::typed::{AsTyped, Typed};
use serde::de::{Deserialize, Deserializer};
use serde::ser::{Serialize, Serializer};
use std::fmt;
use std::str::FromStr;
use uom::si::f64::Pressure;

const NOUN: &str = "a pressure";
const EXAMPLE: &str = "219 psig";

/// What a typed pressure is measured from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reference {
    /// Above the air around.
    Gauge,
    /// Above nothing at all.
    Absolute,
    /// Below the air around.
    Vacuum,
}

/// A pressure as typed. It has no absolute value without the ambient pressure.
#[derive(Debug, Clone, PartialEq)]
pub struct TypedPressure {
    text: String,
    reference: Reference,
    pa: f64,
}

const GAUGE: &[Unit] = &[
    unit(&["psig", "psi g", "psi gauge", "lb gauge"], PSI_PA),
    unit(&["bar g", "barg", "bar(g)", "bar gauge"], 1e5),
    unit(&["kPa g", "kPag", "kPa(g)", "kPa gauge"], 1e3),
    unit(&["MPa g", "MPag", "MPa gauge"], 1e6),
];

const ABSOLUTE: &[Unit] = &[
    unit(&["psia", "psi a", "psi abs", "psi absolute"], PSI_PA),
    unit(&["bar a", "bara", "bar(a)", "bar abs"], 1e5),
    unit(&["kPa", "kPa a", "kPaa", "kPa(a)", "kPa abs", "kPa(abs)"], 1e3),
    unit(&["MPa", "MPa a", "MPa abs"], 1e6),
    unit(&["Pa", "Pa abs"], 1.0),
    unit(&["mbar", "mbar abs", "hPa"], 1e2),
    unit(&["inHg abs", "in Hg abs", "inHg a", "inHga"], INCH_OF_MERCURY_PA),
    unit(&["mmHg abs", "mmHg a", "Torr"], MILLIMETRE_OF_MERCURY_PA),
    unit(&["micron", "microns"], MILLIMETRE_OF_MERCURY_PA * 1e-3),
];

const VACUUM: &[Unit] = &[
    unit(
        &["inHg vac", "inHg", "in Hg vac", "inHg vacuum", "\"Hg", "\"Hg vac", "in. Hg", "in. Hg vac"],
        INCH_OF_MERCURY_PA,
    ),
    unit(&["mmHg vac", "mmHg", "mm Hg vacuum"], MILLIMETRE_OF_MERCURY_PA),
    unit(&["kPa vac", "kPa vacuum"], 1e3),
];

const fn unit(spellings: &'static [&'static str], scale: f64) -> Unit {
    Unit { spellings, scale, shift: 0.0 }
}

impl TypedPressure {
    /// Reads a number, its unit and what it is measured from.
    pub fn parse(text: &str) -> Result<Self, UnitError> {
        let text = text.trim();
        let plain = plain_signs(text);
        // The number is read as any other quantity's, so that its errors are the same.
        let (number, spelled) = leading_number(&plain).map_err(|_| wrong_number(text))?;
        if spelled.is_empty() {
            return Err(UnitError::NoUnit { text: text.into(), noun: NOUN, example: EXAMPLE });
        }
        let (reference, unit) = find(spelled).ok_or_else(|| unclear_unit(text, number, spelled))?;
        let pa = unit.to_si(number);
        let (floor_pa, floor) = match reference {
            Reference::Gauge => (-1.2e5, "absolute vacuum"),
            Reference::Absolute => (0.0, "absolute vacuum"),
            Reference::Vacuum => (0.0, "no vacuum at all"),
        };
        if !pa.is_finite() {
            return Err(UnitError::NotFinite { text: text.into(), noun: NOUN, example: EXAMPLE });
        }
        if pa < floor_pa {
            return Err(UnitError::BelowZero { text: text.into(), floor, noun: NOUN, example: EXAMPLE });
        }
        Ok(Self { text: text.to_owned(), reference, pa })
    }

    /// The absolute pressure in `ambient` air. Negative for a vacuum deeper than the air is heavy.
    pub fn absolute(&self, ambient: Pressure) -> Pressure {
        match self.reference {
            Reference::Gauge => GaugePressure::from_pa(self.pa).to_absolute(ambient),
            Reference::Absolute => Pressure::from_si(self.pa),
            Reference::Vacuum => GaugePressure::from_pa(-self.pa).to_absolute(ambient),
        }
    }

    /// What a gauge in `ambient` air reads.
    pub fn gauge(&self, ambient: Pressure) -> GaugePressure {
        GaugePressure::from_absolute(self.absolute(ambient), ambient)
    }

    /// What it is measured from.
    pub fn reference(&self) -> Reference {
        self.reference
    }

    /// The text, as typed.
    pub fn as_typed(&self) -> &str {
        &self.text
    }

    /// Reads what was typed over this; a number alone keeps this one's unit.
    pub fn retyped(&self, text: &str) -> Result<Self, UnitError> {
        match Self::parse(text) {
            Err(UnitError::NoUnit { .. }) => Self::parse(&format!("{} {}", text.trim(), self.unit())),
            other => other,
        }
    }

    /// The unit typed, with plain signs.
    pub fn unit(&self) -> String {
        let plain = plain_signs(&self.text);
        leading_number(&plain).map(|(_, rest)| rest.trim().to_owned()).unwrap_or_default()
    }
}

fn find(spelled: &str) -> Option<(Reference, &'static Unit)> {
    [(Reference::Gauge, GAUGE), (Reference::Absolute, ABSOLUTE), (Reference::Vacuum, VACUUM)]
        .into_iter()
        .find_map(|(reference, units)| {
            units.iter().find(|unit| unit.is_spelled(spelled)).map(|unit| (reference, unit))
        })
}

fn wrong_number(text: &str) -> UnitError {
    // Any quantity's reader gives the right sentence but for the noun.
    match Typed::<Pressure>::parse(text) {
        Err(UnitError::Separator { text }) => UnitError::Separator { text },
        Err(UnitError::NotFinite { text, .. }) => UnitError::NotFinite { text, noun: NOUN, example: EXAMPLE },
        _ => UnitError::NoNumber { text: text.into(), noun: NOUN, example: EXAMPLE },
    }
}

fn unclear_unit(text: &str, number: f64, spelled: &str) -> UnitError {
    let say = |gauge: &str, absolute: &str| UnitError::Reference {
        text: text.into(),
        gauge: format!("{number} {gauge}"),
        absolute: format!("{number} {absolute}"),
    };
    match spelled.to_ascii_lowercase().as_str() {
        "psi" | "lb" | "lbs" | "lb/in2" => say("psig", "psia"),
        "bar" => say("bar(g)", "bar(a)"),
        _ => UnitError::UnknownUnit {
            text: text.into(),
            unit: spelled.into(),
            noun: NOUN,
            example: EXAMPLE,
            units: "psig, psia, bar(g), bar(a), kPa(a), kPa(g), inHg vac, inHg abs, micron".into(),
        },
    }
}

impl fmt::Display for TypedPressure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text)
    }
}

impl FromStr for TypedPressure {
    type Err = UnitError;

    fn from_str(text: &str) -> Result<Self, UnitError> {
        Self::parse(text)
    }
}

impl Serialize for TypedPressure {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.text)
    }
}

impl<'de> Deserialize<'de> for TypedPressure {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(AsTyped::new(NOUN, EXAMPLE, Self::parse))
    }
}
