//! A field bound to a path of the document: shows what was typed, checks before it is used.

use egui::Ui;
use narrows::scenario::{self, Document, Fault, SetError};

use super::Desk;
use crate::ui::actions::Edit;
use crate::ui::present::scale::pretty;
use crate::ui::widgets::field::Field;

/// Beneath this path are the rows of the site log.
const LOG_ROWS: &str = "log.rows.";

/// A labelled field for a path; an empty text means none.
pub fn edit_field_ui(ui: &mut Ui, desk: &mut Desk, label: &str, path: &str, value: &str) {
    let shown = pretty(value);
    show(ui, desk, Field::new(label, &shown), path);
}

/// The same without a visible label.
pub fn bare_field_ui(ui: &mut Ui, desk: &mut Desk, label: &str, path: &str, value: &str, width: f32) {
    let shown = pretty(value);
    show(ui, desk, Field::new(label, &shown).width(width).bare(), path);
}

/// What an empty field says, and the unit that a bare number in it gets.
#[derive(Clone, Copy, Debug, Default)]
pub struct Empty<'a> {
    /// Written in it.
    pub hint: &'a str,
    /// Put behind a bare number.
    pub unit: &'a str,
}

/// A field without a visible label that may well be empty.
pub fn empty_field_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    label: &str,
    path: &str,
    value: &str,
    empty: Empty,
    width: f32,
) {
    let shown = pretty(value);
    let field = Field::new(label, &shown).width(width).hint(empty.hint).bare();
    show_with_unit(ui, desk, field, path, empty.unit);
}

/// The field of this path takes the focus when it is next shown.
pub fn want_focus(ctx: &egui::Context, path: &str) {
    ctx.data_mut(|d| d.insert_temp(wanted(), path.to_owned()));
}

fn wanted() -> egui::Id {
    egui::Id::unique("wanted field")
}

/// The same with a short word before it: (word, label).
pub fn worded_field_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    names: (&str, &str),
    path: &str,
    value: &str,
    width: f32,
) {
    let shown = pretty(value);
    if ui.data(|d| d.get_temp::<String>(wanted())).is_some_and(|p| p == path) {
        ui.memory_mut(|m| m.request_focus(ui.scope_id().with(("field", path))));
        ui.data_mut(|d| d.remove::<String>(wanted()));
    }
    show(ui, desk, Field::new(names.1, &shown).width(width).word(names.0), path);
}

fn show(ui: &mut Ui, desk: &mut Desk, field: Field, path: &str) {
    show_with_unit(ui, desk, field, path, "");
}

fn show_with_unit(ui: &mut Ui, desk: &mut Desk, field: Field, path: &str, unit: &str) {
    let document = desk.scene.document();
    let fault = desk.scene.session.faults().iter().find(|f| f.path == path);
    let field = field.fault(fault.map(|f| f.message.as_str()));
    let old = if field.value.is_empty() { unit } else { field.value };
    let accept = |text: &str| accepted(document, path, old, text).map(drop);
    let id = ui.scope_id().with(("field", path));
    if let Some(text) = field.show(ui, id, desk.look, accept)
        && let Ok(text) = accepted(document, path, old, &text)
    {
        desk.edit(Edit::Set { path: path.to_owned(), text });
    }
}

/// The text to set, if the document takes it; else what is expected.
fn accepted(document: &Document, path: &str, old: &str, text: &str) -> Result<String, String> {
    finished(old, text, |text| try_set(document, path, text))
}

/// The text that `try_set` takes of what was typed; else what it expects. A bare number keeps the
/// unit that stood there.
pub fn finished(
    old: &str,
    text: &str,
    try_set: impl Fn(&str) -> Result<(), String>,
) -> Result<String, String> {
    let text = if text.is_empty() { "none" } else { text };
    match try_set(text) {
        Ok(()) => Ok(text.to_owned()),
        Err(refusal) => {
            let Some(unit) = unit_of(old).filter(|_| is_number(text)) else { return Err(refusal) };
            let with_unit = format!("{text} {unit}");
            try_set(&with_unit).map(|()| with_unit).map_err(|_| refusal)
        }
    }
}

/// What a refusal to set a field says beside it.
pub fn refusal_words(error: SetError) -> String {
    match error {
        SetError::Value { expected, .. } => expected,
        SetError::Required { expected, .. } => format!("expected {expected}"),
        other => other.to_string(),
    }
}

fn try_set(document: &Document, path: &str, text: &str) -> Result<(), String> {
    let mut changed = document.clone();
    scenario::set(&mut changed, path, text).map_err(refusal_words)?;
    let faults = scenario::check(&changed);
    if let Some(fault) = faults.iter().find(|fault| fault.path == path) {
        return Err(fault.message.clone());
    }
    // The order of the log's rows is a matter of two of them: the other one may get the fault.
    let of_rows = |fault: &&Fault| path.starts_with(LOG_ROWS) && fault.path.starts_with(LOG_ROWS);
    match faults.iter().filter(of_rows).find(|fault| !scenario::check(document).contains(fault)) {
        Some(fault) => Err(fault.to_string()),
        None => Ok(()),
    }
}

fn is_number(text: &str) -> bool {
    text.replace(',', ".").replace('\u{2212}', "-").parse::<f64>().is_ok_and(f64::is_finite)
}

/// The unit behind the number.
fn unit_of(text: &str) -> Option<&str> {
    let start = text.find(|c: char| c.is_alphabetic() || matches!(c, '°' | '%' | '"' | '\''))?;
    text.get(start..).map(str::trim)
}
