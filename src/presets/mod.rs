//! Parts, rules and scenarios that are built into the program.
//!
//! All generic: each entry says whether it is standard, typical or invented. A document copies
//! what it takes from here and opens without it.

mod rules;
mod scenarios;
mod shelf;

pub use rules::{built_in_rules, read_rules};
pub use scenarios::{ScenarioPreset, built_in_scenario, scenarios};
pub use shelf::{Item, Origin, PresetError, Shelf};
