//! Where to put the machine: dragged, stepped by keys, put there, undone; covered in a class.

use egui_kittest::kittest::{NodeT as _, Queryable as _};

use super::*;
use crate::ui::view::CordPage;

const SLIDER: &str = "Where the machine stands, ";

fn placed(id: &str, size: [f32; 2]) -> Harness<'static, Window> {
    let mut session = Session::new(named(id), None);
    session.study_now(None);
    session.view.view = View::CordRun;
    session.view.cord_page = CordPage::Place;
    window_on(session, size)
}

fn lengths(h: &Harness<'static, Window>) -> (String, Vec<String>) {
    let document = h.state().app.session().document();
    let hose = document.kits[0].parts[1].length().expect("a hose").as_typed().to_owned();
    (hose, document.supply.cords.iter().map(|cord| cord.length.as_typed().to_owned()).collect())
}

fn slider_words(h: &Harness<'static, Window>) -> String {
    h.get_by_label_contains(SLIDER).accesskit_node().label().unwrap_or_default()
}

/// The draws come after the places, and say whether another one is really faster.
#[test]
fn the_draws_are_told() {
    let mut document = named("market-generator");
    document.kits.truncate(1);
    let mut session = Session::new(document, None);
    session.study_now(narrows::compare::DrawPlan::new(16, 1).ok());
    session.view.view = View::CordRun;
    session.view.cord_page = CordPage::Place;
    let h = window_on(session, [1366.0, 768.0]);
    h.get_by_label_contains("Leave the machine where it is, at 15 ft of hose and 100 ft of cord: ");
    h.get_by_label_contains("Certainty: 16 draws of 3 ft of hose and 112 ft of cord against today's place: ");
}

#[test]
fn the_page_is_found_by_its_name() {
    let mut session = Session::new(named("long-cord"), None);
    session.study_now(None);
    session.view.view = View::CordRun;
    let mut h = window_on(session, [1366.0, 768.0]);
    h.get_by_label("Cord 1 gauge");
    h.get_by_label("Where to put the machine").click();
    h.run_steps(3);
    h.get_by_label_contains(&format!("{SLIDER}5 ft of hose and 100 ft of cord (today): "));
    h.get_by_label("Wires").click();
    h.run_steps(3);
    h.get_by_label("Cord 1 gauge");
}

/// By keys alone: to the receptacle, one place back, put there in one step, and undone in one.
#[test]
fn the_machine_is_moved_by_keys_and_put_there() {
    let mut h = placed("long-cord", [1366.0, 768.0]);
    let before = h.state().app.session().document().clone();
    h.get_by_label_contains(SLIDER).focus();
    h.run_steps(2);
    h.key_press(Key::End);
    h.run_steps(3);
    assert!(slider_words(&h).contains("105 ft of hose, plugged straight in"), "{}", slider_words(&h));
    h.key_press(Key::ArrowLeft);
    h.run_steps(3);
    let words = slider_words(&h);
    assert!(
        words.contains("100 ft of hose and 5 ft of cord") && words.contains("V starting, starts"),
        "{words}"
    );
    assert_eq!(*h.state().app.session().document(), before, "looking changes nothing");
    h.get_by_label("Put it here").click();
    h.run_steps(3);
    assert_eq!(lengths(&h), ("100 ft".to_owned(), vec!["5 ft".to_owned()]));
    h.get_by_label("Undo").click();
    h.run_steps(3);
    assert_eq!(*h.state().app.session().document(), before);
}

/// What the slider says of a place is what the window says once the machine stands there.
#[test]
fn the_live_answer_is_the_answer_there() {
    let mut h = placed("long-cord", [1366.0, 768.0]);
    h.get_by_label_contains(SLIDER).focus();
    h.run_steps(2);
    for _ in 0..5 {
        h.key_press(Key::ArrowRight);
        h.run_steps(2);
    }
    let words = slider_words(&h);
    h.get_by_label("Put it here").click();
    h.run_steps(3);
    let answer = h.state().app.session().answer().expect("an answer");
    let kit = &answer.kits[0];
    let units = UnitSet::US_TRADE;
    let running = kit.power().expect("volts").running.point().expect("it runs");
    for said in [units.rate(kit.point().expect("a point").mass_flow), units.voltage(running.voltage)] {
        assert!(words.contains(&said), "{said} in {words}");
    }
}

