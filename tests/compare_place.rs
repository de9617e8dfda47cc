//! Where to put the machine: what hose and cord trade, by laws, by the resistance of wire and by the
//! friction of a tube.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops where it fails")]

mod documents;

use documents::{preset, with};
use narrows::compare::{
    CompareError, DrawPlan, Figure, NoWay, PlaceAsk, Placed, Places, Trouble, Verdict, places,
    rate_difference,
};
use narrows::job::{KitAnswer, solve};
use narrows::power::ElementKind;
use narrows::scenario::{self, Document};
use narrows::units::Typed;
use uom::si::electric_current::ampere;
use uom::si::electric_potential::volt;
use uom::si::pressure::pascal;
use uom::si::thermodynamic_temperature::degree_celsius;

fn asked(document: &Document, kit: &str, ask: &PlaceAsk) -> Places {
    places(document, kit, ask).unwrap().unwrap()
}

fn usual(document: &Document, kit: &str) -> Places {
    asked(document, kit, &PlaceAsk::default())
}

fn answer(placed: &Placed) -> &KitAnswer {
    &placed.solved.as_ref().unwrap().answer
}

/// Hose and cord as written; both are in feet.
fn feet(placed: &Placed) -> (f64, f64) {
    let number = |text: &str| text.strip_suffix(" ft").unwrap().parse::<f64>().unwrap();
    (number(placed.hose.as_typed()), placed.cord.as_ref().map_or(0.0, |cord| number(cord.as_typed())))
}

fn volts(placed: &Placed) -> (f64, f64) {
    let power = placed.power().unwrap();
    (power.running.point().unwrap().voltage.get::<volt>(), power.starting.voltage.get::<volt>())
}

/// Whole feet: 5 ft of hose and 100 ft of cord are 105 ft everywhere, to the last bit.
#[test]
fn lengths_add_up_and_both_ends_are_there() {
    let places = usual(&preset("long-cord"), "A");
    for placed in &places.places {
        let (hose, cord) = feet(placed);
        assert_eq!(hose + cord, 105.0, "{hose} {cord}");
    }
    let ends = [places.places.first(), places.places.last()].map(|end| feet(end.unwrap()));
    assert_eq!(ends, [(3.0, 102.0), (105.0, 0.0)]);
    assert!(places.places.last().unwrap().cord.is_none());
    assert!(places.places.windows(2).all(|pair| pair[0].hose.number() < pair[1].hose.number()));
}

/// In mixed units the way is as long to a billionth; each length stays in its own unit.
#[test]
fn units_of_their_own() {
    let document = with(preset("long-cord"), &[("kits.A.parts.1.length", "1.5 m")]);
    let places = usual(&document, "A");
    for placed in &places.places {
        // 1 ft is 0.3048 m, exactly.
        let sum = placed.hose.si() + placed.cord.as_ref().map_or(0.0, Typed::si);
        assert!((sum / (1.5 + 30.48) - 1.0).abs() < 1e-9, "{sum}");
        assert_eq!(placed.hose.unit(), "m");
        assert!(placed.cord.as_ref().is_none_or(|cord| cord.unit() == "ft"));
    }
}

#[test]
fn today_is_the_document_as_it_stands() {
    for id in ["long-cord", "hospital-two-ports", "museum-metric", "market-generator"] {
        let document = preset(id);
        for setup in scenario::resolve(&document).unwrap() {
            let places = usual(&document, &setup.name);
            let today = places.today().unwrap();
            assert_eq!(*answer(today), solve(&setup.setup), "{id} {}", setup.name);
            assert!(today.edits.is_empty());
        }
    }
}

/// Every other place is what the same edits give in the document: window, terminal and file agree.
#[test]
fn a_place_is_what_its_edits_make_of_the_document() {
    let document = preset("hospital-two-ports");
    for placed in usual(&document, "B").places {
        let edits: Vec<_> = placed.edits.iter().map(|(path, text)| (path.as_str(), text.as_str())).collect();
        let changed = with(&document, &edits);
        let setups = scenario::resolve(&changed).unwrap();
        let setup = setups.iter().find(|setup| setup.name == "B").unwrap();
        assert_eq!(*answer(&placed), solve(&setup.setup));
    }
}

