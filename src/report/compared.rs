//! Kits side by side, with their cautions and bands: what window and terminal both show.

use serde_json::{Value, json};

use super::error_words::job_error_text;
use super::figures::{bands_json, headline_json, is_volts, shown};
use super::json::caution_json;
use super::solved::{SolvedKit, Unshown};
use crate::advice::{DEFERENCE, cautions};
use crate::compare::{
    Bands, Basis, CompareError, Difference, Differing, DrawPlan, FieldDifference, Figure, Headline, Input,
    PartDifference, bands, inputs, side_by_side,
};
use crate::scenario::Document;
use crate::units::UnitSet;

/// Kits side by side.
#[derive(Debug, Clone)]
pub struct Compared {
    /// Each kit with its answer and cautions, in the document's order.
    pub kits: Vec<SolvedKit>,
    /// In what each differs from the first.
    pub differs: Vec<Differing>,
    /// Bands, if they were asked for.
    pub bands: Option<Bands>,
    /// What was drawn for the bands.
    pub inputs: Vec<Input>,
}

impl Compared {
    /// A kit's figures, as far as they may be shown.
    pub fn headline(&self, at: usize) -> Headline {
        match self.kits.get(at) {
            Some(kit) => shown(&Headline::of(&kit.answer), self.is_withheld(at)),
            None => Headline::default(),
        }
    }

    /// Whether a Stop withholds the kit's rate.
    pub fn is_withheld(&self, at: usize) -> bool {
        self.kits.get(at).is_some_and(|kit| matches!(kit.shown_point(), Err(Unshown::Withheld(_))))
    }

    /// Every two kits, the earlier one first.
    pub(super) fn pairs(&self) -> Vec<(usize, usize)> {
        let count = self.kits.len();
        (0..count).flat_map(|from| (from + 1..count).map(move |to| (from, to))).collect()
    }

    /// The band of two kits' difference.
    pub(super) fn difference(&self, (from, to): (usize, usize)) -> Option<&Difference> {
        let name = |at: usize| self.kits.get(at).map(|kit| kit.kit.name.as_str());
        self.bands.as_ref()?.difference(name(from)?, name(to)?)
    }
}

/// Solves and compares every kit of a document; with a plan, draws bands.
///
/// # Errors
/// The document's faults, or more kits than fit side by side.
pub fn compare_document(
    document: &Document,
    plan: Option<DrawPlan>,
    should_stop: &dyn Fn() -> bool,
) -> Result<Compared, CompareError> {
    let side = side_by_side(document)?;
    let bands = plan.map(|plan| bands(document, plan, should_stop)).transpose()?;
    let inputs = if bands.is_some() { inputs(document) } else { Vec::new() };
    let mut kits = Vec::with_capacity(side.columns.len());
    let mut differs = Vec::with_capacity(side.columns.len());
    for column in side.columns {
        let cautions = cautions(&column.kit, &column.answer);
        kits.push(SolvedKit { kit: column.kit, answer: column.answer, cautions });
        differs.push(column.differs);
    }
    Ok(Compared { kits, differs, bands, inputs })
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
        "inputs": compared.inputs.iter().map(input_json).collect::<Vec<_>>(),
        "deference": DEFERENCE,
    })
}

fn kit_json(compared: &Compared, at: usize, units: UnitSet) -> Value {
    let Some(kit) = compared.kits.get(at) else { return Value::Null };
    let ambient = kit.kit.setup.ambient.pressure;
    let withheld = compared.is_withheld(at);
    let band = compared.bands.as_ref().and_then(|bands| bands.kits.get(at));
    let mut value = json!({ "name": kit.kit.name, "label": kit.kit.label });
    let rest = json!({
        "no_answer": match kit.shown_point() {
            Ok(_) => None,
            Err(Unshown::Withheld(caution)) => Some(caution.text.clone()),
            Err(Unshown::NoPoint(error)) => Some(job_error_text(error, units, ambient)),
        },
        "band": band.map(|band| {
            bands_json(|figure| band.band(figure).filter(|_| !withheld || is_volts(figure)))
        }),
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
    let difference = compared.difference((from, to));
    let mut value = json!({ "from": name(from), "to": name(to) });
    if let Value::Object(fields) = &mut value {
        fields.extend(Figure::ALL.map(|figure| (figure.tag().to_owned(), json!(other.less(&one, figure)))));
        let shown = |figure: Figure| !withheld || is_volts(figure);
        let band = difference
            .map(|difference| bands_json(|figure| difference.band(figure).filter(|_| shown(figure))));
        fields.insert("band".to_owned(), json!(band));
        let verdict = difference.filter(|_| !withheld).map(|one| one.verdict(Figure::Rate).words());
        fields.insert("verdict".to_owned(), json!(verdict));
    }
    value
}

fn draws_json(bands: &Bands) -> Value {
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
