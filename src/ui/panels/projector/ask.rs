//! The question: a plain panel over the answer, with the choices and the hands for each.

use egui::{Align2, Painter, Pos2, Rangef, Rect, Stroke, StrokeKind, Ui, pos2};

use super::Class;
use crate::ui::diagram::columns::Columns;
use crate::ui::present::Slot;
use crate::ui::style::fonts;

/// The parts as choices: numbers under them, bars of hands.
pub fn parts_ui(ui: &mut Ui, class: &Class, area: Rect, columns: &Columns) {
    let m = &class.look.measures;
    let machine = class.scene.machine_slot();
    let x = Rangef::new(columns.span(1).min, columns.span(machine).min);
    let rect = Rect::from_x_y_ranges(x, area.y_range().shrink(m.small * 0.3));
    cover(ui.painter(), rect, class);
    let votes = &class.projector.votes;
    let most = votes.iter().copied().max().unwrap_or_default().max(1);
    let radius = m.strong * 0.75;
    let base = rect.bottom() - m.small * 0.6;
    let room = (base - rect.top() - 2.0 * radius - m.small * 3.0).max(0.0);
    for (i, slot) in class.scene.slots.iter().enumerate().take(machine).skip(1) {
        let Slot::Part(places) = slot else { continue };
        let at = places.get(class.scene.hand()).copied().flatten();
        let Some((at, hands)) = at.and_then(|at| Some((at, *votes.get(at)?))) else { continue };
        let center = pos2(columns.span(i).center(), rect.top() + radius + m.small * 0.5);
        number(ui.painter(), center, at, class);
        name(ui, Rect::from_x_y_ranges(columns.span(i), rect.y_range()), at, hands, "Part");
        if hands > 0 {
            let top = base - room * hands as f32 / most as f32;
            let half = columns.width * 0.25;
            let bar = Rect::from_min_max(pos2(center.x - half, top), pos2(center.x + half, base));
            ui.painter().rect_filled(bar, 0.0, class.look.palette.ink2);
            count(ui.painter(), pos2(center.x, top - 2.0), Align2::CENTER_BOTTOM, hands, class);
        }
    }
}

/// Choices in words, one row each.
pub fn choices_ui(ui: &mut Ui, class: &Class, area: Rect) {
    let (m, p) = (&class.look.measures, class.look.palette);
    let rect = area.shrink(m.small * 0.3);
    cover(ui.painter(), rect, class);
    let choices = &class.projector.lesson.choices;
    let votes = &class.projector.votes;
    let most = votes.iter().copied().max().unwrap_or_default().max(1);
    let row = ((rect.height() - m.small) / choices.len().max(1) as f32).min(m.strong * 2.2);
    let radius = (row * 0.42).min(m.strong * 0.75);
    let bars = Rangef::new(rect.left() + rect.width() * 0.52, rect.right() - m.strong * 2.2);
    for (i, choice) in choices.iter().enumerate() {
        let y = rect.top() + m.small * 0.5 + row * (i as f32 + 0.5);
        number(ui.painter(), pos2(rect.left() + m.small * 0.6 + radius, y), i, class);
        let at = pos2(rect.left() + m.small * 1.4 + 2.0 * radius, y);
        ui.painter().text(at, Align2::LEFT_CENTER, choice, fonts::bold(m.strong), p.ink);
        let hands = votes.get(i).copied().unwrap_or_default();
        let across = Rangef::new(y - row * 0.5, y + row * 0.5);
        name(ui, Rect::from_x_y_ranges(rect.x_range(), across), i, hands, choice);
        if hands > 0 {
            let right = bars.min + bars.span().max(1.0) * hands as f32 / most as f32;
            let bar = Rect::from_min_max(pos2(bars.min, y - row * 0.28), pos2(right, y + row * 0.28));
            ui.painter().rect_filled(bar, 0.0, p.ink2);
            count(ui.painter(), pos2(right + m.small * 0.4, y), Align2::LEFT_CENTER, hands, class);
        }
    }
}

fn cover(painter: &Painter, rect: Rect, class: &Class) {
    let stroke = Stroke::new(2.0 * class.look.measures.line, class.look.palette.ink);
    painter.rect(rect, 0.0, class.look.palette.ground, stroke, StrokeKind::Inside);
}

fn number(painter: &Painter, center: Pos2, at: usize, class: &Class) {
    let (m, p) = (&class.look.measures, class.look.palette);
    painter.circle(center, m.strong * 0.75, p.sheet, Stroke::new(2.0 * m.line, p.ink));
    painter.text(center, Align2::CENTER_CENTER, (at + 1).to_string(), fonts::bold(m.strong), p.ink);
}

fn count(painter: &Painter, at: Pos2, anchor: Align2, hands: u32, class: &Class) {
    let (m, p) = (&class.look.measures, class.look.palette);
    painter.text(at, anchor, hands.to_string(), fonts::bold(m.strong), p.ink);
}

fn name(ui: &Ui, hit: Rect, at: usize, hands: u32, what: &str) {
    let words = format!("{what} {}: {hands} votes", at + 1);
    let response = ui.interact(hit, ui.scope_id().with(("votes", at)), egui::Sense::hover());
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, &words));
}
