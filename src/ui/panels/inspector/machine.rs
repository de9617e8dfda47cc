//! Machine and cylinder.

use egui::Ui;
use narrows::kit::{Hole, Machine};

use super::super::Desk;
use super::super::edit_field::edit_field_ui;
use super::super::shelf_menu::shelf_menu_ui;
use super::{field, heading_ui, optional, say_ui};
use crate::ui::actions::{Action, Edit, PartList};
use crate::ui::view::Selected;
use crate::ui::widgets::word_button::command_ui;

/// The machine of the kit in hand, and the path of its fields.
pub fn machine_in_hand<'a>(desk: &Desk<'a>) -> (&'a Machine, String) {
    match desk.scene.kit() {
        Some(kit) if kit.machine.is_some() => (
            kit.machine.as_ref().unwrap_or(&desk.scene.document().machine),
            format!("kits.{}.machine", kit.name),
        ),
        _ => (&desk.scene.document().machine, "machine".to_owned()),
    }
}

/// Fields of the machine.
pub fn machine_ui(ui: &mut Ui, desk: &mut Desk) {
    let (machine, path) = machine_in_hand(desk);
    let at = |name: &str| format!("{path}.{name}");
    heading_ui(ui, desk, machine.name.as_deref().unwrap_or("Machine"));
    results_ui(ui, desk);
    field(ui, desk, "Displacement", &at("displacement"), &machine.displacement);
    field(ui, desk, "Clearance", &at("clearance"), &machine.clearance);
    field(ui, desk, "Loss factor", &at("loss_factor"), &machine.loss_factor);
    let exponent = machine.polytropic_exponent.as_typed();
    edit_field_ui(ui, desk, "Exponent", &at("polytropic_exponent"), exponent);
    let condenser = &machine.condenser;
    optional(
        ui,
        desk,
        "Condensing at",
        &at("condenser.condensing_temperature"),
        &condenser.condensing_temperature,
    );
    optional(ui, desk, "Condenser UA", &at("condenser.conductance"), &condenser.conductance);
    let cut_out = machine.cut_out.as_ref().map(ToString::to_string).unwrap_or_default();
    edit_field_ui(ui, desk, "Cut-out", &at("cut_out"), &cut_out);
    let throttle = machine.inlet_throttle.as_ref().map_or("", throttle_text);
    edit_field_ui(ui, desk, "Inlet hole", &at("inlet_throttle.bore"), throttle);
    machine_commands_ui(ui, desk);
}

fn throttle_text(hole: &Hole) -> &str {
    hole.bore.as_typed()
}

fn results_ui(ui: &mut Ui, desk: &Desk) {
    let Some(point) = desk.scene.point(desk.scene.hand()) else { return };
    let (units, machine) = (desk.scene.units(), &point.machine);
    let discharge = desk.scene.pressure_text(machine.discharge_pressure);
    say_ui(
        ui,
        desk,
        &format!(
            "Discharge {discharge}, gas at {}; {} at the shaft, {} of its capacity.",
            units.temperature(machine.discharge_temperature),
            units.power(machine.shaft_power),
            units.share(machine.volumetric_efficiency.value),
        ),
    );
    if let Some(margin) = machine.cut_out_margin {
        say_ui(
            ui,
            desk,
            &format!("{} below the cut-out.", desk.scene.pressure_units().pressure_loss(margin)),
        );
    }
}

fn machine_commands_ui(ui: &mut Ui, desk: &mut Desk) {
    let shelf = desk.shelf;
    ui.horizontal_wrapped(|ui| {
        if let Some(machine) = shelf_menu_ui(ui, desk, "Swap", shelf.machines.iter()) {
            desk.actions.push(Action::Edit(Edit::SwapMachine(Box::new(machine))));
        }
        if command_ui(ui, "Motor", true, desk.look).clicked() {
            desk.want(Action::Select(Some(Selected::Motor)));
        }
        if let Some(part) = shelf_menu_ui(ui, desk, "Add before", shelf.parts.iter()) {
            let at = desk.scene.kit().map_or(0, |k| k.parts.len());
            let list = PartList::Kit(desk.scene.hand());
            desk.edit(Edit::Insert { list, at, part: Box::new(part) });
        }
        if let Some(part) = shelf_menu_ui(ui, desk, "Add after", shelf.parts.iter()) {
            desk.edit(Edit::Insert { list: PartList::Discharge, at: 0, part: Box::new(part) });
        }
    });
}

/// Fields of the cylinder.
pub fn cylinder_ui(ui: &mut Ui, desk: &mut Desk) {
    let cylinder = &desk.scene.document().cylinder;
    heading_ui(ui, desk, cylinder.name.as_deref().unwrap_or("Cylinder"));
    field(ui, desk, "Temperature", "cylinder.temperature", &cylinder.temperature);
    optional(ui, desk, "Air in it", "cylinder.excess_pressure", &cylinder.excess_pressure);
    optional(ui, desk, "Water capacity", "cylinder.water_capacity", &cylinder.water_capacity);
    optional(ui, desk, "Tare", "cylinder.tare", &cylinder.tare);
    optional(ui, desk, "Contents", "cylinder.contents", &cylinder.contents);
    let shelf = desk.shelf;
    if let Some(chosen) = shelf_menu_ui(ui, desk, "Swap", shelf.cylinders.iter()) {
        desk.edit(Edit::SwapCylinder(Box::new(chosen)));
    }
}