/// A drive holds its speed, so only the hose moves the rate: more of it never passes more.
#[test]
fn a_longer_hose_never_passes_more() {
    for (id, kit) in [("reference-kits", "A"), ("reference-kits", "C"), ("bakery-freezer", "B")] {
        let places = usual(&preset(id), kit);
        let rates: Vec<f64> = places.places.iter().map(|one| one.rate_kg_s().unwrap()).collect();
        assert!(rates.windows(2).all(|pair| pair[1] <= pair[0]), "{id} {kit}: {rates:?}");
        assert_eq!(places.fastest(), Some(0));
    }
}

#[test]
fn volts_never_fall_as_the_cord_gets_shorter() {
    for id in ["long-cord", "school-kitchen", "market-generator", "museum-metric"] {
        let places = usual(&preset(id), "A");
        let pairs = places.places.windows(2).map(|pair| (volts(&pair[0]), volts(&pair[1])));
        for (longer, shorter) in pairs {
            assert!(shorter.0 >= longer.0 && shorter.1 >= longer.1, "{id}: {longer:?} {shorter:?}");
        }
    }
}

/// A hose so wide that it loses nothing leaves the motor's speed alone to decide: an induction motor slips
/// less on more volts, so the receptacle is the fastest place.
#[test]
fn where_the_hose_loses_nothing_the_volts_decide() {
    let wide =
        with(preset("long-cord"), &[("kits.B.parts.1.bore", "60 mm"), ("kits.B.parts.1.bore_band", "none")]);
    let places = usual(&wide, "B");
    assert_eq!(places.fastest(), Some(places.places.len() - 1));
}

/// The loss of a cord for each foot: `2 I r`, `r` of 16 AWG stranded copper 4.99 Ω for 1000 ft at 75 °C (NEC
/// Chapter 9 Table 8, uncoated), at another temperature by its note, `1 + 0.00323 (T − 75 °C)`. At power factor
/// one the reactance stands across the current and takes no volts to speak of.
#[test]
fn a_foot_of_cord_loses_what_the_table_says() {
    let document = with(
        preset("reference-kits"),
        &[
            ("supply.cords.0.gauge", "16 AWG"),
            ("supply.cords.0.length", "100 ft"),
            ("machine.motor.power_factor", "1"),
        ],
    );
    let places = usual(&document, "A");
    let mut checked = 0;
    for placed in &places.places {
        let Some(cord) = &placed.cord else { continue };
        let power = placed.power().unwrap();
        let element = power.elements.iter().find(|one| one.kind == ElementKind::Cord(0)).unwrap();
        let amps = power.running.point().unwrap().current.get::<ampere>();
        let celsius = element.conductor_temperature.unwrap().get::<degree_celsius>();
        let expected = 2.0 * amps * 4.99e-3 * (1.0 + 0.003_23 * (celsius - 75.0));
        let got = element.running_drop.unwrap().get::<volt>() / cord.number();
        assert!((got / expected - 1.0).abs() < 0.005, "{got} V/ft, {expected} at {celsius} °C");
        checked += 1;
    }
    assert!(checked > 10, "{checked}");
}

/// Where a hose loses little, density and flow stay what they are and its loss is Darcy and Weisbach's
/// `f (L/d) ρ v²/2`: twice the length, twice the loss.
#[test]
fn friction_is_in_proportion_to_the_length() {
    let wide = with(
        preset("reference-kits"),
        &[
            ("kits.C.parts.1.bore", "12 mm"),
            ("kits.C.parts.1.bore_band", "none"),
            ("supply.cords.0.length", "40 ft"),
        ],
    );
    let ask =
        PlaceAsk { shortest_hose: Some(Typed::parse("5 ft").unwrap()), steps: 9, ..PlaceAsk::default() };
    let places = asked(&wide, "C", &ask);
    let drop = |hose: f64| {
        let placed = places.places.iter().find(|one| one.hose.number() == hose).unwrap();
        answer(placed).point.as_ref().unwrap().parts[1].drop().get::<pascal>()
    };
    for (short, long) in [(5.0, 10.0), (10.0, 20.0), (20.0, 40.0)] {
        let ratio = drop(long) / drop(short);
        assert!((ratio / 2.0 - 1.0).abs() < 0.02, "{short} to {long} ft: {ratio}");
    }
}

