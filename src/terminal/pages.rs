//! `narrows pages`: pages to print and hand over.

use narrows::presets::{Shelf, built_in_rules};
use narrows::report::pages::{CURVES_FILE, PageAsk, PagesError, Printed, page_answers, page_files};
use serde_json::json;

use super::args::PagesArguments;
use super::compare::{draws, lines_of};
use super::disk::{PagesTrouble, write_pages};
use super::document::{fault_lines, opened, pretty};

/// The text to print, or the lines that say what is wrong.
pub fn run(arguments: &PagesArguments) -> Result<String, Vec<String>> {
    let scenario = &arguments.scenario;
    let document = opened(&scenario.file, &scenario.set)?;
    let rules = built_in_rules().map_err(|error| vec![error.to_string()])?;
    let shelf = Shelf::built_in().map_err(|error| vec![error.to_string()])?;
    let draws = draws(arguments.ranges.draws, arguments.ranges.job_draws, arguments.ranges.seed)
        .map_err(|error| lines_of(&scenario.file, &error))?;
    let ask = PageAsk {
        rules: &rules,
        shelf: &shelf,
        draws,
        follow_changes: draws.jobs.is_some(),
        kit: arguments.kit.as_deref(),
    };
    let answers = page_answers(&document, ask, &|| false).map_err(|error| match error {
        PagesError::Faults { faults } => fault_lines(&scenario.file, &faults),
        PagesError::NoKit { .. } => vec![format!("--{error}")],
    })?;
    let files = page_files(&document, &answers, &printed_now(), scenario.units.into());
    let written = write_pages(&arguments.out, &files, arguments.force).map_err(|error| {
        let hint = if matches!(error, PagesTrouble::There { .. }) { " (--force)" } else { "" };
        vec![format!("--out {error}{hint}")]
    })?;
    let missing = answers.jobs.as_ref().err().cloned().unwrap_or_default();
    let paths: Vec<String> = written.iter().map(|path| path.display().to_string()).collect();
    if scenario.json {
        return pretty(&json!({ "files": paths, "missing": missing }));
    }
    let mut lines: Vec<String> = paths.iter().map(|path| format!("wrote {path}")).collect();
    if !files.iter().any(|file| file.name == CURVES_FILE) {
        lines.push(format!("no {CURVES_FILE}: no job of this document can be followed"));
    }
    lines.extend(missing.iter().map(|one| format!("the pages say that this is missing: {one}")));
    lines.push("Open a page in any browser and print it from there.".to_owned());
    Ok(lines.join("\n") + "\n")
}

/// Day and version of what is printed now, in local time where that is known.
pub fn printed_now() -> Printed {
    let now = jiff::Zoned::now();
    let zone = if now.time_zone().is_unknown() { " UTC" } else { "" };
    Printed {
        date: format!("{}{zone}", now.strftime("%-d %B %Y, %H:%M")),
        version: env!("CARGO_PKG_VERSION").to_owned(),
    }
}
