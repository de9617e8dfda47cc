//! The chain: parts from left to right, cut open, in one passage.

pub mod paint;
mod second;

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
    /// Uncut: what is inside is not shown.
    pub covered: bool,
    /// A mark on the part.
    pub mark: Option<Mark>,
    /// All of it in words, for those who do not see the drawing.
    pub words: String,
}

/// The branch of a second port: a lighter passage above the first one, in the same columns.
#[derive(Clone, Debug, PartialEq)]
pub struct SecondRow {
    /// What stands in each column; a straight pipe where there is none.
    pub links: Vec<Option<Link>>,
    /// The column in front of which the branches meet.
    pub joins: usize,
    /// What flows in.
    pub fluid: Fluid,
    /// Which column has the focus box.
    pub selected: Option<usize>,
}

/// What was done to the columns.
pub struct ChainResponses {
    /// One a column.
    pub first: Vec<Response>,
    /// The second branch's parts with their columns.
    pub second: Vec<(usize, Response)>,
}

/// The whole chain.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Chain {
    /// Its columns.
    pub links: Vec<Link>,
    /// The branch of a second port, above the first one's.
    pub second: Option<SecondRow>,
    /// Which one has the focus box.
    pub selected: Option<usize>,
    /// What has the focus box is only tried.
    pub tried: bool,
    /// The answer is being renewed.
    pub stale: bool,
}

/// Height of the second branch's row; none without one.
pub fn second_height(chain: &Chain, look: &Look) -> f32 {
    if chain.second.is_some() { look.measures.small * 1.5 + look.measures.symbol * 0.6 } else { 0.0 }
}

/// Draws the chain and returns what was done to its columns.
pub fn chain_ui(ui: &mut Ui, rect: Rect, columns: &Columns, chain: &Chain, look: &Look) -> ChainResponses {
    let (above, rect) = rect.split_top_bottom_at_y(rect.top() + second_height(chain, look));
    let second = second_hits_ui(ui, above, columns, chain);
    let responses: Vec<Response> =
        (0..chain.links.len()).map(|i| hit_ui(ui, rect, columns, chain, i)).collect();
    if ui.is_rect_visible(above) {
        second::paint(ui.painter(), above, rect, columns, chain, &second, look);
    }
    if ui.is_rect_visible(rect) {
        let hovered = responses.iter().position(Response::hovered);
        let focused = responses.iter().position(Response::has_focus);
        paint::paint(ui.painter(), rect, columns, chain, hovered, focused, look);
    }
    ChainResponses { first: responses, second }
}

fn second_hits_ui(ui: &Ui, above: Rect, columns: &Columns, chain: &Chain) -> Vec<(usize, Response)> {
    let Some(row) = &chain.second else { return Vec::new() };
    let there = row.links.iter().enumerate().filter_map(|(i, link)| Some((i, link.as_ref()?)));
    there
        .map(|(i, link)| {
            let area = Rect::from_x_y_ranges(columns.span(i), above.y_range());
            let id = ui.scope_id().with(("second", i));
            let response = ui.interact(area, id, egui::Sense::click_and_drag());
            let chosen = row.selected == Some(i);
            response
                .widget_info(|| egui::WidgetInfo::selected(egui::Role::Button, true, chosen, &link.words));
            (i, response)
        })
        .collect()
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
