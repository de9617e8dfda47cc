//! Machine and cylinder.

use egui::Ui;
use narrows::kit::Machine;

use super::super::Desk;
use super::super::shelf_menu::shelf_menu_ui;
use super::newer::shelve_ui;
use super::{figures_ui, heading_ui, say_ui, words_ui};
use crate::ui::actions::{Action, Edit, PartList};
use crate::ui::present::figures;
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
    heading_ui(ui, desk, machine.name.as_deref().unwrap_or("Machine"));
    results_ui(ui, desk);
    figures_ui(ui, desk, &path, &figures::of_machine(machine));
    machine_commands_ui(ui, desk);
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
        say_ui(ui, desk, &format!("{} below the cut-out.", desk.scene.units().pressure_loss(margin)));
    }
}

fn machine_commands_ui(ui: &mut Ui, desk: &mut Desk) {
    let shelf = desk.shelf;
    ui.horizontal_wrapped(|ui| {
        if let Some(machine) = shelf_menu_ui(ui, desk, "Swap", shelf.offered()) {
            desk.actions.push(Action::Edit(Edit::SwapMachine(Box::new(machine))));
        }
        let machine = machine_in_hand(desk).0;
        shelve_ui(ui, desk, machine.name.as_deref().unwrap_or("Machine"), machine.clone());
        if command_ui(ui, "Motor", true, desk.look).clicked() {
            desk.want(Action::Select(Some(Selected::Motor)));
        }
        if let Some(part) = shelf_menu_ui(ui, desk, "Add before", shelf.offered()) {
            let at = desk.scene.kit().map_or(0, |k| k.parts.len());
            let list = PartList::Kit(desk.scene.hand());
            desk.edit(Edit::Insert { list, at, part: Box::new(part) });
        }
        if let Some(part) = shelf_menu_ui(ui, desk, "Add after", shelf.offered()) {
            desk.edit(Edit::Insert { list: PartList::Discharge, at: 0, part: Box::new(part) });
        }
    });
}

/// Fields of the cylinder.
pub fn cylinder_ui(ui: &mut Ui, desk: &mut Desk) {
    let cylinder = &desk.scene.document().cylinder;
    heading_ui(ui, desk, cylinder.name.as_deref().unwrap_or("Cylinder"));
    figures_ui(ui, desk, "cylinder", &figures::of_cylinder(cylinder));
    words_ui(ui, desk, &figures::yes_no("In the sun", cylinder.in_sun), "cylinder.in_sun");
    let shelf = desk.shelf;
    if let Some(chosen) = shelf_menu_ui(ui, desk, "Swap", shelf.offered()) {
        desk.edit(Edit::SwapCylinder(Box::new(chosen)));
    }
    shelve_ui(ui, desk, cylinder.name.as_deref().unwrap_or("Cylinder"), cylinder.clone());
}
