//! Stepping the number at the head of a text, by dragging on its label or by arrow keys.

use egui::{CursorIcon, Id, Key, Modifiers, Response, Ui};

/// Pixels of dragging on a label for one step.
pub const PX: f32 = 6.0;

/// Dragging sideways on the label steps the number; Shift makes steps of ten.
pub fn by_dragging(ui: &Ui, label: &Response, value: &str) -> Option<String> {
    stepped(value, 0)?;
    let label = label.clone().on_hover_cursor(CursorIcon::ResizeHorizontal);
    let id = label.id.with("dragged");
    if label.drag_started() {
        ui.data_mut(|d| d.insert_temp(id, 0.0f32));
    }
    if label.dragged() {
        let moved = ui.data(|d| d.get_temp::<f32>(id)).unwrap_or_default() + label.drag_delta().x;
        ui.data_mut(|d| d.insert_temp(id, moved));
        let factor = if ui.input(|i| i.modifiers.shift) { 10 } else { 1 };
        let steps = (moved / PX).trunc().clamp(-1e6, 1e6) as i64 * factor;
        return stepped(value, steps).filter(|_| steps != 0);
    }
    None
}

/// Arrow up and down step the number in a focused field; Shift makes steps of ten.
pub fn by_keys(ui: &Ui, id: Id, text: &str) -> Option<String> {
    if !ui.memory(|m| m.has_focus(id)) {
        return None;
    }
    let by = ui.input_mut(|i| {
        let mut by = 0;
        for (modifiers, factor) in [(Modifiers::SHIFT, 10), (Modifiers::NONE, 1)] {
            by += factor * i.count_and_consume_key(modifiers, Key::ArrowUp) as i64;
            by -= factor * i.count_and_consume_key(modifiers, Key::ArrowDown) as i64;
        }
        by
    });
    if by == 0 { None } else { stepped(text, by) }
}

/// The text with its first number so many steps on; a step is one in its last written place.
/// Nothing if it does not begin with a number.
fn stepped(text: &str, steps: i64) -> Option<String> {
    let text = text.trim_start();
    let digits = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',');
    let sign = text.starts_with(['-', '\u{2212}']);
    let unsigned = text.trim_start_matches(['-', '\u{2212}']);
    let end = unsigned.find(|c: char| !digits(c)).unwrap_or(unsigned.len());
    let (number, unit) = unsigned.split_at(end);
    let comma = number.contains(',');
    let plain = number.replace(',', ".");
    let places = plain.split_once('.').map_or(0, |(_, after)| after.len()).min(9);
    let value: f64 = plain.parse::<f64>().ok().filter(|v| v.is_finite())?;
    let value = if sign { -value } else { value };
    let value = value + steps as f64 * 10f64.powi(-(places as i32));
    let mut shown = format!("{value:.places$}");
    if comma {
        shown = shown.replace('.', ",");
    }
    Some(format!("{shown}{unit}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_keep_places_sign_and_comma() {
        let check = |text: &str, by: i64, expected: Option<&str>| {
            assert_eq!(stepped(text, by).as_deref(), expected, "{text}");
        };
        check("2.2 mm", 1, Some("2.3 mm"));
        check("2,20 mm", -10, Some("2,10 mm"));
        check("-1 degC", 1, Some("0 degC"));
        check("16 AWG", 2, Some("18 AWG"));
        check("from properties", 1, None);
        check("", 1, None);
        check("1e999", 1, Some("2e999"));
    }
}
