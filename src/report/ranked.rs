//! What counts in each kit, with cautions: what window and terminal both show.

use serde_json::{Value, json};

use super::compared::Draws;
use super::figures::{bands_json, gain_json, headline_json, is_volts, shown, shown_gain};
use super::json::caution_json;
use super::solved::{SolvedKit, Unshown, solve_kit};
use crate::advice::DEFERENCE;
use crate::compare::{
    Better, CompareError, Depth, Difference, DrawPlan, Figure, GainBands, GainDrawing, Prices, Row, ToStart,
    WhatCounts, count_minutes, what_counts,
};
use crate::kit::Rules;
use crate::presets::Shelf;
use crate::scenario::{Document, resolve};
use crate::units::factors::POUND_KG;

/// What counts in one kit.
#[derive(Debug, Clone)]
pub struct Ranked {
    /// The kit with its answer and cautions.
    pub kit: SolvedKit,
    /// What counts in it.
    pub counts: WhatCounts,
    /// Why there are no minutes.
    pub no_time: Option<String>,
    /// Bands of the gains at the operating point, once drawn.
    pub gains: Option<GainBands>,
    /// Bands of the gains over the whole job, once drawn.
    pub job_gains: Option<GainBands>,
}

impl Ranked {
    /// Follows the whole job of each row; false if it was stopped.
    pub fn follow_jobs(
        &mut self,
        document: &Document,
        rules: &Rules,
        should_stop: &dyn Fn() -> bool,
    ) -> bool {
        match count_minutes(document, rules, &mut self.counts, should_stop) {
            Ok(done) => done,
            Err(error) => {
                self.no_time = Some(error.to_string());
                true
            }
        }
    }

    /// Draws bands of the gains.
    ///
    /// # Errors
    /// The document's faults.
    pub fn draw(
        &mut self,
        document: &Document,
        rules: &Rules,
        draws: Draws,
        should_stop: &dyn Fn() -> bool,
    ) -> Result<(), CompareError> {
        let counts = &self.counts;
        let drawn = |plan: Option<DrawPlan>, depth: Depth<'_>| -> Result<Option<GainBands>, CompareError> {
            let Some(plan) = plan else { return Ok(None) };
            let mut drawing = GainDrawing::new(document, counts, plan, depth)?;
            while !should_stop() && drawing.step() {}
            Ok(Some(drawing.bands()))
        };
        let gains = drawn(draws.points, Depth::Point)?;
        let job_gains = drawn(draws.jobs.filter(|_| counts.has_jobs()), Depth::WholeJob(rules))?;
        (self.gains, self.job_gains) = (gains, job_gains);
        Ok(())
    }

    /// The draws of a row's gain, made ideal or really changed, if some hold this figure.
    pub fn drawn(&self, row: &str, figure: Figure, changed: bool) -> Option<&Difference> {
        let bands = if figure.is_of_job() { &self.job_gains } else { &self.gains };
        let row = bands.as_ref()?.row(row)?;
        if changed { row.change.as_ref() } else { Some(&row.ideal) }
    }

    /// Whether a Stop withholds the kit's rate; rates of what-ifs are then withheld too.
    pub fn is_withheld(&self) -> bool {
        matches!(self.kit.shown_point(), Err(Unshown::Withheld(_)))
    }
}

/// Ranks every kit of a document.
///
/// # Errors
/// The document's faults, or a price that belongs to nothing.
pub fn rank_document(
    document: &Document,
    shelf: &Shelf,
    prices: &Prices,
) -> Result<Vec<Ranked>, CompareError> {
    resolve(document)?
        .into_iter()
        .map(|kit| {
            let counts = what_counts(document, &kit.name, shelf, prices)?;
            Ok(Ranked { kit: solve_kit(kit), counts, no_time: None, gains: None, job_gains: None })
        })
        .collect()
}

/// The whole answer of `narrows rank --json`.
pub fn ranked_json(document: &Document, ranked: &[Ranked]) -> Value {
    json!({
        "narrows": document.version,
        "title": document.title,
        "refrigerant": ranked.first().map(|one| one.kit.kit.setup.refrigerant.designation()),
        "kits": ranked.iter().map(kit_json).collect::<Vec<_>>(),
        "deference": DEFERENCE,
    })
}

