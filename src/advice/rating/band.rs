//! How well a card fixes the displacement: each unknown condition widens it.
//!
//! Every widening is found by fitting again with the condition at the end of its usual range;
//! widenings of one direction add as squares of logarithms.

use uom::si::f64::{TemperatureInterval, ThermodynamicTemperature, VolumeRate};
use uom::si::mass_rate::kilogram_per_second;
use uom::si::temperature_interval::kelvin;
use uom::si::volume_rate::cubic_meter_per_second;

use super::anchor;
use crate::fluid::Refrigerant;
use crate::machine::rating::{Averaging, Fit, FitInput, RatedTest, fit};
use crate::scenario::CardSetup;

/// Low and high displacement, and what makes them differ.
#[derive(Debug, Clone, PartialEq)]
pub struct DisplacementBand {
    /// Low end.
    pub low: VolumeRate,
    /// High end.
    pub high: VolumeRate,
    /// The widenings, in the order they were looked at.
    pub widenings: Vec<Widening>,
}

/// What one uncertainty does to the displacement.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Widening {
    /// What is uncertain.
    pub what: &'static str,
    /// Displacement over the likely one, low end.
    pub low_ratio: f64,
    /// Displacement over the likely one, high end.
    pub high_ratio: f64,
}

/// Accuracy of a certified rate: 0.008 kg/min, or 2 % where that is more.
/// Source: AHRI 740-2016 (40 CFR 82 Subpart F App. B3).
const CERTIFIED_KG_S: f64 = 0.008 / 60.0;
const CERTIFIED_RATIO: f64 = 0.02;
/// Accuracy of a rate that nobody certified. Invented.
const UNCERTIFIED_RATIO: f64 = 0.1;
/// A source temperature that is not said lies this near the usual. Invented.
const SOURCE_SPAN_K: f64 = 3.0;
/// So does an ambient that is not said. Invented.
const AMBIENT_SPAN_K: f64 = 8.0;
/// What a rate without a refrigerant may have been measured with.
const OTHER_REFRIGERANTS: [&str; 2] = ["R-134a", "R-410A"];

/// The band of the fitted displacement; none where no vapour rating fixes it.
pub(super) fn displacement_band(
    card: &CardSetup,
    input: &FitInput<'_>,
    fitted: &Fit,
) -> Option<DisplacementBand> {
    let test = anchor(card, fitted)?;
    let likely = fitted.displacement.get::<cubic_meter_per_second>();
    let refit = |changed: RatedTest| -> Option<f64> {
        let tests: Vec<RatedTest> = input
            .tests
            .iter()
            .map(|other| if other.kind == changed.kind { changed.clone() } else { other.clone() })
            .collect();
        let again = fit(&FitInput { tests: &tests, ..*input }).ok()?;
        Some(again.displacement.get::<cubic_meter_per_second>() / likely)
    };
    let unknown = |what: &str| card.unknown.iter().any(|one| one.of == test.kind && one.what == what);
    let shifted = |temperature: ThermodynamicTemperature, by: f64| -> ThermodynamicTemperature {
        temperature + TemperatureInterval::new::<kelvin>(by)
    };
    let mut widenings = Vec::new();
    let rated_kg_s = test.rated.get::<kilogram_per_second>();
    let (what, accuracy) = if card.certified.contains(&test.kind) {
        ("accuracy of a certified rate", (CERTIFIED_KG_S / rated_kg_s).clamp(CERTIFIED_RATIO, 0.5))
    } else {
        ("rate not certified", UNCERTIFIED_RATIO)
    };
    widenings.push(Widening { what, low_ratio: 1.0 - accuracy, high_ratio: 1.0 + accuracy });
    let mut widen = |what, ratios: Vec<f64>| {
        let low_ratio = ratios.iter().copied().fold(1.0, f64::min);
        let high_ratio = ratios.iter().copied().fold(1.0, f64::max);
        widenings.push(Widening { what, low_ratio, high_ratio });
    };
    if unknown("refrigerant") {
        let others = OTHER_REFRIGERANTS.iter().filter_map(|name| Refrigerant::load(name).ok());
        let refits = others.filter_map(|refrigerant| refit(RatedTest { refrigerant, ..test.clone() }));
        widen("refrigerant not said", refits.collect());
    }
    if unknown("source temperature") {
        let at = |by| refit(RatedTest { source: shifted(test.source, by), ..test.clone() });
        widen(
            "source temperature not said",
            [-SOURCE_SPAN_K, SOURCE_SPAN_K].into_iter().filter_map(at).collect(),
        );
    }
    if unknown("ambient") {
        let at = |by| refit(RatedTest { ambient: shifted(test.ambient, by), ..test.clone() });
        widen("ambient not said", [-AMBIENT_SPAN_K, AMBIENT_SPAN_K].into_iter().filter_map(at).collect());
    }
    if unknown("test method") {
        let start = refit(RatedTest { averaging: Averaging::Start, ..test.clone() });
        widen("test method not said: the rate may be the one at the start", start.into_iter().collect());
    }
    let spread = |side: fn(&Widening) -> f64| {
        widenings.iter().map(|one| side(one).max(1e-3).ln().powi(2)).sum::<f64>().sqrt()
    };
    let volume = |ratio: f64| VolumeRate::new::<cubic_meter_per_second>(likely * ratio);
    Some(DisplacementBand {
        low: volume((-spread(|one| one.low_ratio)).exp()),
        high: volume(spread(|one| one.high_ratio).exp()),
        widenings,
    })
}