#[test]
fn plugged_straight_in_takes_the_cord_out() {
    let mut h = placed("long-cord", [1366.0, 768.0]);
    h.get_by_label_contains(SLIDER).focus();
    h.run_steps(2);
    h.key_press(Key::End);
    h.run_steps(3);
    h.get_by_label("Put it here").click();
    h.run_steps(3);
    assert_eq!(lengths(&h), ("105 ft".to_owned(), Vec::new()));
    h.state_mut().app.study_now();
    h.run_steps(3);
    h.get_by_label_contains("plugged straight into the receptacle");
}

/// Dragged to the right end of the way, the machine stands by the receptacle.
#[test]
fn the_machine_is_dragged() {
    let mut h = placed("long-cord", [1366.0, 768.0]);
    let area = h.get_by_label_contains(SLIDER).accesskit_node().bounding_box().expect("a place");
    let y = (area.y0 + area.height() * 0.1) as f32;
    let at = |x: f64| egui::pos2(x as f32, y);
    h.drag_at(at(area.x0 + 100.0));
    h.run_steps(2);
    h.hover_at(at(area.x0 + area.width() * 0.5));
    h.run_steps(2);
    let middle = slider_words(&h);
    assert!(!middle.contains("(today)"), "live while it is dragged: {middle}");
    h.hover_at(at(area.x1 - 4.0));
    h.run_steps(2);
    h.drop_at(at(area.x1 - 4.0));
    h.run_steps(3);
    assert!(slider_words(&h).contains("plugged straight in"), "{}", slider_words(&h));
}

#[test]
fn no_cord_and_no_hose_are_said_in_words() {
    placed("ice-rink-liquid", [1366.0, 768.0]).get_by_label_contains("plugged straight into the receptacle");
    let mut document = named("long-cord");
    document.kits[0].parts.retain(|part| part.tube().is_none());
    let mut session = Session::new(document, None);
    session.study_now(None);
    session.view.view = View::CordRun;
    session.view.cord_page = CordPage::Place;
    window_on(session, [1366.0, 768.0]).get_by_label_contains("has no hose in front of its machine");
}

/// An earlier document's places may be looked at; none of them is put into the newer document.
#[test]
fn an_earlier_answer_is_not_put_there() {
    let mut h = placed("long-cord", [1366.0, 768.0]);
    apply(&mut h, Action::MachineAt(30.0));
    let edit = Edit::Set { path: "supply.cords.0.length".to_owned(), text: "50 ft".to_owned() };
    apply(&mut h, Action::Edit(edit));
    let before = h.state().app.session().document().clone();
    h.get_by_label("Put it here").click();
    h.run_steps(3);
    assert_eq!(*h.state().app.session().document(), before);
}

#[test]
fn while_a_class_is_asked_no_place_has_an_answer() {
    let mut h = placed("long-cord", [1366.0, 768.0]);
    apply(&mut h, Action::Projector(true));
    apply(&mut h, Action::Beside(true));
    assert!(h.state().app.session().is_covered());
    assert!(h.query_all_by_label_contains(SLIDER).next().is_none());
    h.get_by_label_contains("Covered while the class is asked.");
}

/// Twice as large type in a small window, and none at all: everything shows, and shows no less in words.
#[test]
fn the_page_shows_at_every_size() {
    for size in [[0.0, 0.0], [320.0, 240.0], [683.0, 384.0], [1024.0, 600.0], [1920.0, 1080.0]] {
        let h = placed("long-cord", size);
        if size[0] > 600.0 {
            h.get_by_label_contains(SLIDER);
            h.get_by_label_contains("Put the machine at 105 ft of hose");
        }
    }
}
