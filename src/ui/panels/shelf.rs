//! Shelf: everything there is to take, by kind and by words; one's own to change.

mod detail;
mod list;

use egui::{Rect, Ui, UiBuilder, pos2, vec2};
use narrows::presets::{Item, Origin, Thing, ThingKind};

use super::Desk;
use crate::ui::actions::{Action, NewOnShelf};
use crate::ui::present::shelf::{self, Row};
use crate::ui::style::fonts;
use crate::ui::symbols::Mark;
use crate::ui::view::ShelfLook;
use crate::ui::widgets::choice::{choice_ui, menu_ui};
use crate::ui::widgets::find::find_field_ui;
use crate::ui::widgets::word_button::command_ui;

pub use detail::take;

/// Below this width the entry in hand unfolds in the list, not beside it.
const WIDE: f32 = 760.0;

/// The view.
pub fn shelf_ui(ui: &mut Ui, desk: &mut Desk) {
    let area = ui.max_rect().shrink2(vec2(12.0, 8.0));
    let rows = shelf::rows(desk.shelf, &desk.scene.session.view.shelf);
    let chosen = chosen(desk, &rows);
    if area.width() < WIDE {
        // There the list comes first; what unfolds in it is chosen.
        let mut child = ui.new_child(UiBuilder::new().id_salt("shelf").max_rect(area));
        egui::ScrollArea::vertical().auto_shrink([false, false]).show(&mut child, |ui| {
            bar_ui(ui, desk);
            list::list_ui(ui, desk, &rows, chosen.as_ref(), true);
        });
        return;
    }
    let width = (area.width() * 0.42).clamp(400.0, 620.0);
    let split = area.right() - width;
    let left = Rect::from_min_max(area.min, pos2(split - 14.0, area.bottom()));
    let right = Rect::from_min_max(pos2(split, area.top()), area.max);
    let mut child = ui.new_child(UiBuilder::new().id_salt("shelf list").max_rect(left));
    bar_ui(&mut child, desk);
    egui::ScrollArea::vertical().auto_shrink([false, false]).show(&mut child, |ui| {
        list::list_ui(ui, desk, &rows, chosen.as_ref(), false);
    });
    ui.painter().vline(split - 7.0, area.y_range(), desk.look.hairline(desk.look.palette.edge));
    let mut child = ui.new_child(UiBuilder::new().id_salt("shelf entry").max_rect(right));
    egui::ScrollArea::vertical().id_salt("entry").auto_shrink([false, false]).show(&mut child, |ui| {
        if let Some(item) = chosen.as_ref().or(rows.first().map(|row| &row.item)) {
            detail::detail_ui(ui, desk, item);
        }
    });
}

/// The entry in hand, if it is still there.
fn chosen(desk: &Desk, rows: &[Row]) -> Option<Item<Thing>> {
    let id = desk.scene.session.view.shelf.chosen.as_ref()?;
    rows.iter().find(|row| row.item.id == *id).map(|row| row.item.clone())
}

/// What is looked for, what can be added, what is wrong.
fn bar_ui(ui: &mut Ui, desk: &mut Desk) {
    let look = desk.scene.session.view.shelf.clone();
    ui.horizontal_wrapped(|ui| {
        kind_ui(ui, desk, &look);
        words_ui(ui, desk, &look);
        let word = if look.retired { "Hide retired" } else { "Show retired" };
        if command_ui(ui, word, true, desk.look).clicked() {
            want(desk, ShelfLook { retired: !look.retired, ..look.clone() });
        }
        new_ui(ui, desk);
    });
    for trouble in desk.scene.session.shelf().troubles().to_vec() {
        super::findings::finding_ui(ui, desk.look, Mark::Note, "Note", &trouble);
    }
    where_ui(ui, desk);
}

fn want(desk: &mut Desk, look: ShelfLook) {
    desk.want(Action::ShelfLook(Box::new(look)));
}

fn kind_ui(ui: &mut Ui, desk: &mut Desk, look: &ShelfLook) {
    let kinds: Vec<ThingKind> = ThingKind::all().collect();
    let mut words = vec!["All kinds".to_owned()];
    words.extend(kinds.iter().map(|kind| kind.label().to_owned()));
    let current = look.kind.map_or("All kinds", ThingKind::label);
    let width = 150.0 * desk.look.measures.body / 13.0;
    if let Some(at) = choice_ui(ui, "Kind", current, &words, width, desk.look) {
        let kind = at.checked_sub(1).and_then(|at| kinds.get(at)).copied();
        want(desk, ShelfLook { kind, ..look.clone() });
    }
}

fn words_ui(ui: &mut Ui, desk: &mut Desk, look: &ShelfLook) {
    let words = find_field_ui(ui, "Find on the shelf", "Find by words", &look.words, desk.look);
    if let Some(words) = words {
        want(desk, ShelfLook { words, ..look.clone() });
    }
}

fn new_ui(ui: &mut Ui, desk: &mut Desk) {
    let kinds: Vec<ThingKind> = ThingKind::all().collect();
    let words: Vec<&str> = kinds.iter().map(|kind| kind.label()).collect();
    let Some(kind) = menu_ui(ui, "Add my own", &words, desk.look).and_then(|at| kinds.get(at)) else {
        return;
    };
    if let Some(thing) = shelf::pattern(desk.shelf, *kind) {
        let name = format!("My {}", kind.label().to_lowercase());
        let note = Some("Begun as a copy: put in your own figures.".to_owned());
        desk.want(Action::Shelve(Box::new(NewOnShelf { name, origin: Origin::Invented, note, thing })));
    }
}

fn where_ui(ui: &mut Ui, desk: &Desk) {
    let Some(folder) = desk.scene.session.shelf().folder() else { return };
    let text = format!("Your own things are text files in {}", folder.display());
    let font = fonts::regular(desk.look.measures.small);
    let text = egui::RichText::new(text).font(font).color(desk.look.palette.ink2);
    ui.add(egui::Label::new(text).truncate());
}
