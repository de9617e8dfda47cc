//! Kits side by side for people: figures in columns, what differs, differences with their bands.

use super::change_words::lower_first;
use super::compared::Compared;
use super::error_words::job_error_text;
use super::figures::{difference_text, figure_name, figure_text, is_volts, liquid_left_line};
use super::solved::{SolvedKit, Unshown};
use super::table::{caution_line, heading, in_all};
use super::wrap::wrapped;
use crate::advice::DEFERENCE;
use crate::compare::{Basis, Differing, FieldDifference, Figure, PartDifference};
use crate::scenario::Document;
use crate::units::UnitSet;

/// Width of a kit's column.
const COLUMN: usize = 25;

/// The whole answer of `narrows compare`.
pub fn compared_table(document: &Document, compared: &Compared, units: UnitSet) -> String {
    let mut lines = vec![heading(document, &compared.kits, units), String::new()];
    lines.extend(kits_lines(compared, units));
    for (at, differs) in compared.differs.iter().enumerate().skip(1) {
        lines.push(String::new());
        lines.extend(differs_lines(compared, at, differs));
    }
    for (figure, title) in DIFFERENCES {
        let differences = difference_lines(compared, figure, units);
        if !differences.is_empty() {
            lines.extend([String::new(), title.to_owned()]);
            lines.extend(differences);
        }
    }
    lines.extend(band_lines(compared));
    lines.push(String::new());
    lines.extend(left_lines(compared, units));
    lines.extend(caution_lines(compared));
    lines.extend([String::new(), wrapped(DEFERENCE, "")]);
    lines.join("\n") + "\n"
}

/// Of what differences are told.
pub(super) const DIFFERENCES: [(Figure, &str); 3] = [
    (Figure::Rate, "Difference in rate"),
    (Figure::Minutes, "Difference in time"),
    (Figure::Cost, "Difference in cost"),
];

fn kits_lines(compared: &Compared, units: UnitSet) -> Vec<String> {
    let row = |lead: &str, cells: Vec<String>| {
        let cells: String = cells.iter().map(|cell| format!("{cell:<COLUMN$}")).collect();
        format!("{lead:<16}{cells}").trim_end().to_owned()
    };
    let names = compared.kits.iter().map(|kit| format!("Kit {}", kit.kit.name)).collect();
    let mut lines = vec![row("", names)];
    for figure in figure_rows(compared, units) {
        lines.push(match figure.cells {
            Cells::Shared(text) if figure.is_band => row(&format!("  {}", figure.name), vec![text]),
            Cells::Shared(text) => format!("{:<16}{text}, all kits", figure.name),
            Cells::Each(cells) if figure.is_band => row(&format!("  {}", figure.name), cells),
            Cells::Each(cells) => row(figure.name, cells),
        });
    }
    for kit in &compared.kits {
        let ambient = kit.kit.setup.ambient.pressure;
        if let Err(Unshown::NoPoint(error)) = kit.shown_point() {
            let lead = format!("{:<16}", format!("Kit {}", kit.kit.name));
            lines.push(wrapped(&job_error_text(error, units, ambient), &lead));
        }
    }
    lines.extend(no_time_lines(compared, units));
    lines
}

/// A figure of every kit.
pub(super) struct FigureRow {
    /// What it is called.
    pub name: &'static str,
    /// It is the band of the row above.
    pub is_band: bool,
    /// Its values.
    pub cells: Cells,
}

/// Values of a row.
pub(super) enum Cells {
    /// The same for all kits.
    Shared(String),
    /// One a kit.
    Each(Vec<String>),
}

/// Every figure, its band behind it where one was drawn.
pub(super) fn figure_rows(compared: &Compared, units: UnitSet) -> Vec<FigureRow> {
    let mut rows = Vec::new();
    let count = compared.kits.len();
    for figure in Figure::ALL {
        let texts: Vec<Option<String>> = (0..count).map(|at| cell(compared, at, figure, units)).collect();
        if texts.iter().all(Option::is_none) && figure.is_of_job() {
            continue;
        }
        let shared = texts.first().filter(|first| texts.len() > 1 && texts.iter().all(|text| text == *first));
        let cells = match shared {
            Some(Some(text)) if is_same_for_all(figure) => Cells::Shared(text.clone()),
            _ => Cells::Each(
                texts.into_iter().enumerate().map(|(at, text)| said(compared, at, text)).collect(),
            ),
        };
        rows.push(FigureRow { name: figure_name(figure), is_band: false, cells });
        if is_banded(figure) && compared.bands_of(figure).is_some() {
            let band = |at: usize| band_cell(compared, at, figure, units).unwrap_or_default();
            let bands: Vec<String> = (0..count).map(band).collect();
            let first = bands.first().filter(|first| bands.iter().all(|band| band == *first));
            let cells = match first.cloned() {
                Some(band) if band.is_empty() => continue,
                Some(band) if is_same_for_all(figure) => Cells::Shared(band),
                _ => Cells::Each(bands),
            };
            rows.push(FigureRow { name: "likely range", is_band: true, cells });
        }
    }
    rows
}

