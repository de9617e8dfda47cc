//! The three changes that bring most, in the strip; one click from all of them.

use egui::{Align2, Sense, Ui, pos2, vec2};

use super::Desk;
use crate::ui::actions::Action;
use crate::ui::diagram::lines::hatch;
use crate::ui::present::top_counts::{TopChange, top_changes};
use crate::ui::style::fonts;
use crate::ui::view::View;

/// Height of a bar, as a share of the small text.
const BAR_RATIO: f32 = 0.6;

/// The heading and its bars.
pub fn top_counts_ui(ui: &mut Ui, desk: &mut Desk) {
    let Some((unit, changes)) = top_changes(desk.scene) else { return };
    let (m, p) = (&desk.look.measures, desk.look.palette);
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), m.strong * 1.5), Sense::hover());
    let y = rect.center().y;
    ui.painter().text(pos2(rect.left(), y), Align2::LEFT_CENTER, "What counts", fonts::bold(m.strong), p.ink);
    ui.painter().text(pos2(rect.right(), y), Align2::RIGHT_CENTER, unit, fonts::regular(m.small), p.ink2);
    // The bars reach as far as the widest band.
    let reach = changes.iter().map(|c| c.band.map_or(c.ratio, |(_, high)| high.max(c.ratio)));
    let reach = reach.fold(1.0, f32::max);
    for change in &changes {
        if change_ui(ui, desk, change, reach).clicked() {
            desk.want(Action::View(View::WhatCounts));
        }
    }
}

fn change_ui(ui: &mut Ui, desk: &Desk, change: &TopChange, reach: f32) -> egui::Response {
    let (m, p) = (&desk.look.measures, desk.look.palette);
    let bar = m.small * BAR_RATIO;
    let height = (m.body * 1.4 + bar + 5.0).max(desk.look.target());
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::click());
    let sure = if change.is_unsure { ", too close to call" } else { "" };
    let said = format!("What counts: {}. {}: {}{sure}", change.name, change.words, change.text);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, &said));
    let painter = ui.painter_at(rect);
    if response.hovered() || response.has_focus() {
        let stroke = egui::Stroke::new(1.0, p.edge);
        painter.rect_stroke(rect, 0.0, stroke, egui::StrokeKind::Inside);
    }
    let base = rect.top() + m.body * 0.8;
    painter.text(pos2(rect.left(), base), Align2::LEFT_CENTER, &change.name, fonts::regular(m.body), p.ink);
    let text = if change.is_unsure { "too close to call" } else { &change.text };
    painter.text(pos2(rect.right(), base), Align2::RIGHT_CENTER, text, fonts::bold(m.body), p.ink);
    let x = |ratio: f32| rect.left() + rect.width() * (ratio / reach).clamp(0.0, 1.0);
    let top = rect.top() + m.body * 1.5;
    let full = egui::Rect::from_x_y_ranges(rect.left()..=x(change.ratio), top..=top + bar);
    if change.is_unsure {
        painter.rect_stroke(full, 0.0, egui::Stroke::new(1.3, p.level), egui::StrokeKind::Inside);
    } else {
        painter.rect_filled(full, 0.0, p.level);
    }
    if let Some((low, high)) = change.band {
        let band = egui::Rect::from_x_y_ranges(x(low)..=x(high), top..=top + bar);
        let outline = [band.left_top(), band.right_top(), band.right_bottom(), band.left_bottom()];
        painter.rect_filled(band.intersect(full), 0.0, p.ground);
        hatch(&painter, &outline, p.ink, 4.0);
        painter.rect_stroke(band, 0.0, egui::Stroke::new(1.0, p.ink), egui::StrokeKind::Inside);
    }
    response.on_hover_text(&change.words)
}
