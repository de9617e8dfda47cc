//! What work and changes cost, as far as a person says so. Plain numbers of any currency.

use super::Door;
use crate::units::Typed;
use serde::{Deserialize, Serialize};
use uom::si::f64::Ratio;

/// A price as typed: a plain number.
pub type Price = Typed<Ratio>;

/// Prices of a document; a kit's own price stands with the kit.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct PriceList {
    /// A minute of work.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub minute: Option<Price>,
    /// What changes cost, once for all kits.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub changes: Vec<ChangePrice>,
}

/// The price of one change.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ChangePrice {
    /// What is fitted, bought or done: `stem-quarter`.
    pub name: String,
    /// What it costs.
    pub price: Price,
}

impl PriceList {
    /// The price of a change.
    pub fn of(&self, name: &str) -> Option<&Price> {
        self.changes.iter().find(|change| change.name == name).map(|change| &change.price)
    }

    pub(crate) fn check(&self, door: &mut Door<'_>) {
        check_price(self.minute.as_ref(), "minute", door);
        let mut door = door.at("changes");
        for (index, change) in self.changes.iter().enumerate() {
            let before = self.changes.iter().take(index);
            if before.into_iter().any(|other| other.name == change.name) {
                door.at(index).fault("name", format!("{:?} has a price already; give one", change.name));
            }
            check_price(Some(&change.price), "price", &mut door.at(index));
        }
    }
}

/// The highest price: more was mistyped.
const HIGHEST: f64 = 1e9;

/// A price is a plain number of 0 or more.
pub(crate) fn check_price(price: Option<&Price>, field: &str, door: &mut Door<'_>) {
    let Some(price) = price else { return };
    if !price.unit().is_empty() {
        door.fault(field, format!("{price} has a unit; expected a plain number, as 25"));
    } else if !(0.0..=HIGHEST).contains(&price.si()) {
        door.fault(field, format!("{price} is no price; expected 0 to 1000000000"));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kit::Fault;

    fn faults(minute: &str, changes: &[(&str, &str)]) -> Vec<String> {
        let price = |text: &str| Price::parse(text).unwrap();
        let list = PriceList {
            minute: Some(price(minute)),
            changes: changes
                .iter()
                .map(|(name, text)| ChangePrice { name: (*name).to_owned(), price: price(text) })
                .collect(),
        };
        let mut faults: Vec<Fault> = Vec::new();
        list.check(&mut Door::new(&mut faults).at("prices"));
        faults.into_iter().map(|fault| fault.path).collect()
    }

    #[test]
    fn a_price_is_a_plain_number() {
        assert!(faults("1.5", &[("stem-quarter", "25"), ("drier", "0")]).is_empty());
        assert_eq!(faults("-1", &[]), ["prices.minute"]);
        assert_eq!(faults("25 %", &[]), ["prices.minute"]);
        assert_eq!(
            faults("1", &[("a", "1e12"), ("a", "3")]),
            ["prices.changes.0.price", "prices.changes.1.name"]
        );
    }
}
