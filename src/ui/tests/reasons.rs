//! Find the cause, Read the rating, Site log, by the labels a person reads.

use narrows::advice::diagnose::Group;

use super::*;
use crate::ui::present::scale::sentence;

/// A window on a document that is studied, at a view.
fn studied(document: Document, view: View) -> Harness<'static, Window> {
    let mut session = Session::new(document, None);
    session.study_now(None);
    session.view.view = view;
    window_on(session, [1366.0, 1400.0])
}

fn study_again(harness: &mut Harness<'static, Window>) {
    harness.state_mut().app.study_now();
    harness.run_steps(3);
}

/// The three sets of readings point at path, machine and power, each
/// with a next check.
#[test]
fn three_sets_of_readings_have_three_causes() {
    for (id, group) in
        [("slow-path", Group::Path), ("slow-machine", Group::Machine), ("slow-power", Group::Power)]
    {
        let h = studied(named(id), View::FindCause);
        h.get_by_label_contains(&format!("Likely cause: {}", sentence(group.label())));
        h.get_by_label_contains("Next check. ");
        let because = format!(" ({}). ", group.label());
        assert!(h.query_all_by_label_contains(&because).next().is_some(), "{because}");
    }
}

/// Without the system gauge, path and low system pressure cannot be told apart; typed
/// back with a bare number, they can.
#[test]
fn a_reading_taken_away_and_typed_again() {
    let mut h = studied(named("slow-path"), View::FindCause);
    type_into(&mut h, "System read", " ");
    let readings = h.state().app.session().document().readings.clone().expect("readings");
    assert_eq!(readings.system_pressure, None);
    study_again(&mut h);
    h.get_by_label_contains("Cannot tell between path and low system pressure: no system pressure was read");
    type_into(&mut h, "System read", "70");
    let readings = h.state().app.session().document().readings.clone().expect("readings");
    assert_eq!(readings.system_pressure.expect("it was typed").as_typed(), "70 psig");
    study_again(&mut h);
    h.get_by_label_contains("Likely cause: Path");
}

/// A cylinder at 205 psig and 75 °F, far above R-404A's saturation there (about 160 psig),
/// is hot or holds air; that comes first.
#[test]
fn a_cylinder_above_saturation_comes_first() {
    let mut h = studied(named("slow-path"), View::FindCause);
    type_into(&mut h, "Cylinder pressure read", "205 psig");
    study_again(&mut h);
    h.get_by_label_contains("Likely cause: Cylinder");
    h.get_by_label_contains("Cylinder first: ");
}

/// A document without readings begins with empty fields; refused text changes nothing.
#[test]
fn readings_begin_with_nothing() {
    let mut h = studied(named("long-cord"), View::FindCause);
    h.get_by_label_contains("Nothing is read yet");
    let before = h.state().app.session().document().clone();
    for text in ["NaN V", "0 V", "1e999 V", "many"] {
        type_into(&mut h, "Volts at the machine read", text);
        assert_eq!(*h.state().app.session().document(), before, "{text}");
        h.get_by_label("Volts at the machine read").focus();
        h.run_steps(2);
        h.key_press(Key::Escape);
        h.run_steps(2);
    }
    type_into(&mut h, "Volts at the machine read", "101");
    study_again(&mut h);
    let readings = h.state().app.session().document().readings.clone().expect("readings");
    assert_eq!(readings.running_voltage.expect("typed").as_typed(), "101 V");
    h.get_by_label_contains("Likely cause: ");
}

