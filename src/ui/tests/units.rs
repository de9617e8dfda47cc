//! Units of answers: each quantity on its own, remembered, without touching what was typed; the
//! decimal comma.

use egui_kittest::kittest::{NodeT as _, Queryable as _};
use narrows::units::{MassUnit, PressureUnit, RateUnit, TemperatureUnit};

use super::*;

/// All that a screen reader could read.
fn texts(h: &Harness<'static, Window>) -> Vec<String> {
    let nodes = h.root().children_recursive();
    nodes.flat_map(|n| [n.accesskit_node().label(), n.accesskit_node().value()]).flatten().collect()
}

fn says(h: &Harness<'static, Window>, words: &str) -> bool {
    texts(h).iter().any(|text| text.contains(words))
}

fn choose(h: &mut Harness<'static, Window>, field: &str, unit: &str) {
    h.get_by_label(field).click();
    h.run_steps(3);
    h.get_all_by_label(unit).last().expect("the unit in the list").click();
    h.run_steps(3);
}

#[test]
fn each_quantity_switches_alone_and_the_document_stays() {
    let mut h = window(named("bakery-freezer"), [1366.0, 768.0]);
    let document = h.state().app.session().document().clone();
    h.get_by_label("lb psig °F").click();
    h.run_steps(3);
    choose(&mut h, "Answers, pressure", "bar");
    let units = h.state().app.session().view.units;
    assert_eq!(units, UnitSet { pressure: PressureUnit::Bar, ..UnitSet::US_TRADE });
    assert!(says(&h, "bar(g)") && says(&h, "lb/min"));
    choose(&mut h, "Answers, counted", "absolute");
    assert!(says(&h, "bar(a)") && !says(&h, "bar(g)"));
    choose(&mut h, "Answers, rate", "kg/h");
    let rate = h.state().app.session().answer().unwrap().kits[0].point().unwrap().mass_flow;
    let kg_h = UnitSet { rate: RateUnit::KilogramPerHour, ..UnitSet::US_TRADE }.rate(rate);
    h.get_by_label_contains(&format!("Rate now, vapour: {kg_h}"));
    choose(&mut h, "Answers, mass", "kg");
    choose(&mut h, "Answers, temperature", "°C");
    let units = h.state().app.session().view.units;
    assert_eq!((units.mass, units.temperature), (MassUnit::Kilogram, TemperatureUnit::Celsius));
    assert_eq!(*h.state().app.session().document(), document);
    assert!(!h.state().app.session().is_unsaved());
    assert_eq!(h.get_by_label("System temperature").value().as_deref(), Some("75 °F"), "as typed");
}

#[test]
fn every_view_follows_the_units() {
    let mut h = window(named("bakery-freezer"), [1366.0, 768.0]);
    h.state_mut().app.study_now();
    let units = UnitSet { pressure: PressureUnit::Kilopascal, decimal_comma: true, ..UnitSet::SI };
    apply(&mut h, Action::Units(units));
    for view in View::ALL {
        // The shelf shows figures as they are written there, the card and the log what was typed; known
        // answers have the units of their sources, and the words explain units.
        if matches!(view, View::Shelf | View::Checks | View::Words) {
            continue;
        }
        apply(&mut h, Action::View(view));
        let said = texts(&h);
        let has = |unit: &str| {
            let answer = |text: &&String| text.contains(unit) && !text.contains("instead of");
            said.iter().find(answer).cloned()
        };
        for unit in [" psi,", " psia", " bar(g)", " lb/min"] {
            assert_eq!(has(unit), None, "{}", view.name());
        }
    }
}

