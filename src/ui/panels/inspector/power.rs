//! Supply, branch circuit, cords, motor.

use egui::Ui;
use narrows::kit::{Cord, Lay, Material};

use super::super::Desk;
use super::super::edit_field::edit_field_ui;
use super::super::shelf_menu::shelf_menu_ui;
use super::machine::machine_in_hand;
use super::{field, heading_ui, optional, say_ui};
use crate::ui::actions::Edit;
use crate::ui::present::volts;
use crate::ui::widgets::choice::choice_ui;
use crate::ui::widgets::field::label_ui;
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
    edit_field_ui(ui, desk, "Gauge", "supply.branch.gauge", branch.gauge.as_typed());
    field(ui, desk, "Length", "supply.branch.length", &branch.length);
    optional(ui, desk, "Breaker", "supply.branch.breaker", &branch.breaker);
    optional(ui, desk, "Other loads", "supply.branch.other_load", &branch.other_load);
    let shelf = desk.shelf;
    if let Some(chosen) = shelf_menu_ui(ui, desk, "Swap", shelf.wiring.iter()) {
        desk.edit(Edit::SwapBranch(Box::new(chosen)));
    }
    add_cord_ui(ui, desk);
}

/// The path of a cord's fields: the kit's own cords or the supply's.
pub fn cord_path(desk: &Desk, at: usize) -> String {
    match desk.scene.kit() {
        Some(kit) if kit.cords.is_some() => format!("kits.{}.cords.{at}", kit.name),
        _ => format!("supply.cords.{at}"),
    }
}

/// A cord.
pub fn cord_ui(ui: &mut Ui, desk: &mut Desk, at: usize) {
    let Some(cord) = volts::cords(desk.scene).get(at) else { return };
    let path = cord_path(desk, at);
    let title = cord.name.clone().unwrap_or_else(|| format!("Cord {}", at + 1));
    heading_ui(ui, desk, &title);
    edit_field_ui(ui, desk, "Gauge", &format!("{path}.gauge"), cord.gauge.as_typed());
    field(ui, desk, "Length", &format!("{path}.length"), &cord.length);
    optional(ui, desk, "Marked amps", &format!("{path}.marked_current"), &cord.marked_current);
    lay_ui(ui, desk, &path, cord);
    material_ui(ui, desk, &path, cord);
    let shelf = desk.shelf;
    ui.horizontal_wrapped(|ui| {
        if command_ui(ui, "Out", true, desk.look).clicked() {
            desk.edit(Edit::RemoveCord(at));
        }
        if let Some(chosen) = shelf_menu_ui(ui, desk, "Swap", shelf.cords.iter()) {
            desk.edit(Edit::SwapCord { at, cord: Box::new(chosen) });
        }
        add_cord_ui(ui, desk);
    });
}

fn add_cord_ui(ui: &mut Ui, desk: &mut Desk) {
    let shelf = desk.shelf;
    if let Some(cord) = shelf_menu_ui(ui, desk, "Add a cord", shelf.cords.iter()) {
        desk.edit(Edit::AddCord(Box::new(cord)));
    }
}

fn lay_ui(ui: &mut Ui, desk: &mut Desk, path: &str, cord: &Cord) {
    let current = match cord.lay {
        Lay::Straight => "straight",
        Lay::Coiled => "coiled",
    };
    labelled_choice_ui(ui, desk, "Lay", &format!("{path}.lay"), current, &["straight", "coiled"]);
}

fn material_ui(ui: &mut Ui, desk: &mut Desk, path: &str, cord: &Cord) {
    let words = ["copper", "aluminium", "copper_clad_aluminium"];
    let current = match cord.material {
        Material::Copper => words[0],
        Material::Aluminium => words[1],
        Material::CopperCladAluminium => words[2],
    };
    labelled_choice_ui(ui, desk, "Conductor", &format!("{path}.material"), current, &words);
}

fn labelled_choice_ui(ui: &mut Ui, desk: &mut Desk, label: &str, path: &str, current: &str, words: &[&str]) {
    let shown: Vec<String> = words.iter().map(|w| w.replace('_', "-")).collect();
    ui.horizontal(|ui| {
        label_ui(ui, label, desk.look);
        let current = current.replace('_', "-");
        if let Some(word) = choice_ui(ui, label, &current, &shown, 96.0, desk.look).and_then(|i| words.get(i))
        {
            desk.edit(Edit::Set { path: path.to_owned(), text: (*word).to_owned() });
        }
    });
}

/// The machine's motor.
pub fn motor_ui(ui: &mut Ui, desk: &mut Desk) {
    let (machine, path) = machine_in_hand(desk);
    let motor = &machine.motor;
    let at = |name: &str| format!("{path}.motor.{name}");
    heading_ui(ui, desk, motor.name.as_deref().unwrap_or("Motor"));
    results_ui(ui, desk);
    field(ui, desk, "Rated voltage", &at("rated_voltage"), &motor.rated_voltage);
    field(ui, desk, "Rated current", &at("rated_current"), &motor.rated_current);
    optional(ui, desk, "Locked rotor", &at("locked_rotor_current"), &motor.locked_rotor_current);
    optional(ui, desk, "Shaft power", &at("shaft_power"), &motor.shaft_power);
    optional(ui, desk, "Power factor", &at("power_factor"), &motor.power_factor);
    optional(ui, desk, "Speed", &at("speed"), &motor.speed);
    let shelf = desk.shelf;
    if let Some(chosen) = shelf_menu_ui(ui, desk, "Swap", shelf.motors.iter()) {
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
