//! A row at the foot of the voltage stairs: sizes of the wire in hand, and words to hold.

use egui::{Rect, Ui, pos2, vec2};

use super::Desk;
use super::edit_field::worded_field_ui;
use super::inspector::cord_path;
use super::tries::{cords_of, tries_of, tries_ui};
use crate::ui::diagram::volts::VoltsPlace;
use crate::ui::present::figures;
use crate::ui::view::Selected;
use crate::ui::widgets::boxed_row::boxed_row_ui;

/// Shows the row if a wire is in hand; returns the place that is left for the stairs.
pub fn under_wire_ui(ui: &mut Ui, desk: &mut Desk, place: VoltsPlace) -> VoltsPlace {
    let Some(column) = column(desk, place) else { return place };
    let tries = tries_of(desk);
    let fields = fields(desk);
    let target = desk.look.target();
    if place.rect.height() < 4.0 * target {
        return place;
    }
    let scale = desk.look.measures.body / 13.0;
    let width =
        ((88.0 + 56.0 * tries.len() as f32) * scale + 142.0 * fields.len() as f32).min(place.rect.width());
    let left = column.min.min(place.rect.right() - width).max(place.rect.left());
    let top = place.rect.bottom() - target;
    let rect = Rect::from_min_size(pos2(left, top), vec2(width, target - 2.0));
    boxed_row_ui(ui, "under wire", rect, desk.look, |ui| {
        for (word, label, path, text) in &fields {
            worded_field_ui(ui, desk, (word, label), path, text, 74.0);
        }
        tries_ui(ui, desk, &tries);
    });
    VoltsPlace { rect: Rect::from_min_max(place.rect.min, pos2(place.rect.right(), top - 2.0)), ..place }
}

/// The column of the wire in hand, of the document as it stands.
fn column(desk: &Desk, place: VoltsPlace) -> Option<egui::Rangef> {
    let document = desk.scene.session.committed();
    let cords = cords_of(desk).len();
    let branch = usize::from(document.supply.branch.is_some());
    let at = match desk.scene.session.view.selected? {
        Selected::Supply => 0,
        Selected::Branch if branch > 0 => 1,
        Selected::Cord(at) if at < cords => 2 + branch + at,
        _ => return None,
    };
    Some(place.span(at, 2 + branch + cords))
}

/// Word, label, path and text of each size, of the document as it stands: what is tried must not
/// move the words that are held.
fn fields(desk: &Desk) -> Vec<(&'static str, String, String, String)> {
    let supply = &desk.scene.session.committed().supply;
    let (name, path, all) = match desk.scene.session.view.selected {
        Some(Selected::Supply) => {
            let voltage = supply.voltage.to_string();
            return vec![(
                "Voltage",
                "Voltage of the supply".to_owned(),
                "supply.voltage".to_owned(),
                voltage,
            )];
        }
        Some(Selected::Branch) => {
            let figures = supply.branch.as_ref().map(figures::of_branch).unwrap_or_default();
            ("the branch circuit".to_owned(), "supply.branch".to_owned(), figures)
        }
        Some(Selected::Cord(at)) => {
            let figures = cords_of(desk).get(at).map(figures::of_cord).unwrap_or_default();
            (format!("cord {}", at + 1), cord_path(desk, at), figures)
        }
        _ => return Vec::new(),
    };
    let sizes = all.into_iter().filter(|figure| matches!(figure.path, "gauge" | "length"));
    sizes
        .map(|figure| {
            let label = format!("{} of {name}", figure.label);
            (figure.label, label, format!("{path}.{}", figure.path), figure.value)
        })
        .collect()
}
