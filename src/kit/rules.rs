//! Filling rules and evacuation levels as written: dated data that a person may replace.
//!
//! The built-in tables come from `presets/rules/`; a document may carry tables of its own.

use super::{Door, Fault, TypedDate};
use crate::fluid::PressureClass;
use crate::job;
use crate::units::{Typed, TypedPressure};
use serde::{Deserialize, Serialize};
use uom::si::f64::{Mass, Pressure, Ratio, ThermodynamicTemperature, Time};

/// Tables of one's own; what is left out is as built in.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct OwnRules {
    /// Filling rules.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub filling: Option<FillingRules>,
    /// Evacuation levels.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub levels: Option<LevelRules>,
}

impl OwnRules {
    pub(crate) fn check(&self, door: &mut Door<'_>) {
        if let Some(filling) = &self.filling {
            filling.check(&mut door.at("filling"));
        }
        if let Some(levels) = &self.levels {
            levels.check(&mut door.at("levels"));
        }
    }

    /// What cannot be used as it stands.
    pub fn faults(&self) -> Vec<Fault> {
        let mut faults = Vec::new();
        self.check(&mut Door::new(&mut faults));
        faults
    }
}

/// Both tables.
#[derive(Debug, Clone, PartialEq)]
pub struct Rules {
    /// Filling rules.
    pub filling: FillingRules,
    /// Evacuation levels.
    pub levels: LevelRules,
}

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
        fn or<Q: Copy + crate::units::Measure>(choice: Option<&Typed<Q>>, own: &Typed<Q>) -> Q {
            choice.unwrap_or(own).value()
        }
        let density = |row: &FillingDensity| job::FillingDensity {
            refrigerant: row.refrigerant.clone(),
            density: row.density.value(),
            least_service_pressure: row.least_service_pressure.as_ref().map(|pressure| {
                crate::units::GaugePressure::from_absolute(pressure.absolute(ambient), ambient)
            }),
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

/// The evacuation levels of one place.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LevelRules {
    /// A lasting name.
    pub id: String,
    /// What it is called.
    pub title: String,
    /// Where it holds.
    pub jurisdiction: String,
    /// Which text it was copied from, and when.
    pub edition: String,
    /// When someone should compare it with the current text.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub review_by: Option<TypedDate>,
    /// The atmosphere that its inches of vacuum are counted from.
    pub atmosphere: Typed<Pressure>,
    /// When machines began to need the deeper levels, in words.
    pub machine_date: String,
    /// The rows.
    pub rows: Vec<LevelRow>,
    /// Where leaks make the level unattainable.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub leak: Option<LevelException>,
    /// For small factory-sealed appliances.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub small_appliance: Option<SmallAppliance>,
}

/// An appliance's pressure class.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[expect(missing_docs, reason = "the names are the rule's own")]
pub enum ApplianceClass {
    Low,
    Medium,
    High,
    VeryHigh,
}

impl From<ApplianceClass> for PressureClass {
    fn from(class: ApplianceClass) -> Self {
        match class {
            ApplianceClass::Low => Self::Low,
            ApplianceClass::Medium => Self::Medium,
            ApplianceClass::High => Self::High,
            ApplianceClass::VeryHigh => Self::VeryHigh,
        }
    }
}

/// One row of the levels.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LevelRow {
    /// The appliance's class.
    pub class: ApplianceClass,
    /// Full charge of at least this.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub charge_from: Option<Typed<Mass>>,
    /// Full charge below this.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub charge_below: Option<Typed<Mass>>,
    /// With a machine made before the date.
    pub before: TypedPressure,
    /// With a machine made since.
    pub since: TypedPressure,
    /// What other published tables say instead.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub others: Vec<OtherTable>,
}

