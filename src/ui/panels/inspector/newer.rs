//! News from the shelf about the thing in hand: what differs, keep or update. And the way onto the
//! shelf.

use egui::Ui;
use narrows::presets::{Origin, Thing};

use super::super::Desk;
use crate::ui::actions::{Action, NewOnShelf};
use crate::ui::present::newer::newer;
use crate::ui::style::fonts;
use crate::ui::symbols::{Mark, paint_mark};
use crate::ui::view::Selected;
use crate::ui::widgets::word_button::command_ui;

/// Says that the shelf has newer figures, if it has.
pub fn newer_ui(ui: &mut Ui, desk: &mut Desk, selected: Selected) {
    let Some(news) = newer(desk.scene, desk.shelf, selected) else { return };
    let m = desk.look.measures;
    ui.horizontal_top(|ui| {
        let side = m.strong * 1.3;
        let (rect, _) = ui.allocate_exact_size(egui::vec2(side, side), egui::Sense::hover());
        paint_mark(Mark::Note, ui.painter(), rect, desk.look.palette);
        let text = format!("The shelf has a newer figure: {}.", news.words);
        let text = egui::RichText::new(text).font(fonts::regular(m.small)).color(desk.look.palette.ink);
        ui.add(egui::Label::new(text).wrap());
    });
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 2.0;
        if command_ui(ui, "Keep", true, desk.look).on_hover_text("The document's figures stay").clicked() {
            desk.edit(news.keep);
        }
        let says = "The shelf's figures take their place; Undo brings the old ones back";
        if command_ui(ui, "Update", true, desk.look).on_hover_text(says).clicked() {
            desk.edit(news.update);
        }
    });
}

/// Puts a copy of the document's thing on one's own shelf.
pub fn shelve_ui(ui: &mut Ui, desk: &mut Desk, name: &str, thing: impl Into<Thing>) {
    if command_ui(ui, "To my shelf", true, desk.look).clicked() {
        let new =
            NewOnShelf { name: name.to_owned(), origin: Origin::Measured, note: None, thing: thing.into() };
        desk.want(Action::Shelve(Box::new(new)));
    }
}
