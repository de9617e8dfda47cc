//! Why a field could not be set, in sentences that name the path, the value and what is expected.

use super::suggest::{nearest, sentence_list};

/// Why a field could not be set. Each sentence names the path, the value and what is expected.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum SetError {
    /// Nothing between two dots, no path, or one deeper than any field.
    #[error("{path:?} is no path to a field; expected one as kits.A.parts.0.bore")]
    Path {
        /// As given.
        path: String,
    },
    /// No such field.
    #[error("{path} = {value}: there is no field {field:?}{suggestion}; expected {known}")]
    UnknownField {
        /// As given.
        path: String,
        /// As given.
        value: String,
        /// The part of the path that is not known.
        field: String,
        /// `, did you mean "bore"?`, or nothing.
        suggestion: String,
        /// The fields that are there.
        known: String,
    },
    /// No such entry in a list.
    #[error("{path} = {value}: {list} has no entry {entry:?}; expected {known}")]
    UnknownEntry {
        /// As given.
        path: String,
        /// As given.
        value: String,
        /// The list.
        list: String,
        /// What was asked for.
        entry: String,
        /// Names or places that are there.
        known: String,
    },
    /// A path that goes on beneath a plain value.
    #[error("{path} = {value}: {at} is {holds} and has no fields")]
    NoFields {
        /// As given.
        path: String,
        /// As given.
        value: String,
        /// How far the path was followed.
        at: String,
        /// What stands there.
        holds: String,
    },
    /// A field beneath something that is not there and needs another field first.
    #[error("{path} = {value}: {missing:?} is missing there; set it first")]
    Missing {
        /// As given.
        path: String,
        /// As given.
        value: String,
        /// The field that is needed.
        missing: String,
    },
    /// `none` for a field that must be there.
    #[error("{path} cannot be none; expected {expected}")]
    Required {
        /// As given.
        path: String,
        /// What stands there now.
        expected: String,
    },
    /// A value that cannot stand there.
    #[error("{path} = {value}: {expected}")]
    Value {
        /// As given.
        path: String,
        /// As given.
        value: String,
        /// What is expected.
        expected: String,
    },
}

/// What was asked, for sentences.
pub(super) struct Asked<'a> {
    pub path: &'a str,
    pub text: &'a str,
}

impl Asked<'_> {
    /// `known`: what is there.
    pub fn unknown_entry(&self, known: String, list: &[String], entry: &str) -> SetError {
        SetError::UnknownEntry {
            path: self.path.to_owned(),
            value: self.text.to_owned(),
            list: list.join("."),
            entry: entry.to_owned(),
            known,
        }
    }

    /// Turns the deserializer's sentence into ours.
    pub fn refused(&self, error: &str) -> SetError {
        let (path, value) = (self.path.to_owned(), self.text.to_owned());
        let quoted: Vec<&str> = error.split('`').skip(1).step_by(2).collect();
        match quoted.split_first() {
            Some((field, known)) if error.starts_with("unknown field") => SetError::UnknownField {
                path,
                value,
                field: (*field).to_owned(),
                suggestion: nearest(field, known.iter().copied())
                    .map(|near| format!(", did you mean {near:?}?"))
                    .unwrap_or_default(),
                known: sentence_list(known),
            },
            Some((found, known)) if error.starts_with("unknown variant") => SetError::Value {
                path,
                value,
                expected: format!("{found:?} is not known here; expected {}", sentence_list(known)),
            },
            Some((missing, _)) if error.starts_with("missing field") => {
                SetError::Missing { path, value, missing: (*missing).to_owned() }
            }
            _ if is_none(self.text) => {
                let expected = error.split_once("expected ").map_or("a value", |(_, expected)| expected);
                SetError::Required { path, expected: expected.to_owned() }
            }
            _ => SetError::Value { path, value, expected: error.to_owned() },
        }
    }
}

/// Whether the text empties a field.
pub(super) fn is_none(text: &str) -> bool {
    text.eq_ignore_ascii_case("none")
}
