//! In what two kits of one document differ: parts one by one, then what else a kit overrides.
//!
//! Compared is what is written, field by field. Where a thing was copied from and how well it is
//! known are no differences between kits.

use super::align::align;
use crate::kit::{Cord, Kit, Machine, MachinePorts, Method, Part, Port};
use crate::scenario::Document;
use serde_json::Value;

/// One field that is not the same.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FieldDifference {
    /// The field, as `bore`.
    pub field: String,
    /// As written in the first kit; none if it is not there.
    pub first: Option<String>,
    /// As written in the second kit; none if it is not there.
    pub second: Option<String>,
}

/// One part that is not the same.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PartDifference {
    /// Both kits have it, in another size.
    Changed {
        /// Where it stands in the first kit.
        first_path: String,
        /// Where it stands in the second kit.
        second_path: String,
        /// What it is called.
        name: String,
        /// What is not the same.
        fields: Vec<FieldDifference>,
    },
    /// Another kind of part stands in its place.
    Replaced {
        /// Where it stands in the first kit.
        first_path: String,
        /// Where it stands in the second kit.
        second_path: String,
        /// What stands in the first kit.
        first: String,
        /// What stands in the second kit.
        second: String,
    },
    /// Only the first kit has it.
    Removed {
        /// Where it stands in the first kit.
        first_path: String,
        /// What it is.
        name: String,
    },
    /// Only the second kit has it.
    Added {
        /// Where it stands in the second kit.
        second_path: String,
        /// What it is.
        name: String,
    },
}

/// All differences of two kits; empty if they are the same.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Differing {
    /// Parts, from the system on, the second port's behind the first's.
    pub parts: Vec<PartDifference>,
    /// Everything else a kit can have of its own: machine, cords, method, port.
    pub fields: Vec<FieldDifference>,
}

impl Differing {
    /// Nothing differs.
    pub fn is_empty(&self) -> bool {
        self.parts.is_empty() && self.fields.is_empty()
    }
}

/// In what `second` differs from `first`.
pub fn differing(document: &Document, first: &Kit, second: &Kit) -> Differing {
    let mut found = Differing::default();
    let at = |kit: &Kit, field: &str| format!("kits.{}.{field}", kit.name);
    compare_parts(
        (&first.parts, &at(first, "parts")),
        (&second.parts, &at(second, "parts")),
        &mut found.parts,
    );
    let ports = (first.second_port.as_ref(), second.second_port.as_ref());
    compare_parts(
        (ports.0.map_or(&[], |port| &port.parts), &at(first, "second_port.parts")),
        (ports.1.map_or(&[], |port| &port.parts), &at(second, "second_port.parts")),
        &mut found.parts,
    );
    let own = (Own::of(document, first), Own::of(document, second));
    compare_values("machine", &tree(own.0.machine), &tree(own.1.machine), &mut found.fields);
    compare_values("cords", &tree(own.0.cords), &tree(own.1.cords), &mut found.fields);
    compare_values("method", &tree(&own.0.method), &tree(&own.1.method), &mut found.fields);
    compare_values("port", &tree(&own.0.port), &tree(&own.1.port), &mut found.fields);
    compare_values("machines", &tree(&own.0.machines), &tree(&own.1.machines), &mut found.fields);
    compare_values(
        "machine_ports",
        &tree(&own.0.machine_ports),
        &tree(&own.1.machine_ports),
        &mut found.fields,
    );
    compare_values("price", &tree(&first.price), &tree(&second.price), &mut found.fields);
    let second_port = |kit| tree(&second_port_words(kit, document.source.port));
    compare_values("second_port", &second_port(first), &second_port(second), &mut found.fields);
    found
}

/// What a second port draws and where it meets the first: "vapour, joins before part 3 (Tee)".
fn second_port_words(kit: &Kit, source: Port) -> Option<String> {
    let second = kit.second_port.as_ref()?;
    let draws = match kit.ports(source).1 {
        Port::Liquid => "liquid",
        Port::Vapour => "vapour",
        Port::Both => "liquid and vapour",
    };
    Some(match kit.parts.get(second.joins_before) {
        Some(part) => format!("{draws}, joins before part {} ({})", second.joins_before + 1, part.label()),
        None => format!("{draws}, joins at the machine"),
    })
}

