//! Minutes, their bands and prices, by the labels a person reads: side by side, what counts, the
//! break-even, a second card, the worked log.

use super::*;
use crate::ui::draws::{Counts, Telling, draw, has};
use crate::ui::progress::{Progress, Wish};
use crate::ui::scholar::Scholar;
use crate::ui::study::study;
use crate::ui::view::Counted;

/// As few draws as make a band.
const FEW: Counts = Counts { jobs: 8, gains: 16, job_gains: 8, break_evens: 8 };

/// Small enough for a few jobs: two kits.
fn two_kits() -> Document {
    let mut document = named("bakery-freezer");
    document.kits.truncate(2);
    document
}

fn drawn(document: Document, view: View, wishes: &[Wish]) -> Harness<'static, Window> {
    let mut session = Session::new(document, None);
    session.draw_now(wishes, FEW);
    session.view.view = view;
    window_on(session, [1366.0, 1400.0])
}

#[test]
fn side_by_side_in_minutes_and_in_rate() {
    let mut h = drawn(two_kits(), View::SideBySide, &[Wish::Jobs]);
    h.get_by_label("Difference in time to level");
    h.get_by_label_contains("10 to 90 % of 8 draws");
    h.get_by_label_contains("min sooner (");
    h.get_by_label_contains("Time to level: A ");
    h.get_by_label("In rate").click();
    h.run_steps(3);
    h.get_by_label("Difference in rate");
    h.get_by_label_contains("lb/min faster");
    h.get_by_label("In minutes").click();
    h.run_steps(3);
    h.get_by_label("Difference in time to level");
}

/// A price of a minute makes costs of minutes; a kit's own price comes on top.
#[test]
fn prices_are_typed_beside_the_kits() {
    let mut h = drawn(two_kits(), View::SideBySide, &[]);
    assert!(h.query_all_by_label_contains("Cost: A").next().is_none());
    type_into(&mut h, "Price of a minute", "1.50");
    type_into(&mut h, "Price of kit B", "40");
    let document = h.state().app.session().document().clone();
    let minute = document.prices.as_ref().and_then(|list| list.minute.as_ref()).expect("typed");
    assert_eq!(minute.as_typed(), "1.50");
    assert_eq!(document.kits[1].price.as_ref().expect("typed").as_typed(), "40");
    h.state_mut().app.session_mut().draw_now(&[], FEW);
    h.run_steps(3);
    h.get_by_label_contains("Cost: A ");
    h.get_by_label_contains("B against A: ");
    for refused in ["-3", "25 %", "much"] {
        type_into(&mut h, "Price of kit B", refused);
        assert_eq!(h.state().app.session().document(), &document, "{refused}");
        h.key_press(Key::Escape);
        h.run_steps(2);
    }
}

/// What counts in minutes, with hatch and words about it; changes are priced by what they are.
#[test]
fn what_counts_in_minutes_with_prices() {
    let mut document = two_kits();
    document.kits.truncate(1);
    let mut h = drawn(document, View::WhatCounts, &[Wish::Gains(0)]);
    h.get_by_label_contains("Hatch: 10 to 90 % of 8 draws.");
    h.get_by_label_contains("Valve core, 2.2 mm, ");
    h.get_by_label("In rate").click();
    h.run_steps(3);
    h.get_by_label_contains("Hatch: 10 to 90 % of 16 draws.");
    h.get_by_label("In minutes").click();
    apply(&mut h, Action::Counts(Counted::Change));
    h.run_steps(3);
    assert!(h.query_all_by_label_contains("too close to call").next().is_some(), "a wider hose");
    let core = "Price of: Take the core out (4.2 mm bore)";
    type_into(&mut h, core, "25");
    type_into(&mut h, "Price of a minute", "2");
    let list = h.state().app.session().document().prices.clone().expect("typed");
    assert_eq!(list.of("stem-quarter").expect("typed").as_typed(), "25");
    h.state_mut().app.session_mut().draw_now(&[], FEW);
    h.run_steps(3);
    h.get_by_label_contains("for a minute saved, paid back after ");
    type_into(&mut h, core, " ");
    let list = h.state().app.session().document().prices.clone().expect("a minute's price is left");
    assert_eq!(list.of("stem-quarter"), None);
    h.get_by_label("Undo").click();
    h.run_steps(3);
    assert!(
        h.state().app.session().document().prices.as_ref().is_some_and(|p| p.of("stem-quarter").is_some())
    );
}

#[test]
fn no_job_no_minutes_and_it_is_said() {
    let mut document = two_kits();
    scenario::set(&mut document, "source.volume", "none").expect("optional");
    let h = drawn(document, View::WhatCounts, &[]);
    h.get_by_label_contains("No minutes: source.volume: ");
    assert!(h.query_by_label("In minutes").is_none());
}

