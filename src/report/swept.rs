//! A sweep as a table of comma-separated values and for programs. SI units first, then the
//! reader's own; pressures absolute.

use serde_json::{Map, Value, json};

use super::error_words::job_error_text;
use super::figures::{headline_json, shown};
use crate::advice::{DEFERENCE, cautions, withheld_because};
use crate::compare::{Figure, Sweep, SweptKit, SweptRow};
use crate::scenario::Document;
use crate::units::{PressureUnit, UnitSet};

/// Why a sweep cannot be written.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum SweptError {
    /// The table cannot be put together.
    #[error("the table of {rows} rows cannot be written: {source}")]
    Table {
        /// How many rows.
        rows: usize,
        /// What the writer says.
        source: csv::Error,
    },
}

/// The table of `narrows sweep`: one line for each point and kit.
///
/// # Errors
/// What the writer of the table refuses.
pub fn swept_csv(sweep: &Sweep, units: UnitSet) -> Result<String, SweptError> {
    let refused = |source| SweptError::Table { rows: sweep.rows.len(), source };
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(header(sweep, units)).map_err(refused)?;
    for row in &sweep.rows {
        for record in records(row, units) {
            writer.write_record(record).map_err(refused)?;
        }
    }
    let bytes = writer.into_inner().map_err(|error| refused(error.into_error().into()))?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

/// The figures of a sweep: what changes with a job over time is not swept yet.
const FIGURES: [Figure; 4] =
    [Figure::Rate, Figure::MachineInlet, Figure::RunningVoltage, Figure::StartingVoltage];

fn header(sweep: &Sweep, units: UnitSet) -> Vec<String> {
    let mut header: Vec<String> = sweep.axes.iter().flat_map(|axis| axis.fields()).map(field_name).collect();
    header.push("kit".to_owned());
    header.extend(FIGURES.map(|figure| figure.tag().to_owned()));
    header.push(format!("rate_{}", tag(units.rate.name())));
    header.push(format!("machine_inlet_{}", inlet_tag(units)));
    header.push("no_answer".to_owned());
    header
}

fn tag(unit: &str) -> String {
    unit.replace('/', "_").to_lowercase()
}

/// The inlet is absolute.
fn inlet_tag(units: UnitSet) -> &'static str {
    match units.pressure {
        PressureUnit::Psi => "psia",
        PressureUnit::Bar => "bar",
        PressureUnit::Kilopascal => "kpa",
    }
}

/// `kits.A.parts.1.length (ft)`; the path alone for what has no unit.
fn field_name((path, unit): (&str, &str)) -> String {
    if unit.is_empty() { path.to_owned() } else { format!("{path} ({unit})") }
}

fn records(row: &SweptRow, units: UnitSet) -> Vec<Vec<String>> {
    let point = || row.numbers.iter().map(f64::to_string);
    match &row.kits {
        Ok(kits) => kits.iter().map(|kit| point().chain(kit_record(kit, units)).collect()).collect(),
        Err(fault) => {
            let blanks = std::iter::repeat_n(String::new(), 1 + FIGURES.len() + 2);
            vec![point().chain(blanks).chain([fault.clone()]).collect()]
        }
    }
}

fn kit_record(kit: &SweptKit, units: UnitSet) -> Vec<String> {
    let (headline, no_answer) = answered(kit, units);
    let text = |value: Option<f64>| value.map(|value| value.to_string()).unwrap_or_default();
    let (rate, inlet) = (headline.si(Figure::Rate), headline.si(Figure::MachineInlet));
    let mut record = vec![kit.kit.name.clone()];
    record.extend(FIGURES.map(|figure| text(headline.si(figure))));
    record.push(text(rate.map(|kg_s| kg_s / units.rate.size_si())));
    record.push(text(inlet.map(|pa| pa / units.pressure.size_si())));
    record.push(no_answer.unwrap_or_default());
    record
}

/// The figures that may be shown, and why there are none.
fn answered(kit: &SweptKit, units: UnitSet) -> (crate::compare::Headline, Option<String>) {
    let cautions = cautions(&kit.kit, &kit.answer);
    let withheld = withheld_because(&cautions);
    let reason = match (withheld, &kit.answer.point) {
        (Some(caution), _) => Some(caution.text.clone()),
        (None, Err(error)) => Some(job_error_text(error, units, kit.kit.setup.ambient.pressure)),
        (None, Ok(_)) => None,
    };
    (shown(&kit.headline, withheld.is_some()), reason)
}

/// The whole answer of `narrows sweep --json`.
pub fn swept_json(document: &Document, sweep: &Sweep, units: UnitSet) -> Value {
    json!({
        "narrows": document.version,
        "title": document.title,
        "axes": sweep.axes.iter().map(|axis| json!({
            "fields": axis.fields().map(|(path, unit)| json!({ "path": path, "unit": unit })).collect::<Vec<_>>(),
            "steps": axis.steps(),
        })).collect::<Vec<_>>(),
        "points": sweep.rows.iter().map(|row| point_json(sweep, row, units)).collect::<Vec<_>>(),
        "deference": DEFERENCE,
    })
}

fn point_json(sweep: &Sweep, row: &SweptRow, units: UnitSet) -> Value {
    let paths = sweep.axes.iter().flat_map(|axis| axis.fields());
    let at = paths.zip(&row.numbers).map(|((path, _), number)| (path.to_owned(), json!(number)));
    let kit = |kit: &SweptKit| {
        let (headline, no_answer) = answered(kit, units);
        let mut value = headline_json(&headline);
        if let Value::Object(fields) = &mut value {
            fields.insert("name".to_owned(), json!(kit.kit.name));
            fields.insert("no_answer".to_owned(), json!(no_answer));
        }
        value
    };
    json!({
        "at": Value::Object(Map::from_iter(at)),
        "kits": row.kits.as_ref().map(|kits| kits.iter().map(kit).collect::<Vec<_>>()).unwrap_or_default(),
        "fault": row.kits.as_ref().err(),
    })
}
