//! A site log as rows of fields, the fitted factors as plates, what is left over as a picture.

use narrows::advice::diagnose::LogFit;
use narrows::kit::Kit;
use narrows::report::log_fit_notes;
use narrows::scenario::{FitHealth, LogRow, LogSetup, SiteLog};
use narrows::units::{Typed, TypedPressure, UnitSet};
use uom::si::f64::Mass;
use uom::si::mass::kilogram;

use super::scale::{number_and_unit, sentence};
use super::{Scene, quantity};
use crate::ui::diagram::residuals::{Residual, Residuals};
use crate::ui::symbols::Mark;
use crate::ui::widgets::plate::Plate;

/// A log to begin with: two rows ten minutes apart, nothing gained.
pub fn begun(units: UnitSet) -> Option<SiteLog> {
    let weight = format!("0 {}", quantity::mass(units).name);
    let row = |time: &str| {
        Some(LogRow {
            time: Typed::parse(time).ok()?,
            weight: Typed::parse(&weight).ok()?,
            system_pressure: None,
            machine_inlet_pressure: None,
            cylinder_pressure: None,
            running_voltage: None,
        })
    };
    Some(SiteLog { rows: vec![row("0 min")?, row("10 min")?], ..SiteLog::default() })
}

/// The log with one row more, as long after the last as that is after the one before.
pub fn with_row(log: &SiteLog) -> Option<SiteLog> {
    let (last, earlier) = (log.rows.last()?, log.rows.iter().rev().nth(1)?);
    let minutes = (2.0 * last.time.si() - earlier.time.si()) / 60.0;
    let mut longer = log.clone();
    longer.rows.push(LogRow {
        time: Typed::parse(&format!("{} min", (minutes * 100.0).round() / 100.0)).ok()?,
        weight: last.weight.clone(),
        system_pressure: None,
        machine_inlet_pressure: None,
        cylinder_pressure: None,
        running_voltage: None,
    });
    Some(longer)
}

/// One cell of a row: what it is called, its field, as typed, unit of a bare number.
pub type Cell = (&'static str, &'static str, String, &'static str);

/// The cells of a row.
pub fn cells(row: &LogRow, units: UnitSet) -> [Cell; 6] {
    let gauge = if units == UnitSet::UsTrade { "psig" } else { "bar g" };
    let pressure =
        |typed: &Option<TypedPressure>| typed.as_ref().map(|t| t.as_typed().to_owned()).unwrap_or_default();
    let volts = row.running_voltage.as_ref().map(|v| v.as_typed().to_owned()).unwrap_or_default();
    [
        ("Time", "time", row.time.as_typed().to_owned(), "min"),
        ("Weight", "weight", row.weight.as_typed().to_owned(), quantity::mass(units).name),
        ("System", "system_pressure", pressure(&row.system_pressure), gauge),
        ("Machine inlet", "machine_inlet_pressure", pressure(&row.machine_inlet_pressure), gauge),
        ("Cylinder", "cylinder_pressure", pressure(&row.cylinder_pressure), gauge),
        ("Volts", "running_voltage", volts, "V"),
    ]
}

/// The kit of the log.
pub fn kit<'a>(scene: &Scene<'a>, log: &SiteLog) -> Option<&'a Kit> {
    let document = scene.document();
    log.kit.as_deref().and_then(|name| document.kit(name)).or(document.kits.first())
}

/// The part whose open area is fitted, in words, and those it can be.
pub fn parts(log: &SiteLog, kit: Option<&Kit>) -> (String, Vec<(String, String)>) {
    let mut all = vec![("no part".to_owned(), "none".to_owned())];
    let parts = kit.map_or(&[][..], |k| k.parts.as_slice());
    all.extend(
        parts.iter().enumerate().map(|(at, p)| (format!("{}. {}", at + 1, p.label()), at.to_string())),
    );
    let now = log.fit_part.map_or_else(
        || "no part".to_owned(),
        |at| {
            all.get(at + 1).map_or_else(|| format!("part {}", at.saturating_add(1)), |(word, _)| word.clone())
        },
    );
    (now, all)
}

/// Whether the machine is fitted too, in words.
pub fn health_word(log: &SiteLog) -> &'static str {
    match log.fit_health {
        FitHealth::Yes => "fitted",
        FitHealth::No => "as written",
    }
}

/// The fit, or why there is none.
pub fn fitted<'a>(scene: &Scene<'a>) -> Result<&'a (LogSetup, LogFit), String> {
    let reasons = scene.study().and_then(|s| s.reasons.as_ref());
    match reasons.and_then(|r| r.log.as_ref()) {
        Some(Ok(both)) => Ok(both),
        Some(Err(why)) => Err(sentence(why)),
        None => Err(scene.waiting().to_owned()),
    }
}

/// The factors, and what is left over before and after.
pub fn plates(scene: &Scene, log: &LogSetup, fit: &LogFit) -> Vec<Plate> {
    let stale = scene.session.is_studying_reasons();
    let factor = |title: &str, of: &str, (value, error): (f64, f64)| {
        let plate = Plate { title: title.to_owned(), aside: of.to_owned(), stale, ..Plate::default() };
        // A standard error that is no number: the log does not fix this factor at all.
        if !error.is_finite() {
            let words = format!("{} fits, but the log does not fix it.", scene.units().share(value));
            return Plate { instead: Some((Mark::Note, words)), ..plate };
        }
        let was = format!("± {}", scene.units().share(error));
        let (numeral, unit) = number_and_unit(&scene.units().share(value));
        Plate { numeral, unit, was, ..plate }
    };
    let mut plates = Vec::new();
    if let Some(health) = fit.health {
        plates.push(factor("Machine", "of its displacement", health));
    }
    if let Some(open) = fit.part_open {
        let name = log.fit_part.and_then(|at| log.kit.parts.get(at)).map_or("Part", |p| p.name.as_str());
        plates.push(factor(name, "of its open area", open));
    }
    let mass = |kg: f64| scene.units().mass(Mass::new::<kilogram>(kg));
    let (numeral, unit) = number_and_unit(&mass(fit.after_kg));
    plates.push(Plate {
        title: "Weight left over".to_owned(),
        aside: "after the fit".to_owned(),
        numeral,
        unit,
        was: format!("before {}", mass(fit.before_kg)),
        stale,
        ..Plate::default()
    });
    plates
}

/// What the scale showed less what the model says, row by row.
pub fn residuals(scene: &Scene, fit: &LogFit) -> Residuals {
    let unit = quantity::mass(scene.units());
    let points = fit.rows.iter().map(|row| Residual {
        minutes: row.time_s / 60.0,
        written: (row.gained_kg - row.written_kg) * unit.per_si,
        fitted: (row.gained_kg - row.fitted_kg) * unit.per_si,
    });
    Residuals {
        points: points.collect(),
        unit: unit.name.to_owned(),
        stale: scene.session.is_studying_reasons(),
    }
}

/// Beside a row: gained, as written, as fitted, left over.
pub fn beside(scene: &Scene, fit: &LogFit, at: usize) -> [String; 4] {
    let Some(row) = fit.rows.get(at) else { return Default::default() };
    let unit = quantity::mass(scene.units());
    let text = |kg: f64| format!("{:.2}", kg * unit.per_si).replace('-', "\u{2212}");
    [text(row.gained_kg), text(row.written_kg), text(row.fitted_kg), text(row.gained_kg - row.fitted_kg)]
}

/// What should be known beside the factors.
pub fn notes(fit: &LogFit) -> Vec<String> {
    log_fit_notes(fit)
}
