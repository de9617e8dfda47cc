//! The units of answers: each quantity on its own. What was typed is not changed by it.

use egui::Ui;
use narrows::units::{BoreUnit, LengthUnit, MassUnit, PressureUnit, RateUnit, TemperatureUnit, UnitSet};

use super::Desk;
use crate::ui::actions::Action;
use crate::ui::style::fonts;
use crate::ui::widgets::choice::choice_ui;
use crate::ui::widgets::word_button::command_ui;

/// One quantity: what it is called, its units by name, and the set with each of them.
struct Quantity {
    name: &'static str,
    /// In the command search, before the unit.
    words: &'static str,
    current: &'static str,
    others: Vec<(&'static str, UnitSet)>,
}

/// Mass, pressure and temperature in short, as the header shows them.
pub fn short_words(units: UnitSet) -> String {
    let pressure = if units.absolute { units.pressure.absolute() } else { units.pressure.name() };
    let pressure = if units == UnitSet::US_TRADE { units.pressure.gauge() } else { pressure };
    format!("{} {pressure} {}", units.mass.name(), units.temperature.name())
}

/// Every choice there is, in words for the command search.
pub fn choices(units: UnitSet) -> Vec<(String, UnitSet)> {
    let mut all = vec![
        ("Answers in lb psig °F".to_owned(), UnitSet::US_TRADE),
        ("Answers in kg bar °C".to_owned(), UnitSet::SI),
    ];
    for quantity in quantities(units) {
        let words = |(unit, set)| (format!("{} {unit}", quantity.words), set);
        all.extend(quantity.others.into_iter().map(words));
    }
    all
}

fn quantities(units: UnitSet) -> Vec<Quantity> {
    let set = units;
    let reference = |absolute: bool| if absolute { "absolute" } else { "gauge" };
    let sign = |comma: bool| if comma { "2,6" } else { "2.6" };
    vec![
        Quantity {
            name: "Pressure",
            words: "Pressures in",
            current: set.pressure.name(),
            others: PressureUnit::ALL.iter().map(|&u| (u.name(), UnitSet { pressure: u, ..set })).collect(),
        },
        Quantity {
            name: "Counted",
            words: "Pressures",
            current: reference(set.absolute),
            others: [false, true].map(|absolute| (reference(absolute), UnitSet { absolute, ..set })).into(),
        },
        Quantity {
            name: "Temperature",
            words: "Temperatures in",
            current: set.temperature.name(),
            others: TemperatureUnit::ALL
                .iter()
                .map(|&u| (u.name(), UnitSet { temperature: u, ..set }))
                .collect(),
        },
        Quantity {
            name: "Mass",
            words: "Masses in",
            current: set.mass.name(),
            others: MassUnit::ALL.iter().map(|&u| (u.name(), UnitSet { mass: u, ..set })).collect(),
        },
        Quantity {
            name: "Rate",
            words: "Rates in",
            current: set.rate.name(),
            others: RateUnit::ALL.iter().map(|&u| (u.name(), UnitSet { rate: u, ..set })).collect(),
        },
        Quantity {
            name: "Length",
            words: "Lengths in",
            current: set.length.name(),
            others: LengthUnit::ALL.iter().map(|&u| (u.name(), UnitSet { length: u, ..set })).collect(),
        },
        Quantity {
            name: "Bore",
            words: "Bores in",
            current: set.bore.name(),
            others: BoreUnit::ALL.iter().map(|&u| (u.name(), UnitSet { bore: u, ..set })).collect(),
        },
        Quantity {
            name: "Decimals",
            words: "Decimals as",
            current: sign(set.decimal_comma),
            others: [false, true].map(|comma| (sign(comma), UnitSet { decimal_comma: comma, ..set })).into(),
        },
    ]
}

/// The choice, across the window.
pub fn units_ui(ui: &mut Ui, desk: &mut Desk) {
    let scale = desk.look.measures.body / 13.0;
    ui.horizontal_wrapped(|ui| {
        for quantity in quantities(desk.scene.units()) {
            ui.horizontal(|ui| {
                ui.label(quantity.name);
                let names: Vec<String> = quantity.others.iter().map(|(name, _)| (*name).to_owned()).collect();
                let label = format!("Answers, {}", quantity.name.to_lowercase());
                let chosen = choice_ui(ui, &label, quantity.current, &names, 86.0 * scale, desk.look);
                if let Some((_, units)) = chosen.and_then(|at| quantity.others.get(at)) {
                    desk.want(Action::Units(*units));
                }
            });
        }
    });
    ui.horizontal_wrapped(|ui| {
        for (word, units) in [("All lb psig °F", UnitSet::US_TRADE), ("All kg bar °C", UnitSet::SI)] {
            if command_ui(ui, word, true, desk.look).clicked() {
                let decimal_comma = desk.scene.units().decimal_comma;
                desk.want(Action::Units(UnitSet { decimal_comma, ..units }));
            }
        }
        let follows = desk.scene.session.has_units_as_typed();
        if command_ui(ui, "As each document was typed", !follows, desk.look).clicked() {
            desk.want(Action::UnitsAsTyped);
        }
        if command_ui(ui, "Close", true, desk.look).clicked() {
            desk.want(Action::UnitsBox(false));
        }
        let says = "Answers only: what you typed stays as you typed it. Any unit can be typed in any field, with a \
                    point or a comma: 2.6 mm, 2,6 mm. Write thousands without a sign: 1234 lb.";
        let text = egui::RichText::new(says).font(fonts::regular(desk.look.measures.small));
        ui.add(egui::Label::new(text.color(desk.look.palette.ink2)).wrap());
    });
}
