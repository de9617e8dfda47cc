//! Line-up: the chain with larger stairs, and every part in a table to edit.

use egui::{Rect, Ui, UiBuilder, pos2, vec2};
use narrows::job::PartPoint;
use narrows::kit::Part;
use uom::si::ratio::ratio;

use super::Desk;
use super::bench::{chain_and_stairs_ui, stairs_need};
use super::edit_field::bare_field_ui;
use crate::ui::actions::Action;
use crate::ui::diagram::columns::Columns;
use crate::ui::present::parts;
use crate::ui::present::quantity::{also_bore, also_length};
use crate::ui::style::fonts;
use crate::ui::view::Selected;
use crate::ui::widgets::word_button::command_ui;

/// The view.
pub fn line_up_ui(ui: &mut Ui, desk: &mut Desk) {
    let area = ui.max_rect();
    let second = |k: &narrows::kit::Kit| k.second_port.as_ref().map_or(0, |s| s.parts.len() + 1);
    let rows = desk.scene.kit().map_or(0, |k| k.parts.len() + second(k)) as f32;
    let row = desk.look.target() + 6.0;
    // Where there is little height the table scrolls, and the stairs keep what they need.
    let spare = (area.height() - stairs_need(desk)).max(3.0 * row);
    let table = ((rows + 1.0) * row + 16.0).min(area.height() * 0.42).min(spare);
    let columns = Columns::fit(area.x_range(), desk.scene.slots.len(), &desk.look.measures);
    let split = area.bottom() - table;
    let upper = Rect::from_min_max(area.min, pos2(area.right(), split));
    chain_and_stairs_ui(ui, desk, upper, &columns);
    ui.painter().hline(area.x_range(), split, desk.look.hairline(desk.look.palette.edge));
    let lower = Rect::from_min_max(pos2(area.left(), split), area.max).shrink2(vec2(12.0, 6.0));
    let mut child = ui.new_child(UiBuilder::new().id_salt("table").max_rect(lower));
    egui::ScrollArea::both().auto_shrink([false, false]).show(&mut child, |ui| table_ui(ui, desk));
}

/// Folds the stairs' axis; at their foot, where it covers nothing of them.
fn fold_command_ui(ui: &mut Ui, desk: &mut Desk) {
    let unfolded = desk.scene.session.view.unfolded;
    let word = if unfolded { "Fold (Z)" } else { "Unfold (Z)" };
    if command_ui(ui, word, true, desk.look).clicked() {
        desk.want(Action::Unfold(!unfolded));
    }
}

fn table_ui(ui: &mut Ui, desk: &mut Desk) {
    let Some(kit) = desk.scene.kit() else { return };
    let hand = desk.scene.hand();
    egui::Grid::new("parts").striped(true).min_row_height(desk.look.target()).spacing(vec2(10.0, 4.0)).show(
        ui,
        |ui| {
            for word in ["Part", "Bore or hole", "Length", "Loss", "After it", "Vapour", "Holds"] {
                let font = fonts::bold(desk.look.measures.small);
                ui.label(egui::RichText::new(word).font(font).color(desk.look.palette.ink2));
            }
            fold_command_ui(ui, desk);
            ui.end_row();
            for (at, part) in kit.parts.iter().enumerate() {
                let solved = desk.scene.point(hand).and_then(|p| p.parts.get(at));
                name_ui(ui, desk, at, part);
                let path = parts::kit_part_path(desk.scene.document(), hand, at);
                sizes_ui(ui, desk, part, &path, &format!("{} {}", parts::name(part), at + 1));
                results_ui(ui, desk, solved);
                ui.end_row();
            }
            second_port_ui(ui, desk);
        },
    );
}

fn name_ui(ui: &mut Ui, desk: &mut Desk, at: usize, part: &Part) {
    if command_ui(ui, &format!("{}. {}", at + 1, parts::name(part)), true, desk.look).clicked() {
        desk.want(Action::Select(Some(Selected::Part(at))));
    }
}

/// The branch of a second port: where it joins, its share, its parts.
fn second_port_ui(ui: &mut Ui, desk: &mut Desk) {
    let Some(kit) = desk.scene.kit() else { return };
    let Some(second) = &kit.second_port else { return };
    let solved = desk.scene.point(desk.scene.hand()).and_then(|p| p.second.as_ref());
    let joins = kit.parts.get(second.joins_before).map_or("the machine".to_owned(), parts::name);
    ui.label(egui::RichText::new(format!("Second port, joins before {joins}")).strong());
    if let Some(solved) = solved {
        let units = desk.scene.units();
        ui.label(units.rate(solved.mass_flow));
        ui.label("first port:");
        ui.label(units.rate(solved.first_mass_flow));
    }
    ui.end_row();
    for (at, part) in second.parts.iter().enumerate() {
        let name = format!("second {}. {}", at + 1, parts::name(part));
        if command_ui(ui, &name, true, desk.look).clicked() {
            desk.want(Action::Select(Some(Selected::SecondPart(at))));
        }
        let path = parts::second_part_path(desk.scene.document(), desk.scene.hand(), at);
        sizes_ui(ui, desk, part, &path, &format!("second port, {} {}", parts::name(part), at + 1));
        results_ui(ui, desk, solved.and_then(|s| s.parts.get(at)));
        ui.end_row();
    }
}

fn sizes_ui(ui: &mut Ui, desk: &mut Desk, part: &Part, path: &str, name: &str) {
    match part.bore() {
        Some(bore) => {
            let text = bore.as_typed();
            ui.horizontal(|ui| {
                bare_field_ui(ui, desk, &format!("Bore of {name}"), &format!("{path}.bore"), text, 90.0);
                also_ui(ui, also_bore(desk.scene.units(), bore));
            });
        }
        None => {
            ui.label(parts::detail(part));
        }
    }
    match part.length() {
        Some(length) => {
            let text = length.as_typed();
            ui.horizontal(|ui| {
                bare_field_ui(ui, desk, &format!("Length of {name}"), &format!("{path}.length"), text, 90.0);
                also_ui(ui, also_length(desk.scene.units(), length));
            });
        }
        None => {
            ui.label("");
        }
    }
}

/// What was typed in another unit, in the unit of answers.
pub fn also_ui(ui: &mut Ui, text: Option<String>) {
    if let Some(text) = text {
        ui.label(text);
    }
}

fn results_ui(ui: &mut Ui, desk: &Desk, solved: Option<&PartPoint>) {
    let Some(solved) = solved else {
        for _ in 0..5 {
            ui.label("");
        }
        return;
    };
    let units = desk.scene.units();
    let loss = egui::RichText::new(desk.scene.units().pressure_loss(solved.drop()))
        .color(desk.look.palette.fall_text);
    ui.label(loss.font(fonts::bold(desk.look.measures.body)));
    ui.label(desk.scene.pressure_text(solved.outlet_pressure));
    ui.label(units.share(solved.outlet_quality.get::<ratio>().clamp(0.0, 1.0)));
    let held = solved.trapped_mass;
    ui.label(if held.value > 1e-4 { units.mass(held) } else { String::new() });
    ui.label(match (solved.choked, solved.flash_onset) {
        (true, _) => "CHOKED",
        (false, true) => "flashes",
        (false, false) => "",
    });
}
