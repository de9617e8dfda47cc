//! Views behind the operating point: job clock, side by side, what counts, cylinders, job sheet.

use egui::{Key, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use narrows::compare::DrawPlan;
use narrows::presets;
use narrows::scenario::{self, Document};

use super::{Window, apply, named, show_all_views, type_into, window_on};
use crate::ui::actions::{Action, Edit};
use crate::ui::diagram::time;
use crate::ui::present::clock;
use crate::ui::session::Session;
use crate::ui::view::{Counted, View};

fn studied(document: Document, draws: Option<DrawPlan>, size: [f32; 2]) -> Harness<'static, Window> {
    let mut session = Session::new(document, None);
    session.study_now(draws);
    window_on(session, size)
}

fn study_again(h: &mut Harness<'static, Window>) {
    h.state_mut().app.session_mut().study_now(None);
    h.run_steps(2);
}

fn few_draws() -> Option<DrawPlan> {
    Some(DrawPlan::new(24, 1).expect("enough draws"))
}

/// The views that show more than the operating point, and the Bench with its clock.
const STUDIED: [View; 6] =
    [View::Bench, View::JobClock, View::SideBySide, View::WhatCounts, View::Cylinders, View::JobSheet];

#[test]
fn every_view_shows_every_studied_scenario() {
    for preset in presets::scenarios() {
        let document = scenario::read(preset.text).expect("it reads");
        let mut h = studied(document, None, [1366.0, 768.0]);
        for view in STUDIED {
            apply(&mut h, Action::View(view));
        }
        h.set_size(vec2(420.0, 260.0));
        for view in STUDIED {
            apply(&mut h, Action::View(view));
        }
    }
}

#[test]
fn every_studied_view_shows_at_every_size() {
    let mut h = studied(named("bakery-freezer"), few_draws(), [0.0, 0.0]);
    for size in [[0.0, 0.0], [760.0, 500.0], [1024.0, 600.0], [1920.0, 1080.0]] {
        h.set_size(vec2(size[0], size[1]));
        show_all_views(&mut h);
    }
    apply(&mut h, Action::View(View::WhatCounts));
    for counted in Counted::ALL {
        apply(&mut h, Action::Counts(counted));
    }
}

/// JOB table, WC 47.6 lb of R-410A: 38.1 lb by water capacity and 40.4 lb by specific gravity
/// (published filling arithmetic). Hot: 0.9 · 47.6 lb · 0.872 (SG at 130 °F) and 27.5 lb tare are
/// 64.86 lb, a little less at 131 °F.
#[test]
fn the_fill_rules_stand_side_by_side_and_the_lowest_gives_the_stop_weight() {
    let mut h = studied(named("long-cord"), None, [1366.0, 768.0]);
    apply(&mut h, Action::View(View::Cylinders));
    for (rule, limit) in [("80 % of water capacity, ", "38.1 lb"), ("× specific gravity, ", "40.4 lb")] {
        let row = h.get_by_label_contains(rule);
        let words = row.accesskit_node().label().unwrap_or_default();
        assert!(words.ends_with(limit), "{words}");
    }
    let limits = h.state().app.session().study().and_then(|s| s.limits()).expect("limits");
    let stop_lb = limits.answer.cylinders[0].stop_gross.expect("a stop weight").value / 0.453_592_37;
    assert!((64.3..64.86).contains(&stop_lb), "{stop_lb}");
    assert!(h.get_all_by_label_contains(&format!("Stop weight, gross: {stop_lb:.1} lb")).count() >= 2);
}

/// The rule keeps 10 % free at 131 °F; the liquid is thinner by far more than that at 150 °F.
#[test]
fn a_cylinder_at_its_limit_becomes_liquid_full_above_the_rule() {
    let mut h = studied(named("long-cord"), None, [1366.0, 768.0]);
    apply(&mut h, Action::View(View::Cylinders));
    let words = |h: &Harness<'static, Window>| {
        let node = h.get_by_label_contains("Cylinder temperature, ");
        node.accesskit_node().label().unwrap_or_default()
    };
    assert!(words(&h).contains("131 °F") && !words(&h).contains("liquid-full"), "{}", words(&h));
    h.get_by_label_contains("Cylinder temperature, ").focus();
    h.run_steps(2);
    h.key_press(Key::End);
    h.run_steps(3);
    assert!(words(&h).contains("liquid-full"), "{}", words(&h));
    h.key_press(Key::Home);
    h.run_steps(3);
    assert!(words(&h).contains("40.0 °F"), "{}", words(&h));
}

#[test]
fn a_waiting_cylinder_is_added_edited_and_removed() {
    let mut h = studied(named("long-cord"), None, [1366.0, 768.0]);
    apply(&mut h, Action::View(View::Cylinders));
    h.get_by_label("Another cylinder like the last").click();
    h.run_steps(3);
    let waiting = |h: &Harness<'static, Window>| h.state().app.session().document().cylinders.clone();
    assert_eq!(waiting(&h).len(), 1);
    type_into(&mut h, "Count of cylinder 2", "3");
    assert_eq!(waiting(&h)[0].count, Some(3));
    study_again(&mut h);
    let study = h.state().app.session().study().expect("a study");
    assert_eq!(study.limits().expect("limits").ask.stock.len(), 4);
    h.get_by_label("Remove cylinder 2").click();
    h.run_steps(3);
    assert!(waiting(&h).is_empty());
}

