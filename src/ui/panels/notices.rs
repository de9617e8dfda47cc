//! What went wrong or must be said, across the window; the path field; the about box.

use egui::Ui;

use super::Desk;
use crate::ui::actions::Action;
use crate::ui::files::typed_path;
use crate::ui::widgets::word_button::command_ui;

/// A message until it is taken note of.
pub fn message_ui(ui: &mut Ui, desk: &mut Desk, message: &str) {
    ui.horizontal(|ui| {
        let room = ui.available_width() - 80.0;
        ui.scope(|ui| {
            ui.set_max_width(room);
            ui.add(egui::Label::new(message).wrap());
        });
        if command_ui(ui, "Close", true, desk.look).clicked() {
            desk.want(Action::Dismiss);
        }
    });
}

/// Asks before changes are lost.
pub fn not_saved_ui(ui: &mut Ui, desk: &mut Desk) {
    ui.horizontal(|ui| {
        ui.label(format!("{} has changes that are not saved.", desk.scene.document().title));
        if command_ui(ui, "Save them", true, desk.look).clicked() {
            desk.want(Action::KeepChanges);
            desk.want(Action::Save);
        }
        if command_ui(ui, "Discard the changes", true, desk.look).clicked() {
            desk.want(Action::DropChanges);
        }
        if command_ui(ui, "Keep editing", true, desk.look).clicked() {
            desk.want(Action::KeepChanges);
        }
    });
}

/// What a window that was ended had not saved.
pub fn leftover_ui(ui: &mut Ui, desk: &mut Desk) {
    let Some(left) = desk.scene.session.leftover() else { return };
    let file = left.file.as_ref().map(|f| format!(" ({})", f.display())).unwrap_or_default();
    ui.horizontal_wrapped(|ui| {
        ui.label(format!("Narrows ended with changes in {}{file} that were not saved.", left.document.title));
        if command_ui(ui, "Bring them back", true, desk.look).clicked() {
            desk.want(Action::Recover);
        }
        if command_ui(ui, "Discard them", true, desk.look).clicked() {
            desk.want(Action::DropRecovery);
        }
    });
}

/// A file that saving would take from someone else.
pub fn clash_ui(ui: &mut Ui, desk: &mut Desk) {
    let Some(clash) = desk.scene.session.clash() else { return };
    let file = clash.path.display();
    ui.horizontal_wrapped(|ui| {
        ui.label(if clash.own {
            format!("{file} was changed by another program since it was opened here.")
        } else {
            format!("{file} is there already.")
        });
        if command_ui(ui, "Save mine over it", true, desk.look).clicked() {
            desk.want(Action::SaveOver);
        }
        if clash.own && command_ui(ui, "Open theirs, drop mine", true, desk.look).clicked() {
            desk.want(Action::OpenTheirs);
        }
        if command_ui(ui, "Save as…", true, desk.look).clicked() {
            desk.want(Action::LeaveBoth);
            desk.want(Action::SaveDialog);
        }
        if command_ui(ui, "Leave both", true, desk.look).clicked() {
            desk.want(Action::LeaveBoth);
        }
    });
}

/// A folder that has pages already.
pub fn pages_there_ui(ui: &mut Ui, desk: &mut Desk) {
    let Some(words) = desk.scene.session.pages_there() else { return };
    ui.horizontal_wrapped(|ui| {
        ui.label(words);
        if command_ui(ui, "Write mine over them", true, desk.look).clicked() {
            desk.want(Action::PagesOver);
        }
        if command_ui(ui, "Another folder…", true, desk.look).clicked() {
            desk.want(Action::LeavePages);
            desk.want(Action::PagesDialog);
        }
        if command_ui(ui, "Leave them", true, desk.look).clicked() {
            desk.want(Action::LeavePages);
        }
    });
}

/// A file's path to type, where there is no file dialog.
pub fn path_field_ui(ui: &mut Ui, desk: &mut Desk) {
    let id = egui::Id::unique("typed path");
    let file = desk.scene.session.file().map(|f| f.display().to_string());
    let mut text = ui.data(|d| d.get_temp::<String>(id)).or(file).unwrap_or_default();
    ui.horizontal(|ui| {
        let label = ui.label("File or folder");
        let edit = egui::TextEdit::singleline(&mut text).desired_width(420.0);
        let edit = edit.min_size(egui::vec2(420.0, desk.look.target())).align(egui::Align2::LEFT_CENTER);
        ui.add(edit).labelled_by(label.id);
        let ready = !text.trim().is_empty();
        if command_ui(ui, "Open it", ready, desk.look).clicked() {
            desk.want(Action::Open(typed_path(&text)));
        }
        if command_ui(ui, "Save to it", ready, desk.look).clicked() {
            desk.want(Action::SaveTo(typed_path(&text)));
        }
        if command_ui(ui, "Put the pages there", ready, desk.look).clicked() {
            desk.want(Action::PagesTo(text.trim().into()));
        }
        if command_ui(ui, "Close", true, desk.look).clicked() {
            desk.want(Action::PathField(false));
        }
    });
    ui.data_mut(|d| d.insert_temp(id, text));
}

/// What the program is, and what comes before it.
pub fn about_ui(ui: &mut Ui, desk: &mut Desk) {
    ui.set_max_width(560.0);
    ui.heading("Narrows");
    ui.label(concat!("Version ", env!("CARGO_PKG_VERSION")));
    ui.add_space(6.0);
    ui.label(narrows::advice::DEFERENCE);
    ui.add_space(6.0);
    ui.label("Built-in parts are generic: standard, typical or invented, and say which.");
    ui.label("Typeface: B612, SIL Open Font License 1.1.");
    ui.add_space(6.0);
    if command_ui(ui, "Close", true, desk.look).clicked() {
        desk.want(Action::About(false));
    }
}
