//! What changes cost, as far as a person says so. Of any currency.

use std::collections::BTreeMap;

use super::error::CompareError;

/// Prices of changes by the row they belong to, and what a minute of work costs.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Prices {
    rows: BTreeMap<String, f64>,
    per_minute: Option<f64>,
}

impl Prices {
    /// Says what the change of a row costs: a row's id, as `kits.A.parts.0`.
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

    /// The price of a row's change.
    pub fn of_row(&self, row: &str) -> Option<f64> {
        self.rows.get(row).copied()
    }

    /// The rows that have a price.
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
    fn what_is_no_price_is_refused() {
        let mut prices = Prices::default();
        for price in [-1.0, f64::NAN, f64::INFINITY] {
            assert!(prices.set("kits.A.parts.0", price).is_err(), "{price}");
        }
        assert_eq!(prices.rows().count(), 0);
    }
}
