//! The table of levels, as data.

use uom::si::f64::{Mass, Pressure, Ratio};

use crate::fluid::PressureClass;
use crate::job::YearMonth;
use crate::units::TypedPressure;

/// The levels of one place, dated.
#[derive(Debug, Clone, PartialEq)]
pub struct LevelTable {
    /// What it is called.
    pub title: String,
    /// Which text it was copied from, and when.
    pub edition: String,
    /// When someone should compare it with the current text.
    pub review_by: Option<YearMonth>,
    /// The atmosphere that its inches of vacuum are counted from.
    pub atmosphere: Pressure,
    /// When machines began to need the deeper levels, in words.
    pub machine_date: String,
    /// The rows; the first that fits counts.
    pub rows: Vec<LevelRow>,
    /// Where leaks make the level unattainable.
    pub leak: Option<LevelException>,
    /// For small factory-sealed appliances.
    pub small_appliance: Option<SmallAppliance>,
}

/// One row of the table.
#[derive(Debug, Clone, PartialEq)]
pub struct LevelRow {
    /// The appliance's class.
    pub class: PressureClass,
    /// Full charge of at least this; any if left out.
    pub charge_from: Option<Mass>,
    /// Full charge below this; any if left out.
    pub charge_below: Option<Mass>,
    /// With a machine made before the date.
    pub before: TypedPressure,
    /// With a machine made since.
    pub since: TypedPressure,
    /// What other published tables say instead.
    pub others: Vec<OtherTable>,
}

/// Another published table's answer to the same row.
#[derive(Debug, Clone, PartialEq)]
pub struct OtherTable {
    /// Which table.
    pub source: String,
    /// Refrigerants for which it agrees after all.
    pub not_for: Vec<String>,
    /// With a machine made before the date.
    pub before: TypedPressure,
    /// With a machine made since.
    pub since: TypedPressure,
}

/// A level with its condition in words.
#[derive(Debug, Clone, PartialEq)]
pub struct LevelException {
    /// The level.
    pub level: TypedPressure,
    /// What has to be done for it.
    pub condition: String,
}

/// The rule for small appliances.
#[derive(Debug, Clone, PartialEq)]
pub struct SmallAppliance {
    /// Charged with no more than this.
    pub charge_to: Mass,
    /// The level that counts as done.
    pub level: TypedPressure,
    /// Share to be recovered where its compressor runs.
    pub running: Ratio,
    /// Share to be recovered where it does not.
    pub not_running: Ratio,
    /// Share to be recovered with a machine made before the date.
    pub before: Ratio,
    /// What has to be so, in words.
    pub condition: String,
}
