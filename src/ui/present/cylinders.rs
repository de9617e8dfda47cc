//! A cylinder's fill rules, its warming, and the order in which the stock is filled.

use narrows::advice::Place;
use narrows::job::{
    Contents, CylinderAnswer, FillRuleKind, LiquidFull, StockCylinder, contents_at, fill_curve, inside_volume,
};
use narrows::units::{Measure, UnitSet};
use uom::si::f64::{Mass, MassDensity, ThermodynamicTemperature};
use uom::si::ratio::ratio;

use super::scale::{PressureScale, sentence};
use super::{Scene, quantity};
use crate::ui::diagram::bars::{Bar, Bars};
use crate::ui::diagram::fill::Fill;
use crate::ui::study::Limits;
use crate::ui::symbols::Mark;

/// Coldest and hottest of the picture: 40 to 150 °F.
const PICTURE_K: (f64, f64) = (277.594, 338.706);
/// Where a cylinder is looked at first: 131 °F, the temperature of a common filling rule.
const FIRST_K: f64 = 328.15;
/// Points of the picture.
const POINTS: usize = 80;

/// Limits, or why there are none.
pub fn limits<'a>(scene: &Scene<'a>) -> Result<&'a Limits, String> {
    match scene.study().and_then(|s| s.limits.as_ref()) {
        Some(Ok(limits)) => Ok(limits),
        Some(Err(why)) => Err(sentence(why)),
        None => Err(scene.waiting().to_owned()),
    }
}

/// The place in the stock of a cylinder of the document (0 is the one in use).
pub fn stock_place(scene: &Scene, cylinder: usize) -> usize {
    let before = scene.document().cylinders.iter().take(cylinder.saturating_sub(1));
    let alike: u32 = before.map(|c| c.count.unwrap_or(1)).sum();
    if cylinder == 0 { 0 } else { 1 + alike as usize }
}

/// The cylinder that is looked at: as it stands in the stock, and its answer.
pub fn looked_at<'a>(scene: &Scene, limits: &'a Limits) -> Option<(&'a StockCylinder, &'a CylinderAnswer)> {
    let place = stock_place(scene, scene.session.view.cylinder);
    Some((limits.ask.stock.get(place)?, limits.answer.cylinders.get(place)?))
}

/// A rule in few words.
pub fn rule_name(kind: FillRuleKind) -> &'static str {
    match kind {
        FillRuleKind::WaterCapacity => "water capacity",
        FillRuleKind::SpecificGravity => "specific gravity",
        FillRuleKind::HotLiquid => "hot liquid",
        FillRuleKind::FillingDensity => "filling density",
        FillRuleKind::Marking => "marking",
    }
}

/// A rule with its numbers, as short as it can be said.
fn short_rule(scene: &Scene, limits: &Limits, kind: FillRuleKind) -> String {
    let table = &limits.ask.filling;
    let percent = 100.0 * table.fill.get::<ratio>();
    match kind {
        FillRuleKind::WaterCapacity => format!("{percent:.0} % of water capacity"),
        FillRuleKind::SpecificGravity => format!("{percent:.0} % of it × specific gravity"),
        FillRuleKind::HotLiquid => {
            let (hot, unit) = quantity::temperature(scene.units(), table.hot_temperature.si());
            format!("{:.0} % kept free at {hot:.0} {unit}", 100.0 * table.hot_margin.get::<ratio>())
        }
        FillRuleKind::FillingDensity => "Filling density".to_owned(),
        FillRuleKind::Marking => "Marked on the cylinder".to_owned(),
    }
}

/// The rules side by side, the lowest marked.
pub fn rules(scene: &Scene, limits: &Limits, answer: &CylinderAnswer) -> Bars {
    let units = scene.units();
    let unit = quantity::mass(units);
    let lowest = answer.lowest.map(|(kind, _)| kind);
    let rows = answer.limits.rules.iter().map(|rule| {
        let is_lowest = lowest == Some(rule.kind);
        let text = match &rule.limit {
            Ok(net) if is_lowest => format!("{} net, lowest", quantity::scale_text(units, *net)),
            Ok(net) => quantity::scale_text(units, *net),
            Err(why) => sentence(&why.to_string()),
        };
        Bar {
            label: short_rule(scene, limits, rule.kind),
            detail: sentence(&rule.source),
            value: rule.limit.as_ref().ok().map(|net| net.si() * unit.per_si),
            text,
            strong: is_lowest,
            ..Bar::default()
        }
    });
    Bars {
        rows: rows.collect(),
        unit: unit.name.to_owned(),
        stale: scene.session.is_study_stale(),
        ..Bars::default()
    }
}

