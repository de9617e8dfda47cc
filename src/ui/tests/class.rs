//! A class: lessons asked, shown and explained; nothing leaks; a second window keeps up.

use egui_kittest::kittest::{NodeT as _, Queryable as _};
use narrows::presets::{Lesson, Picture, built_in_lessons, built_in_scenario};

use super::*;
use crate::ui::present::lesson::PLACES;
use crate::ui::projector::{Phase, Step};

const SIZE: [f32; 2] = [1366.0, 768.0];

fn class(lesson: usize, beside: bool) -> Harness<'static, Window> {
    let mut h = window(named("school-kitchen"), SIZE);
    apply(&mut h, Action::Teach(lesson));
    h.state_mut().app.study_now();
    if beside {
        apply(&mut h, Action::Beside(true));
    }
    h.run_steps(2);
    h
}

fn phase(h: &Harness<'static, Window>) -> Phase {
    h.state().app.session().view.projector.as_ref().expect("a class").phase
}

/// All that a screen reader could read.
fn texts(h: &Harness<'static, Window>) -> Vec<String> {
    let nodes = h.root().children_recursive();
    nodes.flat_map(|n| [n.accesskit_node().label(), n.accesskit_node().value()]).flatten().collect()
}

/// The words and numbers that would give a lesson away.
fn secrets(h: &Harness<'static, Window>, picture: Picture) -> Vec<String> {
    let session = h.state().app.session();
    let answer = session.answer().expect("an answer");
    let kit = answer.kits.get(session.view.kit).expect("the kit in hand");
    let point = kit.point().expect("a point");
    let units = UnitSet::US_TRADE;
    match picture {
        Picture::PressureStairs => {
            point.parts.iter().map(|p| units.pressure_loss(p.drop())).chain(["loses".to_owned()]).collect()
        }
        Picture::VoltageStairs => {
            let power = kit.power().expect("volts");
            let running = power.running.point().expect("it runs").voltage.value;
            let starting = power.starting.voltage.value;
            vec![format!("{running:.0} V running"), format!("{starting:.0} V"), "loses".to_owned()]
        }
        // The larger machine's rate is not worked out before it is tried.
        Picture::Rates | Picture::MeetingPoint => vec!["loses".to_owned(), "now 2".to_owned()],
        Picture::Chilling => vec!["% recovered".to_owned(), "loses".to_owned()],
    }
}

fn leak(h: &Harness<'static, Window>, secrets: &[String]) -> Option<String> {
    texts(h).into_iter().find(|text| secrets.iter().any(|secret| text.contains(secret.as_str())))
}

#[test]
fn every_lesson_goes_from_the_question_to_the_last_reason_and_back() {
    let lessons = built_in_lessons().expect("they read");
    assert!(lessons.len() >= 4);
    for (i, lesson) in lessons.iter().enumerate() {
        let mut h = class(i, false);
        h.get_by_label(&format!("Ask: {}", lesson.question));
        let pieces = h.state().app.session().pieces();
        assert!(pieces > 0, "{}", lesson.title);
        for step in 0..pieces + lesson.why.len() {
            h.key_press(Key::Space);
            // The study of what is tried comes from a thread of its own; here it is done at once.
            h.run_steps(1);
            h.state_mut().app.study_now();
            h.run_steps(6);
            if step >= pieces {
                let open = texts(&h).into_iter().find(|t| t.contains('{') || t.contains('\u{2013}'));
                assert_eq!(open, None, "{}: a number is missing", lesson.title);
            }
        }
        assert_eq!(phase(&h), Phase::Why(lesson.why.len()));
        for _ in 0..pieces + lesson.why.len() + 1 {
            h.key_press(Key::Backspace);
            h.run_steps(2);
        }
        assert_eq!(phase(&h), Phase::Ask);
        assert!(h.state().app.session().tried().is_none(), "what was tried is gone again");
        assert!(!h.state().app.session().is_unsaved(), "a lesson changes nothing");
    }
}

/// In front of the class, with the pointer over every part: not a word of the answer.
#[test]
fn a_question_leaks_nothing_in_the_full_window() {
    for (i, lesson) in built_in_lessons().expect("they read").iter().enumerate() {
        let mut h = class(i, false);
        let secrets = secrets(&h, lesson.picture);
        for x in [100.0, 300.0, 500.0, 700.0, 900.0, 1250.0] {
            for y in [150.0, 420.0, 640.0] {
                h.hover_at(egui::pos2(x, y));
                h.run_steps(3);
                assert_eq!(leak(&h, &secrets), None, "{} at {x}, {y}", lesson.title);
            }
        }
    }
}

/// Beside the class's window no view of the ordinary one holds an answer, until all is shown.
#[test]
fn a_question_leaks_nothing_in_the_ordinary_window() {
    for (i, lesson) in built_in_lessons().expect("they read").iter().enumerate() {
        let mut h = class(i, true);
        let secrets = secrets(&h, lesson.picture);
        for view in View::ALL {
            apply(&mut h, Action::View(view));
            assert_eq!(leak(&h, &secrets), None, "{} in {}", lesson.title, view.name());
        }
        let rates = |h: &Harness<'static, Window>| {
            texts(h).iter().filter(|t| t.starts_with("Kit ") && t.contains("lb/min")).count()
        };
        apply(&mut h, Action::View(View::Bench));
        assert_eq!(rates(&h), 0);
        for _ in 0..h.state().app.session().pieces() + 1 {
            apply(&mut h, Action::Lesson(Step::Next));
        }
        assert!(rates(&h) > 0, "{}: shown to the end, the ordinary window answers again", lesson.title);
    }
}

