//! Tests that drive the window by the labels a person reads.

use egui::{Key, Modifiers, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use narrows::presets::{self, Shelf};
use narrows::scenario::{self, Document};
use narrows::units::UnitSet;

use super::actions::{Action, Edit};
use super::app::App;
use super::session::Session;
use super::style::{Theme, fonts};
use super::view::View;

fn named(id: &str) -> Document {
    let scenario = presets::scenarios().iter().find(|s| s.id == id).expect("a built-in scenario");
    scenario::read(scenario.text).expect("it reads")
}

mod class;
mod colours;
mod files;
mod frame_times;
mod heeded;
mod job_views;
mod keyboard;
mod minutes;
mod moments;
mod motion;
mod place;
mod reasons;
mod shelf;
#[cfg(feature = "snapshots")]
mod snapshots;
mod trust;
mod two_ports;
mod units;
mod van;
mod what_ifs;

struct Window {
    app: App,
    has_fonts: bool,
}

fn window(document: Document, size: [f32; 2]) -> Harness<'static, Window> {
    window_on(Session::new(document, None), size)
}

fn window_on(session: Session, size: [f32; 2]) -> Harness<'static, Window> {
    built(Harness::builder(), session, size)
}

fn built(
    builder: egui_kittest::HarnessBuilder<Window>,
    session: Session,
    size: [f32; 2],
) -> Harness<'static, Window> {
    let app = App::new(session, Shelf::built_in().expect("the shelf reads"));
    let show = |ui: &mut egui::Ui, window: &mut Window| {
        // New fonts are there from the second frame on.
        if window.has_fonts {
            window.app.take_in(ui.ctx());
            window.app.show(ui);
        } else {
            fonts::install(ui.ctx());
            window.has_fonts = true;
            ui.ctx().request_repaint();
        }
    };
    let mut harness =
        builder.with_size(vec2(size[0], size[1])).build_ui_state(show, Window { app, has_fonts: false });
    harness.run_steps(3);
    harness
}

fn apply(harness: &mut Harness<'static, Window>, action: Action) {
    let ctx = harness.ctx.clone();
    harness.state_mut().app.apply(action, &ctx);
    harness.run_steps(2);
}

fn rate(harness: &Harness<'static, Window>) -> f64 {
    let session = harness.state().app.session();
    let kit = session.view.kit;
    let answer = session.answer().expect("an answer").kits.get(kit).expect("of that kit");
    answer.point().expect("an operating point").mass_flow.value
}

/// With the keyboard alone: the core's hole is widened, the rate plate follows.
#[test]
fn a_wider_core_raises_the_rate_on_the_plate() {
    let mut h = window(named("reference-kits"), [1366.0, 768.0]);
    let before = rate(&h);
    let plate =
        UnitSet::US_TRADE.rate(h.state().app.session().answer().unwrap().kits[0].point().unwrap().mass_flow);
    h.get_by_label_contains(&format!("Rate now, vapour: {plate}"));
    h.get_by_label("Bore of part 1").focus();
    h.run_steps(2);
    h.key_press_modifiers(Modifiers::COMMAND, Key::A);
    h.run_steps(2);
    h.get_by_label("Bore of part 1").type_text("4.2 mm");
    h.run_steps(2);
    assert_eq!(rate(&h), before, "half typed text must not be used");
    h.key_press(Key::Enter);
    h.run_steps(3);
    let after = rate(&h);
    assert!(after > 1.05 * before, "{before} to {after} kg/s");
    let now =
        UnitSet::US_TRADE.rate(h.state().app.session().answer().unwrap().kits[0].point().unwrap().mass_flow);
    h.get_by_label_contains(&format!("Rate now, vapour: {now}"));
    let was = UnitSet::US_TRADE
        .rate(uom::si::f64::MassRate::new::<uom::si::mass_rate::kilogram_per_second>(before));
    let number = was.split(' ').next().unwrap_or_default().to_owned();
    h.get_by_label_contains(&format!("was {number}"));
    h.get_by_label("Undo").click();
    h.run_steps(3);
    assert_eq!(rate(&h), before);
}

#[test]
fn a_part_is_taken_out_and_put_back() {
    let mut h = window(named("reference-kits"), [1366.0, 768.0]);
    let before = rate(&h);
    h.get_by_label_contains("Self-sealing end, 2.6 mm").click();
    h.run_steps(2);
    // The strip has one too; the one under the part is drawn after it.
    h.get_all_by_label("Out").last().expect("the command under the part").click();
    h.run_steps(3);
    assert_eq!(h.state().app.session().document().kits[0].parts.len(), 4);
    assert!(rate(&h) > before, "removing a part never lowers the rate");
    h.get_by_label("Undo").click();
    h.run_steps(3);
    assert_eq!(h.state().app.session().document().kits[0].parts.len(), 5);
    h.get_by_label("Redo").click();
    h.run_steps(3);
    assert_eq!(h.state().app.session().document().kits[0].parts.len(), 4);
}

#[test]
fn a_refused_bore_leaves_document_and_answer_alone() {
    let mut h = window(named("reference-kits"), [1366.0, 768.0]);
    let document = h.state().app.session().document().clone();
    for text in ["0 mm", "-2 mm", "two", "1e999 mm", "NaN mm"] {
        type_into(&mut h, "Bore of part 1", text);
        assert_eq!(*h.state().app.session().document(), document, "{text}");
        assert_eq!(h.get_by_label("Bore of part 1").value().as_deref(), Some(text));
        h.get_by_label("Bore of part 1").focus();
        h.run_steps(2);
        h.key_press(Key::Escape);
        h.run_steps(2);
    }
}

