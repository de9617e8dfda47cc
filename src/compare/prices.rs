//! What changes cost, as far as a person says so. Of any currency.

use std::collections::BTreeMap;

use uom::si::f64::Time;

use super::error::CompareError;
use crate::kit::Kit;
use crate::scenario::Document;
use crate::units::{Measure, Typed};

/// Prices of changes, by the row they belong to or by what the change is, and what a minute of
/// work costs.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Prices {
    rows: BTreeMap<String, f64>,
    per_minute: Option<f64>,
}

impl Prices {
    /// What a document says.
    pub fn of(document: &Document) -> Self {
        let Some(list) = &document.prices else { return Self::default() };
        let rows = list.changes.iter().map(|change| (change.name.clone(), change.price.si())).collect();
        Self { rows, per_minute: list.minute.as_ref().map(Typed::si) }
    }

    /// Says what a change costs: a row's id, as `kits.A.parts.0`, or the change itself, as
    /// `stem-quarter`.
    ///
    /// # Errors
    /// A price below zero or none at all.
    pub fn set(&mut self, row: &str, price: f64) -> Result<(), CompareError> {
        checked(row, price)?;
        self.rows.insert(row.to_owned(), price);
        Ok(())
    }

    /// Says what a minute of work costs.
    ///
    /// # Errors
    /// A price below zero or none at all.
    pub fn set_per_minute(&mut self, price: f64) -> Result<(), CompareError> {
        self.per_minute = Some(checked("a minute", price)?);
        Ok(())
    }

    /// The price of a row's change: the row's own, or else the change's.
    pub fn of_change(&self, row: &str, change: &str) -> Option<f64> {
        self.rows.get(row).or_else(|| self.rows.get(change)).copied()
    }

    /// What a minute of work costs.
    pub fn per_minute(&self) -> Option<f64> {
        self.per_minute
    }

    /// The rows and changes that have a price.
    pub fn rows(&self) -> impl Iterator<Item = &str> {
        self.rows.keys().map(String::as_str)
    }

    /// After how many jobs a change has paid for itself: `price / (minutes saved · price of a
    /// minute)`.
    ///
    /// None without a price of a minute, or where nothing is saved.
    /// # Example
    /// 60 for a change that saves 8 min a job at 1.5 a minute: 60/12 = 5 jobs.
    pub fn pay_back_jobs(&self, price: f64, saved_s: f64) -> Option<f64> {
        let saved = saved_s / 60.0 * self.per_minute?;
        (saved > 0.0).then(|| price / saved)
    }
}

/// What one kit costs on one job.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Costs {
    /// The kit's own price.
    pub kit: Option<f64>,
    per_minute: Option<f64>,
}

impl Costs {
    /// As a document says.
    pub fn new(document: &Document, kit: &Kit) -> Self {
        let minute = document.prices.as_ref().and_then(|list| list.minute.as_ref());
        Self { kit: kit.price.as_ref().map(Typed::si), per_minute: minute.map(Typed::si) }
    }

    /// The kit's own price and its time at the price of a minute; none if neither is said, or if
    /// the time is not known and would count.
    ///
    /// # Example
    /// A kit of 150 for a job of 120 min at 1.5 a minute: 150 + 180 = 330.
    pub fn of(&self, time: Option<Time>) -> Option<f64> {
        match self.per_minute {
            None => self.kit,
            Some(per_minute) => Some(self.kit.unwrap_or(0.0) + per_minute * time?.si() / 60.0),
        }
    }
}

fn checked(row: &str, price: f64) -> Result<f64, CompareError> {
    if (0.0..=f64::MAX).contains(&price) {
        return Ok(price);
    }
    let problem = format!("{price} is no price; expected a number of 0 or more");
    Err(CompareError::Price { row: row.to_owned(), problem })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn five_jobs_pay_for_it() {
        let mut prices = Prices::default();
        assert_eq!(prices.pay_back_jobs(60.0, 480.0), None);
        prices.set_per_minute(1.5).unwrap();
        assert_eq!(prices.pay_back_jobs(60.0, 480.0), Some(5.0));
        assert_eq!(prices.pay_back_jobs(60.0, 0.0), None);
    }

    #[test]
    fn a_job_costs_its_kit_and_its_minutes() {
        let time = Some(Time::from_si(7200.0));
        let costs = |kit, per_minute| Costs { kit, per_minute };
        assert_eq!(costs(Some(150.0), Some(1.5)).of(time), Some(330.0));
        assert_eq!(costs(None, Some(1.5)).of(time), Some(180.0));
        assert_eq!(costs(Some(150.0), None).of(None), Some(150.0));
        assert_eq!(costs(Some(150.0), Some(1.5)).of(None), None);
        assert_eq!(costs(None, None).of(time), None);
    }

    #[test]
    fn what_is_no_price_is_refused() {
        let mut prices = Prices::default();
        for price in [-1.0, f64::NAN, f64::INFINITY] {
            assert!(prices.set("kits.A.parts.0", price).is_err(), "{price}");
        }
        assert_eq!(prices.rows().count(), 0);
    }
}
