//! Whole jobs for people: one line a kit, then each kit's phases and cylinders, plain text.

use super::columns::columns;
use super::error_words::job_error_text;
use super::job_solved::{SolvedJob, SolvedJobs, UnshownJob};
use super::job_steps::{JobStep, job_steps, whole_time};
use super::job_words::{ends_text, job_note_text, job_note_warns, push_pull_limit_text};
use super::table::{ALSO, caution_line, in_all};
use super::time_words::time_text;
use super::wrap::wrapped;
use crate::advice::{Caution, DEFERENCE};
use crate::compare::{Band, Figure};
use crate::job::over_time::{EndsBecause, JobAnswer, JobNote, PushPullLimits};
use crate::job::{CylinderAnswer, FillNote, FillRule, FillStop, RequiredLevel};
use crate::power::Grade;
use crate::scenario::{Document, JobPlanned};
use crate::units::factors::POUND_KG;
use crate::units::{Measure, UnitSet};
use uom::si::f64::{Mass, Pressure, Time};

/// The whole answer of `narrows job`.
pub fn jobs_table(document: &Document, jobs: &SolvedJobs, units: UnitSet) -> String {
    let mut lines = vec![document.title.clone()];
    lines.extend(shared_lines(jobs, units));
    lines.push(String::new());
    lines.extend(summary(jobs, units));
    for job in &jobs.kits {
        lines.push(String::new());
        lines.extend(kit_lines(jobs, job, units));
    }
    lines.extend([String::new(), "All kits".to_owned()]);
    lines.extend(jobs.cautions.iter().map(caution_line));
    lines.extend(serious_in_all(jobs).iter().map(caution_line));
    lines.extend([String::new(), wrapped(DEFERENCE, "")]);
    lines.join("\n") + "\n"
}

fn shared_lines(jobs: &SolvedJobs, units: UnitSet) -> Vec<String> {
    let planned = &jobs.planned;
    let mut lines = Vec::new();
    let charge = planned.kits.first().map(|job| units.mass(job.setup.system.charge)).unwrap_or_default();
    let kind = if planned.vapour_only { " of vapour (no charge given)" } else { "" };
    lines.push(format!("{}, {charge}{kind}", planned.ask.refrigerant.designation()));
    if let Ok(level) = &planned.limits.level {
        let air = planned.kits.first().map_or(level.atmosphere, |job| job.setup.kit.ambient.pressure);
        lines.push(wrapped(&format!("to {}", level_words(level, air, units)), "Level "));
    }
    lines.extend(stock_lines(&planned.limits.cylinders, units));
    lines
}

/// The level and where it comes from, and what a gauge shows where the air is thinner than the table's.
pub(super) fn level_words(level: &RequiredLevel, air: Pressure, units: UnitSet) -> String {
    let is_thin = (air.si() / level.atmosphere.si() - 1.0).abs() > OTHER_AIR;
    let here = format!("; on a gauge in this air {}", units.pressure(level.absolute, air));
    let here = if is_thin { here.as_str() } else { "" };
    let confirm = if level.needs_confirmation() { "; confirm with the current text" } else { "" };
    format!("{} ({}){here}{confirm}", level.stated, level.origin())
}

/// Air whose pressure differs by this share shows on a gauge: 0.15 inHg.
const OTHER_AIR: f64 = 5e-3;

/// Stops and warnings that every kit has at its start.
fn serious_in_all(jobs: &SolvedJobs) -> Vec<Caution> {
    let serious: Vec<Vec<Caution>> = jobs.kits.iter().map(serious).collect();
    match serious.split_first() {
        Some((first, others)) if !others.is_empty() => in_all(first, others.iter().map(Vec::as_slice)),
        _ => Vec::new(),
    }
}

/// A kit's own Stops and warnings at its start, and what many machines ask of one circuit. Notes stand in
/// `narrows solve`.
fn serious(job: &SolvedJob) -> Vec<Caution> {
    let is_serious = |caution: &&Caution| caution.grade >= Grade::Warning || caution.id == "several-machines";
    job.start.cautions.iter().filter(is_serious).cloned().collect()
}

/// The stock, alike cylinders once.
fn stock_lines(stock: &[CylinderAnswer], units: UnitSet) -> Vec<String> {
    let mut lines: Vec<(String, usize)> = Vec::new();
    for cylinder in stock {
        let line = format!("{}: {}", plain_name(&cylinder.name), stop_words(cylinder, units));
        match lines.last_mut() {
            Some((last, count)) if *last == line => *count += 1,
            _ => lines.push((line, 1)),
        }
    }
    let said = |(line, count): &(String, usize)| {
        let times = if *count > 1 { format!(" ({count} of them)") } else { String::new() };
        wrapped(&format!("{line}{times}"), "Stock ")
    };
    lines.iter().map(said).collect()
}

