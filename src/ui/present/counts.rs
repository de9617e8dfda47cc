//! What counts in the kit in hand, as bars.

use narrows::compare::{Better, Difference, Figure, Gain, Group, Row, Verdict, WhatCounts};
use narrows::report::{ChangeRow, Ranked, all_of_it, first_changes};
use narrows::units::Measure;
use uom::si::f64::MassRate;

use super::scale::sentence;
use super::{Scene, quantity};
use crate::ui::diagram::bars::{Bar, Bars};
use crate::ui::view::Counted;

/// What counts, or why it is not known.
pub fn ranked<'a>(scene: &Scene<'a>) -> Result<&'a Ranked, String> {
    match scene.study().and_then(|s| s.ranked.as_ref()) {
        Some(Ok(all)) => all.get(scene.hand()).ok_or_else(|| scene.waiting().to_owned()),
        Some(Err(why)) => Err(sentence(why)),
        None => Err(scene.waiting().to_owned()),
    }
}

/// What is counted in one row, as a number on the axis.
#[derive(Clone, Copy)]
enum Measured {
    Rate,
    Minutes,
    Running,
    Starting,
}

impl Measured {
    fn of(scene: &Scene, counts: &WhatCounts) -> Self {
        let in_minutes = has_minutes(counts) && !scene.session.view.in_rate;
        match scene.session.view.counted {
            Counted::VoltsRunning => Self::Running,
            Counted::VoltsStarting => Self::Starting,
            Counted::Gain | Counted::Change | Counted::OnlyThis if in_minutes => Self::Minutes,
            Counted::Gain | Counted::Change | Counted::OnlyThis => Self::Rate,
        }
    }

    fn figure(self) -> Figure {
        match self {
            Self::Rate => Figure::Rate,
            Self::Minutes => Figure::Minutes,
            Self::Running => Figure::RunningVoltage,
            Self::Starting => Figure::StartingVoltage,
        }
    }

    /// More is better, but for minutes.
    fn sign(self) -> f64 {
        match self {
            Self::Minutes => -1.0,
            Self::Rate | Self::Running | Self::Starting => 1.0,
        }
    }
}

/// Whether minutes are known for the kit as it is.
pub fn has_minutes(counts: &WhatCounts) -> bool {
    counts.base.si(Figure::Minutes).is_some()
}

/// The bars, sorted, with rows that bring nothing left out.
pub fn bars(scene: &Scene, ranked: &Ranked) -> Bars {
    let counted = scene.session.view.counted;
    let counts = &ranked.counts;
    let measured = Measured::of(scene, counts);
    let withheld = ranked.is_withheld() && matches!(measured, Measured::Rate | Measured::Minutes);
    let (factor, unit) = match measured {
        Measured::Rate => {
            let unit = quantity::rate(scene.units());
            (unit.per_si, unit.name)
        }
        Measured::Minutes if counted == Counted::OnlyThis => (1.0 / 60.0, "min"),
        Measured::Minutes => (1.0 / 60.0, "min sooner"),
        Measured::Running | Measured::Starting => (1.0, "V"),
    };
    let mut rows: Vec<(bool, Bar)> = Vec::new();
    for row in counts.rows.iter().filter(|_| !withheld) {
        let Some(value) = value(counts, row, counted, measured) else { continue };
        let value = value * factor;
        let detail = match counted {
            Counted::Change => row.better.as_ref().map(|b| b.words.clone()).unwrap_or_default(),
            Counted::OnlyThis => "everything else ideal".to_owned(),
            // Two hoses are told apart by their sizes.
            _ => part_size(scene, &row.id).unwrap_or_else(|| row.ideal.to_owned()),
        };
        let is_best = counts.best_change.as_ref() == Some(&row.id);
        let changed = counted == Counted::Change;
        let drawn =
            ranked.drawn(&row.id, measured.figure(), changed).filter(|_| counted != Counted::OnlyThis);
        let bar = Bar {
            label: row.name.clone(),
            detail: sentence(&detail),
            value: Some(value),
            text: text(scene, value / factor, counted, measured),
            strong: is_best && counted != Counted::OnlyThis,
            ..Bar::default()
        };
        let is_condition = row.group == Group::Condition;
        rows.push((is_condition, drawn.map_or(bar.clone(), |drawn| banded(bar, drawn, measured, factor))));
    }
    // With only this left, the lowest rate or the longest time costs most.
    let worst_first = if counted == Counted::OnlyThis { -measured.sign() } else { 1.0 };
    let worth = |bar: &Bar| worst_first * bar.value.unwrap_or(0.0);
    // Parts and cords first, then conditions, as in the library.
    rows.sort_by(|a, b| a.0.cmp(&b.0).then_with(|| worth(&b.1).total_cmp(&worth(&a.1))));
    let mut rows: Vec<Bar> = rows.into_iter().map(|(_, bar)| bar).collect();
    if counted != Counted::OnlyThis {
        let most = rows.iter().filter_map(|bar| bar.value).fold(0.0, f64::max);
        rows.retain(|bar| bar.value.unwrap_or(0.0).abs() > 1e-3 * most.max(1e-9));
    }
    Bars { rows, unit: unit.to_owned(), stale: scene.session.is_study_stale(), ..Bars::default() }
}