/// Another published table's answer to the same row.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OtherTable {
    /// Which table.
    pub source: String,
    /// Refrigerants for which it agrees after all.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub not_for: Vec<String>,
    /// With a machine made before the date.
    pub before: TypedPressure,
    /// With a machine made since.
    pub since: TypedPressure,
}

/// A level with its condition in words.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LevelException {
    /// The level.
    pub level: TypedPressure,
    /// What has to be done for it.
    pub condition: String,
}

/// The rule for small appliances.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SmallAppliance {
    /// Charged with no more than this.
    pub charge_to: Typed<Mass>,
    /// The level that counts as done.
    pub level: TypedPressure,
    /// Share to be recovered where its compressor runs.
    pub running: Typed<Ratio>,
    /// Share to be recovered where it does not.
    pub not_running: Typed<Ratio>,
    /// Share to be recovered with a machine made before the date.
    pub before: Typed<Ratio>,
    /// What has to be so, in words.
    pub condition: String,
}

impl LevelRules {
    pub(crate) fn check(&self, door: &mut Door<'_>) {
        door.range("atmosphere", &self.atmosphere, 9e4..=1.1e5, "90 to 110 kPa");
        if self.rows.is_empty() {
            door.fault("rows", "there is none; expected at least one");
        }
        for (index, row) in self.rows.iter().enumerate() {
            let mut rows = door.at("rows");
            let mut door = rows.at(index);
            self.check_level("before", &row.before, &mut door);
            self.check_level("since", &row.since, &mut door);
            for (index, other) in row.others.iter().enumerate() {
                let mut others = door.at("others");
                let mut door = others.at(index);
                self.check_level("before", &other.before, &mut door);
                self.check_level("since", &other.since, &mut door);
            }
        }
        if let Some(leak) = &self.leak {
            self.check_level("level", &leak.level, &mut door.at("leak"));
        }
        if let Some(small) = &self.small_appliance {
            let mut door = door.at("small_appliance");
            self.check_level("level", &small.level, &mut door);
            for (field, share) in
                [("running", &small.running), ("not_running", &small.not_running), ("before", &small.before)]
            {
                door.range(field, share, 0.0..=1.0, "a share of 0 to 1");
            }
        }
    }

    fn check_level(&self, field: &str, level: &TypedPressure, door: &mut Door<'_>) {
        let pa = level.absolute(self.atmosphere.value()).get::<uom::si::pressure::pascal>();
        if !(0.0..=1e6).contains(&pa) {
            door.fault(field, format!("{level} is out of range; expected an absolute vacuum to 9 bar g"));
        }
    }

    /// What the physics takes.
    pub fn table(&self) -> job::LevelTable {
        let mass = |typed: &Option<Typed<Mass>>| typed.as_ref().map(Typed::value);
        let other = |other: &OtherTable| job::OtherTable {
            source: other.source.clone(),
            not_for: other.not_for.clone(),
            before: other.before.clone(),
            since: other.since.clone(),
        };
        let row = |row: &LevelRow| job::LevelRow {
            class: row.class.into(),
            charge_from: mass(&row.charge_from),
            charge_below: mass(&row.charge_below),
            before: row.before.clone(),
            since: row.since.clone(),
            others: row.others.iter().map(other).collect(),
        };
        job::LevelTable {
            title: self.title.clone(),
            edition: self.edition.clone(),
            review_by: self.review_by.as_ref().map(TypedDate::value),
            atmosphere: self.atmosphere.value(),
            machine_date: self.machine_date.clone(),
            rows: self.rows.iter().map(row).collect(),
            leak: self.leak.as_ref().map(|leak| job::LevelException {
                level: leak.level.clone(),
                condition: leak.condition.clone(),
            }),
            small_appliance: self.small_appliance.as_ref().map(|small| job::SmallAppliance {
                charge_to: small.charge_to.value(),
                level: small.level.clone(),
                running: small.running.value(),
                not_running: small.not_running.value(),
                before: small.before.value(),
                condition: small.condition.clone(),
            }),
        }
    }
}
