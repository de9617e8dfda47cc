//! Changes one field of a document by its path, from text.
//!
//! `machine.displacement`, `kits.A.parts.0.bore`: fields by name, list entries by their name or
//! place, kinds of part passed through. It works on the tree that serialization gives, so every
//! field of the document can be reached and none has to be listed twice. A document that cannot
//! be changed as asked stays as it is.

use super::document::Document;
use super::suggest::{nearest, sentence_list};
use super::tree_text::tree_of_text;
use crate::kit::PartKind;
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::{Map, Value};

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

/// Sets the field at `path` to what `text` says; `none` empties an optional field and takes an
/// entry out of a list.
pub fn set(document: &mut Document, path: &str, text: &str) -> Result<(), SetError> {
    set_in(document, path, text)
}

/// The same in anything that files hold: a part alone, a machine.
pub fn set_in<T: Serialize + DeserializeOwned>(
    thing: &mut T,
    path: &str,
    text: &str,
) -> Result<(), SetError> {
    let text = text.trim();
    let asked = Asked { path, text };
    let steps = steps(path)?;
    let mut tree = tree_of(thing, &asked)?;
    if is_none(text) && remove_entry(&mut tree, &steps, &asked)? {
        *thing = from_tree(tree).map_err(|error| asked.refused(&error))?;
        return Ok(());
    }
    begin_band(&mut tree, &steps, &asked)?;
    let mut first_refusal: Option<String> = None;
    let meant = if is_whole_thing(text) {
        let refused = |expected| SetError::Value { path: path.into(), value: text.into(), expected };
        vec![tree_of_text(text).map_err(refused)?]
    } else {
        candidates(text)
    };
    for candidate in meant {
        let mut tree = tree.clone();
        let slot = slot(&mut tree, &steps, &asked, true)?;
        *slot = in_place_of(slot, candidate);
        match from_tree(tree) {
            Ok(changed) => {
                *thing = changed;
                return Ok(());
            }
            // A wrong kind of value says less than a value that is wrong.
            Err(error) => match &first_refusal {
                Some(first) if !is_wrong_kind(first) || is_wrong_kind(&error) => {}
                _ => first_refusal = Some(error),
            },
        }
    }
    Err(asked.refused(&first_refusal.unwrap_or_default()))
}

/// What stands at `path`, as typed; `none` for an optional field left out.
pub fn get(document: &Document, path: &str) -> Result<String, SetError> {
    let asked = Asked { path, text: "?" };
    let mut tree = tree_of(document, &asked)?;
    let slot = slot(&mut tree, &steps(path)?, &asked, false)?;
    let text = match slot {
        Value::String(text) => text.clone(),
        Value::Null => "none".to_owned(),
        other => other.to_string(),
    };
    // Nothing there: a field left out, or one that does not exist.
    match from_tree::<Document>(tree) {
        Err(error) if text == "none" => Err(asked.refused(&error)),
        _ => Ok(text),
    }
}

/// What was asked, for sentences.
struct Asked<'a> {
    path: &'a str,
    text: &'a str,
}

/// No field lies deeper; a tree that grew with a longer path could not be taken down again.
const DEEPEST: usize = 32;

fn steps(path: &str) -> Result<Vec<String>, SetError> {
    let dotted = path.trim().replace('[', ".").replace(']', "");
    let steps: Vec<String> = dotted.split('.').map(|step| step.trim().to_owned()).collect();
    if steps.len() > DEEPEST || steps.iter().any(String::is_empty) {
        return Err(SetError::Path { path: path.to_owned() });
    }
    Ok(steps)
}

fn tree_of<T: Serialize>(thing: &T, asked: &Asked<'_>) -> Result<Value, SetError> {
    serde_json::to_value(thing).map_err(|error| asked.refused(&error.to_string()))
}

fn from_tree<T: DeserializeOwned>(tree: Value) -> Result<T, String> {
    serde_json::from_value(tree).map_err(|error| error.to_string())
}

fn is_wrong_kind(error: &str) -> bool {
    error.starts_with("invalid type")
}

fn is_none(text: &str) -> bool {
    text.eq_ignore_ascii_case("none")
}

/// What a text may mean, the likeliest first.
fn candidates(text: &str) -> Vec<Value> {
    let mut all = Vec::new();
    if is_none(text) {
        all.push(Value::Null);
    }
    all.push(Value::from(text));
    if let Ok(whole) = text.parse::<u64>() {
        all.push(Value::from(whole));
    }
    match text.to_ascii_lowercase().as_str() {
        "true" | "yes" => all.push(Value::from(true)),
        "false" | "no" => all.push(Value::from(false)),
        _ => {}
    }
    all.push(Value::from(text.to_lowercase().replace([' ', '-'], "_")));
    all
}

/// Whether the text writes a whole thing as in a file: a part, or fields in parentheses, or a list of
/// either.
fn is_whole_thing(text: &str) -> bool {
    let first = unbracketed(text).trim_start();
    let names_part = |kind: &PartKind| {
        first.strip_prefix(kind.tag()).is_some_and(|rest| rest.trim_start().starts_with('('))
    };
    first.starts_with('(') || PartKind::ALL.iter().any(names_part)
}

/// A list of words takes several at once, `A1, A2L`; `none` empties any list.
fn in_place_of(old: &Value, new: Value) -> Value {
    match (old, &new) {
        (Value::Array(_), Value::Null) => Value::Array(Vec::new()),
        (Value::Array(entries), Value::String(text)) if entries.iter().all(Value::is_string) => {
            unbracketed(text)
                .split(',')
                .map(str::trim)
                .filter(|word| !word.is_empty())
                .map(Value::from)
                .collect()
        }
        _ => new,
    }
}

