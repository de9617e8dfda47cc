//! Evacuation levels as written: one row for each class and charge, and the exceptions.

use crate::fluid::PressureClass;
use crate::job;
use crate::kit::{Door, TypedDate};
use crate::units::{Typed, TypedPressure};
use serde::{Deserialize, Serialize};
use uom::si::f64::{Mass, Pressure, Ratio};
use uom::si::pressure::pascal;

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
        let pa = level.absolute(self.atmosphere.value()).get::<pascal>();
        if !(0.0..=1e6).contains(&pa) {
            door.fault(field, format!("{level} is out of range; expected an absolute vacuum to 9 bar(g)"));
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
