//! Cylinders: the rules side by side, the warming cylinder, the stock and its order.

use egui::{Rect, Ui, UiBuilder, pos2, vec2};
use narrows::job::CylinderAnswer;
use narrows::kit::Cylinder;

use super::Desk;
use super::edit_field::bare_field_ui;
use super::findings::{finding_ui, nothing_ui, title_ui};
use crate::ui::actions::{Action, Edit};
use crate::ui::diagram::bars::bars_ui;
use crate::ui::diagram::fill::fill_ui;
use crate::ui::present::figures::{Figure, yes_no};
use crate::ui::present::{cylinders, quantity};
use crate::ui::study::Limits;
use crate::ui::style::fonts;
use crate::ui::widgets::choice::choice_ui;
use crate::ui::widgets::plate::{Plate, plate_ui};
use crate::ui::widgets::word_button::command_ui;

/// The view.
pub fn cylinders_ui(ui: &mut Ui, desk: &mut Desk) {
    let area = ui.max_rect().shrink2(vec2(12.0, 8.0));
    let mut child = ui.new_child(UiBuilder::new().id_salt("cylinders").max_rect(area));
    egui::ScrollArea::vertical().auto_shrink([false, false]).show(&mut child, |ui| {
        stock_ui(ui, desk);
        let limits = match cylinders::limits(desk.scene) {
            Ok(limits) => limits,
            Err(why) => return nothing_ui(ui, desk, &why),
        };
        for (mark, word, sentence) in cylinders::findings(limits) {
            finding_ui(ui, desk.look, mark, word, &sentence);
        }
        if let Some((stock, answer)) = cylinders::looked_at(desk.scene, limits) {
            let fill = cylinders::fill(desk.scene, limits, stock, answer);
            let wide = ui.available_width() > 760.0;
            let width = if wide { ui.available_width() * 0.55 } else { ui.available_width() };
            ui.horizontal_top(|ui| {
                ui.vertical(|ui| {
                    ui.set_width(width);
                    rules_ui(ui, desk, limits, answer);
                });
                if wide {
                    warming_ui(ui, desk, fill.as_ref());
                }
            });
            if !wide {
                warming_ui(ui, desk, fill.as_ref());
            }
        }
        schedule_ui(ui, desk);
    });
}

fn rules_ui(ui: &mut Ui, desk: &Desk, limits: &Limits, answer: &CylinderAnswer) {
    title_ui(ui, desk.look, "Fill rules, net. The lowest wins.");
    bars_ui(ui, &cylinders::rules(desk.scene, limits, answer), desk.look);
    ui.add_space(6.0);
    let units = desk.scene.units();
    let (numeral, unit) = match answer.stop_gross {
        Some(stop) => {
            let text = quantity::scale_text(units, stop);
            crate::ui::present::scale::number_and_unit(&text)
        }
        None => (String::new(), String::new()),
    };
    let why_not =
        answer.stops.first().map(|_| (crate::ui::symbols::Mark::Stop, "Not to be filled.".to_owned()));
    let no_weight = (crate::ui::symbols::Mark::Note, "Capacity and tare are needed.".to_owned());
    let plate = Plate {
        title: "Stop weight, gross".to_owned(),
        aside: answer.lowest.map(|(kind, _)| cylinders::rule_name(kind).to_owned()).unwrap_or_default(),
        instead: if numeral.is_empty() { Some(why_not.unwrap_or(no_weight)) } else { None },
        numeral,
        unit,
        was: format!("may still take {}", quantity::scale_text(units, answer.remaining)),
        stale: desk.scene.session.is_study_stale(),
        ..Plate::default()
    };
    plate_ui(ui, &plate, desk.look.measures.plate, desk.look);
}

