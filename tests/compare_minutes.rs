//! Comparisons that know the time of the whole job, and what it costs.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops where it fails")]

mod documents;

use documents::{preset, with};
use narrows::compare::{
    CompareError, Figure, Headline, Prices, Row, WhatCounts, count_minutes, what_counts, whole_jobs,
};
use narrows::job::over_time::follow;
use narrows::kit::{PartKind, Rules};
use narrows::presets::{Shelf, built_in_rules};
use narrows::report::{Draws, compare_document};
use narrows::scenario::{self, Document, resolve_jobs};

fn rules() -> Rules {
    built_in_rules().unwrap()
}

/// Seconds of a kit's job, straight from the job.
fn followed_s(document: &Document, kit: &str) -> f64 {
    let planned = resolve_jobs(document, &rules()).unwrap();
    let job = planned.kits.iter().find(|job| job.kit.name == kit).unwrap();
    follow(&job.setup).unwrap().total.value
}

fn counted(document: &Document, kit: &str, prices: &Prices) -> WhatCounts {
    let mut counts = what_counts(document, kit, &Shelf::built_in().unwrap(), prices).unwrap();
    assert!(!counts.has_jobs());
    assert!(count_minutes(document, &rules(), &mut counts, &|| false).unwrap());
    counts
}

fn total_s(headline: &Headline) -> f64 {
    headline.si(Figure::Minutes).unwrap()
}

#[test]
fn side_by_side_knows_the_time_of_the_job() {
    let document = preset("bakery-freezer");
    let compared = compare_document(&document, &rules(), Draws::default(), &|| false).unwrap();
    for (at, kit) in ["A", "B", "C"].into_iter().enumerate() {
        assert_eq!(total_s(&compared.headline(at)), followed_s(&document, kit), "the same bits");
        assert_eq!(compared.headline(at).cylinders, Some(1));
    }
    // Vapour alone chills the charge; liquid first is much faster, and B and C draw level.
    let liquid = with(&document, &[("job.method", "liquid_then_vapour")]);
    let compared = compare_document(&liquid, &rules(), Draws::default(), &|| false).unwrap();
    let per_kg = |document: &Document, at: usize| {
        let jobs = whole_jobs(document, &rules()).unwrap();
        let answer = jobs[at].answer.as_ref().unwrap();
        answer.total.value / answer.recovered.value
    };
    for at in 0..3 {
        assert!(per_kg(&liquid, at) < per_kg(&document, at), "{at}");
    }
    assert!(total_s(&compared.headline(1)) < total_s(&compared.headline(0)));
}

/// Without the system's volume there is no job: no minutes, and it is said why.
#[test]
fn a_document_without_a_job_has_no_minutes() {
    let document = with(preset("reference-kits"), &[("source.volume", "none")]);
    let compared = compare_document(&document, &rules(), Draws::default(), &|| false).unwrap();
    assert_eq!(compared.headline(0).minutes, None);
    assert!(compared.headline(0).rate.is_some());
    assert!(compared.jobs.as_ref().unwrap_err().contains("source.volume"), "{:?}", compared.jobs);
    let shelf = Shelf::built_in().unwrap();
    let mut counts = what_counts(&document, "A", &shelf, &Prices::default()).unwrap();
    let before = counts.clone();
    let error = count_minutes(&document, &rules(), &mut counts, &|| false).unwrap_err();
    assert!(matches!(error, CompareError::NoJob { .. }), "{error}");
    assert_eq!(counts, before);
    assert_eq!(counts.gain(&counts.rows[0].without).total_s, None);
}

/// Minutes of a thing made ideal or changed are those of a document without it, or with the change.
#[test]
fn minutes_are_those_of_the_changed_document() {
    let document = preset("bakery-freezer");
    let counts = counted(&document, "A", &Prices::default());
    assert_eq!(total_s(&counts.base), followed_s(&document, "A"));
    let check = |headline: &Headline, edits: &[(&str, &str)]| {
        let (got, expected) = (total_s(headline), followed_s(&with(&document, edits), "A"));
        assert!((got / expected - 1.0).abs() < 1e-4, "{edits:?}: {got} s, expected {expected} s");
    };
    for id in ["kits.A.parts.0", "kits.A.parts.2", "kits.A.parts.4"] {
        check(&counts.row(id).unwrap().without, &[(id, "none")]);
    }
    let stem = "Stem(bore: \"4.2 mm\", discharge_coefficient: \"0.8\", pressure_recovery: \"1\")";
    let better = |id: &str| counts.row(id).unwrap().better.as_ref().unwrap().headline;
    check(&better("kits.A.parts.0"), &[("kits.A.parts.0", stem)]);
    check(&better("kits.A.parts.2"), &[("kits.A.parts.2", "none")]);
    let cold = [("machine.condenser.condensing_temperature", "75 degF")];
    check(&counts.row("machine.condenser").unwrap().without, &cold);
    let ice = counts.row("cylinder.temperature").unwrap();
    check(&ice.without, &[("cylinder.temperature", "0 degC")]);
}

/// An electronic drive keeps its speed: a cord changes volts and not a bit of the time. An induction
/// motor slips less behind a thick cord.
#[test]
fn a_cord_costs_volts_and_hardly_time() {
    let counts = counted(&preset("bakery-freezer"), "A", &Prices::default());
    let cord = counts.row("supply.cords.0").unwrap();
    assert_eq!(counts.gain(&cord.without).total_s, Some(0.0));
    assert!(counts.gain(&cord.without).running_v.unwrap() > 0.5);
    let document = with(preset("long-cord"), &[("source.volume", "0.5 ft3"), ("source.charge", "8 lb")]);
    let counts = counted(&document, "A", &Prices::default());
    let cord = counts.row("supply.cords.0").unwrap();
    let gained = counts.gain(&cord.without).total_s.unwrap();
    assert!(gained < 0.0 && gained > -0.1 * total_s(&counts.base), "{gained}");
    let bare = with(&document, &[("supply.cords.0", "none")]);
    assert!((total_s(&cord.without) / followed_s(&bare, "A") - 1.0).abs() < 1e-4);
}

