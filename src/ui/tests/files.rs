//! Files: drag-and-drop, another program's changes, recovery.

use std::path::PathBuf;
use std::sync::Arc;

use egui_kittest::kittest::Queryable as _;

use super::*;
use crate::ui::actions::PartList;

fn folder(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("narrows-window-{name}-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

fn with_file(name: &str) -> (Harness<'static, Window>, PathBuf) {
    let path = folder(name).join("job.ron");
    std::fs::write(&path, scenario::write(&named("bakery-freezer")).unwrap()).unwrap();
    let mut h = window(named("reference-kits"), [1366.0, 768.0]);
    apply(&mut h, Action::Open(path.clone()));
    (h, path)
}

fn take_a_part_out(h: &mut Harness<'static, Window>) {
    apply(h, Action::Edit(Edit::Remove { list: PartList::Kit(0), at: 0 }));
}

#[derive(Debug)]
struct Dropped(PathBuf);

impl egui::DroppedFile for Dropped {
    fn path(&self) -> &std::path::Path {
        &self.0
    }

    fn bytes(&self) -> Result<Vec<u8>, String> {
        std::fs::read(&self.0).map_err(|e| e.to_string())
    }
}

#[test]
fn a_file_dropped_on_the_window_is_opened() {
    let path = folder("drop").join("job.ron");
    std::fs::write(&path, scenario::write(&named("bakery-freezer")).unwrap()).unwrap();
    let mut h = window(named("reference-kits"), [1366.0, 768.0]);
    h.input_mut().dropped_files.push(Arc::new(Dropped(path.clone())));
    h.run_steps(3);
    assert_eq!(*h.state().app.session().document(), named("bakery-freezer"));
    h.input_mut().dropped_files.push(Arc::new(Dropped(path.with_file_name("none.ron"))));
    h.run_steps(3);
    h.get_by_label_contains("cannot be read");
    std::fs::remove_dir_all(path.parent().unwrap()).unwrap();
}

#[test]
fn another_programs_changes_are_not_overwritten_without_a_word() {
    let (mut h, path) = with_file("clash");
    take_a_part_out(&mut h);
    let theirs = scenario::write(&named("long-cord")).unwrap();
    std::fs::write(&path, &theirs).unwrap();
    apply(&mut h, Action::Save);
    assert_eq!(std::fs::read_to_string(&path).unwrap(), theirs);
    h.get_by_label_contains("was changed by another program");
    h.get_by_label("Leave both").click();
    h.run_steps(3);
    assert_eq!(std::fs::read_to_string(&path).unwrap(), theirs);
    assert!(h.state().app.session().is_unsaved());
    apply(&mut h, Action::Save);
    let ours = h.state().app.session().document().clone();
    assert_eq!(scenario::read(&std::fs::read_to_string(&path).unwrap()).unwrap(), ours);
    assert!(!h.state().app.session().is_unsaved());
    std::fs::remove_dir_all(path.parent().unwrap()).unwrap();
}

#[test]
fn a_change_on_the_disk_is_seen_when_the_window_is_looked_at_again() {
    let (mut h, path) = with_file("focus");
    std::fs::write(&path, scenario::write(&named("long-cord")).unwrap()).unwrap();
    h.event(egui::Event::WindowFocused(true));
    h.run_steps(3);
    h.get_by_label("Open theirs, drop mine").click();
    h.run_steps(3);
    assert_eq!(*h.state().app.session().document(), named("long-cord"));
    std::fs::remove_dir_all(path.parent().unwrap()).unwrap();
}

#[test]
fn a_save_that_fails_keeps_document_and_says_so() {
    let mut h = window(named("reference-kits"), [1366.0, 768.0]);
    take_a_part_out(&mut h);
    let document = h.state().app.session().document().clone();
    apply(&mut h, Action::SaveTo(folder("none").join("no such folder").join("x.ron")));
    h.get_by_label_contains("there is no such folder");
    assert_eq!(*h.state().app.session().document(), document);
    assert!(h.state().app.session().is_unsaved());
    let path = folder("saved after all").join("x.ron");
    apply(&mut h, Action::SaveTo(path.clone()));
    assert_eq!(scenario::read(&std::fs::read_to_string(&path).unwrap()).unwrap(), document);
    assert!(h.query_by_label_contains("there is no such folder").is_none(), "that message is over");
    std::fs::remove_dir_all(path.parent().unwrap()).unwrap();
}

#[test]
fn what_was_not_saved_comes_back_after_a_kill() {
    let keep = folder("kill");
    let mut edited = named("bakery-freezer");
    edited.kits[0].parts.remove(0);
    // No process has this number: Linux ends at 4194304.
    let copy = keep.join("recovery-4294967295.ron");
    std::fs::write(&copy, format!("// file: \n{}", scenario::write(&edited).unwrap())).unwrap();
    let mut session = Session::new(named("reference-kits"), None);
    session.keep_in(keep.clone());
    let mut h = window_on(session, [1366.0, 768.0]);
    h.get_by_label_contains("that were not saved");
    h.get_by_label("Bring them back").click();
    h.run_steps(3);
    let session = h.state().app.session();
    assert_eq!(*session.document(), edited);
    assert!(session.is_unsaved() && !copy.exists());
    std::fs::remove_dir_all(keep).unwrap();
}

#[test]
fn pages_are_written_into_a_folder_and_over_others_only_when_told() {
    let folder = folder("pages");
    let mut h = window(named("long-cord"), [1366.0, 768.0]);
    apply(&mut h, Action::PagesTo(folder.clone()));
    h.get_by_label_contains("6 files are in");
    let crew = std::fs::read_to_string(folder.join("crew.html")).unwrap();
    assert!(crew.contains("Crew page") && crew.contains(narrows::advice::DEFERENCE));
    std::fs::write(folder.join("crew.html"), "mine").unwrap();
    apply(&mut h, Action::PagesTo(folder.clone()));
    h.get_by_label_contains("has customer.html, crew.html");
    assert_eq!(std::fs::read_to_string(folder.join("crew.html")).unwrap(), "mine");
    h.get_by_label("Write mine over them").click();
    h.run_steps(3);
    assert!(std::fs::read_to_string(folder.join("crew.html")).unwrap().contains("Crew page"));
    apply(&mut h, Action::PagesTo(folder.join("no such folder").join("x")));
    h.get_by_label_contains("there is no such folder");
    std::fs::remove_dir_all(folder).unwrap();
}

#[test]
fn where_there_is_no_dialog_the_path_field_takes_a_folder_for_pages() {
    let mut h = window(named("long-cord"), [1366.0, 768.0]);
    apply(&mut h, Action::PathField(true));
    h.get_by_label("Put the pages there");
}