fn warming_ui(ui: &mut Ui, desk: &mut Desk, fill: Option<&crate::ui::diagram::fill::Fill>) {
    ui.vertical(|ui| {
        title_ui(ui, desk.look, "Filled to its limit, as it warms");
        let Some(fill) = fill else {
            ui.label("The water capacity is needed.");
            return;
        };
        let size = vec2(ui.available_width().max(1.0), 20.0 * desk.look.measures.strong);
        let (rect, _) = ui.allocate_exact_size(size, egui::Sense::hover());
        if let Some(number) = fill_ui(ui, rect, fill, desk.look) {
            desk.want(Action::FillTemperature(quantity::kelvins(desk.scene.units(), number)));
        }
    });
}

fn stock_ui(ui: &mut Ui, desk: &mut Desk) {
    title_ui(ui, desk.look, "Stock, in the order of filling");
    egui::ScrollArea::horizontal().id_salt("stock").auto_shrink([false, true]).show(ui, |ui| {
        egui::Grid::new("stock")
            .striped(true)
            .min_row_height(desk.look.target())
            .spacing(vec2(12.0, 4.0))
            .show(ui, |ui| {
                let heads = [
                    "",
                    "How many",
                    "Water capacity",
                    "Tare",
                    "Contents",
                    "Marked limit",
                    "Temperature",
                    "Test date",
                    "In the sun",
                    "",
                ];
                for word in heads {
                    let font = fonts::bold(desk.look.measures.small);
                    ui.label(egui::RichText::new(word).font(font).color(desk.look.palette.ink2));
                }
                ui.end_row();
                let document = desk.scene.document();
                for (at, cylinder) in
                    std::iter::once(&document.cylinder).chain(&document.cylinders).enumerate()
                {
                    stock_row_ui(ui, desk, at, cylinder);
                    ui.end_row();
                }
            });
    });
    if command_ui(ui, "Another cylinder like the last", true, desk.look).clicked() {
        desk.edit(Edit::AddCylinder);
    }
    ui.add_space(4.0);
}

fn stock_row_ui(ui: &mut Ui, desk: &mut Desk, at: usize, cylinder: &Cylinder) {
    let name = match (&cylinder.name, at) {
        (Some(name), _) => format!("{}. {name}", at + 1),
        (None, 0) => "1. In use".to_owned(),
        (None, _) => format!("{}. Waiting", at + 1),
    };
    let chosen = desk.scene.session.view.cylinder == at;
    let shown = if chosen { format!("› {name}") } else { name };
    if command_ui(ui, &shown, true, desk.look).clicked() {
        desk.want(Action::Cylinder(at));
    }
    let path = if at == 0 { "cylinder".to_owned() } else { format!("cylinders.{}", at - 1) };
    let typed = |value: Option<&str>| value.unwrap_or_default().to_owned();
    let mass =
        |m: &Option<narrows::units::Typed<uom::si::f64::Mass>>| typed(m.as_ref().map(|m| m.as_typed()));
    if at == 0 {
        ui.label("1");
    } else {
        let count = cylinder.count.unwrap_or(1).to_string();
        bare_field_ui(
            ui,
            desk,
            &format!("Count of cylinder {}", at + 1),
            &format!("{path}.count"),
            &count,
            44.0,
        );
    }
    let fields = [
        ("Water capacity", "water_capacity", mass(&cylinder.water_capacity)),
        ("Tare", "tare", mass(&cylinder.tare)),
        ("Contents", "contents", mass(&cylinder.contents)),
        ("Marked limit", "marking_limit", mass(&cylinder.marking_limit)),
        ("Temperature", "temperature", cylinder.temperature.as_typed().to_owned()),
        ("Test date", "test_date", cylinder.test_date.as_ref().map(ToString::to_string).unwrap_or_default()),
    ];
    for (word, field, text) in fields {
        let label = format!("{word} of cylinder {}", at + 1);
        bare_field_ui(ui, desk, &label, &format!("{path}.{field}"), &text, 84.0);
    }
    let sun = yes_no("In the sun", cylinder.in_sun);
    choice_of_ui(ui, desk, &sun, &format!("{}, cylinder {}", sun.label, at + 1), &format!("{path}.in_sun"));
    if at == 0 {
        ui.label("");
    } else if command_ui(ui, &format!("Remove cylinder {}", at + 1), true, desk.look).clicked() {
        desk.edit(Edit::RemoveCylinder(at));
    }
}

