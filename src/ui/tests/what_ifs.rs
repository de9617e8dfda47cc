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

fn volts(h: &Harness<'static, Window>) -> (f64, f64) {
    let session = h.state().app.session();
    let power = session.answer().unwrap().kits[session.view.kit].power().unwrap();
    (power.running.point().unwrap().voltage.value, power.starting.voltage.value)
}

fn long_cord(view: View, size: [f32; 2], selected: Selected) -> Harness<'static, Window> {
    let mut h = window(named("long-cord"), size);
    apply(&mut h, Action::View(view));
    apply(&mut h, Action::Select(Some(selected)));
    h
}

/// Each word held lifts the volts (ohm's law: less resistance, less loss) and let go takes it back.
fn hold_each(h: &mut Harness<'static, Window>, words: &[&str]) {
    let document = h.state().app.session().document().clone();
    let before = volts(h);
    for word in words {
        let at = h.get_by_label_contains(word).rect().center();
        press(h, at, true);
        let tried = volts(h);
        assert!(tried.0 > before.0 && tried.1 > before.1, "{word}: {before:?} to {tried:?}");
        assert!(!h.state().app.session().is_unsaved(), "trying changes nothing");
        press(h, at, false);
        assert_eq!((h.state().app.session().document(), volts(h)), (&document, before), "{word}");
    }
}

const CORD: [&str; 3] =
    ["Hold to try: Cord 1 out", "Hold to try: Cord 1, 12 AWG", "Hold to try: Cord 1, 50 ft"];

#[test]
fn a_cord_is_tried_out_thicker_and_shorter_in_bench_and_cord_run() {
    for view in [View::Bench, View::CordRun] {
        let mut h = long_cord(view, [1366.0, 768.0], Selected::Cord(0));
        hold_each(&mut h, &CORD);
    }
}

#[test]
fn branch_and_supply_are_tried_too() {
    let mut h = long_cord(View::Bench, [1366.0, 768.0], Selected::Branch);
    hold_each(&mut h, &["Hold to try: Branch circuit out", "Hold to try: Branch circuit, 12 AWG"]);
    let mut h = long_cord(View::CordRun, [1366.0, 768.0], Selected::Supply);
    // 5 % of 120 V more.
    hold_each(&mut h, &["Hold to try: supply at 126 V"]);
}

#[test]
fn enter_keeps_a_thicker_cord_as_one_step_of_undo() {
    let mut h = long_cord(View::Bench, [1366.0, 768.0], Selected::Cord(0));
    let before = volts(&h);
    let at = h.get_by_label_contains(CORD[1]).rect().center();
    press(&mut h, at, true);
    h.key_press(Key::Enter);
    h.run_steps(3);
    press(&mut h, at, false);
    assert_eq!(h.state().app.session().document().supply.cords[0].gauge.as_typed(), "12 AWG");
    assert!(volts(&h).0 > before.0);
    h.get_by_label("Undo").click();
    h.run_steps(3);
    assert_eq!(*h.state().app.session().document(), named("long-cord"));
}

/// 1366 by 768 at 200 %.
#[test]
fn the_narrow_window_tries_parts_and_cords() {
    let mut h = long_cord(View::Bench, [683.0, 384.0], Selected::Cord(0));
    hold_each(&mut h, &CORD);
    let mut h = window(named("bakery-freezer"), [683.0, 384.0]);
    apply(&mut h, Action::Select(Some(Selected::Part(0))));
    let before = rate(&h);
    let at = h.get_by_label_contains("Hold to try: Valve core out").rect().center();
    press(&mut h, at, true);
    assert!(rate(&h) > before);
    press(&mut h, at, false);
    assert_eq!(rate(&h), before);
    assert!(!h.state().app.session().is_unsaved());
}

#[test]
fn ctrl_with_an_arrow_moves_a_part() {
    let mut h = bakery();
    let parts = |h: &Harness<'static, Window>| h.state().app.session().document().kits[0].parts.clone();
    let before = parts(&h);
    h.get_by_label_contains("Hose, 4.8 mm, 5 ft").focus();
    h.run_steps(2);
    h.key_press_modifiers(Modifiers::COMMAND, Key::ArrowRight);
    h.run_steps(3);
    assert_eq!((&parts(&h)[1], &parts(&h)[2]), (&before[2], &before[1]));
    h.get_by_label_contains("Hose, 4.8 mm, 5 ft").focus();
    h.run_steps(2);
    h.key_press_modifiers(Modifiers::COMMAND, Key::ArrowLeft);
    h.run_steps(3);
    assert_eq!(parts(&h), before);
}
