//! Kits side by side: what differs, what a copy differs by, stories with a machine of their own.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops where it fails")]

mod documents;

use documents::preset;
use narrows::compare::{
    CompareError, Figure, PartDifference, Verdict, align, bands, chosen, differing, side_by_side,
};
use narrows::kit::Kit;
use narrows::scenario::{self, Document};

fn with_kits(document: Document, kits: Vec<Kit>) -> Document {
    Document { kits, ..document }
}

fn renamed(kit: &Kit, name: &str) -> Kit {
    Kit { name: name.to_owned(), ..kit.clone() }
}

#[test]
fn a_copy_differs_by_exactly_nothing() {
    let document = preset("bakery-freezer");
    let copy = renamed(&document.kits[0], "Copy");
    let document = with_kits(document.clone(), vec![document.kits[0].clone(), copy]);
    let side = side_by_side(&document).unwrap();
    assert!(side.columns[1].differs.is_empty(), "{:?}", side.columns[1].differs);
    let plan = narrows::compare::DrawPlan::new(32, 3).unwrap();
    let bands = bands(&document, plan, &|| false).unwrap();
    let difference = bands.difference("A", "Copy").unwrap();
    for figure in [Figure::Rate, Figure::MachineInlet, Figure::RunningVoltage, Figure::StartingVoltage] {
        assert_eq!(side.columns[1].headline.less(&side.columns[0].headline, figure), Some(0.0), "{figure:?}");
        let band = difference.band(figure).unwrap();
        assert_eq!((band.low, band.high), (0.0, 0.0), "{figure:?}");
        assert_eq!(difference.verdict(figure), Verdict::Same, "{figure:?}");
    }
}

/// A copy whose parts carry other names and came from nowhere is still the same kit.
#[test]
fn names_make_no_difference_to_a_band() {
    let document = preset("bakery-freezer");
    let mut copy = renamed(&document.kits[1], "Copy");
    copy.label = Some("Another label".to_owned());
    copy.parts[0].set_name(Some("My stem".to_owned()));
    let document = with_kits(document.clone(), vec![document.kits[1].clone(), copy]);
    let plan = narrows::compare::DrawPlan::new(16, 3).unwrap();
    let bands = bands(&document, plan, &|| false).unwrap();
    assert_eq!(bands.difference("B", "Copy").unwrap().verdict(Figure::Rate), Verdict::Same);
}

/// By hand from the file: B has a stem for the core and a ball valve for the end, and does without
/// the gauge set and the second hose.
#[test]
fn only_what_differs_is_listed() {
    let document = preset("reference-kits");
    let found = differing(&document, &document.kits[0], &document.kits[1]);
    let words: Vec<String> = found
        .parts
        .iter()
        .map(|part| match part {
            PartDifference::Replaced { first, second, .. } => format!("{first} > {second}"),
            PartDifference::Removed { first_path, name } => format!("{first_path} {name} out"),
            other => panic!("{other:?}"),
        })
        .collect();
    assert_eq!(
        words,
        [
            "Valve core, 2.2 mm > Core out, 4.2 mm",
            "kits.A.parts.2 Gauge set, 3.6 mm out",
            "kits.A.parts.3 Hose, 4.8 mm, 3 ft out",
            "Self-sealing end, 2.6 mm > Ball valve, 4.2 mm",
        ]
    );
    assert!(found.fields.is_empty(), "{:?}", found.fields);
    let found = differing(&document, &document.kits[1], &document.kits[2]);
    let changed: Vec<_> = found
        .parts
        .iter()
        .map(|part| match part {
            PartDifference::Changed { name, fields, .. } => {
                let field = &fields[0];
                assert_eq!(fields.len(), 1, "{fields:?}");
                format!("{name} {} {:?} {:?}", field.field, field.first, field.second)
            }
            other => panic!("{other:?}"),
        })
        .collect();
    assert_eq!(
        changed,
        [
            r#"Core out bore Some("4.2 mm") Some("4.8 mm")"#,
            r#"Hose bore Some("4.8 mm") Some("8 mm")"#,
            r#"Ball valve bore Some("4.2 mm") Some("7 mm")"#,
        ]
    );
}

