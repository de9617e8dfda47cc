//! Kits side by side, with their cautions and bands: what window and terminal both show.

use serde_json::{Value, json};

use super::error_words::job_error_text;
use super::figures::{bands_json, headline_json, is_volts, shown};
use super::job_words::ends_text;
use super::json::caution_json;
use super::solved::{SolvedKit, Unshown};
use crate::advice::{DEFERENCE, cautions};
use crate::compare::{
    Band, Bands, Basis, CompareError, Depth, Difference, Differing, DrawPlan, Drawing, FieldDifference,
    Figure, Headline, Input, PartDifference, WholeJob, inputs, side_by_side, whole_jobs,
};
use crate::job::over_time::EndsBecause;
use crate::kit::Rules;
use crate::scenario::Document;
use crate::units::UnitSet;

/// Kits side by side.
#[derive(Debug, Clone)]
pub struct Compared {
    /// Each kit with its answer and cautions, in the document's order.
    pub kits: Vec<SolvedKit>,
    /// In what each differs from the first.
    pub differs: Vec<Differing>,
    /// Each kit's whole job, or why the document has none.
    pub jobs: Result<Vec<WholeJob>, String>,
    /// Bands of the operating point, if they were asked for.
    pub bands: Option<Bands>,
    /// Bands of the whole job, if they were asked for and there is one.
    pub job_bands: Option<Bands>,
    /// What was drawn for the bands.
    pub inputs: Vec<Input>,
}

impl Compared {
    /// A kit's figures, as far as they may be shown.
    pub fn headline(&self, at: usize) -> Headline {
        let Some(kit) = self.kits.get(at) else { return Headline::default() };
        let point = Headline::of(&kit.answer);
        let job = self.jobs.as_ref().ok().and_then(|jobs| jobs.get(at));
        shown(&job.map_or(point, |job| job.added_to(point)), self.is_withheld(at))
    }

    /// Whether a Stop withholds the kit's rate.
    pub fn is_withheld(&self, at: usize) -> bool {
        self.kits.get(at).is_some_and(|kit| matches!(kit.shown_point(), Err(Unshown::Withheld(_))))
    }

    /// The band of a kit's figure, as far as it may be shown.
    pub fn band(&self, at: usize, figure: Figure) -> Option<&Band> {
        let band = self.bands_of(figure)?.kits.get(at)?.band(figure);
        band.filter(|_| is_volts(figure) || !self.is_withheld(at))
    }

    /// The bands that hold a figure.
    pub fn bands_of(&self, figure: Figure) -> Option<&Bands> {
        if figure.is_of_job() { self.job_bands.as_ref() } else { self.bands.as_ref() }
    }

    /// The draws of two kits' difference, if there are draws that hold this figure.
    pub fn difference(&self, (from, to): (usize, usize), figure: Figure) -> Option<&Difference> {
        let name = |at: usize| self.kits.get(at).map(|kit| kit.kit.name.as_str());
        self.bands_of(figure)?.difference(name(from)?, name(to)?)
    }

    /// What the second kit costs more than the first for each minute it saves, if it does both.
    pub fn price_per_minute(&self, (from, to): (usize, usize)) -> Option<f64> {
        let price = |at: usize| self.jobs.as_ref().ok()?.get(at).map(|job| job.price().unwrap_or(0.0));
        let saved_s = self.headline(from).less(&self.headline(to), Figure::Minutes)?;
        let more = price(to)? - price(from)?;
        (more > 0.0 && saved_s > 0.0).then(|| more * 60.0 / saved_s)
    }

    /// Why a kit has no time: no job, not followed, or not done.
    pub fn no_time(&self, at: usize, units: UnitSet) -> Option<String> {
        let ambient = self.kits.get(at)?.kit.setup.ambient.pressure;
        match &self.jobs {
            Err(why) => Some(why.clone()),
            Ok(jobs) => match &jobs.get(at)?.answer {
                Err(error) => Some(job_error_text(error, units, ambient)),
                Ok(answer) => match &answer.ends_because {
                    EndsBecause::LevelReached | EndsBecause::AlreadyAtLevel => None,
                    other => Some(ends_text(other, units, ambient)),
                },
            },
        }
    }

