//! What counts: every part, cord and condition of the kit in hand, sorted by what it is worth.

use egui::{Ui, UiBuilder, vec2};

use super::Desk;
use super::findings::{led_ui, nothing_ui, small_ui, title_ui};
use super::prices::change_prices_ui;
use super::progress::progress_ui;
use crate::ui::actions::Action;
use crate::ui::diagram::bars::bars_ui;
use crate::ui::present::counts;
use crate::ui::view::Counted;
use crate::ui::widgets::word_button::tab_ui;

/// The view.
pub fn what_counts_ui(ui: &mut Ui, desk: &mut Desk) {
    let area = ui.max_rect().shrink2(vec2(12.0, 8.0));
    let mut child = ui.new_child(UiBuilder::new().id_salt("what counts").max_rect(area));
    egui::ScrollArea::vertical().auto_shrink([false, false]).show(&mut child, |ui| {
        let name = desk.scene.kit().map_or("", |k| k.name.as_str());
        title_ui(ui, desk.look, &format!("What counts in kit {name}"));
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing.x = 0.0;
            let open = desk.scene.session.view.counted;
            for counted in Counted::ALL {
                if tab_ui(ui, counted.name(), counted == open, desk.look.measures.views, desk.look).clicked()
                {
                    desk.want(Action::Counts(counted));
                }
            }
        });
        ui.add_space(6.0);
        let ranked = match counts::ranked(desk.scene) {
            Ok(ranked) => ranked,
            Err(why) => return nothing_ui(ui, desk, &why),
        };
        ui.horizontal_wrapped(|ui| {
            if counts::has_minutes(&ranked.counts) {
                minutes_or_rate_ui(ui, desk);
            }
            progress_ui(ui, desk);
        });
        if let Some(why) = &ranked.no_time {
            small_ui(ui, desk.look, &format!("No minutes: {why}"));
        }
        for (when, words) in counts::advice(desk.scene, ranked) {
            led_ui(ui, desk.look, &format!("{when}:"), &words);
        }
        ui.add_space(6.0);
        let bars = counts::bars(desk.scene, ranked);
        if bars.rows.is_empty() {
            return nothing_ui(ui, desk, "Nothing here brings anything worth naming.");
        }
        bars_ui(ui, &bars, desk.look);
        ui.add_space(6.0);
        small_ui(ui, desk.look, explanation(desk.scene.session.view.counted));
        if let Some(words) = counts::certainty(desk.scene, ranked) {
            small_ui(ui, desk.look, &words);
        }
        if desk.scene.session.view.counted == Counted::Change && !ranked.is_withheld() {
            ui.add_space(8.0);
            change_prices_ui(ui, desk, ranked);
        }
    });
}

/// Minutes or rates, where minutes are known.
pub fn minutes_or_rate_ui(ui: &mut Ui, desk: &mut Desk) {
    let in_rate = desk.scene.session.view.in_rate;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 0.0;
        for (name, rate) in [("In minutes", false), ("In rate", true)] {
            if tab_ui(ui, name, in_rate == rate, desk.look.measures.target, desk.look).clicked() {
                desk.want(Action::CountInRate(rate));
            }
        }
    });
}

fn explanation(counted: Counted) -> &'static str {
    match counted {
        Counted::Gain => "Each thing by itself replaced by its ideal, all else as it is.",
        Counted::Change => "What a person could really fit, buy or do, one at a time.",
        Counted::OnlyThis => {
            "Everything ideal but this one: what is left to each by itself. What costs most stands first."
        }
        Counted::VoltsRunning => "Volts won at the running motor, each thing by itself made ideal.",
        Counted::VoltsStarting => "Volts won at the motor as it starts, each thing by itself made ideal.",
    }
}
