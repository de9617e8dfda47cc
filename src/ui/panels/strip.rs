//! The strip at the right: plates, the kits' numbers side by side, cautions, the thing in hand.

use egui::{Align2, Sense, Ui, pos2, vec2};

use super::Desk;
use super::explained::explained_plate_ui;
use super::inspector::inspector_ui;
use super::top_counts::top_counts_ui;
use crate::ui::actions::Action;
use crate::ui::present::cautions::{Caution, cautions};
use crate::ui::present::plates::plates;
use crate::ui::style::fonts;
use crate::ui::symbols::{Mark, paint_kit_mark, paint_mark};
use crate::ui::view::View;
use crate::ui::widgets::plate::plate_height;
use crate::ui::widgets::word_button::command_ui;

/// The strip.
pub fn strip_ui(ui: &mut Ui, desk: &mut Desk) {
    let plates = plates(desk.scene);
    ui.spacing_mut().item_spacing.y = 6.0;
    for plate in &plates {
        let height = plate_height(ui, plate, ui.available_width(), desk.look);
        explained_plate_ui(ui, desk, plate, height);
    }
    egui::ScrollArea::vertical().auto_shrink([false, true]).show(ui, |ui| {
        if desk.scene.session.view.view != View::WhatCounts {
            top_counts_ui(ui, desk);
        }
        let (notes, grave): (Vec<Caution>, Vec<Caution>) =
            cautions(desk.scene).into_iter().partition(|(mark, ..)| *mark == Mark::Note);
        cautions_ui(ui, desk, "cautions", grave);
        kits_table_ui(ui, desk);
        inspector_ui(ui, desk);
        ui.add_space(6.0);
        cautions_ui(ui, desk, "notes", notes);
    });
}

/// All cautions and notes, nothing shortened.
pub fn cautions_in_full_ui(ui: &mut Ui, desk: &Desk) {
    for (mark, word, sentence) in cautions(desk.scene) {
        ui.horizontal(|ui| caution_ui(ui, desk, mark, &word, &sentence, true));
    }
}

fn caution_ui(
    ui: &mut Ui,
    desk: &Desk,
    mark: Mark,
    word: &str,
    sentence: &str,
    full: bool,
) -> egui::Response {
    let m = &desk.look.measures;
    let side = m.strong * 1.3;
    let (rect, _) = ui.allocate_exact_size(vec2(side, side), Sense::hover());
    paint_mark(mark, ui.painter(), rect, desk.look.palette);
    let mut text = egui::text::LayoutJob::default();
    let format =
        |font| egui::TextFormat { font_id: font, color: desk.look.palette.ink, ..Default::default() };
    text.append(&format!("{word}. "), 0.0, format(fonts::bold(m.small)));
    text.append(sentence, 0.0, format(fonts::regular(m.small)));
    text.wrap.max_rows = if full { usize::MAX } else { 2 };
    ui.add(egui::Label::new(text).sense(Sense::click()).wrap())
}

/// Rate and inlet of every kit, one row each.
fn kits_table_ui(ui: &mut Ui, desk: &mut Desk) {
    let document = desk.scene.document();
    if document.kits.len() < 2 {
        return;
    }
    for (i, kit) in document.kits.iter().enumerate() {
        let texts = match desk.scene.point(i) {
            Some(point) => (
                desk.scene.units().rate(point.mass_flow),
                desk.scene.pressure_text(point.machine_inlet_pressure),
            ),
            None if desk.scene.answer().is_none() => (desk.scene.waiting_word().to_owned(), String::new()),
            None => ("no answer".to_owned(), String::new()),
        };
        if kit_row_ui(ui, desk, i, &kit.name, texts).clicked() {
            desk.want(Action::Kit(i));
        }
    }
    ui.add_space(4.0);
}

fn kit_row_ui(ui: &mut Ui, desk: &Desk, i: usize, name: &str, texts: (String, String)) -> egui::Response {
    let (m, p) = (&desk.look.measures, desk.look.palette);
    let (rect, response) =
        ui.allocate_exact_size(vec2(ui.available_width(), desk.look.target()), Sense::click());
    let words = format!("Kit {name}: {}, inlet {}", texts.0, texts.1);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, &words));
    let painter = ui.painter();
    if response.hovered() || response.has_focus() {
        let stroke = egui::Stroke::new(1.0, p.edge);
        painter.rect_stroke(rect, 0.0, stroke, egui::StrokeKind::Inside);
    }
    let y = rect.center().y;
    paint_kit_mark(painter, pos2(rect.left() + 12.0, y), 5.0, i, p);
    let bold = fonts::bold(m.strong);
    let letter = painter.text(pos2(rect.left() + 24.0, y), Align2::LEFT_CENTER, name, bold, p.ink);
    let font = if i == desk.scene.hand() { fonts::bold(m.body) } else { fonts::regular(m.body) };
    let rate = painter.layout_no_wrap(texts.0, font.clone(), p.ink);
    let left = (rect.left() + rect.width() * 0.56 - rate.size().x).max(letter.right() + 8.0);
    painter.galley(pos2(left, y - rate.size().y / 2.0), rate, p.ink);
    painter.text(pos2(rect.right() - 8.0, y), Align2::RIGHT_CENTER, texts.1, font, p.ink2);
    painter.hline(rect.x_range(), rect.bottom(), desk.look.hairline(p.rule));
    response
}

/// Two lines each; all of it after a click.
fn cautions_ui(ui: &mut Ui, desk: &Desk, salt: &str, all: Vec<Caution>) {
    let m = &desk.look.measures;
    if all.is_empty() {
        return;
    }
    let id = egui::Id::unique(("in full", salt));
    let mut full = ui.data(|d| d.get_temp::<bool>(id)).unwrap_or_default();
    ui.spacing_mut().item_spacing.y = 2.0;
    ui.spacing_mut().interact_size.y = m.strong * 1.3;
    for (mark, word, sentence) in all {
        let clicked = ui.horizontal(|ui| caution_ui(ui, desk, mark, &word, &sentence, full).clicked()).inner;
        full ^= clicked;
    }
    ui.spacing_mut().interact_size.y = desk.look.target();
    let word = if full { format!("Shorter {salt}") } else { format!("All {salt} in full") };
    if command_ui(ui, &word, true, desk.look).clicked() {
        full = !full;
    }
    ui.spacing_mut().item_spacing.y = 6.0;
    ui.data_mut(|d| d.insert_temp(id, full));
}