/// One of a few words to choose, under the head of its column.
fn choice_of_ui(ui: &mut Ui, desk: &mut Desk, figure: &Figure, label: &str, path: &str) {
    let words: Vec<String> = figure.words.iter().map(ToString::to_string).collect();
    let width = 5.0 * desk.look.measures.body;
    let chosen = choice_ui(ui, label, &figure.value, &words, width, desk.look);
    if let Some(text) = chosen.and_then(|at| words.into_iter().nth(at)) {
        desk.edit(Edit::Set { path: path.to_owned(), text });
    }
}

fn schedule_ui(ui: &mut Ui, desk: &Desk) {
    let Ok(limits) = cylinders::limits(desk.scene) else { return };
    let (turns, said) = cylinders::schedule(desk.scene, limits);
    ui.add_space(8.0);
    title_ui(ui, desk.look, "Schedule");
    for (mark, sentence) in said {
        let word = match mark {
            crate::ui::symbols::Mark::Stop => "Stop",
            crate::ui::symbols::Mark::Warning => "Warning",
            _ => "Note",
        };
        finding_ui(ui, desk.look, mark, word, &sentence);
    }
    let m = &desk.look.measures;
    let name = |turn: &cylinders::Turn| {
        let font = fonts::regular(m.small);
        ui.painter().layout_no_wrap(turn.name.clone(), font, desk.look.palette.ink2).size().x
    };
    // As wide as the longest name needs.
    let width = turns.iter().map(name).fold(0.0, f32::max) + 44.0;
    let width = width.clamp(m.body * 16.0, (m.body * 30.0).min(ui.available_width().max(m.body * 16.0)));
    ui.horizontal_wrapped(|ui| {
        for turn in &turns {
            turn_ui(ui, desk, turn, width);
        }
    });
}

fn turn_ui(ui: &mut Ui, desk: &Desk, turn: &cylinders::Turn, width: f32) {
    let (m, p) = (&desk.look.measures, desk.look.palette);
    let size = vec2(width, m.body * 6.2);
    let (rect, response) = ui.allocate_exact_size(size, egui::Sense::hover());
    let stop = match &turn.stop {
        Some(stop) => format!("stop at {stop} gross"),
        None => "tare not known".to_owned(),
    };
    let need = if turn.only_high { "only for the high charge" } else { "" };
    let words = format!("{}, {stop}, takes {} {need}", turn.name, turn.takes);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, &words));
    let painter = ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
    let stroke = egui::Stroke::new(1.3 * m.line, p.edge);
    painter.rect(rect, 0.0, p.plate, stroke, egui::StrokeKind::Inside);
    let tank = Rect::from_min_max(rect.min + vec2(8.0, 8.0), pos2(rect.left() + 22.0, rect.bottom() - 8.0));
    painter.rect_filled(tank, 3.0, p.vapor);
    let level = tank.bottom() - turn.share.clamp(0.0, 1.0) * tank.height();
    painter.rect_filled(Rect::from_min_max(pos2(tank.left(), level), tank.max), 3.0, p.liquid);
    painter.rect_stroke(tank, 3.0, egui::Stroke::new(2.0, p.wall), egui::StrokeKind::Outside);
    let mut y = rect.top() + 7.0;
    let lines = [
        (turn.name.as_str(), fonts::regular(m.small), p.ink2),
        (stop.as_str(), fonts::bold(m.body), p.ink),
        (turn.takes.as_str(), fonts::regular(m.small), p.ink),
        (need, fonts::regular(m.small), p.ink2),
    ];
    for (text, font, color) in lines {
        let drawn = painter.text(pos2(tank.right() + 10.0, y), egui::Align2::LEFT_TOP, text, font, color);
        y = drawn.bottom() + 2.0;
    }
}
