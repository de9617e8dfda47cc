//! In a van: larger type, targets for cold hands, power and clock as strips.

use egui_kittest::kittest::{NodeT as _, Queryable as _};

use super::*;

fn van(id: &str) -> Harness<'static, Window> {
    let mut session = Session::new(named(id), None);
    session.study_now(None);
    let mut h = window_on(session, [1366.0, 768.0]);
    h.key_press(Key::V);
    h.run_steps(3);
    h
}

#[test]
fn one_key_goes_to_the_van_and_back() {
    let mut h = van("long-cord");
    let view = |h: &Harness<'static, Window>| {
        let view = &h.state().app.session().view;
        (view.van, view.theme)
    };
    assert_eq!(view(&h), (true, Theme::Sun));
    h.key_press(Key::V);
    h.run_steps(3);
    assert_eq!(view(&h), (false, Theme::Light));
}

/// Everything on the Bench that can be clicked is at least 44 logical pixels in both directions.
#[test]
fn targets_are_large_enough_for_cold_hands() {
    let h = van("long-cord");
    let mut small = Vec::new();
    for node in h.root().children_recursive() {
        let node = node.accesskit_node();
        let name = node.label().unwrap_or_default();
        let is_target = matches!(
            node.role(),
            egui::Role::Button | egui::Role::ComboBox | egui::Role::TextInput | egui::Role::Slider
        );
        let Some(bounds) = node.bounding_box().filter(|_| is_target) else { continue };
        if bounds.width() < 43.9 || bounds.height() < 43.9 {
            small.push(format!("{name}: {:.0} × {:.0}", bounds.width(), bounds.height()));
        }
    }
    assert!(small.is_empty(), "{}", small.join("\n"));
}

#[test]
fn volts_and_clock_stand_in_one_line_each() {
    let mut h = van("long-cord");
    let volts = h.get_by_label_contains("V running, ");
    let node = volts.accesskit_node();
    let height = node.bounding_box().expect("a place").height();
    assert!((44.0..=58.0).contains(&height), "{height}");
    assert!(node.label().unwrap_or_default().contains("starting"));
    volts.click();
    h.run_steps(3);
    assert_eq!(h.state().app.session().view.view, View::CordRun);
    apply(&mut h, Action::View(View::Bench));
    h.get_by_label_contains("Job clock, ").focus();
    h.run_steps(2);
    h.key_press(Key::End);
    h.run_steps(3);
    assert!(h.state().app.session().view.clock_min.is_some_and(|m| m > 10.0));
}

#[test]
fn every_view_shows_in_the_van_at_every_size() {
    let mut h = van("ice-rink-liquid");
    for size in [[0.0, 0.0], [480.0, 320.0], [1024.0, 600.0], [1366.0, 768.0]] {
        h.set_size(vec2(size[0], size[1]));
        show_all_views(&mut h);
    }
}
