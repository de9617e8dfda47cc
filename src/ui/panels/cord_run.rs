//! Cord run: the power path with its voltage stairs; under it every wire in a table to edit, or where to put
//! the machine.

use egui::{Rect, Ui, UiBuilder, pos2, vec2};
use narrows::power::{Element, ElementKind};

use super::Desk;
use super::bench::{motor_column, power_in_ui};
use super::edit_field::bare_field_ui;
use super::inspector::cord_path;
use super::line_up::also_ui;
use super::place::{is_stacked, place_ui};
use crate::ui::actions::{Action, Edit};
use crate::ui::diagram::volts::VoltsPlace;
use crate::ui::panels::shelf_menu::shelf_menu_ui;
use crate::ui::present::quantity::also_length;
use crate::ui::present::volts;
use crate::ui::style::fonts;
use crate::ui::view::CordPage;
use crate::ui::widgets::word_button::tab_ui;

/// Below this height the voltage stairs and the places have no room above one another; with the places' words
/// under their picture they need more.
const LOW: f32 = 460.0;
const LOW_STACKED: f32 = 760.0;
/// Share of the height that the places take.
const PLACE_RATIO: f32 = 0.6;

/// The view.
pub fn cord_run_ui(ui: &mut Ui, desk: &mut Desk) {
    let area = ui.max_rect();
    let page = desk.scene.session.view.cord_page;
    let least = if is_stacked(area.width(), desk.look) { LOW_STACKED } else { LOW };
    let rows = volts::cords(desk.scene).len() as f32 + 4.0;
    let lower = match page {
        CordPage::Wires => (rows * (desk.look.target() + 8.0) + 40.0).min(area.height() * 0.5),
        CordPage::Place if area.height() < least => area.height(),
        CordPage::Place => area.height() * PLACE_RATIO,
    };
    let split = area.bottom() - lower;
    if split > area.top() {
        let upper = Rect::from_min_max(area.min + vec2(0.0, 8.0), pos2(area.right(), split - 6.0));
        let left = area.left() + desk.look.measures.left_margin;
        let machine = motor_column(area, 110.0);
        power_in_ui(ui, desk, VoltsPlace { rect: upper, left, machine, riser: None });
        ui.painter().hline(area.x_range(), split, desk.look.hairline(desk.look.palette.edge));
    }
    let lower = Rect::from_min_max(pos2(area.left(), split), area.max).shrink2(vec2(12.0, 6.0));
    let mut child = ui.new_child(UiBuilder::new().id_salt("table").max_rect(lower));
    pages_ui(&mut child, desk, page);
    egui::ScrollArea::vertical().auto_shrink([false, false]).show(&mut child, |ui| match page {
        CordPage::Wires => wires_ui(ui, desk),
        CordPage::Place => place_ui(ui, desk),
    });
}

fn pages_ui(ui: &mut Ui, desk: &mut Desk, open: CordPage) {
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 0.0;
        for page in CordPage::ALL {
            if tab_ui(ui, page.name(), page == open, desk.look.target(), desk.look).clicked() {
                desk.want(Action::CordPage(page));
            }
        }
    });
}

fn wires_ui(ui: &mut Ui, desk: &mut Desk) {
    egui::ScrollArea::horizontal()
        .id_salt("wires")
        .auto_shrink([false, true])
        .show(ui, |ui| table_ui(ui, desk));
    let shelf = desk.shelf;
    if let Some(cord) = shelf_menu_ui(ui, desk, "Add a cord", shelf.offered()) {
        desk.edit(Edit::AddCord(Box::new(cord)));
    }
}

fn table_ui(ui: &mut Ui, desk: &mut Desk) {
    egui::Grid::new("wires").striped(true).min_row_height(desk.look.target()).spacing(vec2(14.0, 4.0)).show(
        ui,
        |ui| {
            let words = [
                "",
                "Gauge",
                "Length",
                "Breaker or marking",
                "Loses running",
                "Loses starting",
                "Heat",
                "Conductor",
            ];
            for word in words {
                let font = fonts::bold(desk.look.measures.small);
                ui.label(egui::RichText::new(word).font(font).color(desk.look.palette.ink2));
            }
            ui.end_row();
            supply_row_ui(ui, desk);
            branch_row_ui(ui, desk);
            for at in 0..volts::cords(desk.scene).len() {
                cord_row_ui(ui, desk, at);
            }
        },
    );
}

fn supply_row_ui(ui: &mut Ui, desk: &mut Desk) {
    let supply = &desk.scene.document().supply;
    ui.label(if supply.generator.is_some() { "Generator" } else { "Panel" });
    let voltage = supply.voltage.as_typed();
    bare_field_ui(ui, desk, "Supply voltage", "supply.voltage", voltage, 90.0);
    ui.label("");
    ui.label("");
    losses_ui(ui, desk, ElementKind::Supply);
    ui.end_row();
}

fn branch_row_ui(ui: &mut Ui, desk: &mut Desk) {
    let Some(branch) = &desk.scene.document().supply.branch else { return };
    ui.label("Branch circuit");
    let breaker = branch.breaker.as_ref().map_or("", |b| b.as_typed());
    bare_field_ui(ui, desk, "Branch gauge", "supply.branch.gauge", branch.gauge.as_typed(), 90.0);
    ui.horizontal(|ui| {
        bare_field_ui(ui, desk, "Branch length", "supply.branch.length", branch.length.as_typed(), 90.0);
        also_ui(ui, also_length(desk.scene.units(), &branch.length));
    });
    bare_field_ui(ui, desk, "Breaker", "supply.branch.breaker", breaker, 90.0);
    losses_ui(ui, desk, ElementKind::Branch);
    ui.end_row();
}

fn cord_row_ui(ui: &mut Ui, desk: &mut Desk, at: usize) {
    let Some(cord) = volts::cords(desk.scene).get(at) else { return };
    let path = cord_path(desk, at);
    let name = format!("Cord {}", at + 1);
    let marked = cord.marked_current.as_ref().map_or("", |m| m.as_typed());
    ui.label(&name);
    let gauge = cord.gauge.as_typed();
    bare_field_ui(ui, desk, &format!("{name} gauge"), &format!("{path}.gauge"), gauge, 90.0);
    let length = cord.length.as_typed();
    ui.horizontal(|ui| {
        bare_field_ui(ui, desk, &format!("{name} length"), &format!("{path}.length"), length, 90.0);
        also_ui(ui, also_length(desk.scene.units(), &cord.length));
    });
    bare_field_ui(ui, desk, &format!("{name} marked amps"), &format!("{path}.marked_current"), marked, 90.0);
    losses_ui(ui, desk, ElementKind::Cord(at));
    ui.end_row();
}

fn losses_ui(ui: &mut Ui, desk: &Desk, kind: ElementKind) {
    let power = desk.scene.power(desk.scene.hand());
    let Some(element) = power.and_then(|p| p.elements.iter().find(|e| e.kind == kind)) else { return };
    for text in loss_texts(desk, element) {
        ui.label(text);
    }
}

fn loss_texts(desk: &Desk, element: &Element) -> [String; 4] {
    let units = desk.scene.units();
    [
        element.running_drop.map(|d| units.voltage(d)).unwrap_or_default(),
        units.voltage(element.starting_drop),
        element.heat.map(|h| units.power(h)).unwrap_or_default(),
        element.conductor_temperature.map(|t| units.temperature(t)).unwrap_or_default(),
    ]
}
