//! The system that is emptied, and the air around.

use egui::Ui;

use super::super::Desk;
use super::super::edit_field::edit_field_ui;
use super::super::shelf_menu::shelf_menu_ui;
use super::{field, heading_ui, optional};
use crate::ui::actions::{Edit, PartList};

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
    heading_ui(ui, desk, "Air around");
    field(ui, desk, "Temperature", "ambient.temperature", &document.ambient.temperature);
    optional(ui, desk, "Altitude", "ambient.altitude", &document.ambient.altitude);
    let shelf = desk.shelf;
    if let Some(part) = shelf_menu_ui(ui, desk, "Add a part at the port", shelf.parts.iter()) {
        let list = PartList::Kit(desk.scene.hand());
        desk.edit(Edit::Insert { list, at: 0, part: Box::new(part) });
    }
}