/// The card's own figures, and the issue's: 0.30 lb/min fits near 0.42 cfm and starts near 1.05.
#[test]
fn a_card_is_read_and_changed() {
    let mut h = studied(named("rating-card"), View::ReadRating);
    let value = |h: &Harness<'static, Window>, label: &str| h.get_by_label(label).value();
    assert_eq!(value(&h, "Vapour as printed").as_deref(), Some("0.30 lb/min"));
    assert_eq!(value(&h, "Port bore of the card").as_deref(), Some("4.8 mm"));
    let reading = |h: &Harness<'static, Window>| {
        let reasons = h.state().app.session().study().and_then(|s| s.reasons.clone()).expect("studied");
        reasons.card.expect("a card").expect("it is read").1
    };
    let cfm = |h: &Harness<'static, Window>| {
        let fit = reading(h).fit.expect("a fit");
        fit.displacement.get::<uom::si::volume_rate::cubic_foot_per_minute>()
    };
    assert!((cfm(&h) - 0.42).abs() < 0.03, "{}", cfm(&h));
    h.get_by_label_contains("Displacement, fitted: 0.4");
    // Near 1.05 with an inlet that does not limit; this card's liquid rate fits one that does a little.
    let start = reading(&h).starting_rate.expect("a rate").value * 60.0 / 0.45359237;
    assert!((0.9..1.1).contains(&start), "{start}");
    h.get_by_label_contains(&format!("Rate at the start of the test: {start:.3} lb/min"));
    h.get_by_label_contains("Vapour: displacement, 0.300 of ");
    h.get_by_label_contains("Push-pull: motor power, 10.0 of ");
    type_into(&mut h, "Vapour as printed", "0.2");
    study_again(&mut h);
    assert!(cfm(&h) < 0.35, "{}", cfm(&h));
    h.get_by_label("Remove push-pull").click();
    h.run_steps(3);
    let card = h.state().app.session().document().rating_card.clone().expect("a card");
    assert!(card.push_pull.is_none() && card.liquid.is_some());
}

#[test]
fn a_condition_taken_away_is_unknown_and_widens_the_band() {
    let mut h = studied(named("rating-card"), View::ReadRating);
    let spread = |h: &Harness<'static, Window>| {
        let reasons = h.state().app.session().study().and_then(|s| s.reasons.clone()).expect("studied");
        let band = reasons.card.expect("a card").expect("it is read").1.band.expect("a band");
        band.high.value / band.low.value
    };
    let before = spread(&h);
    h.get_by_label("Refrigerant of the card").click();
    h.run_steps(3);
    h.get_by_label("unknown").click();
    h.run_steps(3);
    let card = h.state().app.session().document().rating_card.clone().expect("a card");
    assert_eq!(card.conditions.refrigerant, None);
    study_again(&mut h);
    assert!(spread(&h) > before, "{before} to {}", spread(&h));
    assert!(h.query_all_by_label_contains("not said on the card: refrigerant").next().is_some());
}

#[test]
fn a_card_is_added_and_removed() {
    let mut h = studied(named("long-cord"), View::ReadRating);
    h.get_by_label_contains("No rating card here.");
    h.get_by_label("Add a rating card").click();
    h.run_steps(3);
    assert!(h.state().app.session().faults().is_empty(), "a new card has no fault");
    study_again(&mut h);
    h.get_by_label_contains("Displacement, fitted: ");
    h.get_by_label("Remove the card").click();
    h.run_steps(3);
    assert_eq!(h.state().app.session().document().rating_card, None);
}

const TABLE: &str = "time (min), weight (lb), system_pressure (psig), machine_inlet_pressure (psig)\n\
    0, 30, 120, 80\n\
    5, 31.5, 118, 78\n\
    10, 33, 116, 76\n\
    15, 34.5, 114, 75\n";

fn table(name: &str, text: &str) -> std::path::PathBuf {
    let path = std::env::temp_dir().join(format!("narrows-log-{name}-{}.csv", std::process::id()));
    std::fs::write(&path, text).expect("a table is written");
    path
}

