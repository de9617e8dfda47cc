//! The job's plates: time to level and stop weight.

use narrows::job::over_time::JobAnswer;

use super::scale::{number_and_unit, sentence};
use super::{Scene, clock, cylinders, job_words, quantity};
use crate::ui::diagram::time;
use crate::ui::symbols::Mark;
use crate::ui::widgets::plate::{About, Plate};

/// Time to level and stop weight, once both are worked out; else none.
pub fn job_plates(scene: &Scene) -> Option<[Plate; 2]> {
    let job = clock::job(scene).ok()?;
    let limits = scene.study()?.limits()?;
    let answer = limits.answer.cylinders.first()?;
    let stale = scene.session.is_study_stale();
    Some([
        Plate { stale, about: About::Level, ..to_level(scene, job) },
        Plate { stale, about: About::Stop, ..stop_weight(scene, answer) },
    ])
}

fn to_level(scene: &Scene, job: &JobAnswer) -> Plate {
    let title = "Time to level".to_owned();
    if !job_words::is_done(&job.ends_because) {
        let why = job_words::not_done(job, scene.units());
        return Plate { title, instead: Some((Mark::Note, why)), ..Plate::default() };
    }
    let text = time::text(clock::minutes(job.total));
    // "2 h 10 min": the last unit stands small.
    let (numeral, unit) = text.rsplit_once(' ').unwrap_or((&text, ""));
    let band = clock::band(scene, scene.hand());
    let aside =
        band.map(|(low, high)| format!("{} to {}", time::text(low), time::text(high))).unwrap_or_default();
    let swaps = match job.cylinders.len().saturating_sub(1) {
        0 => String::new(),
        1 => "1 swap".to_owned(),
        n => format!("{n} swaps"),
    };
    let was = job_words::liquid_left(job, scene.units()).unwrap_or(swaps);
    Plate { title, aside, numeral: numeral.to_owned(), unit: unit.to_owned(), was, ..Plate::default() }
}

fn stop_weight(scene: &Scene, answer: &narrows::job::CylinderAnswer) -> Plate {
    let title = "Stop weight, gross".to_owned();
    if let Some(stop) = answer.stops.first() {
        return Plate { title, instead: Some((Mark::Stop, sentence(&stop.to_string()))), ..Plate::default() };
    }
    let Some(stop) = answer.stop_gross else {
        let why = "Not known: read the stamps WC and TW.".to_owned();
        return Plate { title, instead: Some((Mark::Note, why)), ..Plate::default() };
    };
    let rules = answer.limits.rules.iter().filter(|r| r.limit.is_ok()).count();
    let (numeral, unit) = number_and_unit(&quantity::scale_text(scene.units(), stop));
    let was = answer.lowest.map(|(kind, _)| cylinders::rule_name(kind).to_owned()).unwrap_or_default();
    Plate { title, aside: format!("lowest of {rules}"), numeral, unit, was, ..Plate::default() }
}
