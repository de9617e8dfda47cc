//! Two cards, rating by rating, where their conditions allow.

use uom::si::f64::MassRate;
use uom::si::mass_rate::kilogram_per_second;
use uom::si::thermodynamic_temperature::kelvin;

use crate::machine::rating::{RatedTest, TestKind};
use crate::scenario::CardSetup;

/// One rating on both cards.
#[derive(Debug, Clone, PartialEq)]
pub struct CardComparison {
    /// Which.
    pub kind: TestKind,
    /// On this card.
    pub rated: MassRate,
    /// On the other.
    pub other: MassRate,
    /// This over the other; none where conditions differ or are not said.
    pub ratio: Option<f64>,
    /// Why they are not compared: conditions that differ or are unknown.
    pub because: Vec<String>,
}

/// Source temperatures that count as the same.
const SAME_SOURCE_K: f64 = 0.5;
/// Ambients that count as the same.
const SAME_AMBIENT_K: f64 = 2.0;

/// Compares what both cards rate.
pub fn compare_cards(card: &CardSetup, other: &CardSetup) -> Vec<CardComparison> {
    card.tests
        .iter()
        .filter_map(|test| {
            let beside = other.tests.iter().find(|beside| beside.kind == test.kind)?;
            let mut because = differences(test, beside);
            for (which, one) in [("this card", card), ("the other card", other)] {
                let unknown = one.unknown.iter().filter(|unknown| unknown.of == test.kind);
                // Whether it is certified changes no condition.
                let conditions = unknown.filter(|unknown| unknown.what != "certification");
                because.extend(conditions.map(|unknown| format!("{} not said on {which}", unknown.what)));
            }
            let rates = (test.rated.get::<kilogram_per_second>(), beside.rated.get::<kilogram_per_second>());
            Some(CardComparison {
                kind: test.kind,
                rated: test.rated,
                other: beside.rated,
                ratio: because.is_empty().then(|| rates.0 / rates.1),
                because,
            })
        })
        .collect()
}

fn differences(test: &RatedTest, beside: &RatedTest) -> Vec<String> {
    let mut all = Vec::new();
    let (one, two) = (test.refrigerant.designation(), beside.refrigerant.designation());
    if one != two {
        all.push(format!("refrigerant {one} against {two}"));
    }
    let apart = |a: f64, b: f64, same: f64| (a - b).abs() > same;
    if apart(test.source.get::<kelvin>(), beside.source.get::<kelvin>(), SAME_SOURCE_K) {
        all.push("source temperatures differ".to_owned());
    }
    if apart(test.ambient.get::<kelvin>(), beside.ambient.get::<kelvin>(), SAME_AMBIENT_K) {
        all.push("ambients differ".to_owned());
    }
    if test.kind.is_vapour() && test.averaging != beside.averaging {
        all.push("one is an average, the other a starting rate".to_owned());
    }
    all
}
