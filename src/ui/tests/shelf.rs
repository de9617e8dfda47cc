//! The shelf: found, copied, typed over, retired, taken; documents stay as they are.

use std::path::PathBuf;

use egui_kittest::kittest::{NodeT as _, Queryable as _};
use narrows::kit::Part;

use super::*;
use crate::ui::view::Selected;

fn folder(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("narrows-shelf-view-{name}-{}", std::process::id()));
    // Left by an earlier run, if there.
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

fn shelf_window(name: &str, size: [f32; 2]) -> (Harness<'static, Window>, PathBuf) {
    let folder = folder(name);
    let mut session = Session::new(named("bakery-freezer"), None);
    session.keep_in(folder.clone());
    let mut h = window_on(session, size);
    apply(&mut h, Action::View(View::Shelf));
    (h, folder)
}

fn click(h: &mut Harness<'static, Window>, label: &str) {
    h.get_by_label(label).click();
    h.run_steps(3);
}

fn bore_on_shelf(h: &Harness<'static, Window>, id: &str) -> String {
    let shelf = h.state().app.session().shelf().all();
    shelf.part(id).unwrap().item.bore().unwrap().as_typed().to_owned()
}

const HOSE: &str = "Half-inch hose, 10 ft: 10.5 mm, 10 ft (9.5 to 12 mm), invented, built in";

/// Copies the half-inch hose to one's own shelf; its entry is then in hand.
fn copy_hose(h: &mut Harness<'static, Window>) {
    h.get_by_label("Find on the shelf").focus();
    h.run_steps(2);
    h.get_by_label("Find on the shelf").type_text("half inch");
    h.run_steps(3);
    click(h, HOSE);
    click(h, "Copy to my shelf");
}

#[test]
fn a_built_in_hose_is_found_copied_measured_and_taken() {
    let (mut h, folder) = shelf_window("copy", [1366.0, 768.0]);
    copy_hose(&mut h);
    let id = "own-half-inch-hose-10-ft-mine";
    type_into(&mut h, "Bore on the shelf", "9,8 mm");
    assert_eq!(bore_on_shelf(&h, id), "9,8 mm", "kept as typed");
    type_into(&mut h, "Bore on the shelf, low", "9.6");
    let text = std::fs::read_to_string(folder.join("shelf").join(format!("{id}.ron"))).unwrap();
    assert!(text.contains("bore_band: (low: \"9.6 mm\", high: \"12 mm\")"), "{text}");
    let before = h.state().app.session().document().clone();
    click(&mut h, "Add to kit A");
    let document = h.state().app.session().document();
    assert_eq!(document.kits[0].parts.len(), before.kits[0].parts.len() + 1);
    let taken = document.kits[0].parts.iter().find(|part| part.from() == Some(id)).expect("the hose");
    assert_eq!(taken.bore().unwrap().as_typed(), "9,8 mm");
    assert_eq!(h.state().app.session().view.view, View::LineUp);
    std::fs::remove_dir_all(folder).unwrap();
}

#[test]
fn a_refused_figure_is_said_and_the_file_stays() {
    let (mut h, folder) = shelf_window("refused", [1366.0, 768.0]);
    copy_hose(&mut h);
    let file = folder.join("shelf").join("own-half-inch-hose-10-ft-mine.ron");
    let before = std::fs::read_to_string(&file).unwrap();
    for (field, text) in [
        ("Bore on the shelf", "0 mm"),
        ("Bore on the shelf", "wide"),
        ("Bore on the shelf, high", "1 mm"),
        ("Length on the shelf", "none"),
    ] {
        type_into(&mut h, field, text);
        assert_eq!(std::fs::read_to_string(&file).unwrap(), before, "{field} {text}");
        assert_eq!(h.get_by_label(field).value().as_deref(), Some(text));
        h.get_by_label(field).focus();
        h.run_steps(2);
        h.key_press(Key::Escape);
        h.run_steps(2);
    }
    std::fs::remove_dir_all(folder).unwrap();
}

