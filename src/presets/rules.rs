//! The built-in filling rules and evacuation levels, and files of one's own of the same form.

use crate::kit::{Fault, OwnRules, Rules, dialect};
use serde::Deserialize;

use super::PresetError;

/// The version of rule files.
const SCHEMA: u32 = 1;

const FILLING: (&str, &str) = ("us-filling.ron", include_str!("../../presets/rules/us-filling.ron"));
const LEVELS: (&str, &str) = ("us-levels.ron", include_str!("../../presets/rules/us-levels.ron"));

#[derive(Deserialize)]
#[serde(rename = "Rule file")]
struct Header {
    schema: u32,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Rule file")]
struct RawRules {
    #[serde(rename = "schema")]
    _schema: u32,
    #[serde(default)]
    filling: Option<crate::kit::FillingRules>,
    #[serde(default)]
    levels: Option<crate::kit::LevelRules>,
}

/// What the program brings with it.
///
/// # Errors
/// None as shipped; a test holds it.
pub fn built_in_rules() -> Result<Rules, PresetError> {
    let missing = |file: &str, field: &str| PresetError::Faulty {
        file: file.to_owned(),
        id: field.to_owned(),
        fault: Fault { path: field.to_owned(), message: "is missing".to_owned() },
    };
    let filling = read_rules(FILLING.0, FILLING.1)?.filling.ok_or_else(|| missing(FILLING.0, "filling"))?;
    let levels = read_rules(LEVELS.0, LEVELS.1)?.levels.ok_or_else(|| missing(LEVELS.0, "levels"))?;
    Ok(Rules { filling, levels })
}

/// Reads a rule file of one's own, to be carried by a document.
///
/// # Errors
/// It does not read, is of another version, or a value is out of range.
pub fn read_rules(file: &str, text: &str) -> Result<OwnRules, PresetError> {
    let unreadable = PresetError::unreadable_in(file);
    let header: Header = dialect().from_str(text).map_err(&unreadable)?;
    if header.schema != SCHEMA {
        return Err(PresetError::Schema { file: file.to_owned(), found: header.schema });
    }
    let raw: RawRules = dialect().from_str(text).map_err(&unreadable)?;
    let rules = OwnRules { filling: raw.filling, levels: raw.levels };
    match rules.faults().into_iter().next() {
        Some(fault) => Err(PresetError::Faulty { file: file.to_owned(), id: "rules".to_owned(), fault }),
        None => Ok(rules),
    }
}
