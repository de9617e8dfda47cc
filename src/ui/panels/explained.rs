//! A plate with its explanation: a click, or Enter with the focus on it, opens what is behind the
//! number.

use egui::{Response, Ui};

use super::Desk;
use crate::ui::present::explain::{Explanation, explain};
use crate::ui::style::fonts;
use crate::ui::widgets::plate::{Plate, plate_ui};

/// A plate that explains itself.
pub fn explained_plate_ui(ui: &mut Ui, desk: &Desk, plate: &Plate, height: f32) -> Response {
    let response = plate_ui(ui, plate, height, desk.look);
    if let Some(explanation) = explain(desk.scene, plate.about) {
        let behavior = egui::PopupCloseBehavior::CloseOnClickOutside;
        egui::Popup::menu(&response).close_behavior(behavior).width(340.0).show(|ui| {
            // Not justified, as a menu's lines are.
            let layout = egui::Layout::top_down(egui::Align::Min);
            ui.with_layout(layout, |ui| explanation_ui(ui, desk, plate, &explanation));
        });
    }
    response
}

fn explanation_ui(ui: &mut Ui, desk: &Desk, plate: &Plate, e: &Explanation) {
    let m = &desk.look.measures;
    ui.set_max_width(360.0);
    let heading = format!("{}: {} {}", plate.title, plate.numeral, plate.unit);
    ui.label(egui::RichText::new(heading).font(fonts::bold(m.strong)));
    ui.label(&e.formula);
    egui::Grid::new("inputs").striped(true).show(ui, |ui| {
        for (name, value) in &e.inputs {
            ui.label(name);
            ui.label(egui::RichText::new(value).font(fonts::bold(m.body)));
            ui.end_row();
        }
    });
    let small =
        |text: &str| egui::RichText::new(text).font(fonts::regular(m.small)).color(desk.look.palette.ink2);
    ui.label(small(&format!("Source: {}", e.source)));
    ui.label(small(&format!("Band: {}", e.band)));
}
