//! The site log: rows of time, weight, pressures and volts, typed or read from CSV.

use super::document::Document;
use super::readings::{kit_of, no_kit};
use super::resolve::{KitSetup, resolve};
use crate::kit::{Door, Fault};
use crate::units::{Measure, Typed, TypedPressure, UnitError};
use serde::{Deserialize, Serialize};
use uom::si::f64::{ElectricPotential, Mass, Time};

/// A log and which factors it may speak for.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct SiteLog {
    /// The kit that was in use; the first if left out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub kit: Option<String>,
    /// Whether to fit the machine's health, its displacement over the one written.
    pub fit_health: FitHealth,
    /// The part whose open area is fitted too, by its place (0 is the first); none if left out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fit_part: Option<usize>,
    /// In the order of time.
    pub rows: Vec<LogRow>,
}

/// Whether the machine's health is one of the factors.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FitHealth {
    /// It is.
    #[default]
    Yes,
    /// The machine is taken as written.
    No,
}

/// One row.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LogRow {
    /// Since any moment.
    pub time: Typed<Time>,
    /// What the scale shows.
    pub weight: Typed<Mass>,
    /// At the system.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub system_pressure: Option<TypedPressure>,
    /// At the machine's inlet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub machine_inlet_pressure: Option<TypedPressure>,
    /// At the cylinder.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cylinder_pressure: Option<TypedPressure>,
    /// At the machine while it runs.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub running_voltage: Option<Typed<ElectricPotential>>,
}

/// One row in SI units, pressures absolute.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LogStep {
    /// Since the first row.
    pub time_s: f64,
    /// Gained since the first row.
    pub gained_kg: f64,
    /// At the system.
    pub system_pa: Option<f64>,
    /// At the machine's inlet.
    pub machine_inlet_pa: Option<f64>,
    /// At the cylinder.
    pub cylinder_pa: Option<f64>,
    /// At the machine.
    pub running_v: Option<f64>,
}

/// A log ready to be fitted.
#[derive(Debug, Clone)]
pub struct LogSetup {
    /// The kit in use.
    pub kit: KitSetup,
    /// The machine's health is a factor.
    pub fit_health: bool,
    /// The part whose open area is a factor.
    pub fit_part: Option<usize>,
    /// Rows.
    pub steps: Vec<LogStep>,
}

/// Why a table is no log.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum LogError {
    /// It is no CSV.
    #[error("not a table of comma-separated values: {detail}")]
    Unreadable {
        /// What the reader says.
        detail: String,
    },
    /// A column that is not known.
    #[error(
        "column {found:?} is not known; expected time, weight, system_pressure, machine_inlet_pressure, cylinder_pressure, running_voltage, each with its unit, as \"time (min)\""
    )]
    UnknownColumn {
        /// Its heading.
        found: String,
    },
    /// A column that must be there.
    #[error("there is no column {missing:?}; expected time and weight at least")]
    MissingColumn {
        /// Its name.
        missing: &'static str,
    },
    /// A cell that is no value.
    #[error("line {line}, column {column:?}: {error}")]
    Cell {
        /// Counted from 1, the heading included.
        line: usize,
        /// Its heading.
        column: &'static str,
        /// What is wrong.
        error: Box<UnitError>,
    },
}

/// Rows that a log may have.
const MOST_ROWS: usize = 2000;

pub(super) fn check(document: &Document, door: &mut Door<'_>) {
    let Some(log) = &document.log else { return };
    let mut door = door.at("log");
    if let Some(name) = &log.kit
        && document.kit(name).is_none()
    {
        door.fault("kit", no_kit(name, document));
    }
    if !(2..=MOST_ROWS).contains(&log.rows.len()) {
        door.fault("rows", format!("{} rows; expected 2 to {MOST_ROWS}", log.rows.len()));
    }
    let mut door = door.at("rows");
    let mut last_s = f64::NEG_INFINITY;
    for (index, row) in log.rows.iter().enumerate() {
        let mut door = door.at(index);
        door.range("time", &row.time, -1e7..=1e7, "a time within 100 days");
        door.range("weight", &row.weight, -1e5..=1e6, "up to 1000 t");
        door.optional("running_voltage", row.running_voltage.as_ref(), 1.0..=1000.0, "1 to 1000 V");
        if row.time.si() <= last_s {
            door.fault(
                "time",
                format!("{} is not after the row before; expected rows in the order of time", row.time),
            );
        }
        last_s = row.time.si();
    }
}

/// The document's log, or every fault of the document.
///
/// # Errors
/// As [`resolve`]; a document without a log; a part that is not there; no factor to fit; a
/// pressure below absolute vacuum.
pub fn log_of(document: &Document) -> Result<LogSetup, Vec<Fault>> {
    let kits = resolve(document)?;
    let mut faults = Vec::new();
    let mut door = Door::new(&mut faults);
    let Some(log) = &document.log else {
        door.fault("log", "there is none; give rows of time, weight and pressures");
        return Err(faults);
    };
    let Some(kit) = kit_of(kits, log.kit.as_deref()) else {
        door.fault("kits", "there is no kit; expected at least one");
        return Err(faults);
    };
    let mut door = door.at("log");
    let fit_health = log.fit_health == FitHealth::Yes;
    if let Some(part) = log.fit_part
        && part >= kit.parts.len()
    {
        let last = kit.parts.len().saturating_sub(1);
        door.fault("fit_part", format!("{part} is no part of kit {}; expected 0 to {last}", kit.name));
    }
    if !fit_health && log.fit_part.is_none() {
        door.fault("fit_health", "no and no fit_part: nothing is left to fit; expected at least one of them");
    }
    let steps = steps_of(log, &kit, &mut door.at("rows"));
    if faults.is_empty() {
        Ok(LogSetup { kit, fit_health, fit_part: log.fit_part, steps })
    } else {
        Err(faults)
    }
}

