//! Filling rules and evacuation levels as written: dated data that a person may replace.
//!
//! The built-in tables come from `presets/rules/`; a document may carry tables of its own.

mod filling;
mod levels;

pub use filling::{FillingChoice, FillingDensity, FillingRules, FillingSources};
pub use levels::{ApplianceClass, LevelException, LevelRow, LevelRules, OtherTable, SmallAppliance};

use super::{Door, Fault};
use serde::{Deserialize, Serialize};

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
