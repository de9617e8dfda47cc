//! Where to put the machine: the places of the kit in hand, and what the one that is looked at gives.

use narrows::advice::Place;
use narrows::compare::Placed;
use narrows::power::{Grade, LEAST_VOLTAGE_RATIO, Running};
use narrows::report::{PlacedWay, grade_word, length_text, place_lines, place_text, start_word};
use narrows::units::Measure;

use super::Scene;
use super::chain::fluid_of;
use crate::ui::diagram::trade::{Spot, Trade};
use crate::ui::symbols::{Mark, Symbol};

/// What is shown of it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Shown {
    /// The picture.
    pub trade: Trade,
    /// What the place that is looked at gives, in a line.
    pub live: String,
    /// What it is, at the place that is looked at, today.
    pub rows: Vec<[String; 3]>,
    /// What to do, and what else there is to say: word and sentence.
    pub sentences: Vec<(&'static str, String)>,
    /// What to heed at that place: mark, word, sentence.
    pub findings: Vec<(Mark, &'static str, String)>,
    /// What puts the machine there; nothing where it stands.
    pub edits: Vec<(String, String)>,
    /// Lengths of the hoses in metres, place by place.
    pub hoses_m: Vec<f64>,
}

/// The places of the kit in hand, or why there are none.
pub fn shown(scene: &Scene) -> Result<Shown, String> {
    let places = scene.study().and_then(|study| study.places.as_ref());
    let placed = places.ok_or_else(|| scene.waiting().to_owned())?.as_ref().map_err(Clone::clone)?;
    let kit = placed.get(scene.hand()).ok_or_else(|| scene.waiting().to_owned())?;
    let way = kit.way.as_ref().map_err(ToString::to_string)?;
    let hoses_m: Vec<f64> = way.places.places.iter().map(|one| one.hose.si()).collect();
    let at = looked_at(scene, way, &hoses_m);
    let here = way.at(at).ok_or_else(|| scene.waiting().to_owned())?;
    Ok(Shown {
        trade: trade(scene, way, at, here),
        live: answers(scene, way, at, here),
        rows: rows(scene, way, at),
        sentences: place_lines(way, scene.units()),
        findings: findings(scene, way, at),
        edits: here.edits.clone(),
        hoses_m,
    })
}

/// The place that is looked at: nearest to the chosen length, or today's.
fn looked_at(scene: &Scene, way: &PlacedWay, hoses_m: &[f64]) -> usize {
    let Some(wanted_m) = scene.session.view.machine_at_m else { return way.places.today };
    let off = |at: &usize| hoses_m.get(*at).map_or(f64::INFINITY, |hose_m| (hose_m - wanted_m).abs());
    (0..hoses_m.len()).min_by(|a, b| off(a).total_cmp(&off(b))).unwrap_or(way.places.today)
}

fn trade(scene: &Scene, way: &PlacedWay, at: usize, here: &Placed) -> Trade {
    let units = scene.units();
    let hose = &way.places.way.hose.today;
    let spot = |(at, placed): (usize, &Placed)| Spot {
        hose: placed.hose.number(),
        rate: way.rate(at).map(|rate| rate.si() / units.rate.size_si()),
        running: running_v(placed),
    };
    let last = way.places.places.last();
    let cord_left = last.and_then(|last| last.cord.as_ref()).map_or(0.0, |cord| cord.number_in_unit_of(hose));
    let kit = scene.kit();
    let document = scene.document();
    let machine = kit.and_then(|kit| kit.machine.as_ref()).unwrap_or(&document.machine);
    let least = LEAST_VOLTAGE_RATIO * machine.motor.rated_voltage.si();
    let part = way.places.way.hose.path.rsplit('.').next().and_then(|at| at.parse::<usize>().ok());
    let bore = part.and_then(|part| kit?.parts.get(part)?.bore().map(|bore| bore.si()));
    Trade {
        spots: way.places.places.iter().enumerate().map(spot).collect(),
        at,
        today: way.places.today,
        words: words(scene, way, at, here),
        lengths: [
            units.sentence(&format!("{} of hose", length_text(&here.hose))),
            here.cord.as_ref().map_or("plugged straight in".to_owned(), |cord| {
                units.sentence(&format!("{} of cord", length_text(cord)))
            }),
        ],
        way: last.map_or(1.0, |last| last.hose.number() + cord_left),
        unit: hose.unit(),
        rate_unit: units.rate.name().to_owned(),
        references: vec![(least, format!("\u{2212}10 %, {least:.0}"))],
        bore_mm: bore.unwrap_or(USUAL_BORE_M) as f32 * 1e3,
        fluid: fluid_of(kit.and_then(|kit| kit.port).unwrap_or(document.source.port)),
        outlet: document.supply.generator.as_ref().map(|_| Symbol::Generator),
        stale: scene.session.is_study_stale(),
    }
}

/// Drawn where the hose stands in the other port's branch.
const USUAL_BORE_M: f64 = 4.8e-3;

fn running_v(placed: &Placed) -> Option<f64> {
    Some(placed.power()?.running.point()?.voltage.si())
}

/// The place read aloud.
fn words(scene: &Scene, way: &PlacedWay, at: usize, here: &Placed) -> String {
    let today = if at == way.places.today { " (today)" } else { "" };
    format!("{}{today}: {}", place_text(here), answers(scene, way, at, here))
}

/// Rate, motor running, motor starting.
fn answers(scene: &Scene, way: &PlacedWay, at: usize, here: &Placed) -> String {
    let [rate, motor] = [rate_text(scene, way, at), running_text(scene, here)];
    format!("{rate}, {motor}, {}", starting_text(scene, here))
}

fn rate_text(scene: &Scene, way: &PlacedWay, at: usize) -> String {
    way.rate(at).map_or("no rate".to_owned(), |rate| scene.units().rate(rate))
}

fn running_text(scene: &Scene, placed: &Placed) -> String {
    let units = scene.units();
    match placed.power().map(|power| &power.running) {
        Some(Running::Holds(run)) => {
            format!("{} running, {}", units.voltage(run.voltage), units.current(run.current))
        }
        Some(Running::CannotHold(_)) => "cannot hold its load".to_owned(),
        None => "no volts".to_owned(),
    }
}

fn starting_text(scene: &Scene, placed: &Placed) -> String {
    let Some(power) = placed.power() else { return "no volts".to_owned() };
    let outcome = start_word(&power.starting.outcome);
    format!("{} starting, {outcome}", scene.units().voltage(power.starting.voltage))
}

fn rows(scene: &Scene, way: &PlacedWay, at: usize) -> Vec<[String; 3]> {
    let both = |name: &str, of: &dyn Fn(usize, &Placed) -> String| {
        let of = |at: usize| way.at(at).map(|placed| of(at, placed)).unwrap_or_default();
        let [here, today] = [of(at), of(way.places.today)].map(|text| scene.units().sentence(&text));
        [name.to_owned(), here, today]
    };
    let units = scene.units();
    let inlet = |at: usize, _: &Placed| {
        let inlet = way.figures(at).and_then(|figures| figures.machine_inlet);
        inlet.map_or("none".to_owned(), |inlet| units.pressure(inlet, scene.ambient_pressure()))
    };
    let cord = |placed: &Placed| placed.cord.as_ref().map_or("none".to_owned(), length_text);
    vec![
        both("Hose", &|_, placed| length_text(&placed.hose)),
        both("Cord", &|_, placed| cord(placed)),
        both("Rate", &|at, _| rate_text(scene, way, at)),
        both("Machine inlet", &inlet),
        both("Motor runs", &|_, placed| running_text(scene, placed).replace(" running", "")),
        both("Motor starts", &|_, placed| starting_text(scene, placed).replace(" starting", "")),
    ]
}

/// Why there is no rate, and the cautions of that place that its lengths may bring.
fn findings(scene: &Scene, way: &PlacedWay, at: usize) -> Vec<(Mark, &'static str, String)> {
    let cautions = way.cautions_at(at);
    let here = cautions.iter().filter(|one| one.grade == Grade::Stop || one.place == Place::CordRun);
    let mut found: Vec<_> =
        here.map(|one| (one.grade.into(), grade_word(one.grade), one.text.clone())).collect();
    let told = |text: &str| cautions.iter().any(|one| one.text == text);
    if let Some(why) = way.no_rate(at, scene.units()).filter(|why| !told(why)) {
        found.insert(0, (Mark::Note, "No rate", why));
    }
    found
}
