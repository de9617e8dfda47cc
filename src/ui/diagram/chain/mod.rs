//! The chain: parts from left to right, cut open, in one passage.

pub mod paint;

use egui::{Rect, Response, Ui};

use super::columns::Columns;
use crate::ui::style::Look;
use crate::ui::symbols::{Fluid, Mark, Symbol};

/// One column of the chain.
#[derive(Clone, Debug, PartialEq)]
pub struct Link {
    /// What is drawn; `None` where this kit has no part and another one has (a dashed bridge).
    pub symbol: Option<Symbol>,
    /// First label line.
    pub name: String,
    /// Second label line.
    pub detail: String,
    /// What flows through.
    pub fluid: Fluid,
    /// Whether a pipe enters from the left.
    pub joined_left: bool,
    /// Whether a pipe leaves to the right.
    pub joined_right: bool,
    /// A mark on the part.
    pub mark: Option<Mark>,
    /// All of it in words, for those who do not see the drawing.
    pub words: String,
}

/// The whole chain.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Chain {
    /// Its columns.
    pub links: Vec<Link>,
    /// Which one has the focus box.
    pub selected: Option<usize>,
    /// The answer is being renewed.
    pub stale: bool,
}

/// Draws the chain and returns one response a column, in order.
pub fn chain_ui(ui: &mut Ui, rect: Rect, columns: &Columns, chain: &Chain, look: &Look) -> Vec<Response> {
    let responses: Vec<Response> =
        (0..chain.links.len()).map(|i| hit_ui(ui, rect, columns, chain, i)).collect();
    if ui.is_rect_visible(rect) {
        let hovered = responses.iter().position(Response::hovered);
        let focused = responses.iter().position(Response::has_focus);
        paint::paint(ui.painter(), rect, columns, chain, hovered, focused, look);
    }
    responses
}

fn hit_ui(ui: &Ui, rect: Rect, columns: &Columns, chain: &Chain, i: usize) -> Response {
    let area = Rect::from_x_y_ranges(columns.span(i), rect.y_range());
    let response = ui.interact(area, ui.scope_id().with(("link", i)), egui::Sense::click_and_drag());
    if let Some(link) = chain.links.get(i) {
        let chosen = chain.selected == Some(i);
        response.widget_info(|| egui::WidgetInfo::selected(egui::Role::Button, true, chosen, &link.words));
    }
    response
}
