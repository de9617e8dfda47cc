//! `narrows diagnose`: the likely cause of a slow recovery, and what a site log says of it.

use narrows::advice::diagnose::{diagnose, fit_log};
use narrows::presets::built_in_rules;
use narrows::report::{
    diagnosis_json, diagnosis_table, log_fit_json, log_fit_table, stops_json, stops_of, stops_text,
};
use narrows::scenario::{Document, SiteLog, log_from_csv, log_of, readings_of};

use super::args::DiagnoseArguments;
use super::document::{apply, fault_lines, open, pretty};

/// The text to print, or the lines that say what is wrong.
pub fn run(arguments: &DiagnoseArguments) -> Result<String, Vec<String>> {
    let common = &arguments.scenario;
    let mut document = open(&common.file)?;
    if let Some(path) = &arguments.log {
        take_log(&mut document, path)?;
    }
    for change in &common.set {
        apply(&mut document, change)?;
    }
    let faulty = |faults: Vec<narrows::scenario::Fault>| fault_lines(&common.file, &faults);
    let refused = |error: String| vec![format!("{}: {error}", common.file)];
    let units = common.units.into();
    let log = match &document.log {
        Some(_) => {
            let setup = log_of(&document).map_err(faulty)?;
            let fitted = fit_log(&setup).map_err(|error| refused(error.to_string()))?;
            Some((setup, fitted))
        }
        None => None,
    };
    // A log alone needs no readings.
    let diagnosis = match (&document.readings, &log) {
        (None, Some(_)) => None,
        _ => {
            let setup = readings_of(&document).map_err(faulty)?;
            let found = diagnose(&setup).map_err(|error| refused(error.to_string()))?;
            Some((setup, found))
        }
    };
    let rules = built_in_rules().map_err(|error| vec![error.to_string()])?;
    let mut stops = Vec::new();
    for kit in diagnosis.iter().map(|(setup, _)| &setup.kit).chain(log.iter().map(|(setup, _)| &setup.kit)) {
        for stop in stops_of(&document, kit, &rules).map_err(faulty)? {
            if !stops.contains(&stop) {
                stops.push(stop);
            }
        }
    }
    if common.json {
        let mut value = match &diagnosis {
            Some((setup, found)) => diagnosis_json(&document, setup, found, units),
            None => serde_json::json!({ "narrows": document.version, "title": document.title }),
        };
        if let Some(object) = value.as_object_mut() {
            object.insert("stops".to_owned(), stops_json(&stops));
            if let Some((setup, fitted)) = &log {
                object.insert("log".to_owned(), log_fit_json(setup, fitted));
            }
        }
        return pretty(&value);
    }
    let found = diagnosis.map(|(setup, found)| diagnosis_table(&document, &setup, &found, units));
    let fitted = log.map(|(setup, fitted)| log_fit_table(&setup, &fitted, units));
    // First of all, as they would be beside the machine.
    let stops = Some(stops_text(&stops)).filter(|text| !text.is_empty());
    Ok([stops, found, fitted].into_iter().flatten().collect::<Vec<_>>().join("\n"))
}

fn take_log(document: &mut Document, path: &std::path::Path) -> Result<(), Vec<String>> {
    let text = std::fs::read_to_string(path)
        .map_err(|error| vec![format!("--log {}: {error}; expected a table", path.display())])?;
    let rows = log_from_csv(&text).map_err(|error| vec![format!("--log {}: {error}", path.display())])?;
    document.log.get_or_insert_with(SiteLog::default).rows = rows;
    Ok(())
}
