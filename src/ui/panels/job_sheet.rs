//! Job sheet: time lines of all kits, steps of the one in hand, the crew's list.

use egui::{Ui, UiBuilder, vec2};
use narrows::units::Typed;
use uom::si::f64::Time;

use super::Desk;
use super::break_even::break_even_ui;
use super::edit_field::bare_field_ui;
use super::findings::{finding_ui, small_ui, title_ui};
use crate::ui::actions::{Action, Edit};
use crate::ui::diagram::timeline::timeline_ui;
use crate::ui::present::job_sheet::METHODS;
use crate::ui::present::{clock, job_sheet};
use crate::ui::style::fonts;
use crate::ui::symbols::Mark;
use crate::ui::widgets::choice::choice_ui;

/// The view.
pub fn job_sheet_ui(ui: &mut Ui, desk: &mut Desk) {
    let area = ui.max_rect().shrink2(vec2(12.0, 8.0));
    let mut child = ui.new_child(UiBuilder::new().id_salt("job sheet").max_rect(area));
    egui::ScrollArea::vertical().auto_shrink([false, false]).show(&mut child, |ui| {
        title_ui(ui, desk.look, "Time line, from arrival to departure");
        let model = job_sheet::timeline(desk.scene);
        let responses = timeline_ui(ui, &model, desk.look);
        for (i, response) in responses.iter().enumerate() {
            if response.clicked() {
                desk.want(Action::Kit(i));
            }
        }
        small_ui(ui, desk.look, "Blue: refrigerant flows. White: hands at work. Hatched: waiting.");
        ui.add_space(8.0);
        let wide = ui.available_width() > 760.0;
        if wide {
            let width = ui.available_width() * 0.55;
            ui.horizontal_top(|ui| {
                ui.vertical(|ui| {
                    ui.set_width(width);
                    plan_ui(ui, desk);
                    steps_ui(ui, desk);
                });
                ui.vertical(|ui| {
                    crew_ui(ui, desk);
                    break_even_ui(ui, desk);
                });
            });
        } else {
            plan_ui(ui, desk);
            steps_ui(ui, desk);
            crew_ui(ui, desk);
            break_even_ui(ui, desk);
        }
    });
}

/// Label, path and text of the plan's fields.
fn plan_fields(desk: &Desk) -> Vec<(&'static str, &'static str, String)> {
    let document = desk.scene.document();
    let plan = document.job.clone().unwrap_or_default();
    let target = document.target.clone().unwrap_or_default();
    let words = |t: &Option<Typed<Time>>| t.as_ref().map(|t| t.as_typed().to_owned()).unwrap_or_default();
    let count = |n: Option<u32>| n.map(|n| n.to_string()).unwrap_or_default();
    vec![
        ("Set-up", "job.set_up", words(&plan.set_up)),
        ("Pack-up", "job.pack_up", words(&plan.pack_up)),
        ("Cylinder swap", "job.swap", words(&plan.swap)),
        ("Hose change", "job.hose_change", words(&plan.hose_change)),
        ("Level", "target.level", target.level.as_typed().to_owned()),
        ("Machines", "job.machines", count(plan.machines)),
        ("Wait at level", "target.wait", words(&target.wait)),
        ("Re-checks", "target.rechecks", count(target.rechecks)),
        ("Deadline", "job.deadline", words(&plan.deadline)),
    ]
}

fn plan_ui(ui: &mut Ui, desk: &mut Desk) {
    title_ui(ui, desk.look, "Plan");
    method_ui(ui, desk);
    let m = desk.look.measures;
    let pairs = if ui.available_width() > 30.0 * m.body { 2 } else { 1 };
    egui::Grid::new("plan").num_columns(2 * pairs).spacing(vec2(14.0, 4.0)).show(ui, |ui| {
        for (i, (label, path, text)) in plan_fields(desk).iter().enumerate() {
            let rich =
                egui::RichText::new(*label).font(fonts::regular(m.small)).color(desk.look.palette.ink2);
            ui.add(egui::Label::new(rich).extend());
            bare_field_ui(ui, desk, label, path, text, 7.6 * m.body);
            if i % pairs + 1 == pairs {
                ui.end_row();
            }
        }
    });
    let plan = desk.scene.document().job.as_ref();
    if plan.is_none_or(|p| p.set_up.is_none() || p.pack_up.is_none()) {
        small_ui(ui, desk.look, "Set-up and pack-up count nothing until they are given, as 30 min.");
    }
    ui.add_space(8.0);
}

fn method_ui(ui: &mut Ui, desk: &mut Desk) {
    let now = desk.scene.document().job.as_ref().map(|j| j.method).unwrap_or_default();
    let current = METHODS.iter().find(|m| m.0 == now).map_or("", |m| m.1);
    let names = METHODS.map(|m| m.1.to_owned());
    ui.horizontal(|ui| {
        small_ui(ui, desk.look, "Method");
        let width = 14.0 * desk.look.measures.body;
        let chosen = choice_ui(ui, "Method of the job", current, &names, width, desk.look);
        if let Some((_, _, text)) = chosen.and_then(|i| METHODS.get(i)) {
            desk.edit(Edit::Set { path: "job.method".to_owned(), text: (*text).to_owned() });
        }
    });
}

fn steps_ui(ui: &mut Ui, desk: &Desk) {
    let name = desk.scene.kit().map_or("", |k| k.name.as_str());
    title_ui(ui, desk.look, &format!("Steps with kit {name}"));
    let job = match clock::job(desk.scene) {
        Ok(job) => job,
        Err(why) => return small_ui(ui, desk.look, &why),
    };
    let m = desk.look.measures;
    egui::Grid::new("steps").striped(true).spacing(vec2(14.0, 3.0)).min_row_height(m.body * 1.7).show(
        ui,
        |ui| {
            for word in ["From", "Takes", "What", "Recovers"] {
                let rich = egui::RichText::new(word).font(fonts::bold(m.small));
                ui.label(rich.color(desk.look.palette.ink2));
            }
            ui.end_row();
            for step in job_sheet::steps(desk.scene, job) {
                ui.label(step.at);
                ui.label(egui::RichText::new(step.takes).font(fonts::bold(m.body)));
                ui.label(step.what);
                ui.label(step.mass);
                ui.end_row();
            }
        },
    );
}

fn crew_ui(ui: &mut Ui, desk: &Desk) {
    title_ui(ui, desk.look, "For the crew");
    for (mark, text) in job_sheet::crew_list(desk.scene) {
        match mark {
            Mark::Stop => finding_ui(ui, desk.look, mark, "Stop", &text),
            Mark::Warning => finding_ui(ui, desk.look, mark, "Warning", &text),
            _ => {
                ui.add(egui::Label::new(text).wrap());
            }
        }
    }
    ui.add_space(6.0);
    small_ui(ui, desk.look, narrows::advice::DEFERENCE);
}
