//! What a lesson shows: its words with their numbers, rates before and after, the chilling charge.

use narrows::job::over_time::JobAnswer;
use narrows::presets::Number;
use narrows::report::SolvedJobs;
use uom::si::electric_current::ampere;
use uom::si::electric_potential::volt;
use uom::si::f64::{ElectricPotential, Pressure, ThermodynamicTemperature};

use narrows::units::Measure;

use super::scale::PressureScale;
use super::{Scene, parts, quantity};
use crate::ui::diagram::chilling::{Chilling, Mark};
use crate::ui::diagram::rates::{RateBar, Rates};
use crate::ui::study::Study;

/// What a number is called on a lesson's plate; the port is no secret, but it is no news either.
pub const fn number_name(number: Number) -> &'static str {
    match number {
        Number::Rate => "Rate now",
        Number::Inlet => "Machine inlet",
        Number::VoltsRunning => "Volts running",
        Number::VoltsStarting => "Volts starting",
    }
}

/// Every place that a lesson's words may have.
pub const PLACES: [&str; 12] = [
    "largest",
    "largest_loss",
    "largest_share",
    "all_losses",
    "rate",
    "rate_before",
    "rate_ratio",
    "inlet",
    "volts_running",
    "volts_starting",
    "amps",
    "start_torque",
];

/// A lesson's words with what was computed in their places; a dash where there is nothing.
pub fn filled(scene: &Scene, says: &str) -> String {
    let mut text = says.to_owned();
    for place in PLACES {
        let mark = format!("{{{place}}}");
        if text.contains(&mark) {
            let value = value(scene, place).unwrap_or_else(|| "\u{2013}".to_owned());
            text = text.replace(&mark, &value);
        }
    }
    text
}

fn value(scene: &Scene, place: &str) -> Option<String> {
    let hand = scene.hand();
    let units = scene.units();
    let volts = |v: ElectricPotential| format!("{:.0} V", v.get::<volt>());
    let rate_before = || scene.before()?.kits.get(hand)?.point().map(|p| p.mass_flow);
    match place {
        "rate" => Some(units.rate(scene.point(hand)?.mass_flow)),
        "rate_before" => Some(units.rate(rate_before()?)),
        "rate_ratio" => {
            let ratio = scene.point(hand)?.mass_flow.value / rate_before()?.value;
            ratio.is_finite().then(|| format!("{ratio:.1}"))
        }
        "inlet" => Some(scene.pressure_text(scene.point(hand)?.machine_inlet_pressure)),
        "volts_running" => Some(volts(scene.power(hand)?.running.point()?.voltage)),
        "volts_starting" => Some(volts(scene.power(hand)?.starting.voltage)),
        "amps" => {
            let current = scene.power(hand)?.running.point()?.current;
            Some(format!("{:.1} A", current.get::<ampere>()))
        }
        "start_torque" => Some(format!("{:.0} %", 100.0 * scene.power(hand)?.starting.torque_ratio)),
        _ => largest(scene, place),
    }
}

/// The part that costs the most.
fn largest(scene: &Scene, place: &str) -> Option<String> {
    let point = scene.point(scene.hand())?;
    let kit = scene.solved_document()?.kits.get(scene.hand())?;
    let pairs = kit.parts.iter().zip(&point.parts);
    let (part, solved) = pairs.max_by(|a, b| a.1.drop().value.total_cmp(&b.1.drop().value))?;
    let all = point.system_pressure - point.machine_inlet_pressure;
    let units = scene.pressure_units();
    match place {
        "largest" => Some(parts::name(part)),
        "largest_loss" => Some(units.pressure_loss(solved.drop())),
        "largest_share" => Some(format!("{:.0} %", 100.0 * solved.drop().value / all.value.max(1e-9))),
        "all_losses" => Some(units.pressure_loss(all)),
        _ => None,
    }
}

