//! Supply, branch circuit, cords, motor.

use egui::Ui;
use narrows::kit::Kit;

use super::super::Desk;
use super::super::shelf_menu::shelf_menu_ui;
use super::machine::machine_in_hand;
use super::newer::shelve_ui;
use super::{field, figures_ui, heading_ui, optional, say_ui};
use crate::ui::actions::Edit;
use crate::ui::present::{figures, volts};
use crate::ui::widgets::word_button::command_ui;

/// The source of power.
pub fn supply_ui(ui: &mut Ui, desk: &mut Desk) {
    let supply = &desk.scene.document().supply;
    heading_ui(ui, desk, if supply.generator.is_some() { "Generator" } else { "Panel" });
    field(ui, desk, "Voltage", "supply.voltage", &supply.voltage);
    optional(ui, desk, "Frequency", "supply.frequency", &supply.frequency);
    optional(ui, desk, "Source resistance", "supply.source_resistance", &supply.source_resistance);
    if let Some(generator) = &supply.generator {
        field(ui, desk, "Continuous", "supply.generator.continuous", &generator.continuous);
        field(ui, desk, "Surge", "supply.generator.surge", &generator.surge);
    }
    add_cord_ui(ui, desk);
}

/// The circuit in the wall.
pub fn branch_ui(ui: &mut Ui, desk: &mut Desk) {
    let Some(branch) = &desk.scene.document().supply.branch else { return };
    heading_ui(ui, desk, "Branch circuit");
    figures_ui(ui, desk, "supply.branch", &figures::of_branch(branch));
    let shelf = desk.shelf;
    if let Some(chosen) = shelf_menu_ui(ui, desk, "Swap", shelf.offered()) {
        desk.edit(Edit::SwapBranch(Box::new(chosen)));
    }
    add_cord_ui(ui, desk);
}

/// The path of a cord's fields: the kit's own cords or the supply's.
pub fn cord_path(desk: &Desk, at: usize) -> String {
    let cords = desk.scene.kit().map_or("supply.cords".to_owned(), Kit::cords_path);
    format!("{cords}.{at}")
}

/// A cord.
pub fn cord_ui(ui: &mut Ui, desk: &mut Desk, at: usize) {
    let Some(cord) = volts::cords(desk.scene).get(at) else { return };
    let path = cord_path(desk, at);
    let title = cord.name.clone().unwrap_or_else(|| format!("Cord {}", at + 1));
    heading_ui(ui, desk, &title);
    figures_ui(ui, desk, &path, &figures::of_cord(cord));
    let shelf = desk.shelf;
    ui.horizontal_wrapped(|ui| {
        if command_ui(ui, "Out", true, desk.look).clicked() {
            desk.edit(Edit::RemoveCord(at));
        }
        if let Some(chosen) = shelf_menu_ui(ui, desk, "Swap", shelf.offered()) {
            desk.edit(Edit::SwapCord { at, cord: Box::new(chosen) });
        }
        add_cord_ui(ui, desk);
        shelve_ui(ui, desk, &format!("{}, {}", cord.gauge, cord.length), cord.clone());
    });
}

fn add_cord_ui(ui: &mut Ui, desk: &mut Desk) {
    let shelf = desk.shelf;
    if let Some(cord) = shelf_menu_ui(ui, desk, "Add a cord", shelf.offered()) {
        desk.edit(Edit::AddCord(Box::new(cord)));
    }
}

/// The machine's motor.
pub fn motor_ui(ui: &mut Ui, desk: &mut Desk) {
    let (machine, path) = machine_in_hand(desk);
    let motor = &machine.motor;
    heading_ui(ui, desk, motor.name.as_deref().unwrap_or("Motor"));
    results_ui(ui, desk);
    figures_ui(ui, desk, &format!("{path}.motor"), &figures::of_motor(motor));
    let shelf = desk.shelf;
    if let Some(chosen) = shelf_menu_ui(ui, desk, "Swap", shelf.offered()) {
        desk.edit(Edit::SwapMotor(Box::new(chosen)));
    }
}

fn results_ui(ui: &mut Ui, desk: &Desk) {
    let Some(power) = desk.scene.power(desk.scene.hand()) else { return };
    let units = desk.scene.units();
    if let Some(running) = power.running.point() {
        let text = format!(
            "Runs on {} at {}, {} of its speed.",
            units.current(running.current),
            units.voltage(running.voltage),
            units.share(running.speed_ratio),
        );
        say_ui(ui, desk, &text);
    }
    let start = &power.starting;
    let text = format!(
        "Starts on {} at {}, with {} of its starting torque.",
        units.current(start.current),
        units.voltage(start.voltage),
        units.share(start.torque_ratio),
    );
    say_ui(ui, desk, &text);
}