fn steps_of(log: &SiteLog, kit: &KitSetup, door: &mut Door<'_>) -> Vec<LogStep> {
    let Some(first) = log.rows.first() else { return Vec::new() };
    let mut absolute = |index: usize, field: &str, typed: &Option<TypedPressure>| {
        let pa = typed.as_ref()?.absolute(kit.setup.ambient.pressure).si();
        if !(pa > 0.0 && pa < 3e7) {
            let text = typed.as_ref().map(TypedPressure::as_typed).unwrap_or_default();
            door.at(index).fault(
                field,
                format!("{text} is out of range; expected more than absolute vacuum, up to 300 bar"),
            );
        }
        Some(pa)
    };
    log.rows
        .iter()
        .enumerate()
        .map(|(index, row)| LogStep {
            time_s: row.time.si() - first.time.si(),
            gained_kg: row.weight.si() - first.weight.si(),
            system_pa: absolute(index, "system_pressure", &row.system_pressure),
            machine_inlet_pa: absolute(index, "machine_inlet_pressure", &row.machine_inlet_pressure),
            cylinder_pa: absolute(index, "cylinder_pressure", &row.cylinder_pressure),
            running_v: row.running_voltage.as_ref().map(Typed::si),
        })
        .collect()
}

/// Rows from a table of comma-separated values.
///
/// The heading names each column, with the unit of its bare numbers in brackets:
/// `time (min), weight (lb), system_pressure (psig)`. A cell may say its own unit instead. An empty
/// cell is a reading that was not taken.
///
/// # Errors
/// [`LogError`] names line and column.
pub fn log_from_csv(text: &str) -> Result<Vec<LogRow>, LogError> {
    let unreadable = |error: csv::Error| LogError::Unreadable { detail: error.to_string() };
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut reader =
        csv::ReaderBuilder::new().trim(csv::Trim::All).flexible(true).from_reader(text.as_bytes());
    let columns: Vec<Column> =
        reader.headers().map_err(unreadable)?.iter().map(Column::read).collect::<Result<_, _>>()?;
    for missing in ["time", "weight"] {
        if !columns.iter().any(|column| column.name == missing) {
            return Err(LogError::MissingColumn { missing });
        }
    }
    let mut rows = Vec::new();
    for (index, record) in reader.records().enumerate() {
        let record = record.map_err(unreadable)?;
        if record.iter().all(str::is_empty) {
            continue;
        }
        let cells = Cells { columns: &columns, record: &record, line: index + 2 };
        rows.push(LogRow {
            time: cells.needed("time", Typed::parse)?,
            weight: cells.needed("weight", Typed::parse)?,
            system_pressure: cells.value("system_pressure", TypedPressure::parse)?,
            machine_inlet_pressure: cells.value("machine_inlet_pressure", TypedPressure::parse)?,
            cylinder_pressure: cells.value("cylinder_pressure", TypedPressure::parse)?,
            running_voltage: cells.value("running_voltage", Typed::parse)?,
        });
    }
    Ok(rows)
}

const COLUMNS: [&str; 6] =
    ["time", "weight", "system_pressure", "machine_inlet_pressure", "cylinder_pressure", "running_voltage"];

/// A heading: a known name and the unit of bare numbers.
struct Column {
    name: &'static str,
    unit: String,
}

impl Column {
    fn read(heading: &str) -> Result<Self, LogError> {
        let (name, unit) = match heading.split_once(['(', '[']) {
            Some((name, unit)) => (name, unit.trim_end_matches([')', ']'])),
            None => (heading, ""),
        };
        let plain = name.trim().to_lowercase().replace([' ', '-'], "_");
        let known = COLUMNS.iter().find(|column| **column == plain);
        let name = known.ok_or_else(|| LogError::UnknownColumn { found: heading.to_owned() })?;
        Ok(Self { name, unit: unit.trim().to_owned() })
    }
}

struct Cells<'a> {
    columns: &'a [Column],
    record: &'a csv::StringRecord,
    line: usize,
}

impl Cells<'_> {
    fn value<T>(
        &self,
        column: &'static str,
        parse: impl Fn(&str) -> Result<T, UnitError>,
    ) -> Result<Option<T>, LogError> {
        let Some(at) = self.columns.iter().position(|known| known.name == column) else { return Ok(None) };
        let cell = self.record.get(at).unwrap_or_default();
        if cell.is_empty() {
            return Ok(None);
        }
        let unit = self.columns.get(at).map(|known| known.unit.as_str()).unwrap_or_default();
        let read = match parse(cell) {
            Err(UnitError::NoUnit { .. }) if !unit.is_empty() => parse(&format!("{cell} {unit}")),
            other => other,
        };
        read.map(Some).map_err(|error| LogError::Cell { line: self.line, column, error: Box::new(error) })
    }

    fn needed<T>(
        &self,
        column: &'static str,
        parse: impl Fn(&str) -> Result<T, UnitError>,
    ) -> Result<T, LogError> {
        let empty = Box::new(UnitError::NoNumber { text: String::new(), noun: "a value", example: "10" });
        self.value(column, parse)?.ok_or(LogError::Cell { line: self.line, column, error: empty })
    }
}
