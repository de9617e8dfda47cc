//! What the power room found, as cautions.

use super::caution::{Caution, Place};
use crate::power::{Finding, Grade, Note, PowerPoint};
use crate::units::as_sentence;

/// A caution for every verdict, and for a coiled cord.
pub(super) fn from_verdicts(power: &PowerPoint) -> Vec<Caution> {
    let verdicts = power.verdicts.iter().map(|verdict| Caution {
        id: finding_id(&verdict.finding),
        grade: verdict.grade,
        place: Place::CordRun,
        text: sentence(&verdict.finding.to_string(), advice(&verdict.finding)),
        withholds: false,
    });
    let coiled = power.notes.iter().filter_map(|note| match note {
        Note::CoiledCord { .. } => Some(Caution {
            id: "cord-coiled",
            grade: Grade::Warning,
            place: Place::CordRun,
            text: sentence(&note.to_string(), ""),
            withholds: false,
        }),
        _ => None,
    });
    verdicts.chain(coiled).collect()
}

/// A finding's words as a sentence, with what to do about it.
fn sentence(finding: &str, advice: &str) -> String {
    let gap = if advice.is_empty() { "" } else { " " };
    format!("{}{gap}{advice}", as_sentence(finding))
}

fn finding_id(finding: &Finding) -> &'static str {
    match finding {
        Finding::CannotHold(_) => "cannot-hold",
        Finding::WillNotStart(_) => "will-not-start",
        Finding::MayNotStart(_) => "may-not-start",
        Finding::UnderVoltage { .. } => "under-voltage",
        Finding::OverVoltage { .. } => "over-voltage",
        Finding::OverFluxed { .. } => "over-fluxed",
        Finding::MotorOverload { .. } => "motor-overload",
        Finding::CordOverMarking { .. } => "cord-over-marking",
        Finding::CordOverAmpacity { .. } => "cord-over-ampacity",
        Finding::BreakerContinuous { .. } => "breaker-continuous",
        Finding::BreakerExceeded { .. } => "breaker-exceeded",
        Finding::BreakerAtStart { .. } => "breaker-at-start",
        Finding::BreakerOverWire { .. } => "breaker-over-wire",
        Finding::GeneratorContinuous { .. } => "generator-continuous",
        Finding::GeneratorSurge { .. } => "generator-surge",
    }
}

fn advice(finding: &Finding) -> &'static str {
    match finding {
        Finding::CannotHold(_) | Finding::WillNotStart(_) | Finding::MayNotStart(_) => {
            "A shorter, thicker cord or a nearer receptacle helps."
        }
        Finding::UnderVoltage { .. } => "It may stall, overheat or trip.",
        Finding::MotorOverload { .. } => "It runs hot and ages fast.",
        Finding::CordOverMarking { .. } | Finding::CordOverAmpacity { .. } => "Heat and fire risk.",
        Finding::BreakerExceeded { .. }
        | Finding::BreakerContinuous { .. }
        | Finding::BreakerAtStart { .. } => "Do not up-size the breaker; use another circuit.",
        Finding::BreakerOverWire { .. } => "Fixed wiring belongs to a qualified electrician.",
        _ => "",
    }
}
