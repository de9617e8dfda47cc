//! Changes one field of a document by its path, from text.
//!
//! `machine.displacement`, `kits.A.parts.0.bore`: fields by name, list entries by their name or
//! place, kinds of part passed through. It works on the tree that serialization gives, so every
//! field of the document can be reached and none has to be listed twice. A document that cannot
//! be changed as asked stays as it is.

use super::document::Document;
use super::set_error::{Asked, SetError, is_none};
use super::tree_text::tree_of_text;
use super::tree_walk::{entries_known, entry_index, kind_of, slot, steps, through_kind};
use crate::kit::PartKind;
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::Value;

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

fn tree_of<T: Serialize>(thing: &T, asked: &Asked<'_>) -> Result<Value, SetError> {
    serde_json::to_value(thing).map_err(|error| asked.refused(&error.to_string()))
}

fn from_tree<T: DeserializeOwned>(tree: Value) -> Result<T, String> {
    serde_json::from_value(tree).map_err(|error| error.to_string())
}

fn is_wrong_kind(error: &str) -> bool {
    error.starts_with("invalid type")
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
    let index = entry_index(entries, last)
        .ok_or_else(|| asked.unknown_entry(entries_known(entries), parents, last))?;
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
