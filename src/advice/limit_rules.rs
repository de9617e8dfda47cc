//! Cautions about cylinders, method and level: triggers as data, as for a kit's.
//!
//! They belong to the job, not to a kit, and withhold no rate: a cylinder under a Stop has no
//! weight to stop at. Common practice of the trade unless a source is named.

use uom::si::f64::Mass;
use uom::si::mass::kilogram;
use uom::si::thermodynamic_temperature::degree_fahrenheit;

use super::caution::{Caution, Place};
use crate::job::{
    CylinderAnswer, FillNote, FillStop, JobLimits, LevelBasis, LimitsAsk, RecoveryMethod, RequiredLevel,
    StockCylinder, Unsuited,
};
use crate::power::Grade;
use crate::units::as_sentence;
use crate::units::factors::POUND_KG;

/// Cylinders are kept below this: 125 °F, the limit on their labels.
const CYLINDER_LIMIT_F: f64 = 125.0;
/// Heavier than this is lifted by two: 50 lb.
const LIFT_LB: f64 = 50.0;

/// What a rule looks at.
struct Facts<'a> {
    ask: &'a LimitsAsk,
    limits: &'a JobLimits,
}

/// A trigger and what it says, once for each thing that pulls it.
struct Rule {
    id: &'static str,
    grade: Grade,
    place: Place,
    fires: fn(&Facts<'_>) -> Vec<String>,
}

const RULES: &[Rule] = &[
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
        id: "push-pull",
        grade: Grade::Warning,
        place: Place::Method,
        fires: |facts| push_pull(facts).into_iter().collect(),
    },
    Rule {
        id: "no-liquid-port",
        grade: Grade::Warning,
        place: Place::Method,
        fires: |facts| unsuited(facts, |reason| matches!(reason, Unsuited::NoLiquidPort { .. })),
    },
    Rule {
        id: "method-unsuited",
        grade: Grade::Note,
        place: Place::Method,
        fires: |facts| unsuited(facts, |reason| !matches!(reason, Unsuited::NoLiquidPort { .. })),
    },
    Rule {
        id: "level-below-zero-with-leak",
        grade: Grade::Warning,
        place: Place::Target,
        fires: |facts| {
            let deep = level(facts).filter(|level| {
                facts.ask.level.leak && level.gauge(facts.ask.day.ambient_pressure).above_ambient_pa() < -1e3
            });
            deep.map(|level| {
                format!(
                    "With a known leak, {} draws air in. The rule may allow a shallower level: isolate the leak, \
                     and go no deeper than can be held.",
                    level.stated
                )
            })
            .into_iter()
            .collect()
        },
    },
    Rule {
        id: "level-to-confirm",
        grade: Grade::Warning,
        place: Place::Target,
        fires: |facts| {
            let Some(level) = level(facts) else { return Vec::new() };
            let say = |other: &crate::job::Disagreement| {
                format!(
                    "{} says {}, and {} says {}. Confirm the level with the current text.",
                    level.source, level.stated, other.source, other.stated
                )
            };
            level.confirm.iter().map(say).collect()
        },
    },
    Rule {
        id: "level-unknown",
        grade: Grade::Warning,
        place: Place::Target,
        fires: |facts| {
            facts
                .limits
                .level
                .as_ref()
                .err()
                .map(|error| as_sentence(&error.to_string()))
                .into_iter()
                .collect()
        },
    },
    Rule {
        id: "level-above-air",
        grade: Grade::Note,
        place: Place::Target,
        fires: |facts| {
            let above = level(facts).filter(|level| {
                level.gauge(facts.ask.day.ambient_pressure).above_ambient_pa() > 1e3
                    && !matches!(level.basis, LevelBasis::Given)
            });
            above
                .map(|level| {
                    format!(
                        "The air here is thinner than the {:.1} inHg that {} counts from: the level lies above 0 on \
                         your gauge.",
                        level.atmosphere.get::<uom::si::pressure::pascal>()
                            / crate::units::factors::INCH_OF_MERCURY_PA,
                        level.source
                    )
                })
                .into_iter()
                .collect()
        },
    },
    Rule {
        id: "level-condition",
        grade: Grade::Note,
        place: Place::Target,
        fires: |facts| {
            let condition = level(facts).and_then(|level| match &level.basis {
                LevelBasis::Leak(condition) => Some(format!("leak exception: {condition}")),
                LevelBasis::SmallAppliance { condition, recover } => Some(format!(
                    "small appliance ({condition}): {} or {:.0} % of the charge recovered",
                    level.stated,
                    100.0 * recover.get::<uom::si::ratio::ratio>()
                )),
                LevelBasis::Row(_) | LevelBasis::Given => None,
            });
            condition.map(|text| as_sentence(&text)).into_iter().collect()
        },
    },
    Rule {
        id: "level-note",
        grade: Grade::Note,
        place: Place::Target,
        fires: |facts| {
            let notes = level(facts).map(|level| level.notes.as_slice()).unwrap_or_default();
            notes.iter().map(|note| as_sentence(&note.to_string())).collect()
        },
    },
    Rule {
        id: "not-dry",
        grade: Grade::Note,
        place: Place::Target,
        fires: |_| {
            vec!["Recovery does not dry a system. Evacuate with a vacuum pump after repair.".to_owned()]
        },
    },
    Rule { id: "cylinder-note", grade: Grade::Note, place: Place::Cylinder, fires: cylinder_notes },
    Rule {
        id: "heavy-cylinder",
        grade: Grade::Note,
        place: Place::JobSheet,
        fires: |facts| {
            let heavy = |gross: Mass| gross.get::<kilogram>() / POUND_KG > LIFT_LB;
            let any = facts.limits.cylinders.iter().any(|cylinder| cylinder.limit_gross.is_some_and(heavy));
            let text =
                "Full cylinders weigh more than 50 lb (23 kg): lift with two, or with a truck or hoist.";
            any.then(|| text.to_owned()).into_iter().collect()
        },
    },
    Rule {
        id: "residue-in-hoses",
        grade: Grade::Note,
        place: Place::JobSheet,
        fires: |_| {
            vec![
                "Do not release what is left in the hoses: draw it into the cylinder and keep losses to what cannot \
                 be avoided."
                    .to_owned(),
            ]
        },
    },
];

