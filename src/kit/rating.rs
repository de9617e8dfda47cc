//! A machine's rating card as printed: rates with what is known of how they were measured.
//!
//! Vapour, liquid and push-pull figures have a place each and cannot be exchanged. What the card
//! does not say is left out, not guessed: reading it names what is unknown and widens the band.

use super::Door;
use crate::units::{Typed, TypedPressure};
use serde::{Deserialize, Serialize};
use uom::si::f64::{Length, MassRate, ThermalConductance, ThermodynamicTemperature, VolumeRate};

/// How a rate was measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum TestMethod {
    /// AHRI 740, or the parallel ISO 11650: a vapour rate is the average over a falling pressure.
    #[serde(rename = "ahri_740", alias = "iso_11650")]
    Ahri740,
    /// The rate at the start, full pressure at the inlet.
    StartingRate,
}

/// Conditions of a rating. Each may be left out, which means unknown.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct RatingConditions {
    /// What was recovered.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub refrigerant: Option<String>,
    /// Temperature of the source at the start.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub source_temperature: Option<Typed<ThermodynamicTemperature>>,
    /// Temperature of air and cylinder.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ambient: Option<Typed<ThermodynamicTemperature>>,
    /// How it was measured.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub test_method: Option<TestMethod>,
    /// Whether somebody independent certified it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub certified: Option<bool>,
}

impl RatingConditions {
    /// These, with what they leave out taken from the card's own.
    pub fn or(&self, card: &Self) -> Self {
        Self {
            refrigerant: self.refrigerant.clone().or_else(|| card.refrigerant.clone()),
            source_temperature: self.source_temperature.clone().or_else(|| card.source_temperature.clone()),
            ambient: self.ambient.clone().or_else(|| card.ambient.clone()),
            test_method: self.test_method.or(card.test_method),
            certified: self.certified.or(card.certified),
        }
    }

    fn check(&self, door: &mut Door<'_>) {
        door.optional(
            "source_temperature",
            self.source_temperature.as_ref(),
            200.0..=400.0,
            "−73 to 127 degC",
        );
        door.optional("ambient", self.ambient.as_ref(), 200.0..=350.0, "−73 to 77 degC");
    }
}

/// One printed rate.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RatedRate {
    /// As printed.
    pub rate: Typed<MassRate>,
    /// Its own conditions where they differ from the card's.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub conditions: Option<RatingConditions>,
}

impl RatedRate {
    fn check(&self, door: &mut Door<'_>) {
        door.range("rate", &self.rate, 1e-6..=10.0, "a rate above 0, up to 600 kg/min");
        if let Some(conditions) = &self.conditions {
            conditions.check(&mut door.at("conditions"));
        }
    }
}

/// A rating card.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct RatingCard {
    /// In words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// Conditions of every rate that does not say its own.
    pub conditions: RatingConditions,
    /// Vapour recovery.
    #[serde(skip_serializing_if = "Option::is_none", alias = "vapor")]
    pub vapour: Option<RatedRate>,
    /// Liquid recovery.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub liquid: Option<RatedRate>,
    /// Push-pull.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub push_pull: Option<RatedRate>,
    /// Vapour recovery at 40 °C.
    #[serde(skip_serializing_if = "Option::is_none", alias = "high_temperature_vapor")]
    pub high_temperature_vapour: Option<RatedRate>,
    /// The lowest pressure it reaches.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub final_vacuum: Option<TypedPressure>,
    /// Displacement, where it is printed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub displacement: Option<Typed<VolumeRate>>,
    /// Bore of the inlet port.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub port_bore: Option<Typed<Length>>,
    /// Conductance of its condenser to the air, where it is known; else the document's machine's.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub condenser_conductance: Option<Typed<ThermalConductance>>,
    /// Another card to compare this one with, where conditions allow.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub against: Option<Box<RatingCard>>,
}

impl RatingCard {
    pub(crate) fn check(&self, door: &mut Door<'_>) {
        self.conditions.check(&mut door.at("conditions"));
        for (field, rated) in self.rates() {
            rated.check(&mut door.at(field));
        }
        door.optional("displacement", self.displacement.as_ref(), 1e-7..=1.0, "0.0001 L/s to 1 m3/s");
        door.optional("port_bore", self.port_bore.as_ref(), 0.05e-3..=0.2, "a bore of 0.05 to 200 mm");
        door.optional(
            "condenser_conductance",
            self.condenser_conductance.as_ref(),
            0.1..=1e5,
            "0.1 to 100000 W/K",
        );
        if self.vapour.is_none() && self.liquid.is_none() && self.high_temperature_vapour.is_none() {
            door.fault("vapour", "the card has no vapour and no liquid rate; give at least one of them");
        }
        if let Some(other) = &self.against {
            if other.against.is_some() {
                door.fault("against.against", "two cards are compared at a time; set it to none");
            }
            other.check(&mut door.at("against"));
        }
    }

    /// The rates that are there, each with its field's name.
    pub fn rates(&self) -> impl Iterator<Item = (&'static str, &RatedRate)> {
        [
            ("vapour", &self.vapour),
            ("liquid", &self.liquid),
            ("push_pull", &self.push_pull),
            ("high_temperature_vapour", &self.high_temperature_vapour),
        ]
        .into_iter()
        .filter_map(|(field, rated)| rated.as_ref().map(|rated| (field, rated)))
    }
}
