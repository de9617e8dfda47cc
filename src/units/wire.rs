//! A wire size as typed: `16 AWG`, `1/0 AWG`, `1.5 mm2`.
//!
//! It names a size; what the conductor's resistance is, `power` knows.

use super::error::UnitError;
use super::number::{leading_number, plain_signs};
use super::typed::AsTyped;
use serde::de::{Deserialize, Deserializer};
use serde::ser::{Serialize, Serializer};
use std::fmt;
use std::str::FromStr;

/// A wire size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum WireSize {
    /// American wire gauge; 0 is 1/0, −1 is 2/0, −3 is 4/0.
    Awg(i32),
    /// Nominal cross-section in mm², above zero.
    SquareMillimetres(f64),
}

/// A wire size, as typed.
#[derive(Debug, Clone, PartialEq)]
pub struct TypedWire {
    text: String,
    size: WireSize,
}

impl TypedWire {
    /// Reads a gauge or a cross-section.
    pub fn parse(text: &str) -> Result<Self, UnitError> {
        let text = text.trim();
        let size = read_size(text).ok_or_else(|| UnitError::Wire { text: text.into() })?;
        Ok(Self { text: text.to_owned(), size })
    }

    /// The size.
    pub fn size(&self) -> WireSize {
        self.size
    }

    /// The text, as typed.
    pub fn as_typed(&self) -> &str {
        &self.text
    }
}

fn read_size(text: &str) -> Option<WireSize> {
    let plain = plain_signs(text).to_ascii_lowercase();
    if let Some(number) = ["awg", "gauge", "ga", "#"]
        .iter()
        .find_map(|mark| plain.strip_suffix(mark).or_else(|| plain.strip_prefix(mark)).map(str::trim))
    {
        return read_awg(number).map(WireSize::Awg);
    }
    let (number, unit) = leading_number(&plain).ok()?;
    let unit: String = unit.trim_end_matches('.').split_whitespace().collect();
    let is_area = matches!(unit.as_str(), "mm2" | "mm^2" | "sqmm" | "qmm");
    (is_area && number > 0.0).then_some(WireSize::SquareMillimetres(number))
}

fn read_awg(number: &str) -> Option<i32> {
    if let Some(zeros) = number.strip_suffix("/0") {
        let zeros: i32 = zeros.trim().parse().ok()?;
        return (1..=4).contains(&zeros).then_some(1 - zeros);
    }
    if number.len() > 1 && number.len() <= 4 && number.chars().all(|digit| digit == '0') {
        return i32::try_from(number.len()).ok().map(|zeros| 1 - zeros);
    }
    number.parse().ok().filter(|gauge| (0..=40).contains(gauge))
}

impl fmt::Display for TypedWire {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text)
    }
}

impl FromStr for TypedWire {
    type Err = UnitError;

    fn from_str(text: &str) -> Result<Self, UnitError> {
        Self::parse(text)
    }
}

impl Serialize for TypedWire {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.text)
    }
}

impl<'de> Deserialize<'de> for TypedWire {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(AsTyped::new("a wire size", "16 AWG", Self::parse))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, expected: WireSize) {
        assert_eq!(TypedWire::parse(text).unwrap().size(), expected, "{text}");
    }

    #[test]
    fn sizes_as_printed_on_jackets() {
        check("16 AWG", WireSize::Awg(16));
        check("16AWG", WireSize::Awg(16));
        check("AWG 14", WireSize::Awg(14));
        check("#12", WireSize::Awg(12));
        check("10 gauge", WireSize::Awg(10));
        check("1/0 AWG", WireSize::Awg(0));
        check("4/0 AWG", WireSize::Awg(-3));
        check("000 AWG", WireSize::Awg(-2));
        check("1.5 mm2", WireSize::SquareMillimetres(1.5));
        check("1,5 mm²", WireSize::SquareMillimetres(1.5));
    }

    #[test]
    fn what_is_no_wire_is_refused() {
        for text in ["", "16", "AWG", "-3 AWG", "0 mm2", "-1 mm2", "99 AWG", "1.5 mm", "5/0 AWG", "16 AWG x"]
        {
            assert!(TypedWire::parse(text).is_err(), "{text}");
        }
    }
}
