//! Job clock: mass, rate and pressure over the job; a moment of it in numbers and as a picture.

use egui::{Align2, Rect, Sense, Stroke, Ui, UiBuilder, pos2, vec2};

use narrows::report::{ends_text, job_note_text, job_note_warns, push_pull_limit_text};

use super::Desk;
use super::findings::{finding_ui, nothing_ui, small_ui, title_ui};
use crate::ui::actions::Action;
use crate::ui::diagram::clock::{Layout, clock_ui};
use crate::ui::present::scale::PressureScale;
use crate::ui::present::{clock, job_words};
use crate::ui::style::fonts;
use crate::ui::symbols::Mark;

/// The view.
pub fn job_clock_ui(ui: &mut Ui, desk: &mut Desk) {
    let area = ui.max_rect().shrink2(vec2(12.0, 8.0));
    let mut child = ui.new_child(UiBuilder::new().id_salt("job clock").max_rect(area));
    let model = match clock::clock(desk.scene) {
        Ok(model) => model,
        Err(why) => return nothing_ui(&mut child, desk, &why),
    };
    egui::ScrollArea::vertical().auto_shrink([false, false]).show(&mut child, |ui| {
        let m = desk.look.measures;
        let wide = area.width() > 700.0;
        let side = if wide { (m.body * 24.0).min(area.width() * 0.38) } else { 0.0 };
        let height = (area.height() - if wide { 8.0 } else { 0.0 }).max(240.0);
        let size = vec2((area.width() - side).max(1.0), height);
        let top = ui.cursor().min;
        let (rect, _) = ui.allocate_exact_size(size, Sense::hover());
        let left = rect.left() + m.left_margin;
        if let Some(minutes) = clock_ui(ui, rect, &model, Layout::Lanes, left, desk.look) {
            desk.want(Action::Clock(minutes));
        }
        if wide {
            let rect =
                Rect::from_min_size(pos2(rect.right() + 12.0, top.y), vec2((side - 12.0).max(1.0), height));
            let mut beside = ui.new_child(UiBuilder::new().id_salt("moment").max_rect(rect));
            moment_ui(&mut beside, desk, model.cursor);
        } else {
            moment_ui(ui, desk, model.cursor);
        }
    });
}

/// The clock at the foot of the Bench.
pub fn clock_strip_ui(ui: &mut Ui, desk: &mut Desk, rect: Rect, left: f32) {
    match clock::clock(desk.scene) {
        Ok(model) => {
            if let Some(minutes) = clock_ui(ui, rect, &model, Layout::Strip, left, desk.look) {
                desk.want(Action::Clock(minutes));
            }
        }
        Err(why) => {
            let mut child = ui.new_child(UiBuilder::new().id_salt("no clock").max_rect(rect.shrink(10.0)));
            small_ui(&mut child, desk.look, &format!("Job clock: {why}"));
        }
    }
}

fn moment_ui(ui: &mut Ui, desk: &mut Desk, at: f64) {
    let Ok(job) = clock::job(desk.scene) else { return };
    let look = desk.look;
    let m = &look.measures;
    title_ui(ui, look, "At the marker");
    egui::Grid::new("moment").num_columns(2).spacing(vec2(12.0, 2.0)).min_row_height(m.body * 1.5).show(
        ui,
        |ui| {
            for (name, value) in clock::moment(desk.scene, job, at) {
                let rich = egui::RichText::new(name).font(fonts::regular(m.small));
                ui.label(rich.color(look.palette.ink2));
                ui.label(egui::RichText::new(value).font(fonts::bold(m.body)));
                ui.end_row();
            }
        },
    );
    ui.add_space(6.0);
    if let Some(pressures) = clock::pressures(job, at) {
        let highest = job.trace.discharge_pa.iter().chain(&job.trace.system_pa).copied().fold(1.0, f64::max);
        steps_ui(ui, desk, pressures, highest);
    }
    ui.add_space(6.0);
    let ambient = desk.scene.ambient_pressure();
    let ends = ends_text(&job.ends_because, desk.scene.units(), ambient);
    let mark = if job_words::is_done(&job.ends_because) { Mark::Note } else { Mark::Warning };
    finding_ui(ui, look, mark, "Ends", &ends);
    for note in &job.notes {
        let (mark, word) =
            if job_note_warns(note) { (Mark::Warning, "Warning") } else { (Mark::Note, "Note") };
        finding_ui(ui, look, mark, word, &job_note_text(note, desk.scene.units(), ambient));
    }
    if let Some(limits) = &job.push_pull {
        let units = desk.scene.units();
        let text = format!(
            "Between {} (all gas condenses) and {} (none does) at the start; held back by {}.",
            units.rate(limits.full_condensation),
            units.rate(limits.no_condensation),
            push_pull_limit_text(limits.limit)
        );
        finding_ui(ui, look, Mark::Note, "Push-pull", &text);
    }
}

/// The pressure picture at one moment: system, compressor inlet, discharge, cylinder, from zero.
fn steps_ui(ui: &mut Ui, desk: &Desk, pressures: [f64; 4], highest_pa: f64) {
    let (m, p) = (&desk.look.measures, desk.look.palette);
    let size = vec2(ui.available_width().max(1.0), m.body * 11.0);
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    let scale = PressureScale::of(desk.scene.units());
    let names = ["system", "inlet", "discharge", "cylinder"];
    let number = |pa: f64| scale.loss(pa / scale.unit_pa);
    let words: Vec<String> =
        names.iter().zip(pressures).map(|(n, pa)| format!("{n} {}", number(pa))).collect();
    let words = format!("Pressures at the marker in {}: {}", scale.absolute, words.join(", "));
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, &words));
    let painter = ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
    let (top, bottom) = (rect.top() + m.small * 3.0, rect.bottom() - m.small * 1.8);
    let y = |pa: f64| bottom - ((pa / highest_pa).clamp(0.0, 1.0) as f32) * (bottom - top);
    let width = rect.width() / 4.0;
    let font = fonts::regular(m.small);
    let mut last: Option<f32> = None;
    for (i, (name, pa)) in names.iter().zip(pressures).enumerate() {
        let left = rect.left() + width * i as f32;
        if let Some(from) = last {
            // Falls are losses; the rise in the middle is the machine's.
            let is_fall = from < y(pa);
            let (color, line) = if is_fall { (p.fall_fill, 6.0) } else { (p.level, m.level_line()) };
            painter.line_segment([pos2(left, from), pos2(left, y(pa))], Stroke::new(line, color));
        }
        let tread = [pos2(left, y(pa)), pos2(left + width, y(pa))];
        painter.line_segment(tread, Stroke::new(m.level_line(), p.level));
        let center = left + width / 2.0;
        painter.text(
            pos2(center, y(pa) - 4.0),
            Align2::CENTER_BOTTOM,
            number(pa),
            fonts::bold(m.small),
            p.ink,
        );
        painter.text(pos2(center, bottom + 2.0), Align2::CENTER_TOP, *name, font.clone(), p.ink2);
        last = Some(y(pa));
    }
    painter.hline(rect.x_range(), bottom, Stroke::new(1.5 * m.line, p.ink));
    let unit = format!("{} from 0", scale.absolute);
    painter.text(rect.left_top(), Align2::LEFT_TOP, unit, font, p.ink2);
}
