//! Parts as symbols and short words.

use narrows::kit::{Content, Part};
use narrows::scenario::Document;

use super::scale::pretty;

pub use narrows::report::drawing::symbol_of as symbol;
pub use narrows::report::{part_detail as detail, part_name as name};

/// The size of a part that has a shorter one for a column: of a gauge set with two seats "2 × 3.6 mm".
pub fn short_detail(part: &Part) -> Option<String> {
    match part.content() {
        Content::GaugeSet(set) if set.seats > 1 => {
            Some(format!("{} × {}", set.seats, pretty(part.bore()?.as_typed())))
        }
        _ => None,
    }
}

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
