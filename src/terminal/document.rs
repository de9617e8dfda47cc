//! Opens the document a command names and changes the fields it sets.

use std::io::{ErrorKind, Read as _};

use narrows::presets::{built_in_scenario, scenarios};
use narrows::scenario::{Document, Fault, read, set};

/// The document, or the lines that say what is wrong.
pub fn opened(file: &str, changes: &[String]) -> Result<Document, Vec<String>> {
    let mut document = open(file)?;
    for change in changes {
        apply(&mut document, change)?;
    }
    Ok(document)
}

/// Faults as lines for standard error.
pub fn fault_lines(file: &str, faults: &[Fault]) -> Vec<String> {
    faults.iter().map(|fault| format!("{file}: {fault}")).collect()
}

/// An answer for programs, as indented text.
pub fn pretty(value: &serde_json::Value) -> Result<String, Vec<String>> {
    Ok(serde_json::to_string_pretty(value).map_err(|error| vec![error.to_string()])? + "\n")
}

/// The document as its file has it.
pub fn open(file: &str) -> Result<Document, Vec<String>> {
    let text = if file == "-" {
        let mut text = String::new();
        std::io::stdin()
            .read_to_string(&mut text)
            .map_err(|error| vec![format!("standard input: {error}")])?;
        text
    } else {
        match std::fs::read_to_string(file) {
            Ok(text) => text,
            Err(error) => match built_in_scenario(file) {
                Some(text) => text.to_owned(),
                None => return Err(vec![unreadable(file, &error)]),
            },
        }
    };
    read(&text).map_err(|error| vec![format!("{file}: {error}")])
}

/// Why a file cannot be read, and what would be right.
fn unreadable(file: &str, error: &std::io::Error) -> String {
    let what = match error.kind() {
        ErrorKind::NotFound => "there is no such file".to_owned(),
        ErrorKind::IsADirectory => "this is a folder".to_owned(),
        ErrorKind::InvalidData => "this is no text file".to_owned(),
        _ => error.to_string(),
    };
    let built_in: Vec<&str> = scenarios().iter().map(|preset| preset.id).collect();
    format!("{file}: {what}; expected a scenario file, or a built-in scenario: {}", built_in.join(", "))
}

/// Changes one field.
pub fn apply(document: &mut Document, change: &str) -> Result<(), Vec<String>> {
    let Some((path, value)) = change.split_once('=') else {
        return Err(vec![format!(
            "--set {change:?}: expected PATH=VALUE, as kits.A.parts.0.bore=\"2.6 mm\""
        )]);
    };
    set(document, path.trim(), value.trim()).map_err(|error| vec![format!("--set {error}")])
}
