//! A date as typed: the stamp on a cylinder, the day of a job.

use crate::job::{DateError, YearMonth};
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::fmt;

/// Year and month, as typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TypedDate {
    text: String,
    value: YearMonth,
}

impl TypedDate {
    /// Reads a date, as 2024-05.
    pub fn parse(text: &str) -> Result<Self, DateError> {
        Ok(Self { text: text.trim().to_owned(), value: YearMonth::parse(text)? })
    }

    /// The month.
    pub fn value(&self) -> YearMonth {
        self.value
    }

    /// The text, as typed.
    pub fn as_typed(&self) -> &str {
        &self.text
    }
}

impl fmt::Display for TypedDate {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text)
    }
}

impl Serialize for TypedDate {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.text)
    }
}

impl<'de> Deserialize<'de> for TypedDate {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = crate::units::text_or_number(deserializer, "a date, as \"2024-05\"")?;
        Self::parse(&text).map_err(serde::de::Error::custom)
    }
}
