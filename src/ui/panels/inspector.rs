//! The thing in hand: its fields, what it costs, and what can be done with it.

mod machine;
mod newer;
mod part;
mod power;
mod source;

use egui::Ui;
use narrows::units::{Measure, Typed};

use super::Desk;
use super::edit_field::edit_field_ui;
use crate::ui::actions::Edit;
use crate::ui::present::figures::Figure;
use crate::ui::view::Selected;
use crate::ui::widgets::choice::choice_ui;
use crate::ui::widgets::field::label_ui;

pub use part::commands_ui as part_commands_ui;
pub use power::cord_path;

/// Fields and commands of what has the focus box.
pub fn inspector_ui(ui: &mut Ui, desk: &mut Desk) {
    let Some(selected) = desk.scene.session.view.selected else {
        ui.label("Choose a part to change it.");
        return;
    };
    ui.push_id(("inspector", format!("{selected:?}"), desk.scene.hand()), |ui| {
        newer::newer_ui(ui, desk, selected);
        thing_ui(ui, desk, selected);
    });
}

fn thing_ui(ui: &mut Ui, desk: &mut Desk, selected: Selected) {
    match selected {
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
    }
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

/// A field for each figure of the thing at this path.
fn figures_ui(ui: &mut Ui, desk: &mut Desk, path: &str, figures: &[Figure]) {
    for figure in figures {
        let path = format!("{path}.{}", figure.path);
        if figure.words.is_empty() {
            edit_field_ui(ui, desk, figure.label, &path, &figure.value);
        } else {
            words_ui(ui, desk, figure, &path);
        }
    }
}

/// One of a few words to choose.
fn words_ui(ui: &mut Ui, desk: &mut Desk, figure: &Figure, path: &str) {
    let shown: Vec<String> = figure.words.iter().map(|word| word.replace('_', "-")).collect();
    let current = figure.value.replace('_', "-");
    ui.horizontal(|ui| {
        label_ui(ui, figure.label, desk.look);
        let chosen = choice_ui(ui, figure.label, &current, &shown, 96.0, desk.look);
        if let Some(word) = chosen.and_then(|i| figure.words.get(i)) {
            desk.edit(Edit::Set { path: path.to_owned(), text: (*word).to_owned() });
        }
    });
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
