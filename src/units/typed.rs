//! A quantity kept exactly as a person typed it, beside its value.
//!
//! 25 ft stays `25 ft`; the value is worked out once, here, and is always finite. In files it is
//! one string. Several numbers may follow each other, as `12 lb 4 oz` or `5 ft 6 in`.

use super::error::UnitError;
use super::measure::{Measure, Unit};
use super::number::{NumberFault, leading_number, plain_signs};
use serde::de::{self, Deserialize, Deserializer, Visitor};
use serde::ser::{Serialize, Serializer};
use std::fmt;
use std::marker::PhantomData;
use std::str::FromStr;

/// A quantity of kind `Q`, as typed.
#[derive(Debug, Clone, PartialEq)]
pub struct Typed<Q> {
    text: String,
    value: Q,
}

impl<Q: Measure> Typed<Q> {
    /// Reads a number and its unit.
    pub fn parse(text: &str) -> Result<Self, UnitError> {
        let text = text.trim();
        let value = read_value::<Q>(text)?;
        Ok(Self { text: text.to_owned(), value })
    }

    /// A number in a unit, written the way a person would.
    pub fn of(number: f64, unit: &str) -> Result<Self, UnitError> {
        Self::parse(format!("{number} {unit}").trim())
    }

    /// A quantity written in one of its own units.
    pub(crate) fn written_in(si: f64, unit: &Unit) -> Result<Self, UnitError> {
        let number = unit.from_si(si);
        let spelled = unit.spellings.first().copied().unwrap_or_default();
        let text = format!("{number} {spelled}");
        let value = checked(&text, unit.to_si(number))?;
        Ok(Self { text: text.trim_end().to_owned(), value })
    }

    /// Reads what was typed over this; a number alone keeps this one's unit.
    pub fn retyped(&self, text: &str) -> Result<Self, UnitError> {
        match Self::parse(text) {
            Err(UnitError::NoUnit { .. }) => Self::parse(&format!("{} {}", text.trim(), self.unit())),
            other => other,
        }
    }

    /// This, `by` of its own units more: a step in a field.
    pub fn stepped(&self, by: f64) -> Result<Self, UnitError> {
        // Twelve figures: enough for any field, few enough to hide binary remainders.
        let number: f64 = format!("{:.11e}", self.number() + by).parse().unwrap_or(f64::NAN);
        Self::of(number, &self.unit())
    }

    /// What this is in `other`'s unit: a number that can be taken off the other's.
    pub fn number_in_unit_of(&self, other: &Self) -> f64 {
        let own = other.unit();
        let unit = Q::UNITS.iter().find(|unit| unit.is_spelled(&own));
        if unit.is_some_and(|unit| unit.is_spelled(&self.unit())) {
            return self.number();
        }
        unit.map_or(self.si(), |unit| unit.from_si(self.si()))
    }

    /// The quantity.
    pub fn value(&self) -> Q {
        self.value
    }

    /// The quantity in SI units.
    pub fn si(&self) -> f64 {
        self.value.si()
    }

    /// The text, as typed.
    pub fn as_typed(&self) -> &str {
        &self.text
    }

    /// The first unit typed, with plain signs: `degF` for `75 °F`, empty for a bare ratio.
    pub fn unit(&self) -> String {
        let plain = plain_signs(&self.text);
        leading_number(&plain).map(|(_, rest)| first_unit(rest).0.to_owned()).unwrap_or_default()
    }

    /// The number that, with [`Typed::unit`], gives the quantity.
    pub fn number(&self) -> f64 {
        let own = self.unit();
        match Q::UNITS.iter().find(|unit| unit.is_spelled(&own)) {
            Some(unit) => unit.from_si(self.si()),
            None => self.si(),
        }
    }
}

/// The value of a text that may hold several numbers with units.
fn read_value<Q: Measure>(text: &str) -> Result<Q, UnitError> {
    let plain = plain_signs(text);
    let (first, rest) = read_one::<Q>(text, &plain)?;
    let (mut si, mut rest, mut last_scale) = (first.si, rest, first.unit.scale);
    while !rest.is_empty() {
        let (next, after) = read_one::<Q>(text, rest)?;
        if next.unit.scale >= last_scale || next.unit.shift != 0.0 || next.si < 0.0 {
            return Err(unknown_unit::<Q>(text, rest));
        }
        si += next.si.copysign(first.si);
        last_scale = next.unit.scale;
        rest = after;
    }
    checked(text, si)
}

struct One {
    si: f64,
    unit: &'static Unit,
}