fn said(compared: &Compared, at: usize, text: Option<String>) -> String {
    text.unwrap_or_else(|| if compared.is_withheld(at) { "withheld" } else { "none" }.to_owned())
}

/// Said once, where it is.
fn is_same_for_all(figure: Figure) -> bool {
    is_volts(figure) || matches!(figure, Figure::Cylinders | Figure::Recovered)
}

/// Volts hardly scatter, and the inlet follows the rate.
fn is_banded(figure: Figure) -> bool {
    !is_volts(figure) && figure != Figure::MachineInlet
}

fn left_lines(compared: &Compared, units: UnitSet) -> Vec<String> {
    let of = |(at, kit): (usize, &SolvedKit)| liquid_left_line(&kit.kit.name, &compared.headline(at), units);
    compared.kits.iter().enumerate().filter_map(of).collect()
}

fn no_time_lines(compared: &Compared, units: UnitSet) -> Vec<String> {
    let words = no_time_words(compared, units);
    words.iter().map(|(lead, why)| wrapped(why, &format!("{lead:<16}"))).collect()
}

/// Why there is no time, once if it is the same for all: of what, and the reason.
pub(super) fn no_time_words(compared: &Compared, units: UnitSet) -> Vec<(String, String)> {
    if let Err(why) = &compared.jobs {
        return why.lines().map(|line| ("No time".to_owned(), line.to_owned())).collect();
    }
    let shown = (0..compared.kits.len()).filter(|at| !compared.is_withheld(*at));
    let words = shown.filter_map(|at| {
        let lead = format!("No time for {}", compared.kits.get(at)?.kit.name);
        Some((lead, compared.no_time(at, units)?))
    });
    words.collect()
}

fn cell(compared: &Compared, at: usize, figure: Figure, units: UnitSet) -> Option<String> {
    let ambient = compared.kits.get(at)?.kit.setup.ambient.pressure;
    Some(figure_text(figure, compared.headline(at).si(figure)?, units, ambient))
}

fn band_cell(compared: &Compared, at: usize, figure: Figure, units: UnitSet) -> Option<String> {
    let ambient = compared.kits.get(at)?.kit.setup.ambient.pressure;
    // A few draws may have an answer where the kit as written has none.
    compared.headline(at).si(figure)?;
    let band = compared.band(at, figure)?;
    let text = |si| figure_text(figure, si, units, ambient);
    let (low, high) = (text(band.low), text(band.high));
    (low != high).then(|| range(&low, &high))
}

/// "1.10 to 1.40 lb/min": the unit once.
fn range(low: &str, high: &str) -> String {
    let split = |text: &str| text.split_once(' ').map(|(number, unit)| (number.to_owned(), unit.to_owned()));
    match (split(low), split(high)) {
        (Some((number, unit)), Some((_, other))) if unit == other => format!("{number} to {high}"),
        _ => format!("{low} to {high}"),
    }
}

fn differs_lines(compared: &Compared, at: usize, differs: &Differing) -> Vec<String> {
    let name = |at: usize| compared.kits.get(at).map_or("", |kit| kit.kit.name.as_str());
    let mut lines = vec![format!("Kit {} differs from {}", name(at), name(0))];
    if differs.is_empty() {
        lines.push("  in nothing".to_owned());
    }
    lines.extend(differs_rows(differs).iter().map(|(what, words)| wrapped(words, &format!("  {what:<12}"))));
    lines
}

