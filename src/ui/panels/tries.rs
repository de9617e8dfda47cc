//! Words to hold for the thing in hand: what they do is shown as long as they are held.

use egui::Ui;
use narrows::kit::{Cord, Part};

use super::Desk;
use super::inspector::cord_path;
use crate::ui::actions::{Action, PartList};
use crate::ui::present::what_if::{WhatIf, branch_what_ifs, cord_what_ifs, supply_what_ifs, what_ifs};
use crate::ui::style::fonts;
use crate::ui::view::Selected;
use crate::ui::widgets::hold::{Hold, hold_ui};

/// What can be tried with the thing in hand, of the document as it stands.
pub fn tries_of(desk: &Desk) -> Vec<WhatIf> {
    let document = desk.scene.session.committed();
    match desk.scene.session.view.selected {
        Some(Selected::Supply) => supply_what_ifs(&document.supply),
        Some(Selected::Branch) => document.supply.branch.as_ref().map(branch_what_ifs).unwrap_or_default(),
        Some(Selected::Cord(at)) => {
            let cord = cords_of(desk).get(at);
            cord.map(|cord| cord_what_ifs(cord, at, &cord_path(desk, at))).unwrap_or_default()
        }
        Some(selected) => {
            let place = list_place(desk, selected);
            let part = place.and_then(|(list, at)| Some((list, at, part_at(desk, list, at)?)));
            part.map(|(list, at, part)| what_ifs(part, list, at, desk.shelf)).unwrap_or_default()
        }
        None => Vec::new(),
    }
}

/// The cords that feed the kit in hand, of the document as it stands.
pub fn cords_of<'a>(desk: &Desk<'a>) -> &'a [Cord] {
    let document = desk.scene.session.committed();
    let own = document.kits.get(desk.scene.hand()).and_then(|kit| kit.cords.as_ref());
    own.unwrap_or(&document.supply.cords)
}

/// The list that a selected thing is in, and its place there.
pub fn list_place(desk: &Desk, selected: Selected) -> Option<(PartList, usize)> {
    match selected {
        Selected::Part(at) => Some((PartList::Kit(desk.scene.hand()), at)),
        Selected::SecondPart(at) => Some((PartList::Second(desk.scene.hand()), at)),
        Selected::Discharge(at) => Some((PartList::Discharge, at)),
        _ => None,
    }
}

/// A part of the document as it stands, whatever is tried.
pub fn part_at<'a>(desk: &Desk<'a>, list: PartList, at: usize) -> Option<&'a Part> {
    let document = desk.scene.session.committed();
    match list {
        PartList::Kit(kit) => document.kits.get(kit)?.parts.get(at),
        PartList::Second(kit) => document.kits.get(kit)?.second_port.as_ref()?.parts.get(at),
        PartList::Discharge => document.discharge.get(at),
    }
}

/// The words; Enter or a second click keeps what is tried.
pub fn tries_ui(ui: &mut Ui, desk: &mut Desk, tries: &[WhatIf]) {
    if tries.is_empty() {
        return;
    }
    let trying = desk.scene.session.tried().is_some();
    let font = fonts::regular(desk.look.measures.small);
    let text = if trying { "Enter keeps" } else { "hold to try" };
    ui.label(egui::RichText::new(text).font(font).color(desk.look.palette.ink2));
    ui.spacing_mut().item_spacing.x = 0.0;
    for try_out in tries {
        let hold = |ui: &mut Ui| hold_ui(ui, try_out.word, &try_out.says, trying, desk.look);
        match ui.push_id(("try", try_out.word), hold).inner {
            Hold::Begun => desk.want(Action::Try(try_out.edit.clone())),
            Hold::Ended => desk.want(Action::EndTrial),
            Hold::Kept if trying => desk.want(Action::KeepTrial),
            Hold::Kept => desk.edit(try_out.edit.clone()),
            Hold::No => {}
        }
    }
}