/// A table opened, by dialog, path or drop, becomes the document's log: rows as they stand there,
/// gains by hand from the first weight.
#[test]
fn a_table_becomes_the_log() {
    let mut h = studied(named("reference-kits"), View::Bench);
    let path = table("reads", TABLE);
    apply(&mut h, Action::Open(path.clone()));
    std::fs::remove_file(path).expect("it was there");
    let session = h.state().app.session();
    assert_eq!(session.view.view, View::SiteLog);
    assert_eq!(session.document().log.as_ref().map(|log| log.rows.len()), Some(4));
    assert_eq!(session.file(), None, "a table is not the document's file");
    assert_eq!(h.get_by_label("Weight of row 2").value().as_deref(), Some("31.5 lb"));
    assert_eq!(h.get_by_label("Machine inlet of row 4").value().as_deref(), Some("75 psig"));
    study_again(&mut h);
    for gained in ["0.00", "1.50", "3.00", "4.50"] {
        assert!(h.query_all_by_label(gained).next().is_some(), "{gained}");
    }
    h.get_by_label_contains("Machine: ");
    h.get_by_label_contains("Weight left over: ");
    h.get_by_label_contains("Left over in 4 rows: ");
    h.get_by_label("Undo").click();
    h.run_steps(3);
    assert_eq!(h.state().app.session().document().log, None);
}

#[test]
fn a_table_in_disorder_is_refused_in_words() {
    let mut h = studied(named("reference-kits"), View::SiteLog);
    let before = h.state().app.session().document().clone();
    let disorder = TABLE.replace("15, 34.5", "2, 34.5");
    for (name, text, says) in [
        ("disorder", disorder.as_str(), "is not after the row before"),
        ("short", "time (min), weight (lb)\n0, 30\n", "expected 2 to"),
        ("heading", "time (min), wait (lb)\n0, 30\n", "is not known"),
        ("cell", "time (min), weight (lb)\n0, heavy\n", "line 2"),
        ("empty", "", "there is no column"),
    ] {
        let path = table(name, text);
        apply(&mut h, Action::Open(path.clone()));
        std::fs::remove_file(path).expect("it was there");
        let session = h.state().app.session();
        assert_eq!(*session.document(), before, "{name}");
        let message = session.view.message.clone().unwrap_or_default();
        assert!(message.contains(says), "{name}: {message}");
    }
}

/// Begun by hand: a row more is as long after the last; two rows are the least.
#[test]
fn a_log_is_begun_and_typed() {
    let mut h = studied(named("reference-kits"), View::SiteLog);
    h.get_by_label_contains("No site log here.");
    h.get_by_label("Begin a log").click();
    h.run_steps(3);
    assert!(h.state().app.session().faults().is_empty());
    h.get_by_label("Add a row").click();
    h.run_steps(3);
    assert_eq!(h.get_by_label("Time of row 3").value().as_deref(), Some("20 min"));
    type_into(&mut h, "Weight of row 3", "4.5");
    let log = h.state().app.session().document().log.clone().expect("a log");
    assert_eq!(log.rows[2].weight.as_typed(), "4.5 lb");
    let before = h.state().app.session().document().clone();
    type_into(&mut h, "Time of row 2", "25 min");
    assert_eq!(*h.state().app.session().document(), before, "later than the row after it");
    assert!(h.query_all_by_label_contains("is not after the row before").next().is_some());
    h.get_by_label("Remove row 1").click();
    h.run_steps(3);
    h.get_by_label("Remove row 1").click();
    h.run_steps(3);
    let log = h.state().app.session().document().log.clone().expect("a log");
    assert_eq!(log.rows.len(), 2, "two rows stay");
    h.get_by_label("Remove the log").click();
    h.run_steps(3);
    assert_eq!(h.state().app.session().document().log, None);
}

/// With answers in them, at no, small and large size.
#[test]
fn every_view_with_answers_shows_at_every_size() {
    for (id, view) in [
        ("slow-power", View::FindCause),
        ("rating-card", View::ReadRating),
        ("reference-kits", View::SiteLog),
    ] {
        let mut h = studied(named(id), view);
        if view == View::SiteLog {
            let path = table("sizes", TABLE);
            apply(&mut h, Action::Open(path.clone()));
            std::fs::remove_file(path).expect("it was there");
            study_again(&mut h);
        }
        for size in [[0.0, 0.0], [240.0, 180.0], [760.0, 500.0], [1920.0, 1080.0]] {
            h.set_size(vec2(size[0], size[1]));
            h.run_steps(3);
        }
    }
}
