//! Ratios between ratings that are usual, as hints only.

use crate::machine::rating::{RatedTest, TestKind};
use uom::si::mass_rate::kilogram_per_second;

/// The ratio of two ratings and what is usual.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RatioHint {
    /// Over the other.
    pub of: TestKind,
    /// Beneath it.
    pub to: TestKind,
    /// The card's.
    pub ratio: f64,
    /// Usually from this.
    pub usual_low: f64,
    /// Usually up to this.
    pub usual_high: f64,
}

impl RatioHint {
    /// It lies where it usually does.
    pub fn is_usual(&self) -> bool {
        (self.usual_low..=self.usual_high).contains(&self.ratio)
    }
}

/// Usual ratios of printed ratings. Common practice, no source: vapour well under liquid, push-pull
/// a few times liquid, warm vapour denser than vapour at 24 °C.
const USUAL: [(TestKind, TestKind, f64, f64); 3] = [
    (TestKind::Liquid, TestKind::Vapour, 3.0, 25.0),
    (TestKind::PushPull, TestKind::Liquid, 1.5, 6.0),
    (TestKind::HighTemperatureVapour, TestKind::Vapour, 1.0, 2.5),
];

/// The ratios that a card has both ratings for.
pub(super) fn hints(tests: &[RatedTest]) -> Vec<RatioHint> {
    let rate = |kind| {
        tests.iter().find(|test| test.kind == kind).map(|test| test.rated.get::<kilogram_per_second>())
    };
    USUAL
        .iter()
        .filter_map(|&(of, to, usual_low, usual_high)| {
            Some(RatioHint { of, to, ratio: rate(of)? / rate(to)?, usual_low, usual_high })
        })
        .collect()
}
