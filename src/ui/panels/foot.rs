//! Power and clock in one line each, where there is no room for their pictures.

use egui::{Align2, Rangef, Rect, Sense, Stroke, StrokeKind, Ui, pos2, vec2};

use super::Desk;
use crate::ui::actions::Action;
use crate::ui::diagram::chain::paint::fit;
use crate::ui::diagram::clock::{Layout, clock_ui};
use crate::ui::diagram::volts::Volts;
use crate::ui::present::{clock, volts};
use crate::ui::style::fonts;
use crate::ui::symbols::{Fluid, PaintSymbol as _, Symbol, Tints, paint_mark};
use crate::ui::view::View;

/// The volts in words, with the gravest thing to heed; leads to the cord run.
pub fn power_strip_ui(ui: &mut Ui, desk: &mut Desk, rect: Rect) {
    let model = volts::volts(desk.scene);
    let response = ui.interact(rect, ui.scope_id().with("power strip"), Sense::click());
    let heed = model.verdicts.first();
    let says = says(&model).unwrap_or_else(|| desk.scene.waiting().to_owned());
    let words = match heed {
        Some((_, word, sentence)) => format!("{says} {word}: {sentence}"),
        None => says.clone(),
    };
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, &words));
    if response.clicked() {
        desk.want(Action::View(View::CordRun));
    }
    let (m, p) = (&desk.look.measures, desk.look.palette);
    let painter = ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
    let side = (rect.height() * 0.6).min(40.0);
    let square = Rect::from_min_size(rect.left_center() + vec2(12.0, -side / 2.0), vec2(side, side));
    let tints = Tints::new(p, Fluid::Vapor, model.stale);
    Symbol::Cord { area_mm2: 1.3 }.paint(&painter, square, side, tints);
    let at = square.right_center() + vec2(10.0, 0.0);
    let drawn = painter.text(at, Align2::LEFT_CENTER, &says, fonts::bold(m.body), p.ink);
    if let Some((mark, word, sentence)) = heed {
        let side = m.strong * 1.4;
        let left = drawn.right() + 16.0;
        let square = Rect::from_min_size(pos2(left, rect.center().y - side / 2.0), vec2(side, side));
        paint_mark(*mark, &painter, square, p);
        let room = rect.right() - square.right() - 20.0;
        let text = format!("{word}: {sentence}");
        let galley = fit(&painter, &text, fonts::regular(m.body), p.ink, room);
        let top = rect.center().y - galley.size().y / 2.0;
        painter.galley(pos2(square.right() + 8.0, top), galley, p.ink);
    }
    if response.hovered() || response.has_focus() {
        let width = if response.has_focus() { m.focus_line() } else { 1.0 };
        painter.rect_stroke(rect.shrink(1.0), 0.0, Stroke::new(width, p.ink), StrokeKind::Inside);
    }
}

/// "105 V running, 82 V starting."
fn says(model: &Volts) -> Option<String> {
    let starting = model.starting.as_ref().map(|(_, text)| text)?;
    let running = model.running.as_ref().map_or("cannot hold".to_owned(), |(_, text)| text.clone());
    Some(format!("{running} running, {starting} starting."))
}

/// The phases of the job as one bar, with its marker to drag.
pub fn clock_bar_ui(ui: &mut Ui, desk: &mut Desk, rect: Rect) {
    let (m, p) = (desk.look.measures, desk.look.palette);
    let at = rect.left_center() + vec2(12.0, 0.0);
    let name = ui.painter().text(at, Align2::LEFT_CENTER, "Job clock", fonts::bold(m.body), p.ink);
    let area = Rect::from_x_y_ranges(Rangef::new(rect.left(), rect.right() - 8.0), rect.y_range());
    match clock::clock(desk.scene) {
        Ok(model) => {
            let left = name.right() + 14.0;
            if let Some(minutes) = clock_ui(ui, area, &model, Layout::Bar, left, desk.look) {
                desk.want(Action::Clock(minutes));
            }
        }
        Err(why) => {
            let room = rect.right() - name.right() - 24.0;
            let galley = fit(ui.painter(), &why, fonts::regular(m.body), p.ink2, room);
            let top = rect.center().y - galley.size().y / 2.0;
            ui.painter().galley(pos2(name.right() + 14.0, top), galley, p.ink2);
        }
    }
}
