//! What to mind with full cylinders and hoses.

use uom::si::f64::Mass;
use uom::si::mass::kilogram;

use super::{Facts, Grade, Place, Rule, with_more};
use crate::job::FillNote;
use crate::units::factors::POUND_KG;

/// Heavier than this is lifted by two: 50 lb.
const LIFT_LB: f64 = 50.0;

pub(super) const RULES: &[Rule] = &[
    Rule { id: "cylinder-note", grade: Grade::Note, place: Place::Cylinder, fires: cylinder_notes },
    Rule {
        id: "heavy-cylinder",
        grade: Grade::Note,
        place: Place::JobSheet,
        fires: |facts| {
            let text =
                "Full cylinders weigh more than 50 lb (23 kg): lift with two, or with a truck or hoist.";
            any_heavy(facts).then(|| text.to_owned()).into_iter().collect()
        },
    },
    Rule {
        id: "hot-surfaces",
        grade: Grade::Note,
        place: Place::JobSheet,
        fires: |facts| {
            // Where one is known to be heavy, the rule above says how to lift it.
            let lift = if any_heavy(facts) {
                ""
            } else {
                " A cylinder of more than 50 lb (23 kg) is lifted by two or by a hoist."
            };
            vec![format!(
                "Discharge line and motor are hot: gloves, and let them cool.{lift} On a roof keep away from its edge."
            )]
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

fn any_heavy(facts: &Facts<'_>) -> bool {
    let heavy = |gross: Mass| gross.get::<kilogram>() / POUND_KG > LIFT_LB;
    facts.limits.cylinders.iter().any(|cylinder| cylinder.limit_gross.is_some_and(heavy))
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