/// A bar with the band of its draws; hollow and without a number where that holds zero.
fn banded(bar: Bar, drawn: &Difference, measured: Measured, factor: f64) -> Bar {
    let (figure, per_si) = (measured.figure(), measured.sign() * factor);
    let Some(band) = drawn.band(figure) else { return bar };
    let (a, b) = (band.low * per_si, band.high * per_si);
    let band = Some((a.min(b), a.max(b)));
    match drawn.verdict(figure) {
        Verdict::Same => bar,
        Verdict::More | Verdict::Less => Bar { band, ..bar },
        verdict => Bar { band, hollow: true, strong: false, text: verdict.words().to_owned(), ..bar },
    }
}

/// The size of a part of the kit in hand, by the end of its path.
fn part_size(scene: &Scene, path: &str) -> Option<String> {
    let (before, at) = path.rsplit_once(".parts.")?;
    let is_first_port = !before.ends_with("second_port");
    let part = scene.kit()?.parts.get(at.parse::<usize>().ok()?).filter(|_| is_first_port)?;
    Some(super::parts::detail(part))
}

fn value(counts: &WhatCounts, row: &Row, counted: Counted, measured: Measured) -> Option<f64> {
    let of_gain = |gain: Gain| match measured {
        Measured::Rate => gain.rate_kg_s,
        Measured::Minutes => gain.total_s.map(|s| -s),
        Measured::Running => gain.running_v,
        Measured::Starting => gain.starting_v,
    };
    match counted {
        Counted::OnlyThis => row.only_this.si(measured.figure()),
        Counted::Change => of_gain(counts.gain(&row.better.as_ref()?.headline)),
        Counted::Gain | Counted::VoltsRunning | Counted::VoltsStarting => of_gain(counts.gain(&row.without)),
    }
}

fn text(scene: &Scene, si: f64, counted: Counted, measured: Measured) -> String {
    let plus = if counted == Counted::OnlyThis || si < 0.0 { "" } else { "+" };
    match measured {
        Measured::Rate => format!("{plus}{}", scene.units().rate(MassRate::from_si(si))),
        Measured::Minutes if counted == Counted::OnlyThis => scene.time_text(si / 60.0),
        Measured::Minutes if si.abs() < 0.5 => "no sooner".to_owned(),
        Measured::Minutes if si < 0.0 => format!("{} later", scene.time_text(-si / 60.0)),
        Measured::Minutes => format!("{} sooner", scene.time_text(si / 60.0)),
        Measured::Running | Measured::Starting => format!("{plus}{} V", scene.units().decimals(si, 1)),
    }
}

/// What to do first, and how the gains add up.
pub fn advice(scene: &Scene, ranked: &Ranked) -> Vec<ChangeRow> {
    let units = scene.units();
    first_changes(ranked, units).into_iter().chain(all_of_it(ranked, units)).collect()
}

/// How well the gains are known, in a sentence; none until they are drawn.
pub fn certainty(scene: &Scene, ranked: &Ranked) -> Option<String> {
    let counts = &ranked.counts;
    let gains = match Measured::of(scene, counts) {
        _ if scene.session.view.counted == Counted::OnlyThis => return None,
        Measured::Minutes => ranked.job_gains.as_ref()?,
        Measured::Rate | Measured::Running | Measured::Starting => ranked.gains.as_ref()?,
    };
    let stopped = if gains.draws < gains.plan.count() {
        format!(" Stopped after {} of {}.", gains.draws, gains.plan.count())
    } else {
        String::new()
    };
    Some(format!("Hatch: 10 to 90 % of {} draws. Hollow: its sign is not certain.{stopped}", gains.draws))
}

/// What can be priced: a change, its price as typed, and what comes of it, in words.
pub fn priced<'a>(scene: &Scene, ranked: &'a Ranked) -> Vec<(&'a Better, String, String)> {
    let counts = &ranked.counts;
    let prices = scene.document().prices.as_ref();
    let mut changes: Vec<&Better> = counts.rows.iter().filter_map(|row| row.better.as_ref()).collect();
    changes.sort_by(|a, b| counts.more(&a.headline, &b.headline));
    let mut keys: Vec<&str> = Vec::new();
    changes.retain(|better| {
        let is_new = !keys.contains(&better.key.as_str());
        keys.push(&better.key);
        is_new
    });
    let outcome = |better: &Better| {
        let figure = |number: Option<f64>| number.map(narrows::units::three_figures);
        let per_minute = figure(counts.price_per_minute(better)).map(|n| format!("{n} for a minute saved"));
        let jobs = counts.pay_back_jobs(better).map(|jobs| match jobs.ceil() {
            jobs if jobs <= 1.0 => "paid back by the first job".to_owned(),
            jobs => format!("paid back after {jobs} jobs"),
        });
        let none = better.price.filter(|_| counts.saved_s(&better.headline).is_none());
        let none = none.map(|_| "saves no minutes on this job".to_owned());
        per_minute.into_iter().chain(jobs).chain(none).collect::<Vec<_>>().join(", ")
    };
    let typed =
        |key: &str| prices.and_then(|list| list.of(key)).map(|p| p.as_typed().to_owned()).unwrap_or_default();
    changes.into_iter().map(|better| (better, typed(&better.key), outcome(better))).collect()
}
