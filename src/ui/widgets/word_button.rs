//! Commands and choices as words: no icons to guess.

use egui::{Align2, Response, Sense, Stroke, Ui, vec2};

use crate::ui::style::{Look, fonts};

/// A command in a bar: plain text, underlined when the pointer or the focus is on it.
pub fn command_ui(ui: &mut Ui, text: &str, enabled: bool, look: &Look) -> Response {
    let p = look.palette;
    let font = fonts::regular(look.measures.body);
    let color = if enabled { p.ink } else { p.ink3 };
    let galley = ui.painter().layout_no_wrap(text.to_owned(), font, color);
    let size = vec2((galley.size().x + 12.0).max(look.target()), look.target());
    let sense = if enabled { Sense::click() } else { Sense::hover() };
    let (rect, response) = ui.allocate_exact_size(size, sense);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, enabled, text));
    let at = Align2::CENTER_CENTER.align_size_within_rect(galley.size(), rect);
    if enabled && (response.hovered() || response.has_focus()) {
        let y = at.bottom() + 1.0;
        let width = if response.has_focus() { 2.0 } else { 1.0 };
        ui.painter().hline(at.x_range(), y, Stroke::new(width, p.ink));
    }
    ui.painter().galley(at.min, galley, color);
    response
}

/// A tab in a row of views: the open one stands on the ground with a bar above it.
pub fn tab_ui(ui: &mut Ui, text: &str, open: bool, height: f32, look: &Look) -> Response {
    let (m, p) = (&look.measures, look.palette);
    let (font, color) = if open { (fonts::bold(m.body), p.ink) } else { (fonts::regular(m.body), p.ink2) };
    let galley = ui.painter().layout_no_wrap(text.to_owned(), font, color);
    let (rect, response) = ui.allocate_exact_size(vec2(galley.size().x + 16.0, height), Sense::click());
    response.widget_info(|| egui::WidgetInfo::selected(egui::Role::Button, true, open, text));
    if open {
        ui.painter().rect_filled(rect, 0.0, p.ground);
        let bar = egui::Rect::from_min_size(rect.min, vec2(rect.width(), 3.0 * m.line));
        ui.painter().rect_filled(bar, 0.0, p.ink);
    }
    if response.has_focus() || (response.hovered() && !open) {
        let stroke = Stroke::new(if response.has_focus() { 2.0 } else { 1.0 }, p.edge);
        ui.painter().rect_stroke(rect.shrink(2.0), 0.0, stroke, egui::StrokeKind::Inside);
    }
    let at = Align2::CENTER_CENTER.align_size_within_rect(galley.size(), rect);
    ui.painter().galley(at.min, galley, color);
    response
}