/// 16 AWG and 100 ft on 14 AWG: the long cord's story says that the motor may not start; without any cord the
/// same motor is said to start.
#[test]
fn places_where_the_motor_starts_lie_by_the_receptacle() {
    let places = usual(&preset("long-cord"), "A");
    assert!(places.today().unwrap().troubles().unwrap().contains(&Trouble::MayNotStart));
    let starts = places.stretches(|_, one| {
        one.troubles().unwrap().iter().all(|it| !matches!(it, Trouble::WillNotStart | Trouble::MayNotStart))
    });
    let [(from, to)] = starts.as_slice() else { panic!("{starts:?}") };
    assert!(*from > places.today && *to == places.places.len() - 1);
    let advised = places.advised().unwrap();
    assert!(advised >= *from && places.places[advised].is_sound());
    assert!(places.places[advised].rate_kg_s() < places.today().unwrap().rate_kg_s());
}

/// A cord of no length is no cord: plugged straight in, without its contacts.
#[test]
fn plugged_straight_in_is_without_the_cord() {
    let document = with(preset("long-cord"), &[("supply.cords.0.contact_resistance", "0.1 ohm")]);
    let last = usual(&document, "A").places.pop().unwrap();
    let bare = with(&document, &[("supply.cords.0", "none"), ("kits.A.parts.1.length", "105 ft")]);
    assert_eq!(*answer(&last), solve(&scenario::resolve(&bare).unwrap()[0].setup));
}

#[test]
fn of_several_cords_the_longest_gives_way_or_the_one_that_is_asked_for() {
    let mut document = preset("long-cord");
    let mut short = document.supply.cords[0].clone();
    short.length = Typed::parse("25 ft").unwrap();
    document.supply.cords.insert(0, short);
    let places = usual(&document, "A");
    assert_eq!((places.way.cord_index, places.way.cord.path.as_str()), (1, "supply.cords.1"));
    let first = asked(&document, "A", &PlaceAsk { cord: Some(1), ..PlaceAsk::default() });
    assert_eq!(first.way.cord.path, "supply.cords.0");
    assert_eq!(feet(first.places.last().unwrap()), (30.0, 0.0));
    let last = first.places.last().unwrap().solved.as_ref().unwrap();
    assert_eq!(last.kit.cords.len(), 1, "the other cord stays");
}

#[test]
fn a_hose_is_asked_for_by_place_name_or_shelf_entry() {
    let document = with(preset("long-cord"), &[("kits.A.parts.3.name", "Whip")]);
    for asked_for in ["whip", "3", "parts.3", "kits.A.parts.3", "hose-quarter-3-ft"] {
        let ask = PlaceAsk { hose: Some(asked_for.to_owned()), ..PlaceAsk::default() };
        assert_eq!(asked(&document, "A", &ask).way.hose.path, "kits.A.parts.3", "{asked_for}");
    }
}

/// In two branches both hoses grow by the same; behind the tee one does.
#[test]
fn with_two_ports_the_other_branch_grows_too() {
    let document = preset("hospital-two-ports");
    let shared = usual(&document, "B");
    assert!(shared.way.beside.is_none());
    let joins = document.kit("B").unwrap().second_port.as_ref().unwrap().joins_before;
    let parts = &document.kit("B").unwrap().parts;
    let branch_hose = (0..joins).find(|at| parts[*at].tube().is_some()).unwrap();
    let ask = PlaceAsk { hose: Some(branch_hose.to_string()), ..PlaceAsk::default() };
    let places = asked(&document, "B", &ask);
    let today = places.way.beside.as_ref().unwrap().today.si() - places.way.hose.today.si();
    for placed in &places.places {
        let now = placed.beside.as_ref().unwrap().si() - placed.hose.si();
        assert!((now - today).abs() < 1e-9, "{now} {today}");
    }
}

