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