/// A cylinder's weight to stop at or why it may not be filled, and the rule that set the limit.
pub(super) fn stop_words(cylinder: &CylinderAnswer, units: UnitSet) -> String {
    let stop = match cylinder.lowest {
        _ if is_forbidden(cylinder) => return "may not be filled, see Stop".to_owned(),
        None => "no limit known".to_owned(),
        Some((_, limit)) => limit_words(cylinder, limit, units),
    };
    let rule = stop_rule(cylinder).map(|rule| format!(", by {}", rule.name)).unwrap_or_default();
    format!("{stop}{rule}")
}

fn limit_words(cylinder: &CylinderAnswer, limit: Mass, units: UnitSet) -> String {
    if let Some(over) = over_limit(cylinder) {
        let (holds, limit) = (units.mass(limit + over), units.mass(limit));
        // Over by less than the digits show.
        return if holds == limit {
            format!("is past its limit of {limit}")
        } else {
            format!("holds {holds}, more than its limit of {limit}")
        };
    }
    if is_full(cylinder) {
        return format!("is at its limit of {} already", units.mass(limit));
    }
    match cylinder.stop_gross {
        Some(gross) => format!("stop at {} gross", units.mass(gross)),
        None => format!("room for {} (no tare given)", units.mass(cylinder.remaining)),
    }
}

/// A Stop that has nothing to do with how full it is.
fn is_forbidden(cylinder: &CylinderAnswer) -> bool {
    cylinder.stops.iter().any(|stop| !matches!(stop, FillStop::OverLimit { .. }))
}

/// How much more it holds than it may.
fn over_limit(cylinder: &CylinderAnswer) -> Option<Mass> {
    cylinder.stops.iter().find_map(|stop| match stop {
        FillStop::OverLimit { over_lb, .. } => Some(Mass::from_si(over_lb * POUND_KG)),
        _ => None,
    })
}

fn is_full(cylinder: &CylinderAnswer) -> bool {
    cylinder.notes.iter().any(|note| matches!(note, FillNote::Full { .. }))
}

/// The rule that sets a cylinder's stop weight.
pub(super) fn stop_rule(cylinder: &CylinderAnswer) -> Option<&FillRule> {
    cylinder.lowest.and_then(|(kind, _)| cylinder.limits.rule(kind))
}

/// A cylinder's name without its number among others alike.
pub(super) fn plain_name(name: &str) -> &str {
    name.split(" (").next().unwrap_or(name)
}

fn summary(jobs: &SolvedJobs, units: UnitSet) -> Vec<String> {
    let head = ["Kit", "Time", "Likely range", "Low and high charge", "Recovered", "Cylinders", "Ends"];
    let mut rows = vec![head.map(str::to_owned).to_vec()];
    for (at, job) in jobs.kits.iter().enumerate() {
        let name = &job.start.kit.name;
        let Ok(answer) = job.shown() else {
            rows.push([name.as_str(), "none", "-", "-", "-", "-", "see below"].map(str::to_owned).to_vec());
            continue;
        };
        let range = |(low, high)| format!("{} to {}", time_text(low), time_text(high));
        let band = job.band.map_or("-".to_owned(), range);
        let drawn = jobs.band(at, Figure::Minutes);
        let drawn = drawn.map(|band| range((Time::from_si(band.low), Time::from_si(band.high))));
        let drawn = drawn.unwrap_or_else(|| "-".to_owned());
        let cylinders = count_words(answer.cylinders.len(), jobs.band(at, Figure::Cylinders));
        let done = match answer.ends_because {
            EndsBecause::LevelReached | EndsBecause::AlreadyAtLevel if leaves_liquid(answer) => {
                "level, liquid left"
            }
            EndsBecause::LevelReached | EndsBecause::AlreadyAtLevel => "at the level",
            _ => "NOT DONE, see below",
        };
        // A few draws may reach the level where the plan as written does not.
        let drawn = if done.starts_with("NOT") { "-".to_owned() } else { drawn };
        let (time, recovered) = (time_text(answer.total), units.mass(answer.recovered));
        rows.push(vec![name.clone(), time, drawn, band, recovered, cylinders, done.to_owned()]);
    }
    let mut lines = columns(&without_empty(rows), &[5, 13]);
    if let Some(bands) = &jobs.bands {
        let words = format!(
            "Likely range: four of five of {} draws (seed {}) of all uncertain inputs, the charge among them.",
            bands.draws,
            bands.plan.seed()
        );
        lines.push(wrapped(&words, ""));
    }
    lines
}

/// Without columns in which no kit has anything.
fn without_empty(rows: Vec<Vec<String>>) -> Vec<Vec<String>> {
    let is_told =
        |column: usize| rows.iter().skip(1).any(|row| row.get(column).is_some_and(|cell| cell != "-"));
    let told = |row: &Vec<String>| {
        let cells = row.iter().enumerate().filter(|(column, _)| is_told(*column));
        cells.map(|(_, cell)| cell.clone()).collect()
    };
    rows.iter().map(told).collect()
}

fn leaves_liquid(answer: &JobAnswer) -> bool {
    answer.notes.iter().any(job_note_warns)
}

/// "5", or "5 (5–6)" where the draws do not agree.
fn count_words(count: usize, band: Option<&Band>) -> String {
    match band.map(|band| (band.low.round(), band.high.round())) {
        Some((low, high)) if low != high => format!("{count} ({low}\u{2013}{high})"),
        _ => count.to_string(),
    }
}