/// In minutes, too, the core counts most of the parts and the end next; conditions come after.
#[test]
fn the_order_holds_in_minutes() {
    for id in ["bakery-freezer", "reference-kits"] {
        let counts = counted(&preset(id), "A", &Prices::default());
        let kinds: Vec<_> = counts.rows.iter().filter_map(|row| row.kind).collect();
        assert_eq!(kinds[..2], [PartKind::ValveCore, PartKind::SelfSealingEnd], "{id}: {kinds:?}");
        assert_eq!(kinds[2], PartKind::GaugeSet, "{id}: {kinds:?}");
        assert_eq!(counts.rows[0].kind, Some(PartKind::ValveCore));
        assert_eq!(counts.best_change.as_deref(), Some("kits.A.parts.0"), "{id}");
        let saved = |row: &Row| -counts.gain(&row.without).total_s.unwrap();
        let all = total_s(&counts.base) - total_s(&counts.ideal);
        for row in &counts.rows {
            // Interpolated path curves are good to some tenths of a percent.
            assert!(saved(row) > -2e-3 * total_s(&counts.base), "{id} {}: {}", row.id, saved(row));
            assert!(saved(row) < all, "{id} {}", row.id);
        }
    }
}

/// By hand from the minutes: price over minutes saved, and price over what these minutes cost.
#[test]
fn prices_make_a_pay_back() {
    let mut document = with(preset("bakery-freezer"), &[("prices.minute", "1.5")]);
    let price = |name: &str, price: &str| narrows::kit::ChangePrice {
        name: name.to_owned(),
        price: narrows::kit::Price::parse(price).unwrap(),
    };
    let changes = vec![price("stem-quarter", "25"), price("ball-valve-quarter", "18.50")];
    document.prices.as_mut().unwrap().changes = changes;
    let again = scenario::read(&scenario::write(&document).unwrap()).unwrap();
    assert_eq!(again, document, "prices stay as typed");
    let counts = counted(&document, "A", &Prices::of(&document));
    let core = counts.row("kits.A.parts.0").unwrap().better.as_ref().unwrap();
    let saved_min = (total_s(&counts.base) - total_s(&core.headline)) / 60.0;
    assert!((1.0..3.0).contains(&saved_min), "{saved_min}");
    assert_eq!(core.price, Some(25.0));
    assert!((counts.price_per_minute(core).unwrap() * saved_min - 25.0).abs() < 1e-9);
    assert!((counts.pay_back_jobs(core).unwrap() * 1.5 * saved_min - 25.0).abs() < 1e-9);
    let gauge_set = counts.row("kits.A.parts.2").unwrap().better.as_ref().unwrap();
    assert_eq!((gauge_set.price, counts.pay_back_jobs(gauge_set)), (None, None));
    let faulty = with(&document, &[("prices.minute", "-3")]);
    assert!(scenario::check(&faulty).iter().any(|fault| fault.path == "prices.minute"));
}

/// Two machines that are owned against one for rent. One simple model, without self-chilling, gives
/// 151 min for one small machine on an open path to 10 inHg, 76 for two, 43 for the large one, 105
/// for it behind the old kit: a fifth is allowed for what it leaves out.
#[test]
fn owning_two_or_renting_one() {
    let document = preset("own-or-rent");
    let compared = compare_document(&document, &rules(), Draws::default(), &|| false).unwrap();
    let minutes = |at: usize| total_s(&compared.headline(at)) / 60.0;
    for (at, expected) in [(0, 76.0), (1, 43.0), (2, 105.0)] {
        assert!((minutes(at) / expected - 1.0).abs() < 0.2, "{at}: {} min, expected {expected}", minutes(at));
    }
    assert!(minutes(2) > minutes(0), "renting without other hoses loses to the two that are there");
    // Rent over the minutes it saves; the cost is rent and minutes at 1.25.
    let saved = minutes(0) - minutes(1);
    assert!((compared.price_per_minute((0, 1)).unwrap() - 90.0 / saved).abs() < 1e-9);
    assert_eq!(compared.price_per_minute((0, 2)), None, "it saves nothing");
    let cost = |at: usize| compared.headline(at).cost.unwrap();
    assert!((cost(0) - 1.25 * minutes(0)).abs() < 1e-9);
    assert!((cost(1) - 90.0 - 1.25 * minutes(1)).abs() < 1e-9);
    assert!(cost(0) < cost(1) && cost(1) < cost(2));
    let fields: Vec<&str> = compared.differs[1].fields.iter().map(|field| field.field.as_str()).collect();
    assert!(fields.contains(&"machines") && fields.contains(&"price"), "{fields:?}");
}

#[test]
fn stopping_leaves_the_figures_as_they_were() {
    let document = preset("bakery-freezer");
    let shelf = Shelf::built_in().unwrap();
    let mut counts = what_counts(&document, "A", &shelf, &Prices::default()).unwrap();
    let before = counts.clone();
    assert!(!count_minutes(&document, &rules(), &mut counts, &|| true).unwrap());
    assert_eq!(counts, before);
}
