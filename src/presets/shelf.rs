//! The shelf: parts, machines, cylinders, cords, wiring and motors to copy from.
//!
//! The built-in files come first; a person's own files, of the same form, add to them. An id that
//! is there already is refused, never replaced.

use crate::kit::{Branch, Cord, Cylinder, Fault, Machine, Motor, Part, Shelved, dialect};
use serde::Deserialize;
use std::collections::BTreeSet;

use super::entry_text::line_of;
use super::item::Item;

/// The version of shelf files.
pub(super) const SCHEMA: u32 = 1;

const BUILT_IN: [(&str, &str); 10] = [
    ("hoses.ron", include_str!("../../presets/hoses.ron")),
    ("cores_and_stems.ron", include_str!("../../presets/cores_and_stems.ron")),
    ("ends_and_valves.ron", include_str!("../../presets/ends_and_valves.ron")),
    ("gauge_sets.ron", include_str!("../../presets/gauge_sets.ron")),
    ("driers.ron", include_str!("../../presets/driers.ron")),
    ("machines.ron", include_str!("../../presets/machines.ron")),
    ("motors.ron", include_str!("../../presets/motors.ron")),
    ("cylinders.ron", include_str!("../../presets/cylinders.ron")),
    ("cords.ron", include_str!("../../presets/cords.ron")),
    ("conductors.ron", include_str!("../../presets/conductors.ron")),
];

/// Why a shelf file cannot be used.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum PresetError {
    /// It does not read.
    #[error("{file}, line {line}, column {column}: {detail}")]
    Unreadable {
        /// The file.
        file: String,
        /// Counted from 1.
        line: usize,
        /// Counted from 1.
        column: usize,
        /// What the parser says.
        detail: String,
    },
    /// Another version.
    #[error("{file} has schema {found}; this program reads {SCHEMA}")]
    Schema {
        /// The file.
        file: String,
        /// Its schema.
        found: u32,
    },
    /// An id that another entry has.
    #[error("{file}: the id {id:?} is taken; expected one of its own")]
    TakenId {
        /// The file, and the line.
        file: String,
        /// The id.
        id: String,
    },
    /// An id that is none.
    #[error("{file}: {id:?} is no id; expected lower-case words and numbers joined by hyphens")]
    MalformedId {
        /// The file, and the line.
        file: String,
        /// The id.
        id: String,
    },
    /// A value out of range.
    #[error("{file}: {id}: {fault}")]
    Faulty {
        /// The file, and the line.
        file: String,
        /// The entry.
        id: String,
        /// What is wrong.
        fault: Fault,
    },
}

impl PresetError {
    /// Turns what the reader of RON found in a file into our words.
    pub(super) fn unreadable_in(file: &str) -> impl Fn(ron::error::SpannedError) -> Self {
        move |error| Self::Unreadable {
            file: file.to_owned(),
            line: error.span.start.line,
            column: error.span.start.col,
            detail: error.code.to_string(),
        }
    }
}

/// Everything on the shelf.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Shelf {
    /// Parts of a path.
    pub parts: Vec<Item<Part>>,
    /// Machines.
    pub machines: Vec<Item<Machine>>,
    /// Motors.
    pub motors: Vec<Item<Motor>>,
    /// Cylinders.
    pub cylinders: Vec<Item<Cylinder>>,
    /// Cords.
    pub cords: Vec<Item<Cord>>,
    /// Branch circuits by their conductors.
    pub wiring: Vec<Item<Branch>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Shelf file")]
struct RawShelf {
    schema: u32,
    #[serde(default)]
    parts: Vec<Item<Part>>,
    #[serde(default)]
    machines: Vec<Item<Machine>>,
    #[serde(default)]
    motors: Vec<Item<Motor>>,
    #[serde(default)]
    cylinders: Vec<Item<Cylinder>>,
    #[serde(default)]
    cords: Vec<Item<Cord>>,
    #[serde(default)]
    wiring: Vec<Item<Branch>>,
}

impl Shelf {
    /// What the program brings with it.
    ///
    /// # Errors
    /// None as shipped; a test holds it.
    pub fn built_in() -> Result<Self, PresetError> {
        let mut shelf = Self::default();
        for (file, text) in BUILT_IN {
            shelf.add_from(file, text, false)?;
        }
        Ok(shelf)
    }

    /// Adds the entries of one of a person's own files; none of them if one cannot be used.
    pub fn add(&mut self, file: &str, text: &str) -> Result<(), PresetError> {
        self.add_from(file, text, true)
    }

    fn add_from(&mut self, file: &str, text: &str, own: bool) -> Result<(), PresetError> {
        let raw: RawShelf = dialect().from_str(text).map_err(PresetError::unreadable_in(file))?;
        if raw.schema != SCHEMA {
            return Err(PresetError::Schema { file: file.to_owned(), found: raw.schema });
        }
        let mut taken: BTreeSet<String> = self.ids().map(str::to_owned).collect();
        let mut check = Checker { file, text, taken: &mut taken };
        check.all(&raw.parts)?;
        check.all(&raw.machines)?;
        check.all(&raw.motors)?;
        check.all(&raw.cylinders)?;
        check.all(&raw.cords)?;
        check.all(&raw.wiring)?;
        let file = own.then_some(file);
        extend(&mut self.parts, raw.parts, file);
        extend(&mut self.machines, raw.machines, file);
        extend(&mut self.motors, raw.motors, file);
        extend(&mut self.cylinders, raw.cylinders, file);
        extend(&mut self.cords, raw.cords, file);
        extend(&mut self.wiring, raw.wiring, file);
        Ok(())
    }

    /// The ids of all entries.
    pub fn ids(&self) -> impl Iterator<Item = &str> {
        let parts = self.parts.iter().map(|item| item.id.as_str());
        let machines = self.machines.iter().map(|item| item.id.as_str());
        let motors = self.motors.iter().map(|item| item.id.as_str());
        let cylinders = self.cylinders.iter().map(|item| item.id.as_str());
        let cords = self.cords.iter().map(|item| item.id.as_str());
        let wiring = self.wiring.iter().map(|item| item.id.as_str());
        parts.chain(machines).chain(motors).chain(cylinders).chain(cords).chain(wiring)
    }

    /// The part of this id.
    pub fn part(&self, id: &str) -> Option<&Item<Part>> {
        self.parts.iter().find(|item| item.id == id)
    }
}

fn extend<T>(list: &mut Vec<Item<T>>, more: Vec<Item<T>>, file: Option<&str>) {
    list.extend(more.into_iter().map(|item| Item { file: file.map(str::to_owned), ..item }));
}

struct Checker<'a> {
    file: &'a str,
    text: &'a str,
    taken: &'a mut BTreeSet<String>,
}

impl Checker<'_> {
    fn all<T: Shelved>(&mut self, items: &[Item<T>]) -> Result<(), PresetError> {
        items.iter().try_for_each(|item| self.one(item))
    }

    fn one<T: Shelved>(&mut self, item: &Item<T>) -> Result<(), PresetError> {
        let id = item.id.clone();
        let file = match line_of(self.text, &id) {
            Some(line) => format!("{}, line {line}", self.file),
            None => self.file.to_owned(),
        };
        let is_word = |word: &str| {
            !word.is_empty() && word.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit())
        };
        if !id.split('-').all(is_word) {
            return Err(PresetError::MalformedId { file, id });
        }
        if let Some(fault) = item.item.faults().into_iter().next() {
            return Err(PresetError::Faulty { file, id, fault });
        }
        if !self.taken.insert(id.clone()) {
            return Err(PresetError::TakenId { file, id });
        }
        Ok(())
    }
}
