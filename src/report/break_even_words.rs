//! The break-even of push-pull and liquid-then-vapour, for people and for programs.

use serde_json::{Value, json};
use uom::si::f64::{Pressure, Time};
use uom::si::mass::kilogram;
use uom::si::time::second;

use super::error_words::job_error_text;
use super::time_words::time_text;
use super::wrap::wrapped;
use crate::job::JobError;
use crate::job::over_time::{BreakEven, Compared, RunLimits};
use crate::units::UnitSet;

type Found = (String, Result<BreakEven, JobError>);

/// The charges that were tried, with the times of both methods.
pub fn charges_tried(found: &BreakEven) -> &[Compared] {
    match found {
        BreakEven::At { tried, .. } | BreakEven::First { tried } | BreakEven::Second { tried } => tried,
    }
}

/// A time, or that the level is not reached: such a job counts as the longest one.
fn reached(time: Time) -> String {
    if time >= RunLimits::default().time { "does not get there".to_owned() } else { time_text(time) }
}

/// The answer in a sentence.
pub fn break_even_text(found: &Result<BreakEven, JobError>, units: UnitSet, ambient: Pressure) -> String {
    match found {
        Err(error) => job_error_text(error, units, ambient),
        Ok(BreakEven::At { charge, second_wins_above: true, .. }) => {
            format!("Push-pull is faster above {}.", units.mass(*charge))
        }
        Ok(BreakEven::At { charge, .. }) => format!("Push-pull is faster below {}.", units.mass(*charge)),
        Ok(BreakEven::First { .. }) => "Liquid then vapour is no slower at any charge tried.".to_owned(),
        Ok(BreakEven::Second { .. }) => "Push-pull is faster at every charge tried.".to_owned(),
    }
}

/// One sentence a kit, with the charges that were tried.
pub fn break_even_lines(found: &[Found], units: UnitSet, ambient: Pressure) -> Vec<String> {
    let mut lines = vec!["Push-pull against liquid then vapour, hose change counted".to_owned()];
    for (kit, found) in found {
        let words = break_even_text(found, units, ambient);
        lines.push(wrapped(&words, &format!("  Kit {kit:<8}")));
        for point in found.as_ref().map(charges_tried).unwrap_or_default() {
            lines.push(format!(
                "    {:<14}liquid then vapour {:<20}push-pull {}",
                units.mass(point.charge),
                reached(point.first),
                reached(point.second)
            ));
        }
    }
    lines
}

/// The same for programs.
pub fn break_even_json(found: &[Found]) -> Value {
    let point = |point: &Compared| {
        json!({
            "charge_kg": point.charge.get::<kilogram>(),
            "liquid_then_vapour_s": point.first.get::<second>(),
            "push_pull_s": point.second.get::<second>(),
        })
    };
    let one = |(kit, found): &Found| match found {
        Err(error) => json!({ "name": kit, "no_answer": error.to_string() }),
        Ok(found) => json!({
            "name": kit,
            "charge_kg": match found {
                BreakEven::At { charge, .. } => Some(charge.get::<kilogram>()),
                BreakEven::First { .. } | BreakEven::Second { .. } => None,
            },
            "tried": charges_tried(found).iter().map(point).collect::<Vec<_>>(),
        }),
    };
    found.iter().map(one).collect::<Vec<_>>().into()
}