#[test]
fn a_bare_number_keeps_the_unit_that_stood_there() {
    let mut h = window(named("reference-kits"), [1366.0, 768.0]);
    type_into(&mut h, "Bore of part 1", "3,1");
    let bore = h.state().app.session().document().kits[0].parts[0].bore().unwrap().si();
    assert!((bore - 3.1e-3).abs() < 1e-12, "{bore}");
}

/// 16 AWG and 100 ft, then 12 AWG and 50 ft; expected volts are the story's.
#[test]
fn a_shorter_thicker_cord_lifts_the_volts() {
    let mut h = window(named("long-cord"), [1366.0, 768.0]);
    let volts = |h: &Harness<'static, Window>| {
        let power = h.state().app.session().answer().unwrap().kits[0].power().unwrap();
        (power.running.point().unwrap().voltage.value, power.starting.voltage.value)
    };
    let (running, starting) = volts(&h);
    assert!((105.0..=108.0).contains(&running) && (78.0..=90.0).contains(&starting), "{running} {starting}");
    for (path, text) in [("supply.cords.0.gauge", "12 AWG"), ("supply.cords.0.length", "50 ft")] {
        let edit = Edit::Set { path: path.to_owned(), text: text.to_owned() };
        apply(&mut h, Action::Edit(edit));
    }
    let (running, starting) = volts(&h);
    assert!(
        (114.0..=116.0).contains(&running) && (101.0..=106.0).contains(&starting),
        "{running} {starting}"
    );
}

#[test]
fn what_has_no_answer_says_why_and_keeps_the_volts() {
    let mut h = window(named("reference-kits"), [1366.0, 768.0]);
    // 150 °F is 338.7 K; R-23 is critical at 299.3 K (its own table).
    for (path, text) in [("refrigerant", "R-23"), ("source.temperature", "150 degF")] {
        apply(&mut h, Action::Edit(Edit::Set { path: path.to_owned(), text: text.to_owned() }));
    }
    let session = h.state().app.session();
    assert!(session.answer().unwrap().kits[0].point().is_none());
    h.get_by_label_contains("Rate now: ");
}

/// Every view of every built-in scenario, at a usual and at a small size; what the harness finds
/// unnamed, it refuses.
#[test]
fn every_view_shows_every_scenario() {
    for scenario in presets::scenarios() {
        let document = scenario::read(scenario.text).expect("it reads");
        let mut h = window(document, [1366.0, 768.0]);
        show_all_views(&mut h);
        h.set_size(vec2(420.0, 260.0));
        show_all_views(&mut h);
    }
}

fn show_all_views(h: &mut Harness<'static, Window>) {
    for view in View::ALL {
        apply(h, Action::View(view));
    }
}

#[test]
fn every_view_and_theme_shows_at_no_and_at_large_size() {
    let mut h = window(named("ice-rink-liquid"), [0.0, 0.0]);
    show_all_views(&mut h);
    h.set_size(vec2(1920.0, 1080.0));
    for theme in Theme::ALL {
        apply(&mut h, Action::Theme(theme));
        show_all_views(&mut h);
    }
}

#[test]
fn every_part_of_the_shelf_can_be_put_into_a_kit() {
    let shelf = Shelf::built_in().expect("the shelf reads");
    let mut h = window(named("reference-kits"), [1366.0, 768.0]);
    for item in &shelf.parts {
        let list = super::actions::PartList::Kit(0);
        let part = Box::new(item.item.clone());
        apply(&mut h, Action::Edit(Edit::Replace { list, at: 1, part }));
        let document = h.state().app.session().document();
        assert_eq!(document.kits[0].parts[1], item.item);
        assert!(h.state().app.session().faults().is_empty(), "{}", item.id);
    }
}

#[test]
fn wild_edits_do_not_end_the_window() {
    let mut h = window(named("reference-kits"), [1366.0, 768.0]);
    let list = super::actions::PartList::Kit(0);
    let wild = [
        Edit::Remove { list, at: 99 },
        Edit::Move { list, from: 0, to: 99 },
        Edit::Remove { list: super::actions::PartList::Kit(99), at: 0 },
        Edit::RemoveKit(99),
        Edit::CopyKit(99),
        Edit::RemoveCord(99),
        Edit::Set { path: "nowhere".to_owned(), text: "1".to_owned() },
    ];
    for edit in wild {
        apply(&mut h, Action::Edit(edit));
    }
    for _ in 0..8 {
        apply(&mut h, Action::Edit(Edit::Remove { list, at: 0 }));
        apply(&mut h, Action::Edit(Edit::RemoveKit(0)));
    }
    assert_eq!(h.state().app.session().document().kits.len(), 1);
}

#[test]
fn changes_are_not_lost_without_a_word() {
    let mut h = window(named("reference-kits"), [1366.0, 768.0]);
    apply(&mut h, Action::Edit(Edit::Remove { list: super::actions::PartList::Kit(0), at: 0 }));
    let edited = h.state().app.session().document().clone();
    let other = || Action::Start(Box::new(named("long-cord")));
    apply(&mut h, other());
    assert_eq!(*h.state().app.session().document(), edited);
    h.get_by_label("Keep editing").click();
    h.run_steps(3);
    assert_eq!(*h.state().app.session().document(), edited);
    apply(&mut h, other());
    h.get_by_label("Discard the changes").click();
    h.run_steps(3);
    assert_eq!(*h.state().app.session().document(), named("long-cord"));
}

/// Types over the field of this label.
fn type_into(harness: &mut Harness<'static, Window>, label: &str, text: &str) {
    harness.get_by_label(label).focus();
    harness.run_steps(2);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
    harness.run_steps(2);
    harness.get_by_label(label).type_text(text);
    harness.key_press(Key::Enter);
    harness.run_steps(3);
}