#[test]
fn the_choice_is_remembered_for_the_next_window_and_document() {
    let folder = std::env::temp_dir().join(format!("narrows-units-{}", std::process::id()));
    let mut session = Session::new(named("bakery-freezer"), None);
    session.keep_in(folder.clone());
    let mut h = window_on(session, [1366.0, 768.0]);
    let units = UnitSet { pressure: PressureUnit::Bar, decimal_comma: true, ..UnitSet::US_TRADE };
    apply(&mut h, Action::Units(units));
    let mut session = Session::new(named("long-cord"), None);
    session.keep_in(folder.clone());
    assert_eq!(session.view.units, units);
    let mut h = window_on(session, [1366.0, 768.0]);
    apply(&mut h, Action::Start(Box::new(named("museum-metric"))));
    assert_eq!(h.state().app.session().view.units, units);
    apply(&mut h, Action::UnitsAsTyped);
    assert_eq!(h.state().app.session().view.units, UnitSet::SI);
    apply(&mut h, Action::Start(Box::new(named("long-cord"))));
    assert_eq!(h.state().app.session().view.units, UnitSet::US_TRADE);
    std::fs::remove_dir_all(folder).unwrap();
}

/// Each choice alone, so that none is written by another's hand.
#[test]
fn colours_sizes_and_motion_are_remembered_for_the_next_window() {
    let folder = std::env::temp_dir().join(format!("narrows-dress-{}", std::process::id()));
    let window_in = |folder: &std::path::Path| {
        let mut session = Session::new(named("bakery-freezer"), None);
        session.keep_in(folder.to_owned());
        window_on(session, [1366.0, 768.0])
    };
    let dress = |h: &Harness<'static, Window>| {
        let view = &h.state().app.session().view;
        (view.theme, view.van, view.still)
    };
    assert_eq!(dress(&window_in(&folder)), (Theme::Light, false, false));
    for (action, expected) in [
        (Action::Still(true), (Theme::Light, false, true)),
        (Action::Van(true), (Theme::Sun, true, true)),
        (Action::Theme(Theme::Dark), (Theme::Dark, true, true)),
        (Action::Van(false), (Theme::Light, false, true)),
        (Action::Still(false), (Theme::Light, false, false)),
    ] {
        let mut h = window_in(&folder);
        apply(&mut h, action.clone());
        assert_eq!(dress(&h), expected, "{action:?}");
        assert_eq!(dress(&window_in(&folder)), expected, "after {action:?}");
    }
    std::fs::remove_dir_all(folder).unwrap();
}

fn type_bore(h: &mut Harness<'static, Window>, text: &str) {
    type_into(h, "Bore of part 1", text);
}

#[test]
fn a_comma_is_understood_kept_as_typed_and_written_where_wanted() {
    let mut h = window(named("bakery-freezer"), [1366.0, 768.0]);
    type_bore(&mut h, "2,6 mm");
    let bore = h.state().app.session().document().kits[0].parts[0].bore().unwrap().clone();
    assert!((bore.si() - 2.6e-3).abs() < 1e-12, "{bore}");
    assert_eq!(bore.as_typed(), "2,6 mm");
    let rate = h.state().app.session().answer().unwrap().kits[0].point().unwrap().mass_flow;
    let point = UnitSet::US_TRADE.rate(rate);
    h.get_by_label_contains(&format!("Rate now, vapour: {point}"));
    apply(&mut h, Action::Units(UnitSet { decimal_comma: true, ..UnitSet::US_TRADE }));
    h.get_by_label_contains(&format!("Rate now, vapour: {}", point.replace('.', ",")));
    assert_eq!(h.get_by_label("Bore of part 1").value().as_deref(), Some("2,6 mm"));
    type_bore(&mut h, "2.4 mm");
    let bore = h.state().app.session().document().kits[0].parts[0].bore().unwrap().clone();
    assert_eq!(bore.as_typed(), "2.4 mm", "a point is understood as before");
}

/// One thousand or one and a bit: nobody can tell, so nothing is guessed, whatever the setting.
#[test]
fn a_comma_before_three_digits_is_asked_about() {
    let mut h = window(named("bakery-freezer"), [1366.0, 768.0]);
    let document = h.state().app.session().document().clone();
    for units in [UnitSet::US_TRADE, UnitSet { decimal_comma: true, ..UnitSet::US_TRADE }] {
        apply(&mut h, Action::Units(units));
        type_bore(&mut h, "1,234 mm");
        assert_eq!(*h.state().app.session().document(), document);
        assert!(says(&h, "can be read in two ways; say 1234 mm or 1.234 mm"));
        h.get_by_label("Bore of part 1").focus();
        h.run_steps(2);
        h.key_press(Key::Escape);
        h.run_steps(2);
    }
}
