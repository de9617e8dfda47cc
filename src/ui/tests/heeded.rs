//! What a person says of hose, system and cylinder to be warned: it is typed or chosen, and heeded.

use egui::Role;
use egui_kittest::kittest::Queryable as _;
use narrows::advice::Caution;

use super::*;
use crate::ui::view::Selected;

fn bench(selected: Selected) -> Harness<'static, Window> {
    let mut h = window(named("reference-kits"), [1920.0, 1080.0]);
    apply(&mut h, Action::Select(Some(selected)));
    h
}

fn caution(h: &Harness<'static, Window>, id: &str) -> Option<Caution> {
    let answer = h.state().app.session().answer().expect("an answer");
    answer.kits[0].cautions().iter().find(|caution| caution.id == id).cloned()
}

fn choose(h: &mut Harness<'static, Window>, label: &str, word: &str) {
    h.get_by_role_and_label(Role::ComboBox, label).click();
    h.run_steps(3);
    h.get_by_label(word).click();
    h.run_steps(3);
}

/// R-410A at 75 °F stands at 219 psig (CoolProp 8.0.0).
#[test]
fn what_is_printed_on_a_hose_is_typed_and_withholds_the_rate() {
    let mut h = bench(Selected::Part(1));
    h.get_by_role_and_label(Role::TextInput, "Rated pressure").focus();
    h.run_steps(2);
    h.get_by_role_and_label(Role::TextInput, "Rated pressure").type_text("200 psig");
    h.key_press(Key::Enter);
    h.run_steps(3);
    let stop = caution(&h, "part-too-weak").expect("a Stop");
    assert!(h.query_all_by_label_contains(&stop.text).next().is_some(), "{} is not shown", stop.text);
    assert!(h.state().app.session().answer().expect("an answer").kits[0].point().is_none());
}

#[test]
fn a_burnout_and_the_sun_are_chosen_and_heeded() {
    let mut h = bench(Selected::Source);
    choose(&mut h, "Burned out", "yes");
    assert!(caution(&h, "burnout").is_some());
    choose(&mut h, "Burned out", "no");
    assert_eq!(caution(&h, "burnout"), None);
    apply(&mut h, Action::Select(Some(Selected::Cylinder)));
    choose(&mut h, "In the sun", "yes");
    assert!(caution(&h, "cylinder-in-sun").is_some());
}

/// A waiting cylinder's place is chosen in the stock, by keyboard, heeded, and taken back.
#[test]
fn the_sun_on_a_waiting_cylinder_is_chosen_in_the_stock() {
    let mut document = named("reference-kits");
    document.cylinders = vec![document.cylinder.clone()];
    let mut session = Session::new(document, None);
    session.study_now(None);
    session.view.view = View::Cylinders;
    let mut h = window_on(session, [1366.0, 900.0]);
    let is_sunny = |h: &Harness<'static, Window>| h.state().app.session().document().cylinders[0].in_sun;
    assert!(!is_sunny(&h));
    h.get_by_role_and_label(Role::ComboBox, "In the sun, cylinder 1");
    h.get_by_role_and_label(Role::ComboBox, "In the sun, cylinder 2").focus();
    h.run_steps(2);
    h.key_press(Key::Enter);
    h.run_steps(3);
    h.get_by_label("yes").focus();
    h.run_steps(2);
    h.key_press(Key::Enter);
    h.run_steps(3);
    assert!(is_sunny(&h));
    h.state_mut().app.study_now();
    h.run_steps(3);
    assert!(h.query_all_by_label_contains("shade").next().is_some(), "the caution is not shown");
    apply(&mut h, Action::Undo);
    assert!(!is_sunny(&h));
}

/// A diagnosis says what forbids the job: the hose's Stop and the damaged cylinder's.
#[test]
fn the_likely_cause_stands_under_every_stop() {
    let mut document = named("slow-path");
    for (path, text) in [("kits.A.parts.1.working_pressure", "50 psig"), ("cylinder.damaged", "yes")] {
        narrows::scenario::set(&mut document, path, text).expect("a field");
    }
    let mut session = Session::new(document, None);
    session.study_now(None);
    session.view.view = View::FindCause;
    let h = window_on(session, [1366.0, 1400.0]);
    let of_kit = caution(&h, "part-too-weak").expect("a Stop").text;
    let study = h.state().app.session().study().expect("a study");
    let damaged = study.limits().expect("limits").cautions.iter().find(|c| c.id == "cylinder-damaged");
    for text in [of_kit, damaged.expect("a Stop").text.clone()] {
        let shown = h.query_all_by_label_contains(&format!("Stop. {text}")).count();
        assert!(shown > 0, "{text} is not shown");
    }
}
