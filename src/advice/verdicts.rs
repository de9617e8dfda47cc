//! What the power room found, as cautions.

use super::caution::{Caution, Place};
use super::more_volts::more_volts;
use crate::power::{Finding, Grade, Note, PowerPoint, Source};
use crate::units::as_sentence;

/// A caution for every verdict, and for a coiled cord.
pub(super) fn from_verdicts(power: &PowerPoint, source: &Source) -> Vec<Caution> {
    let verdicts = power.verdicts.iter().map(|verdict| Caution {
        id: finding_id(&verdict.finding),
        grade: verdict.grade,
        place: Place::CordRun,
        text: sentence(&verdict.finding.to_string(), &advice(&verdict.finding, power, source)),
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

fn advice(finding: &Finding, power: &PowerPoint, source: &Source) -> String {
    // Without a running point the start tells where the volts go.
    let more_volts = |to_do| more_volts(power.loses_most_starting(), source, to_do);
    match finding {
        Finding::CannotHold(_) => more_volts("run"),
        Finding::WillNotStart(_) | Finding::MayNotStart(_) => more_volts("start"),
        other => fixed_advice(other).to_owned(),
    }
}

fn fixed_advice(finding: &Finding) -> &'static str {
    match finding {
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