/// The rates of all kits; of the later answer only what has grown.
pub fn rates(scene: &Scene, grown: &[f32]) -> Rates {
    let units = scene.units();
    let per_si = quantity::rate(units).per_si;
    let rate = |answer: Option<&crate::ui::answer::Answer>, kit: usize| {
        let flow = answer?.kits.get(kit)?.point()?.mass_flow;
        Some((flow.value * per_si, units.rate(flow)))
    };
    let mut rates = Rates::default();
    for (i, kit) in scene.document().kits.iter().enumerate() {
        let grown = grown.get(i).copied().unwrap_or_default();
        let (before, after) = (rate(scene.before(), i), rate(scene.answer(), i));
        for value in [&before, &after].into_iter().flatten() {
            rates.top = rates.top.max(value.0);
        }
        rates.bars.push(RateBar {
            kit: (i, kit.name.clone()),
            name: kit.label.clone().unwrap_or_default(),
            before,
            after: after.filter(|_| grown > 0.0),
            grown,
        });
    }
    rates
}

/// Pressure against the share recovered; points where something has grown.
pub fn chilling(scene: &Scene, marks: &[f64], grown: &[f32]) -> Option<Chilling> {
    let scale = PressureScale::of(scene.pressure_units());
    let job = job(scene.study()?, scene.hand())?;
    let curve = curve(scene, job, scale);
    let ghost = scene.session.study_before().and_then(|study| self::job(study, scene.hand()));
    let ghost = ghost.map(|job| self::curve(scene, job, scale)).unwrap_or_default();
    let highest = curve.iter().chain(&ghost).map(|p| p[1]).fold(1e-9, f64::max);
    let all = marks.last().copied().unwrap_or(1.0);
    let mut until = 0.0;
    let mut shown = Vec::new();
    let mut from = 0.0;
    for (i, &share) in marks.iter().enumerate() {
        let grown = grown.get(i).copied().unwrap_or_default();
        if grown > 0.0 {
            until = from + f64::from(grown) * (share - from);
        }
        if grown >= 1.0 {
            shown.extend(mark(scene, job, share, scale));
        }
        from = share;
    }
    Some(Chilling {
        curve,
        ghost,
        marks: shown,
        until_ratio: until,
        top: (1.15 * all, 1.1 * highest),
        unit: if scene.session.view.absolute { scale.absolute } else { scale.gauge }.to_owned(),
    })
}

fn job(study: &Study, kit: usize) -> Option<&JobAnswer> {
    let jobs: &SolvedJobs = study.jobs.as_ref()?.as_ref().ok()?;
    jobs.kits.get(kit)?.shown().ok()
}

/// As a gauge shows it, or absolute.
fn on_gauge(scene: &Scene, pa: f64, scale: PressureScale) -> f64 {
    let zero = if scene.session.view.absolute { 0.0 } else { scale.on(scene.ambient_pressure()) };
    scale.on(Pressure::from_si(pa)) - zero
}

fn recovered_ratio(job: &JobAnswer, i: usize) -> Option<f64> {
    let (gone, left) = (*job.trace.recovered_kg.get(i)?, *job.trace.remaining_kg.get(i)?);
    let all = gone + left;
    (all > 0.0).then(|| gone / all)
}

fn curve(scene: &Scene, job: &JobAnswer, scale: PressureScale) -> Vec<[f64; 2]> {
    let at = |(i, pa): (usize, &f64)| Some([recovered_ratio(job, i)?, on_gauge(scene, *pa, scale)]);
    job.trace.system_pa.iter().enumerate().filter_map(at).collect()
}

/// The moment at which a share is recovered, straight between two samples.
fn mark(scene: &Scene, job: &JobAnswer, share: f64, scale: PressureScale) -> Option<Mark> {
    let after = (1..job.trace.len()).find(|i| recovered_ratio(job, *i).is_some_and(|r| r >= share))?;
    let (low, high) = (recovered_ratio(job, after - 1)?, recovered_ratio(job, after)?);
    let part = if high > low { ((share - low) / (high - low)).clamp(0.0, 1.0) } else { 1.0 };
    let between = |column: &[f64]| Some(column.get(after - 1)? * (1.0 - part) + column.get(after)? * part);
    let pa = between(&job.trace.system_pa)?;
    let kelvin = between(&job.trace.system_k)?;
    let units = scene.units();
    Some(Mark {
        share_ratio: share,
        pressure: on_gauge(scene, pa, scale),
        text: scene.pressure_text(Pressure::from_si(pa)),
        beside: units.temperature(ThermodynamicTemperature::from_si(kelvin)),
    })
}
