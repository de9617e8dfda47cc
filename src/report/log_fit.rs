//! A fitted site log in words, as a table and for programs.

use serde_json::{Value, json};
use uom::si::f64::Mass;
use uom::si::mass::kilogram;

use crate::advice::diagnose::LogFit;
use crate::scenario::LogSetup;
use crate::units::UnitSet;

fn part_name(log: &LogSetup) -> &str {
    log.fit_part.and_then(|index| log.kit.parts.get(index)).map_or("part", |part| part.name.as_str())
}

/// What should be known beside the factors.
pub fn log_fit_notes(fitted: &LogFit) -> Vec<String> {
    let loose = |factor: Option<(f64, f64)>| factor.is_some_and(|(value, error)| !(error <= 0.3 * value));
    let mut notes = Vec::new();
    if loose(fitted.health) || loose(fitted.part_open) {
        notes.push("The log hardly fixes a factor: read the machine inlet's gauge in more rows.".to_owned());
    }
    notes.push(
        "Nothing was changed: put a factor into the machine or the part yourself if you trust it.".to_owned(),
    );
    notes
}

/// For programs. SI units, pressures absolute.
pub fn log_fit_json(log: &LogSetup, fitted: &LogFit) -> Value {
    let factor = |factor: Option<(f64, f64)>| {
        factor.map(|(value, error)| json!({ "ratio": value, "standard_error": error }))
    };
    json!({
        "kit": log.kit.name,
        "machine_health": factor(fitted.health),
        "part": fitted.part_open.map(|_| part_name(log)),
        "part_index": log.fit_part,
        "part_open": factor(fitted.part_open),
        "residual_before_kg": fitted.before_kg,
        "residual_after_kg": fitted.after_kg,
        "rows": fitted.rows.iter().map(|row| json!({
            "time_s": row.time_s, "gained_kg": row.gained_kg, "written_kg": row.written_kg,
            "fitted_kg": row.fitted_kg, "residual_kg": row.gained_kg - row.fitted_kg,
            "machine_inlet_pa": row.machine_inlet_pa, "fitted_inlet_pa": row.fitted_inlet_pa,
        })).collect::<Vec<_>>(),
        "notes": log_fit_notes(fitted),
    })
}

/// For people.
pub fn log_fit_table(log: &LogSetup, fitted: &LogFit, units: UnitSet) -> String {
    let share = |(value, error): (f64, f64)| format!("{} ± {}", units.share(value), units.share(error));
    let mass = |kg: f64| units.mass(Mass::new::<kilogram>(kg));
    let mut lines = vec![format!("Site log - kit {}", log.kit.name), String::new()];
    if let Some(health) = fitted.health {
        lines.push(format!("Machine health  {} of its displacement", share(health)));
    }
    if let Some(open) = fitted.part_open {
        lines.push(format!("{}  {} of its open area", part_name(log), share(open)));
    }
    lines.push(format!("Residual        {} before, {} after", mass(fitted.before_kg), mass(fitted.after_kg)));
    lines.push(String::new());
    lines.push(format!(
        "{:<10}{:<12}{:<12}{:<12}{}",
        "Minutes", "gained", "as written", "as fitted", "residual"
    ));
    for row in &fitted.rows {
        lines.push(format!(
            "{:<10}{:<12}{:<12}{:<12}{}",
            format!("{:.1}", row.time_s / 60.0),
            mass(row.gained_kg),
            mass(row.written_kg),
            mass(row.fitted_kg),
            mass(row.gained_kg - row.fitted_kg),
        ));
    }
    lines.push(String::new());
    lines.extend(log_fit_notes(fitted));
    lines.join("\n") + "\n"
}
