//! Cylinders that may not be filled, and stocks that are too small.

use uom::si::mass::kilogram;
use uom::si::thermodynamic_temperature::degree_fahrenheit;

use super::{CYLINDER_LIMIT_F, Facts, Grade, Place, Rule, both, with_more};
use crate::advice::warm_place::warm_place;
use crate::job::{CylinderAnswer, FillStop, StockCylinder};

pub(super) const RULES: &[Rule] = &[
    Rule {
        id: "cylinder-over-limit",
        grade: Grade::Stop,
        place: Place::Cylinder,
        fires: |facts| stops(facts, |stop| matches!(stop, FillStop::OverLimit { .. })),
    },
    Rule {
        id: "cylinder-disposable",
        grade: Grade::Stop,
        place: Place::Cylinder,
        fires: |facts| stops(facts, |stop| matches!(stop, FillStop::Disposable { .. })),
    },
    Rule {
        id: "cylinder-damaged",
        grade: Grade::Stop,
        place: Place::Cylinder,
        fires: |facts| stops(facts, |stop| matches!(stop, FillStop::Damaged { .. })),
    },
    Rule {
        id: "cylinder-out-of-date",
        grade: Grade::Stop,
        place: Place::Cylinder,
        fires: |facts| {
            stops(facts, |stop| matches!(stop, FillStop::OutOfDate { .. } | FillStop::TestedLater { .. }))
        },
    },
    Rule {
        id: "cylinder-other-refrigerant",
        grade: Grade::Stop,
        place: Place::Cylinder,
        fires: |facts| stops(facts, |stop| matches!(stop, FillStop::OtherRefrigerant { .. })),
    },
    Rule {
        id: "cylinder-too-weak",
        grade: Grade::Stop,
        place: Place::Cylinder,
        fires: |facts| {
            stops(facts, |stop| {
                matches!(stop, FillStop::TooWeak { .. } | FillStop::AboveServicePressure { .. })
            })
        },
    },
    Rule {
        id: "cylinder-no-limit",
        grade: Grade::Stop,
        place: Place::Cylinder,
        fires: |facts| stops(facts, |stop| matches!(stop, FillStop::NoLimit { .. })),
    },
    Rule {
        id: "scale-too-small",
        grade: Grade::Stop,
        place: Place::Cylinder,
        fires: |facts| {
            let Some(capacity) = facts.ask.scale_capacity else { return Vec::new() };
            each_kind(facts, |_, _, cylinder| {
                let gross = cylinder.limit_gross.filter(|gross| *gross > capacity)?;
                Some(format!(
                    "{} weighs up to {} when full and the scale ends at {}: a cylinder is filled by weight, use a \
                     scale that can weigh it",
                    cylinder.name,
                    both(gross),
                    both(capacity)
                ))
            })
        },
    },
    Rule {
        id: "cylinders-too-few",
        grade: Grade::Warning,
        place: Place::Cylinder,
        fires: |facts| too_few(facts).into_iter().collect(),
    },
    Rule {
        id: "cylinders-just-enough",
        grade: Grade::Warning,
        place: Place::Cylinder,
        fires: |facts| just_enough(facts).into_iter().collect(),
    },
    Rule {
        id: "waiting-cylinder-warm",
        grade: Grade::Warning,
        place: Place::Cylinder,
        fires: |facts| {
            each_kind(facts, |place, stock, _| {
                // The one in use is looked at with its kit.
                let is_in_use = place == 0;
                let is_warm = stock.temperature.get::<degree_fahrenheit>() > CYLINDER_LIMIT_F;
                (is_warm && !is_in_use).then(|| {
                    format!(
                        "{} is above 125 °F (52 °C): cool it with shade or water before use, never heat one with a \
                         flame, and keep below the limit on its label",
                        stock.name
                    )
                })
            })
        },
    },
    Rule {
        id: "waiting-cylinder-in-sun",
        grade: Grade::Warning,
        place: Place::Cylinder,
        // The one in use is looked at with its kit.
        fires: |facts| {
            each_kind(facts, |place, stock, _| warm_place(&stock.name, stock.place).filter(|_| place > 0))
        },
    },
];

fn stops(facts: &Facts<'_>, is_meant: fn(&FillStop) -> bool) -> Vec<String> {
    each_kind(facts, |_, _, cylinder| {
        cylinder.stops.iter().find(|stop| is_meant(stop)).map(ToString::to_string)
    })
}

/// What is to be said of the cylinders, once for those that differ in nothing but their name.
fn each_kind(
    facts: &Facts<'_>,
    say: impl Fn(usize, &StockCylinder, &CylinderAnswer) -> Option<String>,
) -> Vec<String> {
    let mut kinds: Vec<(StockCylinder, String, usize)> = Vec::new();
    for (place, (stock, answer)) in facts.ask.stock.iter().zip(&facts.limits.cylinders).enumerate() {
        let Some(words) = say(place, stock, answer) else { continue };
        let nameless = StockCylinder { name: String::new(), ..stock.clone() };
        match kinds.iter_mut().find(|(kind, ..)| *kind == nameless) {
            Some((.., count)) => *count += 1,
            None => kinds.push((nameless, words, 1)),
        }
    }
    kinds.into_iter().map(|(_, words, count)| with_more(&words, count)).collect()
}

fn too_few(facts: &Facts<'_>) -> Option<String> {
    let schedule = facts.limits.schedule.as_ref()?;
    if schedule.homeless.get::<kilogram>() > 0.0 {
        // Without a water capacity nothing can be said, and a note says that already.
        let is_known = facts.ask.stock.iter().any(|cylinder| cylinder.water_capacity.is_some());
        return is_known
            .then(|| format!("There is no usable cylinder for {} of the charge.", both(schedule.homeless)));
    }
    let more = schedule.more.as_ref()?;
    let like = facts.limits.cylinders.get(more.like).map_or("", |cylinder| cylinder.name.as_str());
    Some(format!(
        "The likely charge needs {}, the highest {}; the stock has room in {}. Bring {} more, empty, like {like}.",
        cylinders(schedule.likely_count),
        schedule.high_count,
        schedule.fills.len(),
        more.high
    ))
}

fn just_enough(facts: &Facts<'_>) -> Option<String> {
    let schedule = facts.limits.schedule.as_ref()?;
    // Where the stock is too small, that is said instead.
    let is_enough = schedule.likely_count > 0 && schedule.homeless.get::<kilogram>() == 0.0;
    (is_enough && schedule.more.is_none() && !schedule.covers_high).then(|| {
        format!(
            "The likely charge needs {}, with {} to spare, less than it may be off by. Plan for {}.",
            cylinders(schedule.likely_count),
            both(schedule.likely_spare),
            schedule.high_count
        )
    })
}

/// "1 cylinder", "5 cylinders".
fn cylinders(count: usize) -> String {
    if count == 1 { "1 cylinder".to_owned() } else { format!("{count} cylinders") }
}