fn kit_json(ranked: &Ranked) -> Value {
    let (counts, withheld) = (&ranked.counts, ranked.is_withheld());
    let gain = |then| gain_json(&shown_gain(counts.gain(then), withheld));
    let row = |id: &String| counts.row(id);
    let words = |id: &String| row(id).and_then(|row| row.better.as_ref()).map(|better| better.words.clone());
    json!({
        "name": counts.kit,
        "label": ranked.kit.kit.label,
        "base": headline_json(&shown(&counts.base, withheld)),
        "ideal": headline_json(&shown(&counts.ideal, withheld)),
        "no_time": ranked.no_time,
        "draws": ranked.gains.as_ref().map(|gains| gains.draws),
        "job_draws": ranked.job_gains.as_ref().map(|gains| gains.draws),
        "rows": counts.rows.iter().map(|row| row_json(ranked, row, withheld)).collect::<Vec<_>>(),
        "sum_of_gains_kg_s": (!withheld).then(|| counts.sum_of_gains_kg_s()),
        "gain_of_all_kg_s": shown_gain(counts.gain(&counts.ideal), withheld).rate_kg_s,
        "starts": counts.to_start == ToStart::AsItIs,
        "to_start": counts.to_start.change().map(|start| start.row.clone()),
        "to_start_words": counts.to_start.change().map(|start| start.better.words.clone()),
        "best_change": counts.best_change.as_ref().map(|id| json!({
            "id": id,
            "name": row(id).map(|row| row.name.clone()),
            "words": words(id),
            "gain": row(id).and_then(|row| row.better.as_ref()).map(|better| gain(&better.headline)),
        })),
        "best_pair": counts.best_pair.as_ref().map(|pair| json!({
            "ids": pair.rows,
            "words": pair.rows.iter().map(words).collect::<Vec<_>>(),
            "gain": gain(&pair.headline),
        })),
        "cautions": ranked.kit.cautions.iter().map(caution_json).collect::<Vec<_>>(),
    })
}

fn row_json(ranked: &Ranked, row: &Row, withheld: bool) -> Value {
    let counts = &ranked.counts;
    let bands = |changed: bool| drawn_json(ranked, &row.id, changed, withheld);
    json!({
        "id": row.id,
        "name": row.name,
        "kind": row.kind.map(|kind| kind.tag()),
        "words": row.words,
        "group": row.group.tag(),
        "ideal": row.ideal,
        "gain": gain_json(&shown_gain(counts.gain(&row.without), withheld)),
        "drawn": bands(false),
        "without": headline_json(&shown(&row.without, withheld)),
        "only_this": headline_json(&shown(&row.only_this, withheld)),
        "better": row.better.as_ref().map(|better| {
            let mut value = better_json(counts, better, withheld);
            if let Value::Object(fields) = &mut value {
                fields.insert("drawn".to_owned(), bands(true));
            }
            value
        }),
    })
}

/// Bands of a gain and what they say of its sign, by figure.
fn drawn_json(ranked: &Ranked, row: &str, changed: bool, withheld: bool) -> Value {
    if ranked.gains.is_none() && ranked.job_gains.is_none() {
        return Value::Null;
    }
    let drawn = |figure: Figure| ranked.drawn(row, figure, changed).filter(|_| !withheld || is_volts(figure));
    let words = |figure: Figure| drawn(figure).map(|one| one.verdict(figure).words());
    let verdicts = Figure::ALL.map(|figure| (figure.tag().to_owned(), json!(words(figure))));
    json!({
        "band": bands_json(|figure| drawn(figure)?.band(figure)),
        "verdicts": Value::Object(verdicts.into_iter().collect()),
    })
}

fn better_json(counts: &WhatCounts, better: &Better, withheld: bool) -> Value {
    let per_rate = counts.price_per_rate(better).filter(|_| !withheld);
    json!({
        "words": better.words,
        "key": better.key,
        "gain": gain_json(&shown_gain(counts.gain(&better.headline), withheld)),
        "price": better.price,
        "price_per_kg_s": per_rate,
        "price_per_lb_min": per_rate.map(per_lb_min),
        "price_per_minute": counts.price_per_minute(better).filter(|_| !withheld),
        "pay_back_jobs": counts.pay_back_jobs(better).filter(|_| !withheld),
    })
}

/// A price for each kg/s, for each lb/min. 132.277 for 1 kg/s is 1 for 1 lb/min.
pub(super) fn per_lb_min(per_kg_s: f64) -> f64 {
    per_kg_s * POUND_KG / 60.0
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 1 kg/s is 60/0.45359237 = 132.277 lb/min.
    #[test]
    fn a_price_for_each_pound_a_minute() {
        assert!((per_lb_min(132.277_357_3) - 1.0).abs() < 1e-9);
    }
}
