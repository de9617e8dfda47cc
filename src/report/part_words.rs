//! Parts in words: their name, and their size as typed.

use crate::kit::{Content, DrierState, Part};

/// Typed text as it is shown: degrees with their sign, squares and cubes as such.
pub fn typed_text(text: &str) -> String {
    let signs = [("degF", "°F"), ("degC", "°C"), ("mm2", "mm²"), ("ft3", "ft³"), ("m3", "m³")];
    signs.into_iter().fold(text.to_owned(), |text, (typed, shown)| text.replace(typed, shown))
}

/// What a part is called.
pub fn part_name(part: &Part) -> String {
    part.label().to_owned()
}

/// Its size as typed.
pub fn part_detail(part: &Part) -> String {
    let bore = part.bore().map(|b| typed_text(b.as_typed())).unwrap_or_default();
    match part.content() {
        Content::Tube(tube) => format!("{bore}, {}", typed_text(tube.length.as_typed())),
        Content::GaugeSet(set) => match set.seats {
            1 => format!("one seat {bore}"),
            2 => format!("two seats {bore}"),
            n => format!("{n} seats {bore}"),
        },
        Content::FilterDrier(drier) => match drier.state {
            DrierState::Clean => "clean".to_owned(),
            DrierState::Used => "used".to_owned(),
            DrierState::Loaded => "loaded".to_owned(),
        },
        Content::Valve(valve) => valve.flow_coefficient.as_typed().to_owned(),
        Content::Hole(_) => bore,
    }
}
