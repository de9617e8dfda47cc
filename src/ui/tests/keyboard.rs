//! The keyboard alone: command search, explained numbers, the projector's keys.

use egui_kittest::kittest::{NodeT as _, Queryable as _};

use super::*;

fn search(h: &mut Harness<'static, Window>, text: &str) {
    h.key_press_modifiers(Modifiers::COMMAND, Key::K);
    h.run_steps(3);
    h.get_by_label("Command search").type_text(text);
    h.run_steps(3);
    h.key_press(Key::Enter);
    h.run_steps(4);
}

/// Without a mouse: from the search to the field, a new size, the rate.
#[test]
fn a_core_is_widened_by_keys_alone() {
    let mut h = window(named("bakery-freezer"), [1366.0, 768.0]);
    let before = rate(&h);
    search(&mut h, "bore core");
    assert!(h.get_by_label("Bore of part 1").is_focused());
    h.key_press_modifiers(Modifiers::COMMAND, Key::A);
    h.run_steps(2);
    h.get_by_label("Bore of part 1").type_text("4.2 mm");
    h.run_steps(2);
    h.key_press(Key::Enter);
    h.run_steps(3);
    assert!(rate(&h) > 1.05 * before);
}

/// From kit A to an open path without a mouse: another refrigerant, a copy of the kit, core and
/// gauge set out, a ball valve for the end, liquid first.
#[test]
fn a_kit_is_copied_and_opened_by_keys_alone() {
    let mut h = window(named("bakery-freezer"), [1366.0, 768.0]);
    for words in ["refrigerant R-407C", "copy kit", "take part out core", "take part out gauge"] {
        search(&mut h, words);
    }
    for words in ["take part out end", "add ball valve quarter", "method liquid then"] {
        search(&mut h, words);
    }
    let document = h.state().app.session().document();
    assert_eq!(document.refrigerant.as_str(), "R-407C");
    assert_eq!(document.job.as_ref().unwrap().method, narrows::kit::RecoveryMethod::LiquidThenVapour);
    let kinds: Vec<String> = document.kits[3].parts.iter().map(crate::ui::present::parts::name).collect();
    assert_eq!(kinds, ["Hose", "Hose", "Ball valve"]);
    assert_eq!(document.kits[0].parts.len(), 5, "kit A stays");
}

/// A quick typist on a busy machine: shortcut and letters within one frame.
#[test]
fn letters_right_after_the_shortcut_are_searched() {
    let mut h = window(named("bakery-freezer"), [1366.0, 768.0]);
    for _ in 0..2 {
        let (key, modifiers) = (Key::K, Modifiers::COMMAND);
        let shortcut = egui::Event::Key { key, modifiers, pressed: true, repeat: false, physical_key: None };
        h.input_mut().events.extend([shortcut, egui::Event::Text("undo".to_owned())]);
        h.run_steps(3);
        assert_eq!(h.get_by_label("Command search").value().as_deref(), Some("undo"));
        h.key_press_modifiers(Modifiers::COMMAND, Key::K);
        h.run_steps(3);
        assert!(h.query_by_label("Command search").is_none());
    }
}

#[test]
fn what_a_view_can_show_besides_is_found_by_words() {
    let mut h = window(named("long-cord"), [1366.0, 768.0]);
    search(&mut h, "put machine");
    h.state_mut().app.study_now();
    h.run_steps(3);
    h.get_by_label_contains("Where the machine stands, ");
    search(&mut h, "real change");
    let view = &h.state().app.session().view;
    assert_eq!((view.view, view.counted), (View::WhatCounts, crate::ui::view::Counted::Change));
}

#[test]
fn tab_goes_from_one_size_to_the_next() {
    let mut h = window(named("bakery-freezer"), [1366.0, 768.0]);
    search(&mut h, "bore part 2 hose");
    h.key_press(Key::Tab);
    h.run_steps(3);
    assert!(h.get_by_label("Length of part 2").is_focused());
}

