//! Parts as symbols and short words.

use narrows::scenario::Document;

pub use narrows::report::drawing::symbol_of as symbol;
pub use narrows::report::{part_detail as detail, part_name as name};

/// The path of a part of a kit's second port.
pub fn second_part_path(document: &Document, kit: usize, at: usize) -> String {
    let name = document.kits.get(kit).map_or("", |k| k.name.as_str());
    format!("kits.{name}.second_port.parts.{at}")
}

/// The path of a part of a kit, for edits and faults.
pub fn kit_part_path(document: &Document, kit: usize, at: usize) -> String {
    let name = document.kits.get(kit).map_or("", |k| k.name.as_str());
    format!("kits.{name}.parts.{at}")
}
