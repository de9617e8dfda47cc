//! Parts, rules, scenarios, lessons and words that are built into the program.
//!
//! All generic: each entry says whether it is standard, typical or invented. A document copies
//! what it takes from here and opens without it.

mod entry_text;
mod item;
mod lessons;
mod rules;
mod scenarios;
mod shelf;
mod thing;
mod words;

pub use entry_text::{EntryError, changed_file, new_file};
pub use item::{Item, Origin};
pub use lessons::{Change, Lesson, Number, Picture, Why, built_in_lessons, read_lesson};
pub use rules::{built_in_rules, read_rules};
pub use scenarios::{ScenarioPreset, built_in_scenario, scenarios};
pub use shelf::{PresetError, Shelf};
pub use thing::{OnShelf, Thing, ThingKind};
pub use words::{Word, built_in_words};