/// The focus box would point at the largest loss, and pages would print it.
#[test]
fn neither_the_focus_box_nor_a_page_gives_it_away() {
    let folder = std::env::temp_dir().join(format!("narrows-class-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder");
    for own in [true, false] {
        let mut h = window(named("school-kitchen"), SIZE);
        apply(&mut h, if own { Action::Projector(true) } else { Action::Teach(0) });
        apply(&mut h, Action::Beside(true));
        let selected = h.state().app.session().view.selected;
        assert_eq!(selected, Some(crate::ui::view::Selected::Source));
        apply(&mut h, Action::PagesTo(folder.clone()));
        h.get_by_label_contains("Pages hold the answers");
        assert_eq!(std::fs::read_dir(&folder).expect("it is there").count(), 0);
    }
    std::fs::remove_dir_all(folder).expect("it goes");
}

/// A piece that is not shown yet is not named either, and the one that grows has no number yet.
#[test]
fn the_losses_come_one_at_a_time_over_a_second() {
    let mut h = class(0, false);
    let losses = |h: &Harness<'static, Window>| texts(h).iter().filter(|t| t.contains("loses")).count();
    assert_eq!(losses(&h), 0);
    for shown in 1..=5 {
        apply(&mut h, Action::Lesson(Step::Next));
        assert!(h.ctx.has_requested_repaint(), "the loss grows");
        // A step of the harness is a quarter of a second.
        h.run_steps(6);
        assert_eq!(losses(&h), shown);
        assert!(!h.ctx.has_requested_repaint(), "and then it stands");
    }
    apply(&mut h, Action::Lesson(Step::Reset));
    assert_eq!(losses(&h), 0);
}

#[test]
fn the_class_sees_an_edit_at_once() {
    let mut h = class(0, true);
    let inlet = |h: &Harness<'static, Window>| {
        let session = h.state().app.session();
        let point = session.answer().and_then(|a| a.kits.first()?.point()).expect("a point");
        UnitSet::US_TRADE.pressure(point.machine_inlet_pressure, narrows_ambient(h))
    };
    h.get_by_label(&format!("Machine inlet: {}", inlet(&h)));
    let before = inlet(&h);
    let wide = Edit::Set { path: "kits.0.parts.0.bore".to_owned(), text: "4.2 mm".to_owned() };
    apply(&mut h, Action::Edit(wide));
    assert_ne!(before, inlet(&h));
    h.get_by_label_contains(&format!("Machine inlet: {}", inlet(&h)));
    // Reset brings the lesson back as it was, as one step of undo.
    apply(&mut h, Action::Lesson(Step::Reset));
    assert_eq!(before, inlet(&h));
    apply(&mut h, Action::Undo);
    assert_ne!(before, inlet(&h));
}

fn narrows_ambient(h: &Harness<'static, Window>) -> uom::si::f64::Pressure {
    h.state().app.session().document().ambient.absolute_pressure()
}

#[test]
fn hands_are_counted_and_the_picture_blanks() {
    let mut h = class(2, false);
    for key in [Key::Num4, Key::Num4, Key::Num3] {
        h.key_press(key);
    }
    h.run_steps(3);
    h.get_by_label("106 V 4: 2 votes");
    h.get_by_label("113 V 3: 1 votes");
    h.key_press(Key::B);
    h.run_steps(3);
    assert!(h.query_by_label_contains("votes").is_none(), "blank is blank");
    h.key_press(Key::B);
    h.run_steps(3);
    h.get_by_label("106 V 4: 2 votes");
    h.key_press(Key::R);
    h.run_steps(3);
    h.get_by_label("106 V 4: 0 votes");
    h.key_press(Key::Escape);
    h.run_steps(3);
    assert!(h.state().app.session().view.projector.is_none());
}

/// The question about the part that costs the most can be asked of any line-up.
#[test]
fn every_scenario_can_be_shown_to_a_class() {
    for preset in presets::scenarios() {
        let document = scenario::read(preset.text).expect("it reads");
        let mut h = window(document, [1280.0, 720.0]);
        apply(&mut h, Action::Projector(true));
        for _ in 0..14 {
            apply(&mut h, Action::Lesson(Step::Next));
        }
        h.set_size(vec2(200.0, 90.0));
        h.run_steps(3);
        apply(&mut h, Action::Beside(true));
        apply(&mut h, Action::Projector(false));
    }
}

/// A lesson stands on a built-in scenario, its changes apply there, its words have known places.
#[test]
fn lessons_fit_their_scenarios() {
    for lesson in built_in_lessons().expect("they read") {
        let document = || {
            let text = built_in_scenario(&lesson.scenario).expect("a built-in scenario");
            let mut document = scenario::read(text).expect("it reads");
            for change in &lesson.prepare {
                scenario::set(&mut document, &change.path, &change.text).expect("it applies");
            }
            document
        };
        assert!(document().kits.iter().any(|k| k.name == lesson.kit), "{}", lesson.title);
        for change in lesson.why.iter().filter_map(|w| w.set.as_ref()).chain(&lesson.set) {
            let mut changed = document();
            scenario::set(&mut changed, &change.path, &change.text).expect("it applies");
            assert_ne!(changed, document(), "{}: {}", lesson.title, change.path);
            assert!(scenario::check(&changed).is_empty(), "{}: {}", lesson.title, change.path);
        }
        check_places(&lesson);
    }
}

fn check_places(lesson: &Lesson) {
    for why in &lesson.why {
        let mut rest = why.says.as_str();
        while let Some((_, after)) = rest.split_once('{') {
            let (place, behind) = after.split_once('}').expect("a closed place");
            assert!(PLACES.contains(&place), "{}: {place}", lesson.title);
            rest = behind;
        }
    }
}
