//! Parts as symbols and short words.

use narrows::kit::{DrierState, Part};
use narrows::scenario::Document;

use super::scale::pretty;
use crate::ui::symbols::Symbol;

/// First label line.
pub fn name(part: &Part) -> String {
    match part {
        Part::Stem(_) if part.name().is_none() => "Core out".to_owned(),
        _ => part.label().to_owned(),
    }
}

/// Second label line: its size as typed.
pub fn detail(part: &Part) -> String {
    let bore = part.bore().map(|b| pretty(b.as_typed())).unwrap_or_default();
    match part {
        Part::Hose(tube) | Part::DipTube(tube) => format!("{bore}, {}", pretty(tube.length.as_typed())),
        Part::GaugeSet(set) => match set.seats {
            1 => format!("one seat {bore}"),
            2 => format!("two seats {bore}"),
            n => format!("{n} seats {bore}"),
        },
        Part::FilterDrier(drier) => match drier.state {
            DrierState::Clean => "clean".to_owned(),
            DrierState::Used => "used".to_owned(),
            DrierState::Loaded => "loaded".to_owned(),
        },
        Part::Valve(valve) => valve.flow_coefficient.as_typed().to_owned(),
        _ => bore,
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