/// What differs: in which way, and in words.
pub(super) fn differs_rows(differs: &Differing) -> Vec<(&'static str, String)> {
    let part = |part: &PartDifference| match part {
        PartDifference::Changed { name, fields, .. } => {
            let fields: Vec<String> = fields.iter().map(field_words).collect();
            ("other size", format!("{name}: {}", fields.join("; ")))
        }
        PartDifference::Replaced { first, second, .. } => {
            ("other part", format!("{second}, instead of {}", lower_first(first)))
        }
        PartDifference::Removed { name, .. } => ("left out", name.clone()),
        PartDifference::Added { name, .. } => ("added", name.clone()),
    };
    let mut rows: Vec<(&'static str, String)> = differs.parts.iter().map(part).collect();
    rows.extend(differs.fields.iter().map(|field| ("other field", field_words(field))));
    rows
}

fn field_words(field: &FieldDifference) -> String {
    let written = |text: &Option<String>| text.clone().unwrap_or_else(|| "none".to_owned());
    format!(
        "{} {} instead of {}",
        field.field.replace('_', " "),
        written(&field.second),
        written(&field.first)
    )
}

fn difference_lines(compared: &Compared, figure: Figure, units: UnitSet) -> Vec<String> {
    let lines = |row: DifferenceRow| {
        let line = format!("  {:<14}{:<16}{:<28}{}", row.name, row.value, row.band, row.verdict);
        let price = row.price.map(|price| format!("  {:<14}{price}", ""));
        std::iter::once(line.trim_end().to_owned()).chain(price)
    };
    difference_rows(compared, figure, units).into_iter().flat_map(lines).collect()
}

/// The difference of two kits in one figure.
pub(super) struct DifferenceRow {
    /// "B less A".
    pub name: String,
    /// The difference.
    pub value: String,
    /// Its band, if one was drawn.
    pub band: String,
    /// Whether it is certain, if a band was drawn.
    pub verdict: &'static str,
    /// What each minute saved costs, where that is known.
    pub price: Option<String>,
}

/// The difference in one figure of every two kits.
pub(super) fn difference_rows(compared: &Compared, figure: Figure, units: UnitSet) -> Vec<DifferenceRow> {
    let row = |pair: (usize, usize)| {
        let (from, to) = pair;
        let name = |at: usize| compared.kits.get(at).map(|kit| kit.kit.name.as_str());
        let plain = compared.headline(to).less(&compared.headline(from), figure)?;
        let text = |si| difference_text(figure, si, units);
        let difference = compared.difference(pair, figure);
        let band = difference.and_then(|difference| difference.band(figure));
        let price = compared.price_per_minute(pair).filter(|_| figure == Figure::Minutes);
        Some(DifferenceRow {
            name: format!("{} less {}", name(to)?, name(from)?),
            value: text(plain),
            band: band.map(|band| range(&text(band.low), &text(band.high))).unwrap_or_default(),
            verdict: difference.map_or("", |difference| difference.verdict(figure).words()),
            price: price.map(|price| format!("{} for each minute saved", units.number(price))),
        })
    };
    compared.pairs().into_iter().filter_map(row).collect()
}

fn band_lines(compared: &Compared) -> Vec<String> {
    band_words(compared).map(|words| vec![String::new(), wrapped(&words, "")]).unwrap_or_default()
}

/// What the ranges are made of.
pub(super) fn band_words(compared: &Compared) -> Option<String> {
    let bands = compared.bands.as_ref().or(compared.job_bands.as_ref())?;
    let own = compared.inputs.iter().filter(|input| input.basis == Basis::Document).count();
    let mut words = format!(
        "{} draws (seed {}) of {} uncertain inputs, {} with a band of the document's own, the others assumed; \
         each is spread over a triangle of low, likely and high. Four draws of five lie in a range. What kits \
         share is drawn once for all, so the range of a difference is narrower than the ranges apart.",
        bands.draws,
        bands.plan.seed(),
        compared.inputs.len(),
        own,
    );
    if let Some(jobs) = compared.job_bands.as_ref().filter(|_| compared.bands.is_some()) {
        words.push_str(&format!(" Whole jobs: the first {} of these draws.", jobs.draws));
    }
    for (figure, what) in [(Figure::Rate, "no rate"), (Figure::Minutes, "no time")] {
        let Some(bands) = compared.bands_of(figure) else { continue };
        if bands.stopped {
            words.push_str(" Stopped early.");
        }
        for kit in &bands.kits {
            let answered = kit.band(figure).map_or(0, |band| band.answered);
            if answered < bands.draws {
                words.push_str(&format!(" Kit {} has {what} in {} draws.", kit.name, bands.draws - answered));
            }
        }
    }
    Some(words)
}

fn caution_lines(compared: &Compared) -> Vec<String> {
    let Some((first, others)) = compared.kits.split_first() else { return Vec::new() };
    let shared = in_all(&first.cautions, others.iter().map(|kit| kit.cautions.as_slice()));
    let mut lines: Vec<String> = shared.iter().map(caution_line).collect();
    for kit in &compared.kits {
        let own: Vec<String> =
            kit.cautions.iter().filter(|caution| !shared.contains(caution)).map(caution_line).collect();
        if !own.is_empty() {
            lines.push(format!("Kit {}", kit.kit.name));
            lines.extend(own);
        }
    }
    lines
}
