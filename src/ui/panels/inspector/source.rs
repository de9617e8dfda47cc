//! The system that is emptied, and the air around.

use egui::Ui;
use narrows::kit::Part;

use super::super::Desk;
use super::super::edit_field::edit_field_ui;
use super::super::shelf_menu::shelf_menu_ui;
use super::{field, heading_ui, optional, say_ui, words_ui};
use crate::ui::actions::{Edit, PartList};
use crate::ui::present::figures::yes_no;
use crate::ui::present::parts;
use crate::ui::widgets::choice::choice_ui;
use crate::ui::widgets::field::label_ui;
use crate::ui::widgets::word_button::command_ui;

/// Fields of source and ambient.
pub fn source_ui(ui: &mut Ui, desk: &mut Desk) {
    let document = desk.scene.document();
    heading_ui(ui, desk, "System");
    edit_field_ui(ui, desk, "Title", "title", &document.title);
    edit_field_ui(ui, desk, "Place", "place", document.place.as_deref().unwrap_or_default());
    field(ui, desk, "Temperature", "source.temperature", &document.source.temperature);
    optional(ui, desk, "Charge", "source.charge", &document.source.charge);
    optional(ui, desk, "Volume", "source.volume", &document.source.volume);
    optional(ui, desk, "Vapour share", "source.vapour_share", &document.source.vapour_share);
    words_ui(ui, desk, &yes_no("Burned out", document.source.burnout), "source.burnout");
    heading_ui(ui, desk, "Air around");
    field(ui, desk, "Temperature", "ambient.temperature", &document.ambient.temperature);
    optional(ui, desk, "Altitude", "ambient.altitude", &document.ambient.altitude);
    second_port_ui(ui, desk);
    let shelf = desk.shelf;
    if let Some(part) = shelf_menu_ui(ui, desk, "Add a part at the port", shelf.offered()) {
        let list = PartList::Kit(desk.scene.hand());
        desk.edit(Edit::Insert { list, at: 0, part: Box::new(part) });
    }
}

/// A second connection: there or not, and where it meets the first.
fn second_port_ui(ui: &mut Ui, desk: &mut Desk) {
    let hand = desk.scene.hand();
    let Some(kit) = desk.scene.kit() else { return };
    let Some(second) = &kit.second_port else {
        if command_ui(ui, "Add a second port", kit.parts.len() > 1, desk.look).clicked() {
            desk.edit(Edit::AddSecondPort(hand));
        }
        return;
    };
    heading_ui(ui, desk, "Second port");
    if let Some(solved) = desk.scene.point(hand).and_then(|p| p.second.as_ref()) {
        let units = desk.scene.units();
        let (first, own) = (units.rate(solved.first_mass_flow), units.rate(solved.mass_flow));
        say_ui(ui, desk, &format!("{own} through it, {first} through the first."));
    }
    let words: Vec<String> = (1..=kit.parts.len()).map(|at| meeting_words(kit.parts.get(at), at)).collect();
    let current = meeting_words(kit.parts.get(second.joins_before), second.joins_before);
    ui.horizontal(|ui| {
        label_ui(ui, "Meets before", desk.look);
        if let Some(i) = choice_ui(ui, "Meets before", &current, &words, 112.0, desk.look) {
            let path = format!("kits.{}.second_port.joins_before", kit.name);
            desk.edit(Edit::Set { path, text: (i + 1).to_string() });
        }
    });
    if command_ui(ui, "Remove the second port", true, desk.look).clicked() {
        desk.edit(Edit::RemoveSecondPort(hand));
    }
}

fn meeting_words(part: Option<&Part>, at: usize) -> String {
    part.map_or("the machine".to_owned(), |p| format!("{}. {}", at + 1, parts::name(p)))
}
