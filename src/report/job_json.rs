//! Whole jobs for programs. SI units, absolute pressures; keys only ever added.

use serde_json::{Map, Value, json};
use uom::si::f64::{Mass, MassRate, Time};
use uom::si::mass::kilogram;
use uom::si::mass_rate::kilogram_per_second;
use uom::si::pressure::pascal;
use uom::si::time::second;

use super::compared::draws_json;
use super::error_words::job_error_text;
use super::figures::bands_json;
use super::job_solved::{SolvedJob, SolvedJobs, UnshownJob};
use super::job_words::{ends_tag, ends_text, job_note_text, phase_name, push_pull_limit_text};
use super::json::caution_json;
use crate::advice::DEFERENCE;
use crate::job::over_time::{CylinderUse, JobAnswer, PushPullLimits};
use crate::scenario::Document;
use crate::units::UnitSet;

fn seconds(time: Time) -> f64 {
    time.get::<second>()
}

fn kilograms(mass: Mass) -> f64 {
    mass.get::<kilogram>()
}

fn rate(rate: MassRate) -> f64 {
    rate.get::<kilogram_per_second>()
}

/// The whole answer of `narrows job --json`.
pub fn jobs_json(document: &Document, jobs: &SolvedJobs, units: UnitSet) -> Value {
    let planned = &jobs.planned;
    let level = planned.limits.level.as_ref().ok();
    let schedule = planned.limits.schedule.as_ref();
    json!({
        "narrows": document.version,
        "title": document.title,
        "refrigerant": planned.ask.refrigerant.designation(),
        "level": level.map(|level| json!({
            "pa": level.absolute.get::<pascal>(), "stated": level.stated, "origin": level.origin(),
            "confirm": level.needs_confirmation(),
        })),
        "stock": planned.limits.cylinders.iter().map(|cylinder| json!({
            "name": cylinder.name,
            "stop_gross_kg": cylinder.stop_gross.map(kilograms),
            "remaining_kg": kilograms(cylinder.remaining),
            "rule": cylinder.lowest.map(|(kind, _)| kind.tag()),
            "rules": cylinder.limits.rules.iter().map(|rule| json!({
                "rule": rule.kind.tag(), "name": rule.name, "source": rule.source,
                "net_kg": rule.limit.as_ref().ok().copied().map(kilograms),
            })).collect::<Vec<_>>(),
        })).collect::<Vec<_>>(),
        "schedule": schedule.map(|schedule| json!({
            "likely_count": schedule.likely_count, "high_count": schedule.high_count,
            "covers_high": schedule.covers_high,
        })),
        "set_up_s": seconds(planned.set_up),
        "pack_up_s": seconds(planned.pack_up),
        "deadline_s": planned.deadline.map(seconds),
        "kits": (0..jobs.kits.len()).map(|at| kit_json(jobs, at, units)).collect::<Vec<_>>(),
        "draws": jobs.bands.as_ref().map(draws_json),
        "cautions": jobs.cautions.iter().map(caution_json).collect::<Vec<_>>(),
        "deference": DEFERENCE,
    })
}

fn kit_json(jobs: &SolvedJobs, at: usize, units: UnitSet) -> Value {
    let Some(job) = jobs.kits.get(at) else { return Value::Null };
    let ambient = job.setup.kit.ambient.pressure;
    let mut value = match job.shown() {
        Ok(answer) => answer_json((jobs, at), job, answer, units),
        Err(unshown) => json!({
            "total_s": null, "recovered_kg": null, "remaining_kg": null, "phases": [], "cylinders": [],
            "level_pa": null, "ends_because": null, "band": null,
            "no_answer": match unshown {
                UnshownJob::Withheld(caution) => caution.text.clone(),
                UnshownJob::NoAnswer(error) => job_error_text(error, units, ambient),
            },
        }),
    };
    if let Value::Object(object) = &mut value {
        object.insert("name".to_owned(), json!(job.start.kit.name));
        object.insert("label".to_owned(), json!(job.start.kit.label));
        object.insert(
            "cautions".to_owned(),
            job.start.cautions.iter().map(caution_json).collect::<Vec<_>>().into(),
        );
    }
    value
}

