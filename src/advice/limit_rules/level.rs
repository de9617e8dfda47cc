//! The level to reach: what is unsure of it, and what it does not do.

use super::{Facts, Grade, Place, Rule};
use crate::job::{LevelBasis, RequiredLevel};
use crate::units::as_sentence;

pub(super) const RULES: &[Rule] = &[
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
];

fn level<'a>(facts: &Facts<'a>) -> Option<&'a RequiredLevel> {
    facts.limits.level.as_ref().ok()
}
