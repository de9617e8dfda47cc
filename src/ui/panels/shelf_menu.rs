//! Menus of parts to choose from.

use egui::{Ui, vec2};
use narrows::presets::{Item, OnShelf};

use super::Desk;
use crate::ui::widgets::word_button::command_ui;

/// A word that opens a list of the shelf's things; returns the one chosen.
pub fn shelf_menu_ui<'a, T>(
    ui: &mut Ui,
    desk: &Desk,
    word: &str,
    items: impl Iterator<Item = &'a Item<T>>,
) -> Option<T>
where
    T: OnShelf,
{
    let response = command_ui(ui, &format!("{word} …"), true, desk.look);
    let mut chosen = None;
    egui::Popup::menu(&response).width(290.0).show(|ui| {
        egui::ScrollArea::vertical().max_height(380.0).show(ui, |ui| {
            for item in items {
                let button = egui::Button::new(item.name.as_str()).min_size(vec2(280.0, desk.look.target()));
                let own = if item.file.is_some() { "own" } else { "" };
                let response = ui.add(button.truncate().shortcut_text(own));
                let response = match &item.note {
                    Some(note) => response.on_hover_text(format!("{note} ({})", item.origin.label())),
                    None => response.on_hover_text(item.origin.label()),
                };
                if response.clicked() {
                    chosen = Some(item.taken());
                    ui.close();
                }
            }
        });
    });
    chosen
}