fn read_one<'a, Q: Measure>(text: &str, plain: &'a str) -> Result<(One, &'a str), UnitError> {
    let (number, rest) = leading_number(plain).map_err(|fault| number_error::<Q>(text, fault))?;
    let (spelled, rest) = first_unit(rest);
    if spelled.is_empty() && !Q::BARE {
        return Err(UnitError::NoUnit { text: text.into(), noun: Q::NOUN, example: Q::EXAMPLE });
    }
    let unit = Q::UNITS
        .iter()
        .find(|unit| unit.is_spelled(spelled))
        .ok_or_else(|| unknown_unit::<Q>(text, spelled))?;
    Ok((One { si: unit.to_si(number), unit }, rest))
}

fn checked<Q: Measure>(text: &str, si: f64) -> Result<Q, UnitError> {
    if !si.is_finite() {
        return Err(number_error::<Q>(text, NumberFault::NotFinite));
    }
    match Q::FLOOR {
        Some((floor_si, floor)) if si < floor_si => {
            Err(UnitError::BelowZero { text: text.into(), floor, noun: Q::NOUN, example: Q::EXAMPLE })
        }
        _ => Ok(Q::from_si(si)),
    }
}

/// The unit up to where another number starts: after a blank or an inch or foot mark.
fn first_unit(text: &str) -> (&str, &str) {
    let mut before = ' ';
    for (at, sign) in text.char_indices() {
        if at > 0 && (sign.is_ascii_digit() || sign == '-') && matches!(before, ' ' | '\'' | '"') {
            let (unit, rest) = text.split_at(at);
            return (unit.trim(), rest);
        }
        before = sign;
    }
    (text.trim(), "")
}

fn number_error<Q: Measure>(text: &str, fault: NumberFault) -> UnitError {
    let (text, noun, example) = (text.to_owned(), Q::NOUN, Q::EXAMPLE);
    match fault {
        NumberFault::Missing => UnitError::NoNumber { text, noun, example },
        NumberFault::Separator => UnitError::Separator { text },
        NumberFault::NotFinite => UnitError::NotFinite { text, noun, example },
    }
}

fn unknown_unit<Q: Measure>(text: &str, unit: &str) -> UnitError {
    UnitError::UnknownUnit {
        text: text.into(),
        unit: unit.into(),
        noun: Q::NOUN,
        example: Q::EXAMPLE,
        units: unit_names::<Q>(),
    }
}

/// The first spelling of each unit, for sentences.
fn unit_names<Q: Measure>() -> String {
    let names: Vec<&str> =
        Q::UNITS.iter().filter_map(|u| u.spellings.first().copied()).filter(|s| !s.is_empty()).collect();
    names.join(", ")
}

impl<Q> fmt::Display for Typed<Q> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text)
    }
}

impl<Q: Measure> FromStr for Typed<Q> {
    type Err = UnitError;

    fn from_str(text: &str) -> Result<Self, UnitError> {
        Self::parse(text)
    }
}

impl<Q> Serialize for Typed<Q> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.text)
    }
}

impl<'de, Q: Measure> Deserialize<'de> for Typed<Q> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(AsTyped::new(Q::NOUN, Q::EXAMPLE, Self::parse))
    }
}

/// The text of a string or of a bare number, for types whose text is not a quantity alone.
pub(crate) fn text_or_number<'de, D: Deserializer<'de>>(
    deserializer: D,
    expected: &'static str,
) -> Result<String, D::Error> {
    deserializer.deserialize_any(AsTyped::new(expected, "", |text| Ok(text.to_owned())))
}

/// Reads one string; a bare number is read as its text, so that the answer names the unit missing.
pub(super) struct AsTyped<T> {
    noun: &'static str,
    example: &'static str,
    parse: fn(&str) -> Result<T, UnitError>,
    kind: PhantomData<T>,
}

impl<T> AsTyped<T> {
    pub(super) fn new(
        noun: &'static str,
        example: &'static str,
        parse: fn(&str) -> Result<T, UnitError>,
    ) -> Self {
        Self { noun, example, parse, kind: PhantomData }
    }
}

impl<T> Visitor<'_> for AsTyped<T> {
    type Value = T;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.example {
            "" => f.write_str(self.noun),
            example => write!(f, "{}, as \"{example}\"", self.noun),
        }
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<T, E> {
        (self.parse)(text).map_err(E::custom)
    }

    fn visit_i64<E: de::Error>(self, number: i64) -> Result<T, E> {
        self.visit_str(&number.to_string())
    }

    fn visit_u64<E: de::Error>(self, number: u64) -> Result<T, E> {
        self.visit_str(&number.to_string())
    }

    fn visit_f64<E: de::Error>(self, number: f64) -> Result<T, E> {
        self.visit_str(&number.to_string())
    }
}