#[test]
fn a_cord_is_changed_by_keys_alone() {
    let mut h = window(named("long-cord"), [1366.0, 768.0]);
    for (words, label, text) in
        [("gauge cord 1", "Gauge of cord 1", "12 AWG"), ("length cord 1", "Length of cord 1", "50 ft")]
    {
        search(&mut h, words);
        assert!(h.get_by_label(label).is_focused());
        h.key_press_modifiers(Modifiers::COMMAND, Key::A);
        h.run_steps(2);
        h.get_by_label(label).type_text(text);
        h.run_steps(2);
        h.key_press(Key::Enter);
        h.run_steps(3);
    }
    let cord = &h.state().app.session().document().supply.cords[0];
    assert_eq!((cord.gauge.to_string(), cord.length.to_string()), ("12 AWG".into(), "50 ft".into()));
}

#[test]
fn pressures_switch_by_search() {
    let mut h = window(named("bakery-freezer"), [1366.0, 768.0]);
    search(&mut h, "pressures abs");
    h.get_by_label_contains("psia, ");
    search(&mut h, "pressures bar");
    h.get_by_label_contains("bar(a), ");
    search(&mut h, "pressures gauge");
    h.get_by_label_contains("bar(g), ");
    let expected = UnitSet { pressure: narrows::units::PressureUnit::Bar, ..UnitSet::US_TRADE };
    assert_eq!(h.state().app.session().view.units, expected);
}

#[test]
fn a_plate_explains_its_number() {
    let mut h = window(named("bakery-freezer"), [1366.0, 768.0]);
    for (plate, words) in [
        ("Rate now, vapour: ", "volumetric efficiency"),
        ("Machine inlet: ", "less what each part loses"),
        ("Volts running: ", "current × impedance"),
        ("Volts starting: ", "square of the voltage"),
    ] {
        h.get_by_label_contains(plate).focus();
        h.run_steps(2);
        h.key_press(Key::Enter);
        h.run_steps(3);
        assert!(texts(&h).iter().any(|t| t.contains(words)), "{plate}");
        h.key_press(Key::Escape);
        h.run_steps(3);
    }
}

/// All that a screen reader could read.
fn texts(h: &Harness<'static, Window>) -> Vec<String> {
    let nodes = h.root().children_recursive();
    nodes.flat_map(|n| [n.accesskit_node().label(), n.accesskit_node().value()]).flatten().collect()
}

#[test]
fn nothing_leaks_while_the_class_is_asked() {
    let mut h = window(named("reference-kits"), [1920.0, 1080.0]);
    apply(&mut h, Action::Projector(true));
    let losses: Vec<String> = {
        let point = h.state().app.session().answer().unwrap().kits[0].point().unwrap();
        point.parts.iter().map(|p| UnitSet::US_TRADE.pressure_loss(p.drop())).collect()
    };
    let leak = |texts: &[String]| {
        texts.iter().any(|t| t.contains("loses") || losses.iter().any(|l| t.contains(l.as_str())))
    };
    h.hover_at(h.get_by_label("Valve core").rect().center());
    h.run_steps(4);
    assert!(!leak(&texts(&h)));
    for key in [Key::Num2, Key::Num2, Key::Num1] {
        h.key_press(key);
    }
    h.run_steps(3);
    h.get_by_label("Part 2: 2 votes");
    assert!(!leak(&texts(&h)));
    h.key_press(Key::B);
    h.run_steps(3);
    assert!(h.query_by_label("Valve core").is_none(), "blank is blank");
    h.key_press(Key::B);
    for _ in 0..7 {
        h.key_press(Key::Space);
        h.run_steps(2);
    }
    assert!(leak(&texts(&h)), "at the end everything is shown");
    h.key_press(Key::R);
    h.run_steps(3);
    assert!(!leak(&texts(&h)));
    h.key_press(Key::Escape);
    h.run_steps(3);
    assert!(h.state().app.session().view.projector.is_none());
}
