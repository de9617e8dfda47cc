//! A word to hold: something is tried as long as it is held down, by pointer or by the space bar.

use egui::{Align2, Key, Response, Sense, Stroke, StrokeKind, Ui, vec2};

use crate::ui::style::{Look, fonts};

/// What happened to the word.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hold {
    /// Nothing.
    No,
    /// It is held from now on.
    Begun,
    /// It was let go.
    Ended,
    /// Enter, or a second click: it shall stay.
    Kept,
}

/// Where this word is in its gesture, in egui's memory.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Phase {
    #[default]
    Idle,
    Held,
    /// Kept while still held: nothing more until it is let go.
    Spent,
}

/// Shows the word; `trying` says whether something is tried at all.
pub fn hold_ui(ui: &mut Ui, word: &str, says: &str, trying: bool, look: &Look) -> Hold {
    let response = paint(ui, word, says, look);
    let id = response.id.with("hold");
    let phase = ui.data(|d| d.get_temp::<Phase>(id)).unwrap_or_default();
    let focused = response.has_focus();
    let (space, enter) = ui.input(|i| (i.key_down(Key::Space), i.key_pressed(Key::Enter)));
    let down = response.is_pointer_button_down_on() || (focused && space);
    let (next, hold) = match phase {
        Phase::Idle if response.double_clicked() => (Phase::Idle, Hold::Kept),
        Phase::Idle if down => (Phase::Held, Hold::Begun),
        Phase::Idle if focused && enter => (Phase::Idle, Hold::Kept),
        Phase::Held if enter && trying => (Phase::Spent, Hold::Kept),
        Phase::Held if response.double_clicked() => (Phase::Idle, Hold::Kept),
        Phase::Held if !down => (Phase::Idle, Hold::Ended),
        Phase::Spent if !down => (Phase::Idle, Hold::No),
        other => (other, Hold::No),
    };
    ui.data_mut(|d| d.insert_temp(id, next));
    hold
}

fn paint(ui: &mut Ui, word: &str, says: &str, look: &Look) -> Response {
    let p = look.palette;
    let galley = ui.painter().layout_no_wrap(word.to_owned(), fonts::regular(look.measures.body), p.ink);
    let size = vec2((galley.size().x + 16.0).max(look.target()), look.target());
    let (rect, response) = ui.allocate_exact_size(size, Sense::click_and_drag());
    let words = format!("Hold to try: {says}");
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, &words));
    let down = response.is_pointer_button_down_on();
    ui.painter().rect_filled(rect, 0.0, if down { p.ground } else { p.field });
    let width = if response.has_focus() { look.measures.focus_line() } else { 1.0 };
    ui.painter().rect_stroke(rect, 0.0, Stroke::new(width, p.ink), StrokeKind::Inside);
    let at = Align2::CENTER_CENTER.align_size_within_rect(galley.size(), rect);
    ui.painter().galley(at.min, galley, p.ink);
    response.on_hover_text(says)
}