#[test]
fn the_clock_is_read_by_keys_from_start_to_end() {
    let mut h = studied(named("long-cord"), None, [1366.0, 768.0]);
    apply(&mut h, Action::View(View::JobClock));
    let words = |h: &Harness<'static, Window>| {
        let node = h.get_by_label_contains("Job clock, Time");
        node.accesskit_node().label().unwrap_or_default()
    };
    assert!(words(&h).contains("Left in the system 22.0 lb"), "{}", words(&h));
    h.get_by_label_contains("Job clock, Time").focus();
    h.run_steps(2);
    h.key_press(Key::End);
    h.run_steps(3);
    let session = h.state().app.session();
    let jobs = session.study().and_then(|s| s.jobs.as_ref()).expect("jobs").as_ref().expect("answers");
    let job = jobs.kits[0].shown().expect("a job");
    let end = format!("Time {}", time::text(clock::minutes(job.total)));
    let left = session.view.units.mass(job.remaining);
    assert!(words(&h).contains(&end) && words(&h).contains(&left), "{} {end} {left}", words(&h));
    h.key_press(Key::Home);
    h.run_steps(3);
    assert!(words(&h).contains("Time 0 min"), "{}", words(&h));
    // The focus stays on the clock while arrows move the moment.
    h.key_press(Key::ArrowRight);
    h.run_steps(3);
    let at = h.state().app.session().view.clock_min.expect("a moment");
    assert!((at - 0.01 * clock::minutes(job_total(&h))).abs() < 1e-9, "{at}");
}

fn job_total(h: &Harness<'static, Window>) -> uom::si::f64::Time {
    let jobs = h.state().app.session().study().and_then(|s| s.jobs.as_ref()).expect("jobs");
    jobs.as_ref().expect("answers").kits[0].shown().expect("a job").total
}

/// Kits B and C are too close to call; A is slower than both.
#[test]
fn kits_too_close_to_call_carry_no_number() {
    let mut h = studied(named("bakery-freezer"), few_draws(), [1366.0, 768.0]);
    apply(&mut h, Action::View(View::SideBySide));
    // Whole jobs are drawn when somebody looks; the operating points have been.
    apply(&mut h, Action::CountInRate(true));
    let row = |h: &Harness<'static, Window>, start: &str| {
        let rows: Vec<String> = h
            .get_all_by_label_contains(start)
            .map(|n| n.accesskit_node().label().unwrap_or_default())
            .collect();
        rows.into_iter().find(|r| r.starts_with(start)).expect("that row")
    };
    assert!(row(&h, "C against B").ends_with("too close to call"), "{}", row(&h, "C against B"));
    assert!(row(&h, "B against A").contains("faster"), "{}", row(&h, "B against A"));
    h.get_by_label_contains("Valve core: A Valve core 2.2 mm, B Core out 4.2 mm");
}

#[test]
fn a_copy_of_a_kit_is_the_same() {
    let mut h = studied(named("long-cord"), None, [1366.0, 768.0]);
    apply(&mut h, Action::Edit(Edit::RemoveKit(1)));
    apply(&mut h, Action::Edit(Edit::CopyKit(0)));
    h.state_mut().app.session_mut().study_now(few_draws());
    apply(&mut h, Action::View(View::SideBySide));
    h.get_by_label("The kits do not differ.");
    h.get_by_label_contains("against A the same");
}

/// The core counts most, then the end.
#[test]
fn what_counts_most_stands_on_top() {
    let mut h = studied(named("reference-kits"), None, [1366.0, 768.0]);
    apply(&mut h, Action::View(View::WhatCounts));
    let top = |h: &Harness<'static, Window>, name: &str| {
        let all = h.get_all_by_label_contains(name);
        let is_row = |label: String| label.starts_with(name) && label.contains("lb/min");
        let rows = all.filter(|n| n.accesskit_node().label().is_some_and(is_row));
        rows.map(|n| n.rect().top()).fold(f32::INFINITY, f32::min)
    };
    let (core, end) = (top(&h, "Valve core, "), top(&h, "Self-sealing end, "));
    let (seats, hose) = (top(&h, "Gauge set, "), top(&h, "Hose, "));
    assert!(core < end && end < seats && end < hose, "{core} {end} {seats} {hose}");
    h.get_by_label_contains("Change first: Valve core, 2.2 mm: take the core out");
}

#[test]
fn a_deadline_that_is_typed_is_held_against_the_job() {
    let mut h = studied(named("long-cord"), None, [1366.0, 768.0]);
    apply(&mut h, Action::View(View::JobSheet));
    for (field, text) in [("Deadline", "20 min"), ("Set-up", "30 min")] {
        h.get_by_role_and_label(egui::accesskit::Role::TextInput, field).focus();
        h.run_steps(2);
        h.key_press_modifiers(egui::Modifiers::COMMAND, Key::A);
        h.run_steps(2);
        h.get_by_role_and_label(egui::accesskit::Role::TextInput, field).type_text(text);
        h.key_press(Key::Enter);
        h.run_steps(3);
    }
    study_again(&mut h);
    // 30 min of set-up alone are 10 min more than the 20 min there are.
    let late = h.get_all_by_label_contains("too late: set-up 30 min").count();
    assert_eq!(late, h.state().app.session().document().kits.len());
}

#[test]
fn an_old_study_of_another_document_is_no_trouble() {
    let mut h = studied(named("reference-kits"), None, [1366.0, 768.0]);
    for _ in 0..3 {
        apply(&mut h, Action::Edit(Edit::RemoveKit(0)));
        show_all_views(&mut h);
    }
    for _ in 0..6 {
        apply(&mut h, Action::Edit(Edit::CopyKit(0)));
    }
    show_all_views(&mut h);
    study_again(&mut h);
    show_all_views(&mut h);
}
