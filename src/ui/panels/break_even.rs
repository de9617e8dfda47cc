//! Push-pull or not: one number, its band, and both times against the charge.

use egui::Ui;
use egui_plot::{Line, LineStyle, Plot, VLine};

use super::Desk;
use super::findings::{small_ui, title_ui};
use super::progress::progress_ui;
use crate::ui::present::break_even;
use crate::ui::style::fonts;

/// Words and a small picture.
pub fn break_even_ui(ui: &mut Ui, desk: &mut Desk) {
    let name = desk.scene.kit().map_or("", |kit| kit.name.as_str());
    title_ui(ui, desk.look, &format!("Push-pull or liquid then vapour, kit {name}"));
    progress_ui(ui, desk);
    let shown = match break_even::shown(desk.scene) {
        Ok(shown) => shown,
        Err(why) => return small_ui(ui, desk.look, &why),
    };
    let sentence = egui::RichText::new(&shown.sentence).font(fonts::bold(desk.look.measures.body));
    ui.add(egui::Label::new(sentence).wrap());
    if !shown.certainty.is_empty() {
        small_ui(ui, desk.look, &shown.certainty);
    }
    if shown.lines.iter().all(|line| line.len() < 2) {
        return;
    }
    plot_ui(ui, desk, &shown);
    small_ui(
        ui,
        desk.look,
        "Solid: liquid then vapour. Dashed: push-pull, hose change counted. Time to the level, no waiting.",
    );
    ui.add_space(8.0);
}

fn plot_ui(ui: &mut Ui, desk: &Desk, shown: &break_even::Shown) {
    let (m, p) = (desk.look.measures, desk.look.palette);
    let plot = Plot::new("break-even")
        .height(m.body * 12.0)
        .width((ui.available_width() - 8.0).max(120.0))
        .grid_color(p.rule)
        .x_axis_label(format!("charge, {}", shown.unit))
        .y_axis_label("min")
        .include_x(0.0)
        .include_y(0.0)
        .allow_scroll(false)
        .allow_drag(false)
        .allow_zoom(false)
        .allow_boxed_zoom(false);
    plot.show(ui, |plot| {
        let [liquid, pushed] = shown.lines.clone();
        plot.line(Line::new("liquid then vapour", liquid).color(p.level).width(m.level_line()));
        let pushed = Line::new("push-pull", pushed).color(p.fall_fill).width(m.level_line());
        plot.line(pushed.style(LineStyle::dashed_dense()));
        if let Some((low, high)) = shown.band {
            for at in [low, high] {
                plot.vline(VLine::new("10 to 90 %", at).color(p.ghost).width(1.3 * m.line));
            }
        }
    });
}