    /// Every two kits, the earlier one first.
    pub(super) fn pairs(&self) -> Vec<(usize, usize)> {
        let count = self.kits.len();
        (0..count).flat_map(|from| (from + 1..count).map(move |to| (from, to))).collect()
    }
}

/// How many draws a comparison is made of.
#[derive(Debug, Clone, Copy, Default)]
pub struct Draws {
    /// Of operating points.
    pub points: Option<DrawPlan>,
    /// Of whole jobs.
    pub jobs: Option<DrawPlan>,
}

/// Solves and compares every kit of a document, whole jobs by these rules; with plans, draws bands.
///
/// # Errors
/// The document's faults, or more kits than fit side by side.
pub fn compare_document(
    document: &Document,
    rules: &Rules,
    draws: Draws,
    should_stop: &dyn Fn() -> bool,
) -> Result<Compared, CompareError> {
    let side = side_by_side(document)?;
    let jobs = whole_jobs(document, rules).map_err(|error| error.to_string());
    let drawn = |plan: Option<DrawPlan>, depth: Depth<'_>| -> Result<Option<Bands>, CompareError> {
        let Some(plan) = plan else { return Ok(None) };
        let mut drawing = Drawing::new(document, plan, depth)?;
        while !should_stop() && drawing.step() {}
        Ok(Some(drawing.bands()))
    };
    let bands = drawn(draws.points, Depth::Point)?;
    let job_bands = drawn(draws.jobs.filter(|_| jobs.is_ok()), Depth::WholeJob(rules))?;
    let inputs = if bands.is_some() || job_bands.is_some() { inputs(document) } else { Vec::new() };
    let mut kits = Vec::with_capacity(side.columns.len());
    let mut differs = Vec::with_capacity(side.columns.len());
    for column in side.columns {
        let cautions = cautions(&column.kit, &column.answer);
        kits.push(SolvedKit { kit: column.kit, answer: column.answer, cautions });
        differs.push(column.differs);
    }
    Ok(Compared { kits, differs, jobs, bands, job_bands, inputs })
}

/// The whole answer of `narrows compare --json`.
pub fn compared_json(document: &Document, compared: &Compared, units: UnitSet) -> Value {
    let first = compared.kits.first();
    json!({
        "narrows": document.version,
        "title": document.title,
        "refrigerant": first.map(|kit| kit.kit.setup.refrigerant.designation()),
        "kits": (0..compared.kits.len()).map(|at| kit_json(compared, at, units)).collect::<Vec<_>>(),
        "differences": compared.pairs().into_iter().map(|pair| pair_json(compared, pair)).collect::<Vec<_>>(),
        "draws": compared.bands.as_ref().map(draws_json),
        "job_draws": compared.job_bands.as_ref().map(draws_json),
        "inputs": compared.inputs.iter().map(input_json).collect::<Vec<_>>(),
        "deference": DEFERENCE,
    })
}

fn kit_json(compared: &Compared, at: usize, units: UnitSet) -> Value {
    let Some(kit) = compared.kits.get(at) else { return Value::Null };
    let ambient = kit.kit.setup.ambient.pressure;
    let is_drawn = compared.bands.is_some() || compared.job_bands.is_some();
    let mut value = json!({ "name": kit.kit.name, "label": kit.kit.label });
    let rest = json!({
        "no_answer": match kit.shown_point() {
            Ok(_) => None,
            Err(Unshown::Withheld(caution)) => Some(caution.text.clone()),
            Err(Unshown::NoPoint(error)) => Some(job_error_text(error, units, ambient)),
        },
        "no_time": compared.no_time(at, units),
        "band": is_drawn.then(|| bands_json(|figure| compared.band(at, figure))),
        "differs": compared.differs.get(at).map(differs_json),
        "cautions": kit.cautions.iter().map(caution_json).collect::<Vec<_>>(),
    });
    for part in [headline_json(&compared.headline(at)), rest] {
        if let (Value::Object(whole), Value::Object(part)) = (&mut value, part) {
            whole.extend(part);
        }
    }
    value
}

