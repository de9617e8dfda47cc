//! A part of the kit in hand or of the discharge path.

use egui::Ui;
use narrows::compare::same_job;
use narrows::job::PartPoint;
use narrows::kit::Part;
use narrows::presets::Item;

use super::super::Desk;
use super::super::shelf_menu::shelf_menu_ui;
use super::newer::shelve_ui;
use super::{figures_ui, heading_ui, say_ui};
use crate::ui::actions::{Edit, PartList};
use crate::ui::present::explain::part_formula;
use crate::ui::present::{figures, parts};
use crate::ui::widgets::word_button::command_ui;

/// A part of the kit in hand.
pub fn kit_part_ui(ui: &mut Ui, desk: &mut Desk, at: usize) {
    let hand = desk.scene.hand();
    let Some(part) = desk.scene.kit().and_then(|k| k.parts.get(at)) else { return };
    let path = parts::kit_part_path(desk.scene.document(), hand, at);
    let solved = desk.scene.point(hand).and_then(|p| p.parts.get(at));
    part_ui(ui, desk, part, &path, solved);
    let count = desk.scene.kit().map_or(0, |k| k.parts.len());
    commands_ui(ui, desk, PartList::Kit(hand), at, count);
}

/// A part of the second port's branch.
pub fn second_part_ui(ui: &mut Ui, desk: &mut Desk, at: usize) {
    let hand = desk.scene.hand();
    let Some(second) = desk.scene.second_port() else { return };
    let Some(part) = second.parts.get(at) else { return };
    let path = parts::second_part_path(desk.scene.document(), hand, at);
    let solved = desk.scene.point(hand).and_then(|p| p.second.as_ref()?.parts.get(at));
    part_ui(ui, desk, part, &path, solved);
    commands_ui(ui, desk, PartList::Second(hand), at, second.parts.len());
}

/// A part between machine and cylinder.
pub fn discharge_part_ui(ui: &mut Ui, desk: &mut Desk, at: usize) {
    let Some(part) = desk.scene.document().discharge.get(at) else { return };
    let solved = desk.scene.point(desk.scene.hand()).and_then(|p| p.discharge_parts.get(at));
    part_ui(ui, desk, part, &format!("discharge.{at}"), solved);
    let count = desk.scene.document().discharge.len();
    commands_ui(ui, desk, PartList::Discharge, at, count);
}

fn part_ui(ui: &mut Ui, desk: &mut Desk, part: &Part, path: &str, solved: Option<&PartPoint>) {
    heading_ui(ui, desk, &parts::name(part));
    if let Some(solved) = solved {
        say_ui(ui, desk, &solved_text(desk, solved));
        say_ui(ui, desk, part_formula(part));
    }
    figures_ui(ui, desk, path, &figures::of_part(part));
    shelve_ui(ui, desk, &format!("{}, {}", parts::name(part), parts::detail(part)), part.clone());
}

fn solved_text(desk: &Desk, solved: &PartPoint) -> String {
    let units = desk.scene.units();
    let loss = desk.scene.pressure_units().pressure_loss(solved.drop());
    let after = desk.scene.pressure_text(solved.outlet_pressure);
    let choked = if solved.choked { " Choked." } else { "" };
    let held = units.mass(solved.trapped_mass);
    let held = if solved.trapped_mass.value > 1e-6 { format!(" Holds {held}.") } else { String::new() };
    format!("Loses {loss}; {after} after it.{choked}{held}")
}

/// The shelf's parts, those that do the same job as this one first.
fn alike_first<'a>(desk: &Desk<'a>, list: PartList, at: usize) -> Vec<&'a Item<Part>> {
    let document = desk.scene.document();
    let part = match list {
        PartList::Kit(kit) => document.kits.get(kit).and_then(|k| k.parts.get(at)),
        PartList::Second(kit) => {
            document.kits.get(kit).and_then(|k| k.second_port.as_ref()).and_then(|s| s.parts.get(at))
        }
        PartList::Discharge => document.discharge.get(at),
    };
    let mut items: Vec<&Item<Part>> = desk.shelf.offered().collect();
    if let Some(part) = part {
        items.sort_by_key(|item| !same_job(item.item.kind(), part.kind()));
    }
    items
}

/// Out, another one, one more, another place.
pub fn commands_ui(ui: &mut Ui, desk: &mut Desk, list: PartList, at: usize, count: usize) {
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 2.0;
        if command_ui(ui, "Out", true, desk.look).clicked() {
            desk.edit(Edit::Remove { list, at });
        }
        let shelf = desk.shelf;
        if let Some(part) = shelf_menu_ui(ui, desk, "Swap", alike_first(desk, list, at).into_iter()) {
            desk.edit(Edit::Replace { list, at, part: Box::new(part) });
        }
        if let Some(part) = shelf_menu_ui(ui, desk, "Add before", shelf.offered()) {
            desk.edit(Edit::Insert { list, at, part: Box::new(part) });
        }
        if let Some(part) = shelf_menu_ui(ui, desk, "Add after", shelf.offered()) {
            desk.edit(Edit::Insert { list, at: at + 1, part: Box::new(part) });
        }
        if command_ui(ui, "Earlier", at > 0, desk.look).clicked() {
            desk.edit(Edit::Move { list, from: at, to: at.saturating_sub(1) });
        }
        if command_ui(ui, "Later", at + 1 < count, desk.look).clicked() {
            desk.edit(Edit::Move { list, from: at, to: at + 1 });
        }
    });
}
