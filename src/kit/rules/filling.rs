//! Filling rules as written: how full a cylinder may be, and where each rule comes from.

use crate::job;
use crate::kit::Door;
use crate::units::{Measure, Typed, TypedPressure};
use serde::{Deserialize, Serialize};
use uom::si::f64::{Pressure, Ratio, ThermodynamicTemperature, Time};

/// The filling rules of one place.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FillingRules {
    /// A lasting name.
    pub id: String,
    /// What it is called.
    pub title: String,
    /// Where it holds.
    pub jurisdiction: String,
    /// Which text it was copied from, and when.
    pub edition: String,
    /// Share of the water capacity, or of the volume, that may be filled.
    pub fill: Typed<Ratio>,
    /// Liquid may not fill the cylinder up to this temperature.
    pub hot_temperature: Typed<ThermodynamicTemperature>,
    /// Share of the volume kept free at that temperature.
    pub hot_margin: Typed<Ratio>,
    /// A test is good for this many years.
    pub retest_years: u16,
    /// How long liquid may go on siphoning after the machine stops.
    pub siphon_time: Typed<Time>,
    /// Filling densities of named refrigerants.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub densities: Vec<FillingDensity>,
    /// Where each rule comes from.
    pub sources: FillingSources,
}

/// Filling density of a named refrigerant.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FillingDensity {
    /// Designation, as R-22.
    pub refrigerant: String,
    /// Mass of contents over water capacity.
    pub density: Typed<Ratio>,
    /// Only for cylinders of at least this service pressure.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub least_service_pressure: Option<TypedPressure>,
}

/// Where each rule comes from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[expect(missing_docs, reason = "each is the source of the rule of that name")]
pub struct FillingSources {
    pub water_capacity: String,
    pub specific_gravity: String,
    pub hot_liquid: String,
    pub filling_density: String,
    pub retest: String,
}

/// Changes of single values of the filling rules.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct FillingChoice {
    /// Share of the water capacity, or of the volume, that may be filled.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fill: Option<Typed<Ratio>>,
    /// Liquid may not fill the cylinder up to this temperature.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hot_temperature: Option<Typed<ThermodynamicTemperature>>,
    /// Share of the volume kept free at that temperature.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hot_margin: Option<Typed<Ratio>>,
    /// A test is good for this many years.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub retest_years: Option<u16>,
    /// How long liquid may go on siphoning after the machine stops.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub siphon_time: Option<Typed<Time>>,
}

impl FillingChoice {
    pub(crate) fn check(&self, door: &mut Door<'_>) {
        check_filling(
            [self.fill.as_ref(), self.hot_margin.as_ref()],
            self.hot_temperature.as_ref(),
            self.siphon_time.as_ref(),
            self.retest_years,
            door,
        );
    }
}

fn check_filling(
    [fill, margin]: [Option<&Typed<Ratio>>; 2],
    hot: Option<&Typed<ThermodynamicTemperature>>,
    siphon: Option<&Typed<Time>>,
    retest_years: Option<u16>,
    door: &mut Door<'_>,
) {
    // Nobody may fill to the brim by a slip of the keyboard.
    door.optional("fill", fill, 0.1..=0.9, "10 to 90 %");
    door.optional("hot_margin", margin, 0.0..=0.9, "0 to 90 %");
    door.optional("hot_temperature", hot, 313.15..=373.15, "40 to 100 degC");
    door.optional("siphon_time", siphon, 0.0..=600.0, "0 s to 10 min");
    if retest_years.is_some_and(|years| !(1..=20).contains(&years)) {
        let years = retest_years.unwrap_or_default();
        door.fault("retest_years", format!("{years} is out of range; expected 1 to 20"));
    }
}

impl FillingRules {
    pub(crate) fn check(&self, door: &mut Door<'_>) {
        check_filling(
            [Some(&self.fill), Some(&self.hot_margin)],
            Some(&self.hot_temperature),
            Some(&self.siphon_time),
            Some(self.retest_years),
            door,
        );
        let mut door = door.at("densities");
        for (index, row) in self.densities.iter().enumerate() {
            door.at(index).range("density", &row.density, 0.1..=1.5, "10 to 150 %");
        }
    }

    /// What the physics takes, with single values changed as chosen. Service pressures typed as
    /// absolute are taken in this air.
    pub fn table(&self, choice: &FillingChoice, ambient: Pressure) -> job::FillingTable {
        fn or<Q: Copy + Measure>(choice: Option<&Typed<Q>>, own: &Typed<Q>) -> Q {
            choice.unwrap_or(own).value()
        }
        let density = |row: &FillingDensity| job::FillingDensity {
            refrigerant: row.refrigerant.clone(),
            density: row.density.value(),
            least_service_pressure: row
                .least_service_pressure
                .as_ref()
                .map(|pressure| pressure.gauge(ambient)),
        };
        job::FillingTable {
            title: self.title.clone(),
            edition: self.edition.clone(),
            sources: job::FillingSources {
                water_capacity: self.sources.water_capacity.clone(),
                specific_gravity: self.sources.specific_gravity.clone(),
                hot_liquid: self.sources.hot_liquid.clone(),
                filling_density: self.sources.filling_density.clone(),
                retest: self.sources.retest.clone(),
            },
            fill: or(choice.fill.as_ref(), &self.fill),
            hot_temperature: or(choice.hot_temperature.as_ref(), &self.hot_temperature),
            hot_margin: or(choice.hot_margin.as_ref(), &self.hot_margin),
            densities: self.densities.iter().map(density).collect(),
            retest_years: choice.retest_years.unwrap_or(self.retest_years),
            siphon_time: or(choice.siphon_time.as_ref(), &self.siphon_time),
        }
    }
}