/// Drawn in one go or stopped and taken up again: what is kept says how far it came.
#[test]
fn draws_stop_where_they_are_told_to() {
    let plan = narrows::compare::DrawPlan::new(8, 1).ok();
    let mut document = two_kits();
    document.kits.truncate(1);
    let mut stopped = study(document, plan, &|| false, &mut |_| {});
    let progress = Progress::default();
    assert_eq!(progress.now(), None);
    let counts = Counts { jobs: 32, ..FEW };
    let telling = Telling {
        stop: &|| progress.now().is_some_and(|(made, _)| made >= 10),
        keep: &|| true,
        tell: &|made, of| {
            if of > 0 {
                progress.tell(made, of);
            }
        },
    };
    draw(&mut stopped, Wish::Jobs, counts, &telling);
    assert_eq!(progress.now(), Some((10, 32)));
    assert!(!has(&stopped, Wish::Jobs), "it is not all of it");
    let of = |study: &crate::ui::study::Study| {
        let compared = study.compared.clone().expect("compared").expect("solved");
        compared.job_bands.map(|bands| (bands.draws, bands.stopped))
    };
    assert_eq!(of(&stopped), Some((10, true)));
    let dropped = Telling { stop: &|| true, keep: &|| false, ..telling };
    let before = of(&stopped);
    draw(&mut stopped, Wish::Jobs, counts, &dropped);
    assert_eq!(of(&stopped), before, "the old answer stays");
    let whole = Telling { stop: &|| false, keep: &|| true, tell: &|_, _| {} };
    draw(&mut stopped, Wish::Jobs, FEW, &whole);
    assert!(has(&stopped, Wish::Jobs));
}

/// The thread draws what the view wishes for, says how far it is, and stops at a word.
#[test]
fn the_long_draws_are_told_and_cancelled() {
    let mut session = Session::new(two_kits(), None);
    session.employ(Scholar::start(&egui::Context::default()).expect("a thread"));
    session.view.view = View::SideBySide;
    let mut h = window_on(session, [1366.0, 1000.0]);
    // As long as it takes: the machine may be busy.
    while h.query_by_label("Cancel").is_none() {
        std::thread::sleep(std::time::Duration::from_millis(20));
        h.run_steps(1);
    }
    h.get_by_label_contains(" of 256 draws");
    h.get_by_label("Cancel").click();
    h.run_steps(2);
    h.get_by_label("The long draws were ended.");
    h.get_by_label("Draw again").click();
    h.run_steps(2);
    assert!(h.query_by_label("The long draws were ended.").is_none());
}

/// Push-pull repays its hose change above some charge, or does not: one sentence and its band.
#[test]
fn the_break_even_stands_on_the_job_sheet() {
    let mut document = named("ice-rink-liquid");
    document.kits.truncate(1);
    let h = drawn(document.clone(), View::JobSheet, &[]);
    h.get_by_label("Not looked for yet.");
    let h = drawn(document, View::JobSheet, &[Wish::BreakEven(0)]);
    let found = h.state().app.session().study().and_then(|s| s.break_evens.first().cloned()).expect("found");
    let words = narrows::report::break_even_text(
        &found.found,
        h.state().app.session().view.units,
        uom::si::f64::Pressure::new::<uom::si::pressure::pascal>(101_325.0),
    );
    h.get_by_label(&words);
    assert_eq!(found.band.expect("drawn").draws, 8);
}

#[test]
fn a_second_card_is_added_typed_and_removed() {
    let mut session = Session::new(named("rating-card"), None);
    session.study_now(None);
    session.view.view = View::ReadRating;
    let mut h = window_on(session, [1366.0, 1600.0]);
    h.get_by_label("Compare with another card").click();
    h.run_steps(3);
    type_into(&mut h, "Vapour as printed on the other card", "0.6");
    type_into(&mut h, "Ambient of the other card", "75");
    let other = |h: &Harness<'static, Window>| {
        h.state().app.session().document().rating_card.clone().expect("a card").against
    };
    let against = other(&h).expect("another card");
    assert_eq!(against.vapour.as_ref().expect("typed").rate.as_typed(), "0.6 lb/min");
    assert_eq!(against.conditions.ambient.as_ref().expect("typed").as_typed(), "75 °F");
    assert!(h.state().app.session().faults().is_empty());
    h.get_by_label("Vapour as printed");
    h.get_by_label("Remove the other card").click();
    h.run_steps(3);
    assert_eq!(other(&h), None);
    h.get_by_label("Compare with another card");
}

/// The worked log opens with its factors: 80 % and one half, as it was made.
#[test]
fn the_worked_log_opens() {
    let mut session = Session::new(named("cold-store-log"), None);
    session.study_now(None);
    session.view.view = View::SiteLog;
    let h = window_on(session, [1366.0, 1400.0]);
    assert_eq!(h.get_by_label("Weight of row 2").value().as_deref(), Some("34.45 lb"));
    let reasons = h.state().app.session().study().and_then(|s| s.reasons.clone()).expect("studied");
    let fitted = reasons.log.expect("a log").expect("fitted").1;
    let (health, open) = (fitted.health.expect("fitted").0, fitted.part_open.expect("fitted").0);
    assert!((health - 0.8).abs() < 0.04 && (open - 0.5).abs() < 0.025, "{health} {open}");
    h.get_by_label_contains("Machine: ");
}
