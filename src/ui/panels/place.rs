//! Where to put the machine: dragged between system and receptacle, with what each place gives.

use egui::{Ui, vec2};

use super::Desk;
use super::findings::{finding_ui, nothing_ui, small_ui};
use crate::ui::actions::{Action, Edit};
use crate::ui::diagram::trade::{trade_height, trade_ui};
use crate::ui::present::place::{self, Shown};
use crate::ui::style::{Look, fonts};
use crate::ui::widgets::word_button::command_ui;

/// Picture and words: beside each other where there is room for both.
pub fn place_ui(ui: &mut Ui, desk: &mut Desk) {
    let shown = match place::shown(desk.scene) {
        Ok(shown) => shown,
        Err(why) => return nothing_ui(ui, desk, &why),
    };
    let width = ui.available_width();
    let beside = words_width(desk.look);
    if is_stacked(width, desk.look) {
        // What is below the picture may be out of sight while the machine is dragged.
        let live = egui::RichText::new(&shown.live).font(fonts::bold(desk.look.measures.body));
        ui.add(egui::Label::new(live).wrap());
        picture_ui(ui, desk, &shown, trade_height(desk.look));
        words_ui(ui, desk, &shown);
        return;
    }
    let height = ui.available_height().max(trade_height(desk.look) * 0.8);
    ui.horizontal_top(|ui| {
        ui.allocate_ui(vec2(width - beside - 16.0, height), |ui| {
            picture_ui(ui, desk, &shown, height - 4.0);
        });
        ui.vertical(|ui| {
            ui.set_width(beside);
            egui::ScrollArea::vertical().id_salt("place words").show(ui, |ui| words_ui(ui, desk, &shown));
        });
    });
}

fn words_width(look: &Look) -> f32 {
    look.measures.body * 30.0
}

/// Whether the words stand under the picture, for want of width.
pub fn is_stacked(width: f32, look: &Look) -> bool {
    width < 2.0 * words_width(look)
}

fn picture_ui(ui: &mut Ui, desk: &mut Desk, shown: &Shown, height: f32) {
    let chosen = trade_ui(ui, &shown.trade, height, desk.look);
    if let Some(hose_m) = chosen.and_then(|at| shown.hoses_m.get(at)) {
        desk.want(Action::MachineAt(*hose_m));
    }
}

fn words_ui(ui: &mut Ui, desk: &mut Desk, shown: &Shown) {
    let m = desk.look.measures;
    let [first, rest @ ..] = shown.sentences.as_slice() else { return };
    let advice = egui::RichText::new(desk.look.sentence(&first.1)).font(fonts::bold(m.body));
    ui.add(egui::Label::new(advice).wrap());
    ui.add_space(4.0);
    rows_ui(ui, desk, shown);
    let may_move = !shown.edits.is_empty() && !shown.trade.stale;
    if command_ui(ui, "Put it here", may_move, desk.look).clicked() {
        desk.edit(Edit::SetAll(shown.edits.clone()));
    }
    for (mark, word, sentence) in &shown.findings {
        finding_ui(ui, desk.look, *mark, word, sentence);
    }
    ui.add_space(4.0);
    for (word, sentence) in rest {
        small_ui(ui, desk.look, &format!("{word}: {sentence}"));
    }
    small_ui(ui, desk.look, narrows::report::PLACE_LEGEND);
}

fn rows_ui(ui: &mut Ui, desk: &Desk, shown: &Shown) {
    let (m, p) = (desk.look.measures, desk.look.palette);
    let cell = |ui: &mut Ui, text: &str, font: egui::FontId, color: egui::Color32| {
        ui.label(egui::RichText::new(text).font(font).color(color));
    };
    egui::Grid::new("place rows").striped(true).spacing(vec2(14.0, 4.0)).show(ui, |ui| {
        for word in ["", "Here", "Today"] {
            cell(ui, word, fonts::bold(m.small), p.ink2);
        }
        ui.end_row();
        for [name, here, today] in &shown.rows {
            let color = if shown.trade.stale { p.edge } else { p.ink };
            cell(ui, name, fonts::regular(m.body), p.ink2);
            cell(ui, here, fonts::bold(m.body), color);
            cell(ui, today, fonts::regular(m.body), p.ink2);
            ui.end_row();
        }
    });
}