fn differs_json(differs: &Differing) -> Value {
    json!({
        "parts": differs.parts.iter().map(part_json).collect::<Vec<_>>(),
        "fields": differs.fields.iter().map(field_json).collect::<Vec<_>>(),
    })
}

fn part_json(part: &PartDifference) -> Value {
    match part {
        PartDifference::Changed { first_path, second_path, name, fields } => json!({
            "is": "changed", "first_path": first_path, "path": second_path, "name": name,
            "fields": fields.iter().map(field_json).collect::<Vec<_>>(),
        }),
        PartDifference::Replaced { first_path, second_path, first, second } => json!({
            "is": "replaced", "first_path": first_path, "path": second_path, "first": first, "second": second,
        }),
        PartDifference::Removed { first_path, name } => {
            json!({ "is": "removed", "first_path": first_path, "name": name })
        }
        PartDifference::Added { second_path, name } => {
            json!({ "is": "added", "path": second_path, "name": name })
        }
    }
}

fn field_json(field: &FieldDifference) -> Value {
    json!({ "field": field.field, "first": field.first, "second": field.second })
}

fn pair_json(compared: &Compared, (from, to): (usize, usize)) -> Value {
    let name = |at: usize| compared.kits.get(at).map(|kit| kit.kit.name.clone());
    let (one, other) = (compared.headline(from), compared.headline(to));
    let withheld = compared.is_withheld(from) || compared.is_withheld(to);
    let shown = |figure: Figure| !withheld || is_volts(figure);
    let drawn = |figure: Figure| compared.difference((from, to), figure).filter(|_| shown(figure));
    let verdict = |figure: Figure| drawn(figure).map(|one| one.verdict(figure).words());
    let is_drawn = compared.bands.is_some() || compared.job_bands.is_some();
    let mut value = json!({ "from": name(from), "to": name(to) });
    if let Value::Object(fields) = &mut value {
        fields.extend(Figure::ALL.map(|figure| (figure.tag().to_owned(), json!(other.less(&one, figure)))));
        let band = is_drawn.then(|| bands_json(|figure| drawn(figure)?.band(figure)));
        fields.insert("band".to_owned(), json!(band));
        fields.insert("verdict".to_owned(), json!(verdict(Figure::Rate)));
        let verdicts = Figure::ALL.map(|figure| (figure.tag().to_owned(), json!(verdict(figure))));
        let verdicts = is_drawn.then(|| Value::Object(verdicts.into_iter().collect()));
        fields.insert("verdicts".to_owned(), json!(verdicts));
        let per_minute = compared.price_per_minute((from, to)).filter(|_| !withheld);
        fields.insert("price_per_minute_saved".to_owned(), json!(per_minute));
    }
    value
}

pub(super) fn draws_json(bands: &Bands) -> Value {
    json!({
        "asked": bands.plan.count(),
        "made": bands.draws,
        "refused": bands.refused,
        "stopped": bands.stopped,
        "seed": bands.plan.seed(),
        "distribution": "triangular over low, likely and high; low and high of a band are its 10 % and 90 %",
    })
}

fn input_json(input: &Input) -> Value {
    json!({
        "name": input.name,
        "places": input.places,
        "words": input.words,
        "low": input.spread.low(),
        "likely": input.spread.likely(),
        "high": input.spread.high(),
        "basis": match input.basis {
            Basis::Document => "document",
            Basis::Assumed(words) => words,
        },
    })
}