/// What a kit has of its own, or else from the document.
struct Own<'d> {
    machine: &'d Machine,
    cords: &'d [Cord],
    method: Method,
    port: Port,
    machines: u32,
    machine_ports: MachinePorts,
}

impl<'d> Own<'d> {
    fn of(document: &'d Document, kit: &'d Kit) -> Self {
        let plan = document.job.as_ref();
        Self {
            machine: kit.machine.as_ref().unwrap_or(&document.machine),
            cords: document.cords_of(kit),
            method: kit.method.unwrap_or(document.method),
            port: kit.port.unwrap_or(document.source.port),
            machines: kit.machine_count(plan),
            machine_ports: kit.machine_ports.or(plan.map(|plan| plan.machine_ports)).unwrap_or_default(),
        }
    }
}

fn compare_parts(first: (&[Part], &str), second: (&[Part], &str), found: &mut Vec<PartDifference>) {
    for pair in align(first.0, second.0) {
        let one = pair.first.and_then(|index| Some((first.0.get(index)?, format!("{}.{index}", first.1))));
        let other =
            pair.second.and_then(|index| Some((second.0.get(index)?, format!("{}.{index}", second.1))));
        found.extend(match (one, other) {
            (Some(one), Some(other)) => compare_pair(one, other),
            (Some((part, first_path)), None) => {
                Some(PartDifference::Removed { first_path, name: described(part) })
            }
            (None, Some((part, second_path))) => {
                Some(PartDifference::Added { second_path, name: described(part) })
            }
            (None, None) => None,
        });
    }
}

fn compare_pair(
    (one, first_path): (&Part, String),
    (other, second_path): (&Part, String),
) -> Option<PartDifference> {
    if one.kind() != other.kind() {
        let (first, second) = (described(one), described(other));
        return Some(PartDifference::Replaced { first_path, second_path, first, second });
    }
    let content = |part: &Part| tree(part).get(part.kind().tag()).cloned().unwrap_or(Value::Null);
    let mut fields = Vec::new();
    compare_values("", &content(one), &content(other), &mut fields);
    let name = one.label().to_owned();
    (!fields.is_empty()).then_some(PartDifference::Changed { first_path, second_path, name, fields })
}

/// A part by its name and size: "Hose, 4.8 mm, 5 ft".
pub(super) fn described(part: &Part) -> String {
    let mut words = vec![part.label().to_owned()];
    words.extend(part.bore().map(ToString::to_string));
    words.extend(part.length().map(ToString::to_string));
    words.join(", ")
}

/// What is written, as a tree; nothing if it cannot be written.
fn tree<T: serde::Serialize + ?Sized>(thing: &T) -> Value {
    serde_json::to_value(thing).unwrap_or(Value::Null)
}

/// Not about the thing itself: where it came from, how well it is known.
fn is_aside(field: &str) -> bool {
    field == "from" || field.ends_with("_band")
}

fn compare_values(path: &str, first: &Value, second: &Value, found: &mut Vec<FieldDifference>) {
    if first == second {
        return;
    }
    match (first, second) {
        (Value::Object(one), Value::Object(other)) => {
            let new = other.keys().filter(|key| !one.contains_key(*key));
            for key in one.keys().chain(new).filter(|key| !is_aside(key)) {
                let get =
                    |fields: &serde_json::Map<String, Value>| fields.get(key).cloned().unwrap_or(Value::Null);
                compare_values(&joined(path, key), &get(one), &get(other), found);
            }
        }
        (Value::Array(one), Value::Array(other)) => {
            for index in 0..one.len().max(other.len()) {
                let get = |list: &[Value]| list.get(index).cloned().unwrap_or(Value::Null);
                compare_values(&joined(path, &index.to_string()), &get(one), &get(other), found);
            }
        }
        _ => {
            found.push(FieldDifference { field: path.to_owned(), first: words(first), second: words(second) })
        }
    }
}

fn joined(path: &str, step: &str) -> String {
    if path.is_empty() { step.to_owned() } else { format!("{path}.{step}") }
}

/// A value as a person reads it; a whole thing by its sizes.
fn words(value: &Value) -> Option<String> {
    match value {
        Value::Null => None,
        Value::String(text) => Some(text.clone()),
        Value::Object(fields) => {
            let own = fields.iter().filter(|(key, _)| !is_aside(key));
            Some(own.filter_map(|(_, value)| words(value)).collect::<Vec<_>>().join(", "))
        }
        other => Some(other.to_string()),
    }
}