fn answer_json(
    (jobs, at): (&SolvedJobs, usize),
    job: &SolvedJob,
    answer: &JobAnswer,
    units: UnitSet,
) -> Value {
    let ambient = job.setup.kit.ambient.pressure;
    let before_and_after = seconds(jobs.planned.set_up) + seconds(jobs.planned.pack_up);
    json!({
        "total_s": seconds(answer.total),
        "plan_s": seconds(answer.total) + before_and_after,
        "recovered_kg": kilograms(answer.recovered),
        "remaining_kg": kilograms(answer.remaining),
        "phases": answer.phases.iter().map(|phase| json!({
            "name": phase_name(phase.kind),
            "start_s": seconds(phase.start),
            "end_s": seconds(phase.end),
            "recovered_kg": kilograms(phase.recovered),
        })).collect::<Vec<_>>(),
        "cylinders": answer.cylinders.iter().map(|used| cylinder_json(jobs, used)).collect::<Vec<_>>(),
        "level_pa": answer.level.get::<pascal>(),
        "ends_because": ends_tag(&answer.ends_because),
        "ends_words": ends_text(&answer.ends_because, units, ambient),
        "band": band_json(jobs, at),
        "push_pull": answer.push_pull.as_ref().map(push_pull_json),
        "lowest_temperature_k": answer.trace.system_k.iter().copied().reduce(f64::min),
        "notes": answer.notes.iter().map(|note| job_note_text(note, units, ambient)).collect::<Vec<_>>(),
    })
}

/// The time with the low and the high charge; and 10 to 90 % of all draws, by figure.
fn band_json(jobs: &SolvedJobs, at: usize) -> Value {
    let charge = jobs.kits.get(at).and_then(|job| job.band);
    if charge.is_none() && jobs.bands.is_none() {
        return Value::Null;
    }
    let mut band = Map::new();
    if let Some((low, high)) = charge {
        band.insert("low_s".to_owned(), json!(seconds(low)));
        band.insert("high_s".to_owned(), json!(seconds(high)));
    }
    if let (true, Value::Object(drawn)) = (jobs.bands.is_some(), bands_json(|figure| jobs.band(at, figure))) {
        band.extend(drawn.into_iter().filter(|(_, value)| !value.is_null()));
    }
    Value::Object(band)
}

fn cylinder_json(jobs: &SolvedJobs, used: &CylinderUse) -> Value {
    let place = jobs.planned.filled.get(used.index).copied();
    let stock = place.and_then(|place| jobs.planned.limits.cylinders.get(place));
    json!({
        "name": stock.map(|cylinder| cylinder.name.clone()),
        "stop_gross_kg": stock.and_then(|cylinder| cylinder.stop_gross).map(kilograms),
        "net_kg": kilograms(used.net),
        "rule": stock.and_then(|cylinder| cylinder.lowest).map(|(kind, _)| kind.tag()),
        "connected_s": seconds(used.connected),
        "closed_s": seconds(used.closed),
        "highest_pa": used.highest_pressure.get::<pascal>(),
    })
}

fn push_pull_json(limits: &PushPullLimits) -> Value {
    json!({
        "full_condensation_kg_s": rate(limits.full_condensation),
        "no_condensation_kg_s": rate(limits.no_condensation),
        "displacement_kg_s": rate(limits.displacement),
        "liquid_line_kg_s": rate(limits.liquid_line),
        "system_pa": limits.system_pressure.get::<pascal>(),
        "cylinder_pa": limits.cylinder_pressure.get::<pascal>(),
        "limited_by": push_pull_limit_text(limits.limit),
    })
}