#[test]
fn no_hose_is_shorter_than_it_rises() {
    let document =
        with(preset("long-cord"), &[("kits.A.parts.1.length", "20 ft"), ("kits.A.parts.1.rise", "-12 ft")]);
    let places = usual(&document, "A");
    assert_eq!(places.places[0].hose.number(), 12.0);
    assert!(places.places.iter().all(|one| one.solved.is_ok()));
}

/// What a field refuses is told at its place: 300 m is the longest cord that is computed.
#[test]
fn a_place_that_cannot_be_solved_says_why() {
    let document = with(
        preset("long-cord"),
        &[("kits.A.parts.1.length", "400 ft"), ("supply.cords.0.length", "900 ft")],
    );
    let places = usual(&document, "A");
    let why = places.places[0].solved.as_ref().unwrap_err();
    assert!(why.contains("supply.cords.0") && why.contains("300 m"), "{why}");
    assert!(places.places.last().unwrap().solved.is_ok());
}

#[test]
fn without_hose_or_cord_it_says_so() {
    let straight = with(preset("long-cord"), &[("supply.cords.0", "none")]);
    let no_way = |document: &Document| places(document, "A", &PlaceAsk::default()).unwrap().unwrap_err();
    assert!(matches!(no_way(&straight), NoWay::NoCord { .. }));
    let hard = with(preset("long-cord"), &[("kits.A.parts.3", "none"), ("kits.A.parts.1", "none")]);
    assert!(matches!(no_way(&hard), NoWay::NoHose { .. }));
    let short =
        with(preset("long-cord"), &[("kits.A.parts.1.length", "3 ft"), ("supply.cords.0.length", "0 ft")]);
    assert!(matches!(no_way(&short), NoWay::NoRoom { .. }));
}

#[test]
fn what_there_is_not_is_refused_by_name() {
    let document = preset("long-cord");
    let refused = |ask: PlaceAsk| match places(&document, "A", &ask) {
        Err(error @ CompareError::Place { .. }) => error.to_string(),
        other => panic!("{other:?}"),
    };
    let hose = |name: &str| PlaceAsk { hose: Some(name.to_owned()), ..PlaceAsk::default() };
    for name in ["x", "0", "parts.99", "", "kits.B.parts.1"] {
        let said = refused(hose(name));
        assert!(said.contains(name) && said.contains("expected one of parts.1"), "{said}");
    }
    assert!(refused(hose("Hose")).contains("expected one of parts.1"));
    for cord in [0, 2, usize::MAX] {
        let said = refused(PlaceAsk { cord: Some(cord), ..PlaceAsk::default() });
        assert!(said.contains(&format!("cord {cord}")) && said.contains("expected 1 to 1"), "{said}");
    }
    for steps in [0, 1, 1001, usize::MAX] {
        let said = refused(PlaceAsk { steps, ..PlaceAsk::default() });
        assert!(said.contains(&steps.to_string()) && said.contains("expected 2 to 1000"), "{said}");
    }
}

/// A place against itself is the same in every draw; a hundred feet of quarter-inch hose more is less in
/// nearly all; two feet less is within what no model knows.
#[test]
fn draws_say_whether_another_place_is_really_faster() {
    let document = preset("long-cord");
    let places = usual(&document, "A");
    let plan = DrawPlan::new(64, 1).unwrap();
    let verdict = |to: usize| {
        let drawn = rate_difference(&document, &places, to, plan, &|| false).unwrap().unwrap();
        drawn.verdict(Figure::Rate)
    };
    assert_eq!(verdict(places.today), Verdict::Same);
    assert_eq!(verdict(places.places.len() - 1), Verdict::Less);
    assert_eq!(verdict(0), Verdict::TooClose);
    assert!(rate_difference(&document, &places, 999, plan, &|| false).unwrap().is_none());
    assert!(rate_difference(&document, &places, 0, plan, &|| true).unwrap().is_none());
}
