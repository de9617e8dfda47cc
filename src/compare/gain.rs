//! What one set of figures brings against another, and which of two brings more.

use super::headline::{Figure, Headline};
use std::cmp::Ordering;

/// What something brings against the kit as it is. SI units of its figure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gain {
    /// The rate, in kg/s; from standstill where the kit has none as it is.
    pub rate_kg_s: Option<f64>,
    /// Voltage at the running motor.
    pub running_v: Option<f64>,
    /// Voltage at the motor as it starts.
    pub starting_v: Option<f64>,
    /// Time of the whole job; more is longer.
    pub total_s: Option<f64>,
}

pub(super) fn gain(base: &Headline, then: &Headline) -> Gain {
    Gain {
        rate_kg_s: then.si(Figure::Rate).map(|rate| rate - base.si(Figure::Rate).unwrap_or(0.0)),
        running_v: then.less(base, Figure::RunningVoltage),
        starting_v: then.less(base, Figure::StartingVoltage),
        total_s: then.less(base, Figure::Minutes),
    }
}

/// Less than this brings nothing: 0.0001 lb/min, ten times the solver's own error.
pub(super) const WORTH_NAMING_KG_S: f64 = 7.6e-7;
/// Less than this brings nothing.
const WORTH_NAMING_V: f64 = 0.05;
/// A smaller share of a job's time brings nothing: as exact as the path's curves are
/// (`job::over_time`).
pub(super) const WORTH_NAMING_TIME_RATIO: f64 = 5e-4;

/// Minutes saved where jobs were followed, else nothing; then rate, volts running, volts starting.
fn worth(base: &Headline, then: &Headline) -> [f64; 4] {
    let gain = gain(base, then);
    let known = |value: Option<f64>| value.unwrap_or(f64::NEG_INFINITY);
    // What is within the solver's error is equal, so that what comes next decides.
    let rate = known(gain.rate_kg_s);
    let rate = if rate.abs() < WORTH_NAMING_KG_S { 0.0 } else { rate };
    [saved_s(base, then), rate, known(gain.running_v), known(gain.starting_v)]
}

/// A job that gets done is worth any minutes; one that does not any more, none.
fn saved_s(base: &Headline, then: &Headline) -> f64 {
    match (base.si(Figure::Minutes), then.si(Figure::Minutes)) {
        (Some(before_s), Some(then_s)) => {
            let saved_s = before_s - then_s;
            if saved_s.abs() < WORTH_NAMING_TIME_RATIO * before_s { 0.0 } else { saved_s }
        }
        (None, None) => 0.0,
        (None, Some(_)) => f64::INFINITY,
        (Some(_), None) => f64::NEG_INFINITY,
    }
}

/// What brings more comes first.
pub(super) fn more(base: &Headline, one: &Headline, other: &Headline) -> Ordering {
    let pairs = worth(base, one).into_iter().zip(worth(base, other));
    pairs.map(|(one, other)| other.total_cmp(&one)).find(|order| order.is_ne()).unwrap_or(Ordering::Equal)
}

pub(super) fn is_worth_naming(gain: &Gain) -> bool {
    gain.rate_kg_s.is_some_and(|rate| rate > WORTH_NAMING_KG_S)
        || [gain.running_v, gain.starting_v].into_iter().flatten().any(|volts| volts > WORTH_NAMING_V)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Measure;
    use uom::si::f64::{MassRate, Time};

    fn figures(rate_kg_s: f64, minutes: Option<f64>) -> Headline {
        Headline {
            rate: Some(MassRate::from_si(rate_kg_s)),
            minutes: minutes.map(|minutes| Time::from_si(60.0 * minutes)),
            ..Headline::default()
        }
    }

    #[test]
    fn minutes_count_before_the_rate_where_they_are_known() {
        let base = figures(0.01, Some(20.0));
        let (sooner, faster) = (figures(0.011, Some(17.0)), figures(0.02, Some(18.0)));
        assert_eq!(more(&base, &sooner, &faster), Ordering::Less);
        let hardly = figures(0.02, Some(19.999));
        assert_eq!(more(&base, &hardly, &figures(0.03, Some(20.0))), Ordering::Greater, "0.005 % is nothing");
        let point = figures(0.01, None);
        assert_eq!(more(&point, &figures(0.02, None), &figures(0.03, None)), Ordering::Greater);
        assert_eq!(
            more(&point, &figures(0.02, Some(50.0)), &figures(0.03, None)),
            Ordering::Less,
            "done at last"
        );
        assert_eq!(more(&base, &figures(0.02, None), &figures(0.01, Some(20.0))), Ordering::Greater);
    }
}
