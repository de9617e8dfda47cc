//! The job clock of the kit in hand, and one moment of it.

use narrows::compare::Figure;
use narrows::job::RequiredLevel;
use narrows::job::over_time::{JobAnswer, JobTrace, PhaseKind};
use narrows::report::{SolvedJob, SolvedJobs, UnshownJob, job_error_text, phase_name};
use narrows::units::{Measure, PressureUnit, UnitSet};
use uom::si::f64::{Mass, MassRate, Pressure, ThermodynamicTemperature, Time};
use uom::si::time::minute;

use super::scale::{PressureScale, sentence};
use super::{Scene, job_words, quantity};
use crate::ui::diagram::clock::{Clock, Curve, Span};

/// Why there is no clock, or the clock.
pub fn clock(scene: &Scene) -> Result<Clock, String> {
    let job = job(scene)?;
    let units = scene.units();
    let total = minutes(job.total);
    let cursor = scene.session.view.clock_min.unwrap_or(0.0).clamp(0.0, total);
    let mut clock = Clock {
        kit: scene.hand(),
        spans: spans(job),
        mass: mass_curve(job, units),
        rate: rate_curve(job, units),
        pressure: pressure_curve(scene, job, units),
        end: Some((total, end_words(scene, job))),
        end_band: band(scene, scene.hand()),
        deadline: deadline(scene),
        cursor,
        cursor_words: cursor_words(scene, job, cursor),
        stale: scene.session.is_study_stale(),
    };
    if !scene.session.view.alone {
        clock.mass.others = others(scene, units);
    }
    Ok(clock)
}

/// The job of the kit in hand, or why there is none.
pub fn job<'a>(scene: &Scene<'a>) -> Result<&'a JobAnswer, String> {
    job_of(scene, scene.hand())
}

/// The job of a kit, or why there is none.
pub fn job_of<'a>(scene: &Scene<'a>, kit: usize) -> Result<&'a JobAnswer, String> {
    solved(scene, kit)?.shown().map_err(|unshown| match unshown {
        UnshownJob::Withheld(caution) => caution.text.clone(),
        UnshownJob::NoAnswer(error) => {
            sentence(&job_error_text(error, scene.units(), scene.ambient_pressure()))
        }
    })
}

/// A kit's job as it was solved, or why it was not.
pub fn solved<'a>(scene: &Scene<'a>, kit: usize) -> Result<&'a SolvedJob, String> {
    let none = || scene.waiting().to_owned();
    jobs(scene)?.kits.get(kit).ok_or_else(none)
}

/// All jobs, or why there are none.
pub fn jobs<'a>(scene: &Scene<'a>) -> Result<&'a SolvedJobs, String> {
    match scene.study().and_then(|s| s.jobs.as_ref()) {
        Some(Ok(jobs)) => Ok(jobs),
        Some(Err(why)) => Err(sentence(why)),
        None => Err(scene.waiting().to_owned()),
    }
}

/// Low and high of a kit's whole time, in minutes: 10 to 90 % of the draws, or with the low and the
/// high charge until those are made.
pub fn band(scene: &Scene, kit: usize) -> Option<(f64, f64)> {
    let solved = solved(scene, kit).ok()?;
    let compared = scene.study().and_then(|study| study.compared.as_ref()?.as_ref().ok());
    if let Some(drawn) = compared.and_then(|compared| compared.band(kit, Figure::Minutes)) {
        return Some((drawn.low / 60.0, drawn.high / 60.0));
    }
    let (a, b) = solved.band?;
    let (a, b) = (minutes(a), minutes(b));
    Some((a.min(b), a.max(b)))
}

/// Minutes of a time.
pub fn minutes(time: Time) -> f64 {
    time.get::<minute>()
}

fn spans(job: &JobAnswer) -> Vec<Span> {
    let mut spans: Vec<Span> = Vec::new();
    for phase in &job.phases {
        let (from, to) = (minutes(phase.start), minutes(phase.end));
        spans.push(Span { from, to, name: phase_name(phase.kind).to_owned(), pause: !phase.kind.flows() });
    }
    spans
}

fn end_words(scene: &Scene, job: &JobAnswer) -> String {
    let total = scene.time_text(minutes(job.total));
    if job_words::is_done(&job.ends_because) { total } else { format!("stops at {total}") }
}

