//! A value that arrow keys move while its picture has the focus.

use egui::{Event, EventFilter, Id, Key, Ui};

/// Where the arrow keys of this frame move `now`: by a step, with Shift by a wide one; Home and End. They move
/// it and not the focus.
pub fn arrows(ui: &Ui, id: Id, now: f64, ends: (f64, f64), [step, wide]: [f64; 2]) -> Option<f64> {
    let filter = EventFilter { horizontal_arrows: true, ..EventFilter::default() };
    ui.memory_mut(|m| m.set_focus_lock_filter(id, filter));
    let mut at = None;
    ui.input(|input| {
        for event in &input.events {
            let Event::Key { key, pressed: true, modifiers, .. } = event else { continue };
            let step = if modifiers.shift { wide } else { step };
            let from = at.unwrap_or(now);
            at = match key {
                Key::ArrowLeft => Some((from - step).max(ends.0)),
                Key::ArrowRight => Some((from + step).min(ends.1)),
                Key::Home => Some(ends.0),
                Key::End => Some(ends.1),
                _ => at,
            };
        }
    });
    at
}
