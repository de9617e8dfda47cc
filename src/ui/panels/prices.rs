//! Fields for what work, kits and changes cost.

use egui::{Ui, vec2};
use narrows::kit::Price;
use narrows::report::Ranked;

use super::Desk;
use super::edit_field::{Empty, empty_field_ui};
use super::findings::{small_ui, title_ui};
use crate::ui::actions::Edit;
use crate::ui::present::counts;
use crate::ui::style::fonts;
use crate::ui::widgets::field::Field;

const PRICE: Empty<'_> = Empty { hint: "price", unit: "" };
const COUNT: Empty<'_> = Empty { hint: "number", unit: "" };

/// What a minute of work costs.
pub fn minute_price_ui(ui: &mut Ui, desk: &mut Desk) {
    let typed = desk.scene.document().prices.as_ref().and_then(|list| list.minute.as_ref());
    let typed = typed.map(|price| price.as_typed().to_owned()).unwrap_or_default();
    ui.horizontal(|ui| {
        small_ui(ui, desk.look, "A minute of work costs");
        let width = 6.0 * desk.look.measures.body;
        empty_field_ui(ui, desk, "Price of a minute", "prices.minute", &typed, PRICE, width);
        small_ui(ui, desk.look, "in any currency");
    });
}

/// What each kit costs on this job, and how many machines it runs.
pub fn kit_prices_ui(ui: &mut Ui, desk: &mut Desk) {
    title_ui(ui, desk.look, "Prices and machines");
    minute_price_ui(ui, desk);
    let width = 6.0 * desk.look.measures.body;
    egui::Grid::new("kit prices").num_columns(5).spacing(vec2(12.0, 4.0)).show(ui, |ui| {
        for kit in &desk.scene.document().kits {
            let text = egui::RichText::new(format!("Kit {}", kit.name));
            ui.label(text.font(fonts::bold(desk.look.measures.small)));
            small_ui(ui, desk.look, "costs");
            let price = kit.price.as_ref().map(|p| p.as_typed().to_owned()).unwrap_or_default();
            let path = format!("kits.{}.price", kit.name);
            empty_field_ui(ui, desk, &format!("Price of kit {}", kit.name), &path, &price, PRICE, width);
            small_ui(ui, desk.look, "machines");
            let machines = kit.machines.map(|count| count.to_string()).unwrap_or_default();
            let path = format!("kits.{}.machines", kit.name);
            empty_field_ui(
                ui,
                desk,
                &format!("Machines of kit {}", kit.name),
                &path,
                &machines,
                COUNT,
                width,
            );
            ui.end_row();
        }
    });
}

/// What each change costs, and what comes of it.
pub fn change_prices_ui(ui: &mut Ui, desk: &mut Desk, ranked: &Ranked) {
    let priced = counts::priced(desk.scene, ranked);
    if priced.is_empty() {
        return;
    }
    title_ui(ui, desk.look, "What it costs");
    minute_price_ui(ui, desk);
    let width = 6.0 * desk.look.measures.body;
    egui::Grid::new("change prices").num_columns(3).spacing(vec2(12.0, 4.0)).show(ui, |ui| {
        for (better, typed, outcome) in priced {
            ui.label(egui::RichText::new(&better.words).font(fonts::regular(desk.look.measures.body)));
            let label = format!("Price of: {}", better.words);
            let field = Field::new(&label, &typed).width(width).hint("price").bare();
            let id = ui.scope_id().with(("price", &better.key));
            if let Some(text) = field.show(ui, id, desk.look, accept) {
                desk.edit(Edit::SetPrice { name: better.key.clone(), text });
            }
            ui.label(egui::RichText::new(outcome).font(fonts::bold(desk.look.measures.body)));
            ui.end_row();
        }
    });
}

/// Nothing, or a plain number of 0 or more.
fn accept(text: &str) -> Result<(), String> {
    if text.trim().is_empty() {
        return Ok(());
    }
    match Price::parse(text) {
        Ok(price) if price.unit().is_empty() && price.value().value >= 0.0 => Ok(()),
        _ => Err("expected a plain number of 0 or more, as 25".to_owned()),
    }
}
