//! The thing in hand: its fields, what it costs, and what can be done with it.

mod machine;
mod part;
mod power;
mod source;

use egui::Ui;
use narrows::units::{Measure, Typed};

use super::Desk;
use super::edit_field::edit_field_ui;
use crate::ui::view::Selected;

pub use part::commands_ui as part_commands_ui;
pub use power::cord_path;

/// Fields and commands of what has the focus box.
pub fn inspector_ui(ui: &mut Ui, desk: &mut Desk) {
    let Some(selected) = desk.scene.session.view.selected else {
        ui.label("Choose a part to change it.");
        return;
    };
    ui.push_id(("inspector", format!("{selected:?}"), desk.scene.hand()), |ui| match selected {
        Selected::Source => source::source_ui(ui, desk),
        Selected::Part(i) => part::kit_part_ui(ui, desk, i),
        Selected::Discharge(i) => part::discharge_part_ui(ui, desk, i),
        Selected::SecondPart(i) => part::second_part_ui(ui, desk, i),
        Selected::Machine => machine::machine_ui(ui, desk),
        Selected::Cylinder => machine::cylinder_ui(ui, desk),
        Selected::Supply => power::supply_ui(ui, desk),
        Selected::Branch => power::branch_ui(ui, desk),
        Selected::Cord(i) => power::cord_ui(ui, desk, i),
        Selected::Motor => power::motor_ui(ui, desk),
    });
}

fn heading_ui(ui: &mut Ui, desk: &Desk, text: &str) {
    let font = crate::ui::style::fonts::bold(desk.look.measures.strong);
    ui.add(egui::Label::new(egui::RichText::new(text).font(font)).truncate());
}

fn say_ui(ui: &mut Ui, desk: &Desk, text: &str) {
    let font = crate::ui::style::fonts::regular(desk.look.measures.small);
    let text = egui::RichText::new(text).font(font).color(desk.look.palette.ink2);
    ui.add(egui::Label::new(text).wrap());
}

/// A field that must be there.
fn field<Q: Measure>(ui: &mut Ui, desk: &mut Desk, label: &str, path: &str, value: &Typed<Q>) {
    edit_field_ui(ui, desk, label, path, value.as_typed());
}

/// A field that may be left out.
fn optional<Q: Measure>(ui: &mut Ui, desk: &mut Desk, label: &str, path: &str, value: &Option<Typed<Q>>) {
    let text = value.as_ref().map_or("", |v| v.as_typed());
    edit_field_ui(ui, desk, label, path, text);
}