/// A column of the trace against time, broken wherever `keep` says no.
fn stretches(
    job: &JobAnswer,
    column: &[f64],
    factor: f64,
    keep: impl Fn(PhaseKind) -> bool,
) -> Vec<Vec<[f64; 2]>> {
    let trace = &job.trace;
    let mut all: Vec<Vec<[f64; 2]>> = vec![Vec::new()];
    for (i, (time_s, value)) in trace.time_s.iter().zip(column).enumerate() {
        let kind = trace.phase.get(i).and_then(|p| job.phases.get(*p)).map(|p| p.kind);
        if kind.is_some_and(&keep) {
            if let Some(last) = all.last_mut() {
                last.push([time_s / 60.0, value * factor]);
            }
        } else if all.last().is_some_and(|s| !s.is_empty()) {
            all.push(Vec::new());
        }
    }
    all.retain(|s| !s.is_empty());
    all
}

fn mass_curve(job: &JobAnswer, units: UnitSet) -> Curve {
    let unit = quantity::mass(units);
    Curve {
        name: "mass left".to_owned(),
        unit: unit.name.to_owned(),
        stretches: stretches(job, &job.trace.remaining_kg, unit.per_si, PhaseKind::flows),
        ..Curve::default()
    }
}

fn rate_curve(job: &JobAnswer, units: UnitSet) -> Curve {
    let unit = quantity::rate(units);
    Curve {
        name: "rate".to_owned(),
        unit: unit.name.to_owned(),
        stretches: stretches(job, &job.trace.rate_kg_s, unit.per_si, PhaseKind::flows),
        ..Curve::default()
    }
}

/// The gauge goes on reading in a pause.
fn pressure_curve(scene: &Scene, job: &JobAnswer, units: UnitSet) -> Curve {
    let scale = PressureScale::of(units);
    let level = scene.study().and_then(|s| s.limits()).and_then(|l| l.answer.level.as_ref().ok());
    Curve {
        name: "system pressure".to_owned(),
        unit: scale.absolute.to_owned(),
        stretches: stretches(job, &job.trace.system_pa, 1.0 / scale.unit_pa, |_| true),
        mark: level.map(|l| (scale.on(l.absolute), level_words(scene, l))),
        others: Vec::new(),
    }
}

/// As the rule states it; in other units than psi also in those.
fn level_words(scene: &Scene, level: &RequiredLevel) -> String {
    let stated = &level.stated;
    match scene.units().pressure {
        PressureUnit::Psi => format!("level {stated}"),
        _ => format!("level {}, stated as {stated}", scene.pressure_text(level.absolute)),
    }
}

fn others(scene: &Scene, units: UnitSet) -> Vec<(usize, String, Vec<[f64; 2]>)> {
    let per_si = quantity::mass(units).per_si;
    let line = |job: &JobAnswer| -> Vec<[f64; 2]> {
        let points = job.trace.time_s.iter().zip(&job.trace.remaining_kg);
        points.map(|(t, m)| [t / 60.0, m * per_si]).collect()
    };
    let kits = scene.document().kits.iter().enumerate();
    kits.filter(|(i, _)| *i != scene.hand())
        .filter_map(|(i, kit)| Some((i, kit.name.clone(), line(job_of(scene, i).ok()?))))
        .collect()
}

/// The clock starts with the machine; the deadline counts from arrival to departure.
fn deadline(scene: &Scene) -> Option<(f64, String)> {
    let planned = &jobs(scene).ok()?.planned;
    let at = minutes(planned.deadline? - planned.set_up - planned.pack_up);
    Some((
        at.max(0.0),
        format!("last moment for the {} deadline", scene.time_text(minutes(planned.deadline?))),
    ))
}

/// One moment: names and values, in words.
pub fn moment(scene: &Scene, job: &JobAnswer, at_min: f64) -> Vec<(&'static str, String)> {
    let units = scene.units();
    let Some(sample) = Sample::at(&job.trace, at_min * 60.0) else { return Vec::new() };
    let phase = job.phases.get(sample.phase).map(|p| phase_name(p.kind)).unwrap_or_default();
    let pressure = |pa: f64| scene.pressure_text(Pressure::from_si(pa));
    let temperature = |k: f64| units.temperature(ThermodynamicTemperature::from_si(k));
    vec![
        ("Time", scene.time_text(at_min)),
        ("Phase", phase.to_owned()),
        ("Rate", units.rate(MassRate::from_si(sample.rate_kg_s))),
        ("Left in the system", units.mass(Mass::from_si(sample.remaining_kg))),
        ("of it liquid", units.mass(Mass::from_si(sample.liquid_kg))),
        ("System", format!("{}, {}", pressure(sample.system_pa), temperature(sample.system_k))),
        ("Compressor inlet", pressure(sample.suction_pa)),
        ("Discharge", pressure(sample.discharge_pa)),
        ("Cylinder", format!("{}, {}", pressure(sample.cylinder_pa), temperature(sample.cylinder_k))),
        (
            "In the cylinder",
            format!(
                "no. {}, {}",
                sample.cylinder + 1,
                quantity::scale_text(units, Mass::from_si(sample.cylinder_kg))
            ),
        ),
    ]
}