/// What to heed about the cylinders, Stops first.
pub fn findings(limits: &Limits) -> Vec<(Mark, &'static str, String)> {
    let mut all: Vec<(Mark, &'static str, String)> = Vec::new();
    for caution in limits.cautions.iter().filter(|c| c.place == Place::Cylinder) {
        let (mark, word) = super::volts::graded(caution.grade);
        all.push((mark, word, caution.text.clone()));
    }
    all
}

/// The temperature that is looked at.
pub fn fill_k(scene: &Scene) -> f64 {
    scene.session.view.fill_k.unwrap_or(FIRST_K)
}

/// The cylinder filled to its limit, as it warms; none without capacity and limit.
pub fn fill(scene: &Scene, limits: &Limits, stock: &StockCylinder, answer: &CylinderAnswer) -> Option<Fill> {
    let units = scene.units();
    let (_, net) = answer.lowest?;
    let mean: MassDensity = net.max(stock.contents) / inside_volume(stock.water_capacity?);
    let refrigerant = &limits.ask.refrigerant;
    let ends =
        (ThermodynamicTemperature::from_si(PICTURE_K.0), ThermodynamicTemperature::from_si(PICTURE_K.1));
    let scale = PressureScale::of(units);
    let ambient = limits.ask.day.ambient_pressure;
    let (mut percent, mut pressure) = (Vec::new(), Vec::new());
    for point in fill_curve(refrigerant, mean, ends, POINTS) {
        let at = quantity::temperature(units, point.temperature.si()).0;
        let Ok(contents) = point.contents else { continue };
        percent.push([at, 100.0 * contents.liquid().get::<ratio>()]);
        if let Some(absolute) = contents.pressure() {
            pressure.push([at, scale.on(absolute) - scale.on(ambient)]);
        }
    }
    let now_k = fill_k(scene);
    let now = contents_at(refrigerant, mean, ThermodynamicTemperature::from_si(now_k)).ok();
    Some(Fill {
        ends: (quantity::temperature(units, PICTURE_K.0).0, quantity::temperature(units, PICTURE_K.1).0),
        temperature_unit: quantity::temperature(units, now_k).1.to_owned(),
        percent,
        pressure,
        pressure_unit: scale.gauge.to_owned(),
        full_at: full_at(units, answer),
        marks: marks(units, limits),
        cursor: quantity::temperature(units, now_k).0,
        now_percent: now.map(|c| 100.0 * c.liquid().get::<ratio>()),
        cursor_words: now_words(scene, now_k, now),
        stale: scene.session.is_study_stale(),
    })
}

fn now_words(scene: &Scene, now_k: f64, now: Option<Contents>) -> String {
    let at = scene.units().temperature(ThermodynamicTemperature::from_si(now_k));
    match now {
        None => format!("at {at}: outside the property table"),
        Some(Contents::LiquidFull) => {
            format!("at {at}, liquid-full: nothing limits the pressure but the shell")
        }
        Some(contents) => {
            let share = format!("{:.0} % liquid", 100.0 * contents.liquid().get::<ratio>());
            let pressure =
                contents.pressure().map(|p| format!(", {}", scene.pressure_text(p))).unwrap_or_default();
            format!("at {at}: {share}{pressure}")
        }
    }
}

fn full_at(units: UnitSet, answer: &CylinderAnswer) -> Option<(f64, String)> {
    let full = answer.liquid_full.as_ref()?.as_ref().ok()?;
    let (at, word) = match full {
        LiquidFull::At(at) => (*at, ""),
        LiquidFull::About(at) => (*at, "about "),
        LiquidFull::Already(at) => (*at, "already at "),
        LiquidFull::NotUpTo(_) => return None,
    };
    let (number, unit) = quantity::temperature(units, at.si());
    Some((number, format!("liquid-full {word}{number:.0} {unit}")))
}

fn marks(units: UnitSet, limits: &Limits) -> Vec<(f64, String)> {
    let hot = quantity::temperature(units, limits.ask.filling.hot_temperature.si());
    vec![(hot.0, format!("rule {:.0}", hot.0))]
}

/// One turn of the schedule.
#[derive(Clone, Debug, PartialEq)]
pub struct Turn {
    /// Its number and name.
    pub name: String,
    /// Weight to stop at, if the tare is known.
    pub stop: Option<String>,
    /// What goes in, likely and at most.
    pub takes: String,
    /// Only needed for the high charge.
    pub only_high: bool,
    /// How full it becomes of what it may hold, likely.
    pub share: f32,
}

/// The schedule: turns in order, and what is to be said.
pub fn schedule(scene: &Scene, limits: &Limits) -> (Vec<Turn>, Vec<(Mark, String)>) {
    let units = scene.units();
    let weight = |m: Mass| quantity::scale_text(units, m);
    let Some(schedule) = &limits.answer.schedule else {
        return (Vec::new(), vec![(Mark::Note, "The charge is not known: no schedule.".to_owned())]);
    };
    let turns = schedule.fills.iter().enumerate().map(|(i, fill)| {
        let room = fill.high + fill.spare_after_high;
        let share = if room.si() > 0.0 { (fill.likely.si() / room.si()) as f32 } else { 0.0 };
        let takes = if fill.high.si() - fill.likely.si() > 0.02 {
            format!("{} to {}", weight(fill.likely), weight(fill.high))
        } else {
            weight(fill.likely)
        };
        Turn {
            name: format!("{}. {}", i + 1, fill.name),
            stop: fill.stop_gross.map(weight),
            takes,
            only_high: fill.likely.si() <= 0.0,
            share,
        }
    });
    let turns = turns.collect();
    let mut said = Vec::new();
    let count = |n: usize| if n == 1 { "1 cylinder".to_owned() } else { format!("{n} cylinders") };
    let swaps = match schedule.likely_swaps {
        0 => "no swap".to_owned(),
        1 => "1 swap".to_owned(),
        n => format!("{n} swaps"),
    };
    said.push((
        Mark::Note,
        format!(
            "Likely {} and {swaps}; for the high charge {}.",
            count(schedule.likely_count),
            count(schedule.high_count)
        ),
    ));
    if schedule.homeless.si() > 0.0 {
        said.push((Mark::Stop, format!("Nothing takes {}: no usable cylinder.", weight(schedule.homeless))));
    }
    (turns, said)
}