#[test]
fn what_is_retired_is_offered_nowhere_until_it_is_brought_back() {
    let (mut h, folder) = shelf_window("retire", [1366.0, 768.0]);
    copy_hose(&mut h);
    let offered = |h: &Harness<'static, Window>| {
        h.state().app.session().shelf().all().offered::<Part>().any(|item| item.id.starts_with("own-"))
    };
    assert!(offered(&h));
    click(&mut h, "Retire");
    assert!(!offered(&h));
    assert!(h.query_by_label_contains("mine: ").is_none(), "hidden");
    click(&mut h, "Show retired");
    h.get_by_label_contains("mine: ").click();
    h.run_steps(3);
    click(&mut h, "Bring back");
    assert!(offered(&h));
    std::fs::remove_dir_all(folder).unwrap();
}

/// A part taken from one's own shelf: the shelf changes, the document does not; the part says so.
fn taken_then_changed(name: &str) -> (Harness<'static, Window>, PathBuf) {
    let (mut h, folder) = shelf_window(name, [1366.0, 768.0]);
    apply(&mut h, Action::Select(Some(Selected::Source)));
    copy_hose(&mut h);
    click(&mut h, "Add to kit A");
    let document = h.state().app.session().document().clone();
    assert!(h.query_by_label_contains("newer figure").is_none());
    apply(&mut h, Action::View(View::Shelf));
    type_into(&mut h, "Length on the shelf", "7 ft");
    assert_eq!(*h.state().app.session().document(), document, "the shelf changes no document");
    apply(&mut h, Action::View(View::Bench));
    (h, folder)
}

#[test]
fn a_newer_figure_is_said_and_kept_or_taken() {
    let (mut h, folder) = taken_then_changed("newer");
    h.get_by_label("The shelf has a newer figure: length 7 ft instead of 10 ft.");
    h.get_by_label_contains("Hose, 10.5 mm, 10 ft, loses");
    let length = |h: &Harness<'static, Window>| {
        h.state().app.session().document().kits[0].parts[0].length().unwrap().as_typed().to_owned()
    };
    click(&mut h, "Keep");
    assert_eq!(length(&h), "10 ft");
    assert!(h.query_by_label_contains("newer figure").is_none(), "asked once");
    click(&mut h, "Undo");
    h.get_by_label_contains("The shelf has a newer figure: length");
    click(&mut h, "Update");
    assert_eq!(length(&h), "7 ft");
    assert!(h.query_by_label_contains("newer figure").is_none());
    click(&mut h, "Undo");
    assert_eq!(length(&h), "10 ft");
    std::fs::remove_dir_all(folder).unwrap();
}

#[test]
fn a_saved_document_asks_when_it_is_opened_again() {
    let (mut h, folder) = taken_then_changed("saved");
    let path = folder.join("job.ron");
    apply(&mut h, Action::SaveTo(path.clone()));
    let saved = std::fs::read_to_string(&path).unwrap();
    assert!(saved.contains("10 ft"));
    let mut session = Session::new(named("long-cord"), None);
    session.keep_in(folder.clone());
    let mut h = window_on(session, [1366.0, 768.0]);
    apply(&mut h, Action::Open(path.clone()));
    apply(&mut h, Action::Select(Some(Selected::Part(0))));
    h.get_by_label_contains("The shelf has a newer figure: length 7 ft");
    assert!(!h.state().app.session().is_unsaved());
    assert_eq!(std::fs::read_to_string(&path).unwrap(), saved);
    std::fs::remove_dir_all(folder).unwrap();
}

#[test]
fn the_search_takes_from_ones_own_shelf() {
    let (mut h, folder) = shelf_window("search", [1366.0, 768.0]);
    copy_hose(&mut h);
    let parts = h.state().app.session().document().kits[0].parts.len();
    h.key_press_modifiers(Modifiers::COMMAND, Key::K);
    h.run_steps(3);
    h.get_by_label("Command search").type_text("add mine");
    h.run_steps(3);
    h.key_press(Key::Enter);
    h.run_steps(4);
    assert_eq!(h.state().app.session().document().kits[0].parts.len(), parts + 1);
    std::fs::remove_dir_all(folder).unwrap();
}

