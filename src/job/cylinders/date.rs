//! A month of a year, as test dates are stamped on cylinders and as the day of a job is given.
//!
//! Days are read and dropped: a test counts for whole months. No clock is asked anywhere.

use std::fmt;
use std::str::FromStr;

/// A month of a year.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct YearMonth {
    year: u16,
    month: u8,
}

/// Why a text is no date.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum DateError {
    /// Not year and month.
    #[error("{text:?} is no date; say year and month, as 2024-05")]
    Form {
        /// As given.
        text: String,
    },
    /// A year or a month that cannot be meant.
    #[error("{text:?} is out of range; expected a year of 1900 to 2199 and a month of 1 to 12, as 2024-05")]
    Range {
        /// As given.
        text: String,
    },
}

impl YearMonth {
    /// Reads `2024-05`, `2024-05-17` or, as stamps are often written, `05/2024`.
    pub fn parse(text: &str) -> Result<Self, DateError> {
        let form = || DateError::Form { text: text.to_owned() };
        let fields: Vec<&str> = text.trim().split(['-', '/', ' ']).collect();
        let (year, month) = match *fields.as_slice() {
            [year, month] | [year, month, _] if year.len() == 4 => (year, month),
            [month, year] if year.len() == 4 => (year, month),
            _ => return Err(form()),
        };
        if let Some(day) = fields.get(2) {
            let day: u8 = day.parse().map_err(|_| form())?;
            if !(1..=31).contains(&day) {
                return Err(form());
            }
        }
        let (year, month) = (year.parse().map_err(|_| form())?, month.parse().map_err(|_| form())?);
        if (1900..=2199).contains(&year) && (1..=12).contains(&month) {
            Ok(Self { year, month })
        } else {
            Err(DateError::Range { text: text.to_owned() })
        }
    }

    /// The same month so many years later.
    pub fn plus_years(self, years: u16) -> Self {
        Self { year: self.year.saturating_add(years), month: self.month }
    }
}

impl fmt::Display for YearMonth {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}", self.year, self.month)
    }
}

impl FromStr for YearMonth {
    type Err = DateError;

    fn from_str(text: &str) -> Result<Self, DateError> {
        Self::parse(text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, expected: &str) {
        assert_eq!(YearMonth::parse(text).unwrap().to_string(), expected);
    }

    #[test]
    fn dates_as_people_write_them() {
        check("2024-05", "2024-05");
        check(" 2024-05-17 ", "2024-05");
        check("05/2024", "2024-05");
        check("5 2024", "2024-05");
    }

    #[test]
    fn what_is_no_date_is_said() {
        for text in ["", "24-05", "2024", "May 2024", "2024-05-99", "2024-5-x", "20245"] {
            assert!(matches!(YearMonth::parse(text), Err(DateError::Form { .. })), "{text}");
        }
        for text in ["2024-13", "2024-00", "0001-05"] {
            assert!(matches!(YearMonth::parse(text), Err(DateError::Range { .. })), "{text}");
        }
    }

    #[test]
    fn later_is_greater() {
        let tested = YearMonth::parse("2021-05").unwrap();
        assert!(tested.plus_years(5) > YearMonth::parse("2026-04").unwrap());
        assert!(tested.plus_years(5) < YearMonth::parse("2026-06").unwrap());
    }
}