#[test]
fn what_a_kit_overrides_is_listed() {
    let mut document = preset("reference-kits");
    let mut own = renamed(&document.kits[0], "Own");
    own.machine = Some(document.machine.clone());
    own.cords = Some(document.supply.cords.clone());
    own.method = Some(document.method);
    document.kits = vec![document.kits[0].clone(), own];
    let listed = |document: &Document| {
        let found = differing(document, &document.kits[0], &document.kits[1]);
        assert!(found.parts.is_empty());
        found.fields
    };
    assert!(listed(&document).is_empty(), "an override that says the same is no difference");
    for (path, value, field) in [
        ("kits.Own.machine.displacement", "1.6 cfm", "machine.displacement"),
        ("kits.Own.cords.0.gauge", "16 AWG", "cords.0.gauge"),
        ("kits.Own.port", "liquid", "port"),
        ("kits.Own.method.flashing", "delayed", "method.flashing"),
    ] {
        let mut changed = document.clone();
        scenario::set(&mut changed, path, value).unwrap();
        let fields = listed(&changed);
        assert_eq!(fields.len(), 1, "{fields:?}");
        assert_eq!((fields[0].field.as_str(), fields[0].second.as_deref()), (field, Some(value)));
    }
}

/// What a second port draws and where it joins, as a person counts parts.
#[test]
fn a_second_port_is_said_in_words() {
    let document = preset("hospital-two-ports");
    let found = |document: &Document| differing(document, &document.kits[0], &document.kits[1]).fields;
    let fields = found(&document);
    let said = [fields[0].field.as_str(), fields[0].second.as_deref().unwrap()];
    assert_eq!((fields.len(), fields[0].first.as_deref()), (1, None), "{fields:?}");
    assert_eq!(said, ["second_port", "vapour, joins before part 3 (Tee)"]);
    let mut changed = document.clone();
    changed.kits[0] = renamed(&document.kits[1], "A");
    changed.kits[1].second_port.as_mut().unwrap().joins_before = 5;
    scenario::set(&mut changed, "kits.B.second_port.port", "both").unwrap();
    let fields = found(&changed);
    assert_eq!(fields[0].second.as_deref(), Some("liquid and vapour, joins at the machine"), "{fields:?}");
}

/// The agreed ranges of the story: a machine with 3.8 times the displacement moves 1.4 to 1.9 times
/// as much through kit A and 3.1 to 3.7 times as much through kit C.
#[test]
fn a_bigger_machine_is_held_back_by_the_same_hoses() {
    let mut document = preset("reference-kits");
    let mut machine = document.machine.clone();
    machine.displacement = "1.6 cfm".parse().unwrap();
    let kits: Vec<Kit> = ["A", "C"]
        .iter()
        .flat_map(|name| {
            let small = document.kit(name).unwrap().clone();
            let large = Kit { machine: Some(machine.clone()), ..renamed(&small, &format!("{name}-large")) };
            [small, large]
        })
        .collect();
    document.kits = kits;
    let side = side_by_side(&document).unwrap();
    let rate = |at: usize| side.columns[at].headline.si(Figure::Rate).unwrap();
    let (a, c) = (rate(1) / rate(0), rate(3) / rate(2));
    assert!((1.4..=1.9).contains(&a), "kit A: {a}");
    assert!((3.1..=3.7).contains(&c), "kit C: {c}");
    let found = differing(&document, &document.kits[0], &document.kits[1]);
    assert_eq!(found.fields.len(), 1);
    assert_eq!(found.fields[0].field, "machine.displacement");
}

#[test]
fn kits_are_chosen_by_name_and_no_more_than_four() {
    let document = preset("reference-kits");
    let names = |list: &[&str]| list.iter().map(|name| (*name).to_owned()).collect::<Vec<_>>();
    let two = chosen(&document, &names(&["C", "a"])).unwrap();
    assert_eq!(two.kits.iter().map(|kit| kit.name.as_str()).collect::<Vec<_>>(), ["C", "A"]);
    let error = chosen(&document, &names(&["D"])).unwrap_err();
    assert_eq!(error.to_string(), "there is no kit \"D\"; expected one of A, B, C");
    let five = ["V", "W", "X", "Y", "Z"].map(|name| renamed(&document.kits[0], name));
    let five = with_kits(document, five.to_vec());
    assert_eq!(chosen(&five, &[]).unwrap_err(), CompareError::TooManyKits { count: 5, most: 4 });
    assert!(side_by_side(&five).is_err());
    assert_eq!(chosen(&five, &names(&["V", "W", "X", "Y"])).unwrap().kits.len(), 4);
}

#[test]
fn every_part_of_both_kits_stands_in_one_pair() {
    for id in ["reference-kits", "hospital-two-ports", "ice-rink-liquid", "school-kitchen", "museum-metric"] {
        let document = preset(id);
        for one in &document.kits {
            for other in &document.kits {
                let pairs = align(&one.parts, &other.parts);
                let places = |of: fn(&narrows::compare::Pair) -> Option<usize>| {
                    pairs.iter().filter_map(of).collect::<Vec<_>>()
                };
                assert_eq!(places(|pair| pair.first), (0..one.parts.len()).collect::<Vec<_>>(), "{id}");
                assert_eq!(places(|pair| pair.second), (0..other.parts.len()).collect::<Vec<_>>(), "{id}");
            }
        }
    }
}
