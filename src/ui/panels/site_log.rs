//! Site log: rows from a job, the factors fitted to them, what is left over.

use egui::{Ui, UiBuilder, vec2};
use narrows::scenario::{LogRow, SiteLog};

use super::Desk;
use super::edit_field::{Empty, empty_field_ui};
use super::findings::{nothing_ui, small_ui, title_ui};
use crate::ui::actions::{Action, Edit};
use crate::ui::diagram::residuals::residuals_ui;
use crate::ui::present::site_log;
use crate::ui::style::fonts;
use crate::ui::widgets::choice::choice_ui;
use crate::ui::widgets::plate::plate_ui;
use crate::ui::widgets::word_button::command_ui;

/// Widths: number of a row, a field, a text beside it.
const WIDTHS: (f32, f32, f32) = (30.0, 92.0, 74.0);
/// Rows shown at once.
const ROWS_AT_ONCE: f32 = 9.0;

/// The view.
pub fn site_log_ui(ui: &mut Ui, desk: &mut Desk) {
    let area = ui.max_rect().shrink2(vec2(12.0, 8.0));
    let mut child = ui.new_child(UiBuilder::new().id_salt("site log").max_rect(area));
    egui::ScrollArea::vertical().auto_shrink([false, false]).show(&mut child, |ui| {
        match &desk.scene.document().log {
            Some(log) => {
                log_ui(ui, desk, log);
                ui.add_space(8.0);
                fit_ui(ui, desk);
            }
            None => no_log_ui(ui, desk),
        }
    });
}

fn no_log_ui(ui: &mut Ui, desk: &mut Desk) {
    nothing_ui(
        ui,
        desk,
        "No site log here. Rows of time and weight, with gauges where they were read, say how much of its \
         displacement the machine still has, and how far a part is open.",
    );
    ui.add_space(6.0);
    ui.horizontal_wrapped(|ui| {
        if command_ui(ui, "Begin a log", true, desk.look).clicked() {
            desk.edit(Edit::SwapLog(site_log::begun(desk.scene.units()).map(Box::new)));
        }
        table_ui(ui, desk);
    });
}

fn table_ui(ui: &mut Ui, desk: &mut Desk) {
    if command_ui(ui, "Read a table…", true, desk.look).clicked() {
        desk.want(Action::LogDialog);
    }
    if command_ui(ui, "Type a table's path", true, desk.look).clicked() {
        desk.want(Action::PathField(true));
    }
    small_ui(
        ui,
        desk.look,
        "Or drop a .csv file here. Headings: time (min), weight (lb), system_pressure (psig), \
         machine_inlet_pressure, cylinder_pressure, running_voltage.",
    );
}

fn log_ui(ui: &mut Ui, desk: &mut Desk, log: &SiteLog) {
    let unit = crate::ui::present::quantity::mass(desk.scene.units()).name;
    title_ui(ui, desk.look, &format!("Site log, {} rows; answers in {unit}", log.rows.len()));
    rows_ui(ui, desk, log);
    ui.horizontal_wrapped(|ui| {
        if command_ui(ui, "Add a row", true, desk.look).clicked()
            && let Some(longer) = site_log::with_row(log)
        {
            desk.edit(Edit::SwapLog(Some(Box::new(longer))));
        }
        if command_ui(ui, "Remove the log", true, desk.look).clicked() {
            desk.edit(Edit::SwapLog(None));
        }
        table_ui(ui, desk);
    });
    ui.add_space(4.0);
    factors_ui(ui, desk, log);
}

fn rows_ui(ui: &mut Ui, desk: &mut Desk, log: &SiteLog) {
    let fit = site_log::fitted(desk.scene).ok().map(|(_, fit)| fit);
    let height = desk.look.target() + 4.0;
    let scroll = egui::ScrollArea::vertical().id_salt("rows").auto_shrink([true, true]);
    egui::ScrollArea::horizontal().id_salt("log table").auto_shrink([false, true]).show(ui, |ui| {
        ui.spacing_mut().item_spacing = vec2(6.0, 4.0);
        ui.horizontal(|ui| {
            cell_ui(ui, desk, "", WIDTHS.0, true);
            for word in ["Time", "Weight", "System", "Machine inlet", "Cylinder", "Volts"] {
                cell_ui(ui, desk, word, WIDTHS.1, true);
            }
            for word in ["Gained", "As written", "As fitted", "Left over"] {
                cell_ui(ui, desk, word, WIDTHS.2, true);
            }
        });
        scroll.max_height(height * ROWS_AT_ONCE).show_rows(
            ui,
            desk.look.target(),
            log.rows.len(),
            |ui, range| {
                for at in range {
                    let Some(row) = log.rows.get(at) else { continue };
                    ui.horizontal(|ui| {
                        row_ui(ui, desk, at, row);
                        if let Some(fit) = fit {
                            for text in site_log::beside(desk.scene, fit, at) {
                                cell_ui(ui, desk, &text, WIDTHS.2, false);
                            }
                        }
                        let word = format!("Remove row {}", at + 1);
                        // Fewer than two rows are no log.
                        if command_ui(ui, &word, log.rows.len() > 2, desk.look).clicked() {
                            desk.edit(Edit::Set { path: format!("log.rows.{at}"), text: "none".to_owned() });
                        }
                    });
                }
            },
        );
    });
}

