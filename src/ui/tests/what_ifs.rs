//! One gesture: held to try, let go to go back, Enter to keep; parts dragged to other places.

use egui::Key;
use egui_kittest::kittest::Queryable as _;

use super::*;
use crate::ui::view::Selected;

fn bakery() -> Harness<'static, Window> {
    let mut h = window(named("bakery-freezer"), [1366.0, 900.0]);
    apply(&mut h, Action::Overlay(false));
    apply(&mut h, Action::Select(Some(Selected::Part(0))));
    h
}

fn press(h: &mut Harness<'static, Window>, at: egui::Pos2, pressed: bool) {
    if pressed {
        h.hover_at(at);
        h.drag_at(at);
    } else {
        h.drop_at(at);
    }
    h.run_steps(3);
}

#[test]
fn held_out_shows_the_gain_and_let_go_takes_it_back() {
    let mut h = bakery();
    let (document, before) = (h.state().app.session().document().clone(), rate(&h));
    let at = h.get_by_label_contains("Hold to try: Valve core out").rect().center();
    press(&mut h, at, true);
    assert!(rate(&h) > before, "a part out never lowers the rate");
    assert!(!h.state().app.session().is_unsaved(), "trying changes nothing");
    h.get_by_label_contains("Valve core, out");
    press(&mut h, at, false);
    assert_eq!(*h.state().app.session().document(), document);
    assert_eq!(rate(&h), before);
    assert_eq!(h.state().app.session().can_undo_redo(), (false, false));
}

#[test]
fn enter_while_held_keeps_it_as_one_step_of_undo() {
    let mut h = bakery();
    let before = rate(&h);
    let at = h.get_by_label_contains("Hold to try: Valve core out").rect().center();
    press(&mut h, at, true);
    h.key_press(Key::Enter);
    h.run_steps(3);
    press(&mut h, at, false);
    let parts = h.state().app.session().document().kits[0].parts.len();
    assert_eq!(parts + 1, named("bakery-freezer").kits[0].parts.len());
    assert!(rate(&h) > before);
    h.get_by_label("Undo").click();
    h.run_steps(3);
    assert_eq!(*h.state().app.session().document(), named("bakery-freezer"));
}

#[test]
fn the_space_bar_holds_too() {
    let mut h = bakery();
    let before = rate(&h);
    h.get_by_label_contains("Hold to try: Valve core out").focus();
    h.run_steps(2);
    h.key_down(Key::Space);
    h.run_steps(3);
    assert!(rate(&h) > before);
    h.key_up(Key::Space);
    h.run_steps(3);
    assert_eq!(rate(&h), before);
}

/// A hose dragged onto the gauge set's column changes places with it.
#[test]
fn a_part_is_dragged_to_another_place() {
    let mut h = bakery();
    let parts = |h: &Harness<'static, Window>| h.state().app.session().document().kits[0].parts.clone();
    let before = parts(&h);
    let hose = h.get_by_label_contains("Hose, 4.8 mm, 5 ft").rect().center();
    let next = h.get_by_label_contains("Gauge set, ").rect().center();
    press(&mut h, hose, true);
    h.hover_at(hose + (next - hose) * 0.5);
    h.run_steps(2);
    press(&mut h, next, false);
    let after = parts(&h);
    assert_eq!((&after[1], &after[2]), (&before[2], &before[1]));
}
