//! Cautions about cylinders, method and level: triggers as data, as for a kit's.
//!
//! They belong to the job, not to a kit, and withhold no rate: a cylinder under a Stop has no
//! weight to stop at. Common practice of the trade unless a source is named.

mod cylinders;
mod handling;
mod level;
mod method;

use uom::si::f64::Mass;
use uom::si::mass::kilogram;

use super::caution::{CYLINDER_LIMIT_F, Caution, Place};
use crate::job::{JobLimits, LimitsAsk};
use crate::power::Grade;
use crate::units::as_sentence;
use crate::units::factors::POUND_KG;

/// What a rule looks at.
struct Facts<'a> {
    pub ask: &'a LimitsAsk,
    pub limits: &'a JobLimits,
}

/// A trigger and what it says, once for each thing that pulls it.
struct Rule {
    pub id: &'static str,
    pub grade: Grade,
    pub place: Place,
    pub fires: fn(&Facts<'_>) -> Vec<String>,
}

/// Every caution about cylinders, method and level, Stops first.
pub fn limit_cautions(ask: &LimitsAsk, limits: &JobLimits) -> Vec<Caution> {
    let facts = Facts { ask, limits };
    let rules = [cylinders::RULES, method::RULES, level::RULES, handling::RULES];
    let fired = rules.into_iter().flatten().flat_map(|rule| {
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

/// A clause as a sentence, with how many more it holds for.
fn with_more(words: &str, count: usize) -> String {
    match count {
        1 => as_sentence(words),
        _ => as_sentence(&format!("{words} (and so for {} more)", count - 1)),
    }
}

/// In pounds and in kilograms.
fn both(mass: Mass) -> String {
    let kg = mass.get::<kilogram>();
    format!("{:.1} lb ({kg:.1} kg)", kg / POUND_KG)
}
