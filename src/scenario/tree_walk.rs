//! Follows a path through the tree of a document: fields by name, list entries by their name or
//! place, kinds of part passed through.

use super::set_error::{Asked, SetError};
use super::suggest::sentence_list;
use serde_json::{Map, Value};

/// No field lies deeper; a tree that grew with a longer path could not be taken down again.
const DEEPEST: usize = 32;

/// The steps of a path: fields by name, entries by name or place, `parts.0` as `parts[0]`.
pub(super) fn steps(path: &str) -> Result<Vec<String>, SetError> {
    let dotted = path.trim().replace('[', ".").replace(']', "");
    let steps: Vec<String> = dotted.split('.').map(|step| step.trim().to_owned()).collect();
    if steps.len() > DEEPEST || steps.iter().any(String::is_empty) {
        return Err(SetError::Path { path: path.to_owned() });
    }
    Ok(steps)
}

/// The place in the tree where the path leads; with `grow`, made if it is not there yet.
pub(super) fn slot<'t>(
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
                    .ok_or_else(|| asked.unknown_entry(entries_known(entries), behind, step))?;
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
pub(super) fn through_kind<'t>(node: &'t mut Value, step: &str) -> &'t mut Value {
    match kind_of(node).filter(|kind| *kind != step).map(str::to_owned) {
        Some(kind) => &mut node[kind],
        None => node,
    }
}

/// The kind of a part, if the node is one.
pub(super) fn kind_of(node: &Value) -> Option<&str> {
    let fields = node.as_object().filter(|fields| fields.len() == 1)?;
    let (key, _) = fields.iter().next()?;
    key.starts_with(|c: char| c.is_ascii_uppercase()).then_some(key)
}

/// By name, else by place.
pub(super) fn entry_index(entries: &[Value], step: &str) -> Option<usize> {
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

/// What a list holds, for sentences.
pub(super) fn entries_known(entries: &[Value]) -> String {
    let names: Vec<&str> = entries.iter().filter_map(entry_name).collect();
    if !names.is_empty() {
        sentence_list(&names)
    } else if entries.is_empty() {
        "nothing, for it is empty".to_owned()
    } else {
        format!("0 to {}", entries.len() - 1)
    }
}