fn row_ui(ui: &mut Ui, desk: &mut Desk, at: usize, row: &LogRow) {
    cell_ui(ui, desk, &format!("{}.", at + 1), WIDTHS.0, false);
    for (name, field, typed, unit) in site_log::cells(row, desk.scene.units()) {
        let label = format!("{name} of row {}", at + 1);
        let empty = Empty { hint: unit, unit };
        empty_field_ui(ui, desk, &label, &format!("log.rows.{at}.{field}"), &typed, empty, WIDTHS.1);
    }
}

fn cell_ui(ui: &mut Ui, desk: &Desk, text: &str, width: f32, bold: bool) {
    let (m, p) = (&desk.look.measures, desk.look.palette);
    let font = if bold { fonts::bold(m.small) } else { fonts::regular(m.body) };
    let rich = egui::RichText::new(text).font(font).color(if bold { p.ink2 } else { p.ink });
    ui.add_sized(vec2(width, desk.look.target()), egui::Label::new(rich).truncate());
}

fn factors_ui(ui: &mut Ui, desk: &mut Desk, log: &SiteLog) {
    let kit = site_log::kit(desk.scene, log);
    ui.horizontal_wrapped(|ui| {
        let set = |path: &str, text: &str| Edit::Set { path: path.to_owned(), text: text.to_owned() };
        ui.label("Machine");
        let words = ["fitted", "as written"].map(str::to_owned);
        if let Some(i) =
            choice_ui(ui, "Fit the machine", site_log::health_word(log), &words, 110.0, desk.look)
        {
            desk.edit(set("log.fit_health", if i == 0 { "yes" } else { "no" }));
        }
        ui.add_space(8.0);
        ui.label("Part fitted");
        let (now, parts) = site_log::parts(log, kit);
        let words: Vec<String> = parts.iter().map(|(word, _)| word.clone()).collect();
        let chosen = choice_ui(ui, "Fit a part", &now, &words, 190.0, desk.look);
        if let Some((_, value)) = chosen.and_then(|i| parts.get(i)) {
            desk.edit(set("log.fit_part", value));
        }
        let names: Vec<String> = desk.scene.document().kits.iter().map(|k| k.name.clone()).collect();
        if names.len() > 1 {
            ui.add_space(8.0);
            ui.label("With kit");
            let now = kit.map_or("", |k| k.name.as_str());
            let chosen = choice_ui(ui, "Kit of the log", now, &names, 90.0, desk.look);
            if let Some(name) = chosen.and_then(|i| names.get(i)) {
                desk.edit(set("log.kit", name));
            }
        }
    });
}

fn fit_ui(ui: &mut Ui, desk: &Desk) {
    let (log, fit) = match site_log::fitted(desk.scene) {
        Ok(both) => both,
        Err(why) => return nothing_ui(ui, desk, &why),
    };
    let plates = site_log::plates(desk.scene, log, fit);
    let (look, height) = (desk.look, desk.look.measures.plate);
    if ui.available_width() > 240.0 * plates.len() as f32 {
        ui.columns(plates.len().max(1), |columns| {
            for (ui, plate) in columns.iter_mut().zip(&plates) {
                plate_ui(ui, plate, height, look);
            }
        });
    } else {
        for plate in &plates {
            plate_ui(ui, plate, height, look);
        }
    }
    ui.add_space(8.0);
    title_ui(ui, look, "Left over: what the scale showed less what the model says");
    residuals_ui(ui, &site_log::residuals(desk.scene, fit), look);
    for note in site_log::notes(fit) {
        small_ui(ui, look, &note);
    }
}