fn kit_lines(jobs: &SolvedJobs, job: &SolvedJob, units: UnitSet) -> Vec<String> {
    let ambient = job.setup.kit.ambient.pressure;
    let label = job.start.kit.label.as_deref().map(|label| format!(": {label}")).unwrap_or_default();
    let mut lines = vec![format!("Kit {}{label}", job.start.kit.name)];
    let answer = match job.shown() {
        Ok(answer) => answer,
        Err(UnshownJob::Withheld(caution)) => {
            lines.push(caution_line(caution));
            return lines;
        }
        Err(UnshownJob::NoAnswer(error)) => {
            lines.push(wrapped(&job_error_text(error, units, ambient), "  Job         "));
            return lines;
        }
    };
    lines.push(wrapped(&ends_text(&answer.ends_because, units, ambient), "  Ends        "));
    lines.push(format!(
        "  Left        {} in the system at {}",
        units.mass(answer.remaining),
        units.pressure(answer.level, ambient)
    ));
    lines.extend(phase_rows(jobs, answer, units));
    lines.extend(cylinder_rows(jobs, answer, units));
    let shared = serious_in_all(jobs);
    lines.extend(serious(job).iter().filter(|caution| !shared.contains(caution)).map(caution_line));
    lines.extend(answer.push_pull.as_ref().map(|limits| push_pull_line(limits, units)));
    lines.extend(answer.notes.iter().map(|note| note_line(note, units, ambient)));
    lines
}

fn note_line(note: &JobNote, units: UnitSet, ambient: Pressure) -> String {
    let lead = if job_note_warns(note) { "  Warning     " } else { ALSO };
    wrapped(&job_note_text(note, units, ambient), lead)
}

fn phase_rows(jobs: &SolvedJobs, answer: &JobAnswer, units: UnitSet) -> Vec<String> {
    let planned = &jobs.planned;
    let row = |step: &JobStep| {
        let mass = step.recovered.map(|mass| units.mass(mass)).unwrap_or_default();
        let (from, to) = (time_text(step.from), time_text(step.to));
        format!("    {:<22}{from:>12} to {to:<14}{mass:>12}", step.name).trim_end().to_owned()
    };
    let mut lines: Vec<String> = job_steps(planned, answer).iter().map(row).collect();
    lines.extend(on_site_words(planned, answer).map(|words| wrapped(&words, "  On site     ")));
    lines.extend(deadline_words(planned, answer).map(|words| format!("  Deadline    {words}")));
    lines
}

/// From arrival to departure, where that is more than the machine's own time.
fn on_site_words(planned: &JobPlanned, answer: &JobAnswer) -> Option<String> {
    let whole = whole_time(planned, answer.total);
    let more = [(planned.set_up, "to set up"), (planned.pack_up, "to pack up")];
    let more = more.into_iter().filter(|(time, _)| time.value > 0.0);
    let more: Vec<String> = more.map(|(time, what)| format!("{} {what}", time_text(time))).collect();
    let job = time_text(answer.total);
    (whole > answer.total).then(|| format!("{}: {job} of the job, {}", time_text(whole), more.join(", ")))
}

/// How far the plan is from its deadline.
pub(super) fn deadline_words(planned: &JobPlanned, answer: &JobAnswer) -> Option<String> {
    let deadline = planned.deadline?;
    let whole = whole_time(planned, answer.total);
    let (words, gap) =
        if whole > deadline { ("is missed by", whole - deadline) } else { ("leaves", deadline - whole) };
    Some(format!("{} {words} {}", time_text(deadline), time_text(gap)))
}

fn cylinder_rows(jobs: &SolvedJobs, answer: &JobAnswer, units: UnitSet) -> Vec<String> {
    let row = |used: &crate::job::over_time::CylinderUse| {
        let place = jobs.planned.filled.get(used.index).copied().unwrap_or_default();
        let name =
            jobs.planned.limits.cylinders.get(place).map_or("cylinder", |cylinder| cylinder.name.as_str());
        format!(
            "    {:<22}{:>12} to {:<14}{:>12} net",
            format!("{}. {}", used.index + 1, plain_name(name)),
            time_text(jobs.planned.set_up + used.connected),
            time_text(jobs.planned.set_up + used.closed),
            units.mass(used.net)
        )
    };
    answer.cylinders.iter().map(row).collect()
}

fn push_pull_line(limits: &PushPullLimits, units: UnitSet) -> String {
    wrapped(&push_pull_words(limits, units), "  Push-pull   ")
}

/// The limits of push-pull.
pub(super) fn push_pull_words(limits: &PushPullLimits, units: UnitSet) -> String {
    format!(
        "between {} (all gas condenses) and {} (none does) at the start; limited by {}. The line alone would \
         pass {}, the displacement {}.",
        units.rate(limits.full_condensation),
        units.rate(limits.no_condensation),
        push_pull_limit_text(limits.limit),
        units.rate(limits.liquid_line),
        units.rate(limits.displacement),
    )
}