#[test]
fn a_part_of_the_document_goes_onto_the_shelf() {
    let (mut h, folder) = shelf_window("to-shelf", [1366.0, 1400.0]);
    apply(&mut h, Action::View(View::Bench));
    apply(&mut h, Action::Select(Some(Selected::Part(0))));
    click(&mut h, "To my shelf");
    assert_eq!(h.state().app.session().view.view, View::Shelf);
    let shelf = h.state().app.session().shelf().all();
    let own = shelf.parts.iter().find(|item| item.file.is_some()).expect("one's own");
    assert_eq!(own.item.bore(), named("bakery-freezer").kits[0].parts[0].bore());
    assert_eq!(own.item.from(), None);
    assert!(!h.state().app.session().is_unsaved());
    std::fs::remove_dir_all(folder).unwrap();
}

#[test]
fn one_of_ones_own_is_begun_from_the_menu() {
    let (mut h, folder) = shelf_window("menu", [1366.0, 768.0]);
    click(&mut h, "Add my own …");
    h.get_all_by_label("Dip tube").last().expect("the kind in the menu").click();
    h.run_steps(3);
    assert_eq!(h.get_by_label("Name").value().as_deref(), Some("My dip tube"));
    type_into(&mut h, "Name", "Short dip tube");
    h.get_by_label_contains("Short dip tube: 9 mm, 16 in");
    std::fs::remove_dir_all(folder).unwrap();
}

#[test]
fn every_kind_can_be_begun_and_every_entry_shown_at_every_size() {
    let (mut h, folder) = shelf_window("kinds", [1366.0, 768.0]);
    for kind in narrows::presets::ThingKind::all() {
        let thing = crate::ui::present::shelf::pattern(h.state().app.session().shelf().all(), kind);
        let thing = thing.expect("one of each kind is built in");
        let (name, origin) = (format!("My {}", kind.label()), narrows::presets::Origin::Measured);
        let new = crate::ui::actions::NewOnShelf { name, origin, note: None, thing };
        apply(&mut h, Action::Shelve(Box::new(new)));
        let chosen = h.state().app.session().view.shelf.chosen.clone().expect("the new one");
        let things = h.state().app.session().shelf().all().things();
        let item = things.into_iter().find(|item| item.id == chosen).expect("on the shelf");
        assert_eq!(item.item.kind(), kind);
    }
    assert!(h.state().app.session().shelf().troubles().is_empty());
    for size in [[683.0, 384.0], [420.0, 260.0], [1920.0, 1080.0]] {
        h.set_size(vec2(size[0], size[1]));
        for item in h.state().app.session().shelf().all().things() {
            let look = crate::ui::view::ShelfLook { chosen: Some(item.id.clone()), ..Default::default() };
            apply(&mut h, Action::ShelfLook(Box::new(look)));
        }
    }
    std::fs::remove_dir_all(folder).unwrap();
}

#[test]
fn a_bad_file_is_said_in_words_and_by_line() {
    let (mut h, folder) = shelf_window("bad", [1366.0, 768.0]);
    copy_hose(&mut h);
    std::fs::write(folder.join("shelf").join("bad.ron"), "(schema: 1,\n cords: [(id: 7)])").unwrap();
    h.event(egui::Event::WindowFocused(true));
    h.run_steps(3);
    h.get_by_label_contains("bad.ron, line 2");
    h.get_by_label_contains("mine: ");
    let nodes = h.root().children_recursive();
    let named = nodes.filter(|node| node.accesskit_node().label().is_some()).count();
    assert!(named > 20, "{named}");
    std::fs::remove_dir_all(folder).unwrap();
}