/// A list may be written as in a file, `[A1, A2L]`.
fn unbracketed(text: &str) -> &str {
    text.strip_prefix('[').and_then(|rest| rest.strip_suffix(']')).unwrap_or(text)
}

/// Takes the entry at the end of the path out of its list, if that is what the path names.
fn remove_entry(tree: &mut Value, steps: &[String], asked: &Asked<'_>) -> Result<bool, SetError> {
    let Some((last, parents)) = steps.split_last() else { return Ok(false) };
    let parent = slot(tree, parents, asked, true)?;
    let Value::Array(entries) = parent else { return Ok(false) };
    let index = entry_index(entries, last).ok_or_else(|| asked.unknown_entry(entries, parents, last))?;
    entries.remove(index);
    Ok(true)
}

/// One end of a band that is not there yet, `bore_band.low`: the other end begins at the likely
/// value.
fn begin_band(tree: &mut Value, steps: &[String], asked: &Asked<'_>) -> Result<(), SetError> {
    let [parents @ .., band, end] = steps else { return Ok(()) };
    let Some(likely) = band.strip_suffix("_band").filter(|_| end == "low" || end == "high") else {
        return Ok(());
    };
    let content = match slot(tree, parents, asked, false)? {
        node if kind_of(node).is_some() => through_kind(node, band),
        node => node,
    };
    if let Value::Object(fields) = content
        && fields.get(band).is_none_or(Value::is_null)
        && let Some(likely) = fields.get(likely).filter(|likely| !likely.is_null()).cloned()
    {
        let both = [("low", likely.clone()), ("high", likely)];
        fields.insert(
            band.clone(),
            Value::Object(both.map(|(end, v)| (end.to_owned(), v)).into_iter().collect()),
        );
    }
    Ok(())
}

/// The place in the tree where the path leads; with `grow`, made if it is not there yet.
fn slot<'t>(
    tree: &'t mut Value,
    steps: &[String],
    asked: &Asked<'_>,
    grow: bool,
) -> Result<&'t mut Value, SetError> {
    let mut node = tree;
    for (depth, step) in steps.iter().enumerate() {
        let behind = steps.get(..depth).unwrap_or_default();
        node = through_kind(node, step);
        if node.is_null() && grow {
            // A place is only ever asked of a list.
            *node = if step == "0" { Value::Array(Vec::new()) } else { Value::Object(Map::new()) };
        }
        node = match node {
            Value::Object(fields) => fields.entry(step.as_str()).or_insert(Value::Null),
            Value::Array(entries) => {
                let index = entry_index(entries, step)
                    .or_else(|| (grow && step.parse() == Ok(entries.len())).then_some(entries.len()))
                    .ok_or_else(|| asked.unknown_entry(entries, behind, step))?;
                if index == entries.len() {
                    entries.push(Value::Null);
                }
                // In range by what stands above.
                entries.get_mut(index).ok_or_else(|| SetError::Path { path: asked.path.to_owned() })?
            }
            plain => {
                return Err(SetError::NoFields {
                    path: asked.path.to_owned(),
                    value: asked.text.to_owned(),
                    at: behind.join("."),
                    holds: if plain.is_null() { "none".to_owned() } else { plain.to_string() },
                });
            }
        };
    }
    Ok(node)
}

/// Steps into the content of a part: its kind need not be named in a path.
fn through_kind<'t>(node: &'t mut Value, step: &str) -> &'t mut Value {
    match kind_of(node).filter(|kind| *kind != step).map(str::to_owned) {
        Some(kind) => &mut node[kind],
        None => node,
    }
}

fn kind_of(node: &Value) -> Option<&str> {
    let fields = node.as_object().filter(|fields| fields.len() == 1)?;
    let (key, _) = fields.iter().next()?;
    key.starts_with(|c: char| c.is_ascii_uppercase()).then_some(key)
}

/// By name, else by place.
fn entry_index(entries: &[Value], step: &str) -> Option<usize> {
    let exact = entries.iter().position(|entry| entry_name(entry) == Some(step));
    let loose = || {
        entries.iter().position(|entry| entry_name(entry).is_some_and(|name| name.eq_ignore_ascii_case(step)))
    };
    let place = || step.parse().ok().filter(|place| *place < entries.len());
    exact.or_else(loose).or_else(place)
}

fn entry_name(entry: &Value) -> Option<&str> {
    let content = match kind_of(entry) {
        Some(kind) => entry.get(kind)?,
        None => entry,
    };
    content.get("name")?.as_str()
}

impl Asked<'_> {
    fn unknown_entry(&self, entries: &[Value], list: &[String], entry: &str) -> SetError {
        let names: Vec<&str> = entries.iter().filter_map(entry_name).collect();
        let known = if !names.is_empty() {
            sentence_list(&names)
        } else if entries.is_empty() {
            "nothing, for it is empty".to_owned()
        } else {
            format!("0 to {}", entries.len() - 1)
        };
        SetError::UnknownEntry {
            path: self.path.to_owned(),
            value: self.text.to_owned(),
            list: list.join("."),
            entry: entry.to_owned(),
            known,
        }
    }

    /// Turns the deserializer's sentence into ours.
    fn refused(&self, error: &str) -> SetError {
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