fn cursor_words(scene: &Scene, job: &JobAnswer, at_min: f64) -> String {
    let facts = moment(scene, job, at_min);
    facts.iter().take(6).map(|(name, value)| format!("{name} {value}")).collect::<Vec<_>>().join(", ")
}

/// Absolute pressures from the system to the cylinder at one moment.
pub fn pressures(job: &JobAnswer, at_min: f64) -> Option<[f64; 4]> {
    let s = Sample::at(&job.trace, at_min * 60.0)?;
    Some([s.system_pa, s.suction_pa, s.discharge_pa, s.cylinder_pa])
}

/// The trace at one moment, straight between its samples. SI units.
pub struct Sample {
    /// Place of the phase.
    pub phase: usize,
    /// Place of the cylinder.
    pub cylinder: usize,
    /// What leaves the system.
    pub rate_kg_s: f64,
    /// What is in it.
    pub remaining_kg: f64,
    /// Liquid in it.
    pub liquid_kg: f64,
    /// Its absolute pressure.
    pub system_pa: f64,
    /// Its temperature.
    pub system_k: f64,
    /// In the suction chamber.
    pub suction_pa: f64,
    /// At the discharge.
    pub discharge_pa: f64,
    /// In the cylinder.
    pub cylinder_pa: f64,
    /// Its temperature.
    pub cylinder_k: f64,
    /// Its contents.
    pub cylinder_kg: f64,
}

impl Sample {
    /// The moment at a time; none if there is no trace.
    pub fn at(trace: &JobTrace, time_s: f64) -> Option<Self> {
        let after = trace.time_s.partition_point(|t| *t <= time_s).min(trace.len().checked_sub(1)?);
        let before = after.saturating_sub(1);
        let (t0, t1) = (*trace.time_s.get(before)?, *trace.time_s.get(after)?);
        let share = if t1 > t0 { ((time_s - t0) / (t1 - t0)).clamp(0.0, 1.0) } else { 1.0 };
        let nearest = if share < 1.0 { before } else { after };
        // Between a flowing sample and a pause there is a step, not a slope.
        let same = trace.phase.get(before) == trace.phase.get(after);
        let column = |values: &[f64]| -> Option<f64> {
            let (a, b) = (*values.get(before)?, *values.get(after)?);
            Some(if same { a + share * (b - a) } else { *values.get(nearest)? })
        };
        Some(Self {
            phase: *trace.phase.get(nearest)?,
            cylinder: *trace.cylinder.get(nearest)?,
            rate_kg_s: column(&trace.rate_kg_s)?,
            remaining_kg: column(&trace.remaining_kg)?,
            liquid_kg: column(&trace.liquid_kg)?,
            system_pa: column(&trace.system_pa)?,
            system_k: column(&trace.system_k)?,
            suction_pa: column(&trace.suction_pa)?,
            discharge_pa: column(&trace.discharge_pa)?,
            cylinder_pa: column(&trace.cylinder_pa)?,
            cylinder_k: column(&trace.cylinder_k)?,
            cylinder_kg: column(&trace.cylinder_kg)?,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two samples by hand; a quarter of the way lies a quarter of the difference.
    #[test]
    fn a_moment_lies_straight_between_samples() {
        let pair = |a: f64, b: f64| vec![a, b];
        let trace = JobTrace {
            time_s: pair(0.0, 100.0),
            phase: vec![0, 0],
            rate_kg_s: pair(4.0, 0.0),
            recovered_kg: pair(0.0, 2.0),
            remaining_kg: pair(10.0, 8.0),
            liquid_kg: pair(9.0, 7.0),
            system_pa: pair(8e5, 4e5),
            system_k: pair(300.0, 280.0),
            suction_pa: pair(6e5, 3e5),
            discharge_pa: pair(9e5, 9e5),
            cylinder: vec![0, 0],
            cylinder_pa: pair(9e5, 9e5),
            cylinder_k: pair(300.0, 300.0),
            cylinder_kg: pair(0.0, 2.0),
        };
        let sample = Sample::at(&trace, 25.0).expect("inside");
        assert_eq!((sample.remaining_kg, sample.rate_kg_s, sample.system_pa), (9.5, 3.0, 7e5));
        assert_eq!(Sample::at(&trace, 1e9).expect("after the end").remaining_kg, 8.0);
        assert!(Sample::at(&JobTrace::default(), 0.0).is_none());
    }
}