/// Every caution about cylinders, method and level, Stops first.
pub fn limit_cautions(ask: &LimitsAsk, limits: &JobLimits) -> Vec<Caution> {
    let facts = Facts { ask, limits };
    let fired = RULES.iter().flat_map(|rule| {
        (rule.fires)(&facts).into_iter().map(|text| Caution {
            id: rule.id,
            grade: rule.grade,
            place: rule.place,
            text,
            withholds: false,
        })
    });
    let mut fired: Vec<Caution> = fired.collect();
    fired.sort_by_key(|caution| std::cmp::Reverse(caution.grade));
    fired
}

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

/// A clause as a sentence, with how many more it holds for.
fn with_more(words: &str, count: usize) -> String {
    match count {
        1 => as_sentence(words),
        _ => as_sentence(&format!("{words} (and so for {} more)", count - 1)),
    }
}

fn unsuited(facts: &Facts<'_>, is_meant: fn(&Unsuited) -> bool) -> Vec<String> {
    let meant = facts.limits.unsuited.iter().filter(|reason| is_meant(reason));
    meant.map(|reason| as_sentence(&reason.to_string())).collect()
}

/// Each kind of note once: a stock of ten alike needs no ten lines.
fn cylinder_notes(facts: &Facts<'_>) -> Vec<String> {
    let mut kinds: Vec<(&FillNote, usize)> = Vec::new();
    for note in facts.limits.cylinders.iter().flat_map(|cylinder| &cylinder.notes) {
        match kinds
            .iter_mut()
            .find(|(first, _)| std::mem::discriminant(*first) == std::mem::discriminant(note))
        {
            Some((_, count)) => *count += 1,
            None => kinds.push((note, 1)),
        }
    }
    kinds.into_iter().map(|(note, count)| with_more(&note.to_string(), count)).collect()
}

fn level<'a>(facts: &Facts<'a>) -> Option<&'a RequiredLevel> {
    facts.limits.level.as_ref().ok()
}

fn push_pull(facts: &Facts<'_>) -> Option<String> {
    if facts.ask.method != RecoveryMethod::PushPull {
        return None;
    }
    let allowance = facts.ask.day.siphon_allowance;
    let short = if allowance.get::<kilogram>() > 0.0 {
        format!("{} is kept free for that.", both(allowance))
    } else {
        format!(
            "Nothing is kept free for that yet: allow for {:.0} s of flow and for what the liquid line holds.",
            facts.ask.filling.siphon_time.get::<uom::si::time::second>()
        )
    };
    Some(format!(
        "Push-pull: stop on the scale's weight and close the valves. Liquid can go on siphoning into the cylinder \
         after the machine stops, and an automatic shut-off may not stop it. {short} Watch the sight glass; a \
         vapour phase must follow."
    ))
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

/// In pounds and in kilograms.
fn both(mass: Mass) -> String {
    let kg = mass.get::<kilogram>();
    format!("{:.1} lb ({kg:.1} kg)", kg / POUND_KG)
}

/// "1 cylinder", "5 cylinders".
fn cylinders(count: usize) -> String {
    if count == 1 { "1 cylinder".to_owned() } else { format!("{count} cylinders") }
}
