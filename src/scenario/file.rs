//! The document's file: RON, versioned, strict.
//!
//! A field that is not known is refused, with its place and the nearest one that is; so is a file
//! of another version. What is written here reads back the same, texts as typed.

use super::document::{Document, VERSION};
use super::suggest::{nearest, sentence_list};
use crate::kit::dialect;
use ron::error::{Error as RonError, SpannedError};
use ron::ser::PrettyConfig;
use serde::Deserialize;

/// Why a text is no document.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ReadError {
    /// Nothing in it.
    #[error("the file is empty; expected a Narrows document, which starts with (narrows: {VERSION}, …")]
    Empty,
    /// It stops in the middle.
    #[error(
        "the file ends too early: at line {line}, column {column} something that was opened is not closed"
    )]
    Truncated {
        /// Counted from 1.
        line: usize,
        /// Counted from 1.
        column: usize,
    },
    /// It is something else, or misspelled.
    #[error("line {line}, column {column}: not a Narrows document here ({detail})")]
    Syntax {
        /// Counted from 1.
        line: usize,
        /// Counted from 1.
        column: usize,
        /// What the parser says.
        detail: String,
    },
    /// Nothing says which version it is.
    #[error("the file does not say its version; a Narrows document starts with (narrows: {VERSION}, …")]
    NoVersion,
    /// Newer than this program.
    #[error("written by a newer version of Narrows (file version {found}); this one reads {VERSION}")]
    Newer {
        /// The file's version.
        found: u64,
    },
    /// No version there ever was.
    #[error("file version {found} does not exist; this one reads {VERSION}")]
    NoSuchVersion {
        /// The file's version.
        found: u64,
    },
    /// A field or a kind of part that is not known.
    #[error("line {line}, column {column}: {found:?} is not known here{suggestion}; expected {expected}")]
    Unknown {
        /// Counted from 1.
        line: usize,
        /// Counted from 1.
        column: usize,
        /// What stands there.
        found: String,
        /// `, did you mean "bore"?`, or nothing.
        suggestion: String,
        /// What could stand there.
        expected: String,
    },
    /// A field that must be there is not.
    #[error("line {line}, column {column}: the field {field:?} is missing{within}")]
    Missing {
        /// Counted from 1.
        line: usize,
        /// Counted from 1.
        column: usize,
        /// The field.
        field: String,
        /// ` in Hose`, or nothing.
        within: String,
    },
    /// A value that cannot stand there.
    #[error("line {line}, column {column}: {detail}")]
    Value {
        /// Counted from 1.
        line: usize,
        /// Counted from 1.
        column: usize,
        /// The value and what is expected.
        detail: String,
    },
}

/// Why a document cannot be written. No document that was read is refused.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("the document cannot be written: {detail}")]
pub struct WriteError {
    /// What the writer says.
    pub detail: String,
}

/// What every version of the file has in common. Named for the sentences that the parser makes.
#[derive(Deserialize)]
#[serde(rename = "Document")]
struct Header {
    #[serde(default)]
    narrows: Option<u64>,
}

/// Reads a document. It is well formed, but its values are not yet checked: see
/// [`check`](super::check).
pub fn read(text: &str) -> Result<Document, ReadError> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.trim().is_empty() {
        return Err(ReadError::Empty);
    }
    let header: Header = dialect().from_str(text).map_err(|error| in_words(text, error))?;
    match header.narrows {
        None => Err(ReadError::NoVersion),
        Some(found) if found > u64::from(VERSION) => Err(ReadError::Newer { found }),
        Some(found) if found < u64::from(VERSION) => Err(ReadError::NoSuchVersion { found }),
        Some(_) => dialect().from_str(text).map_err(|error| in_words(text, error)),
    }
}

/// Writes a document, one part a line.
pub fn write(document: &Document) -> Result<String, WriteError> {
    let pretty = PrettyConfig::new().new_line("\n").depth_limit(4);
    dialect()
        .to_string_pretty(document, pretty)
        .map(|text| text + "\n")
        .map_err(|error| WriteError { detail: error.to_string() })
}

fn in_words(text: &str, error: SpannedError) -> ReadError {
    let (line, column) = (error.span.start.line, error.span.start.col);
    let end = &error.span.end;
    if is_unclosed(text) && (is_syntax(&error.code) || stops_at_end(text, end.line, end.col)) {
        return ReadError::Truncated { line: end.line, column: end.col };
    }
    match error.code {
        RonError::NoSuchStructField { expected, found, .. }
        | RonError::NoSuchEnumVariant { expected, found, .. } => ReadError::Unknown {
            line,
            column,
            suggestion: suggestion(&found, expected),
            expected: sentence_list(expected),
            found,
        },
        RonError::MissingStructField { field, outer } => ReadError::Missing {
            line,
            column,
            field: field.to_owned(),
            within: outer.map(|outer| format!(" in {outer}")).unwrap_or_default(),
        },
        RonError::Message(detail) => ReadError::Value { line, column, detail },
        RonError::InvalidValueForType { expected, found } => {
            ReadError::Value { line, column, detail: format!("expected {expected}, found {found}") }
        }
        RonError::DuplicateStructField { field, .. } => {
            ReadError::Value { line, column, detail: format!("the field {field:?} is given twice") }
        }
        _ if (line, column) == (1, 1) => {
            let detail = "expected one that starts with (narrows: 1, …".to_owned();
            ReadError::Syntax { line, column, detail }
        }
        other => ReadError::Syntax { line, column, detail: other.to_string() },
    }
}

/// Whether the text is misspelled, rather than its content wrong.
fn is_syntax(error: &RonError) -> bool {
    !matches!(
        error,
        RonError::NoSuchStructField { .. }
            | RonError::NoSuchEnumVariant { .. }
            | RonError::MissingStructField { .. }
            | RonError::DuplicateStructField { .. }
            | RonError::InvalidValueForType { .. }
            | RonError::Message(_)
    )
}

fn suggestion(found: &str, expected: &[&str]) -> String {
    nearest(found, expected.iter().copied())
        .map(|near| format!(", did you mean {near:?}?"))
        .unwrap_or_default()
}

/// Whether a bracket, a text or a comment is still open at the end.
fn is_unclosed(text: &str) -> bool {
    let mut open = 0_i64;
    let mut signs = text.chars().peekable();
    while let Some(sign) = signs.next() {
        match sign {
            '(' | '[' | '{' => open += 1,
            ')' | ']' | '}' => open -= 1,
            '"' => loop {
                match signs.next() {
                    Some('\\') => drop(signs.next()),
                    Some('"') => break,
                    Some(_) => {}
                    None => return true,
                }
            },
            '/' if signs.peek() == Some(&'/') => drop(signs.find(|sign| *sign == '\n')),
            _ => {}
        }
    }
    open > 0
}

/// Whether nothing but blanks follows the place where the parser stopped.
fn stops_at_end(text: &str, line: usize, column: usize) -> bool {
    let mut lines = text.lines().skip(line.saturating_sub(1));
    let is_blank = |rest: &str| rest.trim().is_empty();
    let rest: String = lines.next().unwrap_or_default().chars().skip(column.saturating_sub(1)).collect();
    is_blank(&rest) && lines.all(is_blank)
}
