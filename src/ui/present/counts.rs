//! What counts in the kit in hand, as bars.

use narrows::compare::{Figure, Gain, Headline, Row, WhatCounts};
use narrows::report::Ranked;
use narrows::units::Measure;
use uom::si::f64::MassRate;

use super::scale::sentence;
use super::{Scene, quantity};
use crate::ui::diagram::bars::{Bar, Bars};
use crate::ui::diagram::time;
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

fn measured(counted: Counted, counts: &WhatCounts) -> Measured {
    match counted {
        Counted::VoltsRunning => Measured::Running,
        Counted::VoltsStarting => Measured::Starting,
        Counted::OnlyThis => Measured::Rate,
        Counted::Gain | Counted::Change if counts.base.si(Figure::Minutes).is_some() => Measured::Minutes,
        Counted::Gain | Counted::Change => Measured::Rate,
    }
}

/// The bars, sorted, with rows that bring nothing left out.
pub fn bars(scene: &Scene, ranked: &Ranked) -> Bars {
    let counted = scene.session.view.counted;
    let counts = &ranked.counts;
    let measured = measured(counted, counts);
    let withheld = ranked.is_withheld() && matches!(measured, Measured::Rate | Measured::Minutes);
    let (factor, unit) = match measured {
        Measured::Rate => {
            let unit = quantity::rate(scene.units());
            (unit.per_si, unit.name)
        }
        Measured::Minutes => (1.0 / 60.0, "min sooner"),
        Measured::Running | Measured::Starting => (1.0, "V"),
    };
    let mut rows: Vec<Bar> = Vec::new();
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
        let bar = Bar {
            label: row.name.clone(),
            detail: sentence(&detail),
            value: Some(value),
            text: text(scene, value / factor, counted, measured),
            strong: is_best && counted != Counted::OnlyThis,
            ..Bar::default()
        };
        rows.push(bar);
    }
    let order = |bar: &Bar| bar.value.unwrap_or(0.0);
    if counted == Counted::OnlyThis {
        // The less the rate with only this, the more this one costs.
        rows.sort_by(|a, b| order(a).total_cmp(&order(b)));
    } else {
        rows.sort_by(|a, b| order(b).total_cmp(&order(a)));
        let most = rows.first().map_or(0.0, order);
        rows.retain(|r| order(r).abs() > 1e-3 * most.max(1e-9));
    }
    Bars { rows, unit: unit.to_owned(), stale: scene.session.is_study_stale(), ..Bars::default() }
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
        Counted::OnlyThis => row.only_this.si(Figure::Rate),
        Counted::Change => of_gain(counts.gain(&row.better.as_ref()?.headline)),
        Counted::Gain | Counted::VoltsRunning | Counted::VoltsStarting => of_gain(counts.gain(&row.without)),
    }
}

fn text(scene: &Scene, si: f64, counted: Counted, measured: Measured) -> String {
    let plus = if counted == Counted::OnlyThis || si < 0.0 { "" } else { "+" };
    match measured {
        Measured::Rate => format!("{plus}{}", scene.units().rate(MassRate::from_si(si))),
        Measured::Minutes => format!("{} sooner", time::text(si / 60.0)),
        Measured::Running | Measured::Starting => format!("{plus}{si:.1} V"),
    }
}

/// What to do first, and how the gains add up, in sentences.
pub fn advice(scene: &Scene, ranked: &Ranked) -> Vec<String> {
    if ranked.is_withheld() {
        return vec!["The rate is withheld; see the Stop.".to_owned()];
    }
    let counts = &ranked.counts;
    let rate = |h: &Headline| h.rate.map(|r| scene.units().rate(r)).unwrap_or_else(|| "no rate".to_owned());
    let mut said = Vec::new();
    if let Some(row) = counts.best_change.as_ref().and_then(|id| counts.row(id))
        && let Some(better) = &row.better
    {
        said.push(format!(
            "Change first: {}. From {} to {}.",
            better.words,
            rate(&counts.base),
            rate(&better.headline)
        ));
    }
    if let Some(pair) = &counts.best_pair {
        let words: Vec<String> = pair
            .rows
            .iter()
            .filter_map(|id| counts.row(id).and_then(|r| r.better.as_ref()).map(|b| b.words.clone()))
            .collect();
        said.push(format!("The best two together: {}. To {}.", words.join("; and "), rate(&pair.headline)));
    }
    if let Some(all) = counts.gain(&counts.ideal).rate_kg_s {
        let text = |kg_s: f64| scene.units().rate(MassRate::from_si(kg_s));
        said.push(format!(
            "With everything ideal {} more; the gains one by one add up to {}: what is behind one restriction shows only once that is gone.",
            text(all),
            text(counts.sum_of_gains_kg_s())
        ));
    }
    said
}
