//! The branch of a second port, in the same columns as the first one's.

use narrows::compare::same_job;
use narrows::kit::{Kit, Part, PartKind, SecondPort};
use narrows::scenario::Document;

use super::chain::{fluid_of, joined};
use super::scale::PressureScale;
use super::stairs::part_stair;
use super::{Scene, Slot};
use crate::ui::diagram::chain::{Link, SecondRow};
use crate::ui::diagram::stairs::{Run, Stair};
use crate::ui::view::Selected;

/// Where the second branch stands.
#[derive(Clone, Debug, PartialEq)]
pub struct SecondSlots {
    /// For each column the place of a part of the second branch, or none.
    pub places: Vec<Option<usize>>,
    /// The column in front of which the branches meet.
    pub joins: usize,
}

impl<'a> Scene<'a> {
    /// The second port of the kit in hand.
    pub fn second_port(&self) -> Option<&'a SecondPort> {
        self.kit()?.second_port.as_ref()
    }

    /// What of the second branch stands in a column.
    pub fn second_at(&self, slot: usize) -> Option<Selected> {
        self.second.as_ref()?.places.get(slot).copied().flatten().map(Selected::SecondPart)
    }
}

/// Places the second branch of a kit; makes room for it where it has more parts than the first.
pub fn place(document: &Document, hand: usize, slots: &mut Vec<Slot>) -> Option<SecondSlots> {
    let kit = document.kits.get(hand)?;
    let second = kit.second_port.as_ref()?;
    let part_at = |slot: &Slot| match slot {
        Slot::Part(places) => places.get(hand).copied().flatten(),
        _ => None,
    };
    let machine = slots.iter().position(|s| *s == Slot::Machine)?;
    let mut joins = slots.iter().position(|s| part_at(s) == Some(second.joins_before)).unwrap_or(machine);
    while joins.saturating_sub(1) < second.parts.len() {
        slots.insert(joins, Slot::Part(vec![None; document.kits.len()]));
        joins += 1;
    }
    let own: Vec<Option<PartKind>> = slots
        .iter()
        .take(joins)
        .map(|slot| part_at(slot).and_then(|at| kit.parts.get(at)).map(Part::kind))
        .collect();
    let mut places = vec![None; slots.len()];
    let mut next = 1;
    for (at, part) in second.parts.iter().enumerate() {
        // Under its like where the parts still to come have room behind it.
        let last = joins - (second.parts.len() - at);
        let alike =
            (next..=last).find(|i| own.get(*i).copied().flatten().is_some_and(|k| same_job(k, part.kind())));
        let slot = alike.unwrap_or(next);
        if let Some(place) = places.get_mut(slot) {
            *place = Some(at);
        }
        next = slot + 1;
    }
    Some(SecondSlots { places, joins })
}

/// The row above the first branch.
pub fn row(scene: &Scene) -> Option<SecondRow> {
    let slots = scene.second.as_ref()?;
    let second = scene.second_port()?;
    let solved = scene.point(scene.hand()).and_then(|p| p.second.as_ref());
    let port = second.port.or(scene.kit()?.port).unwrap_or(scene.document().source.port);
    let link = |at: usize| -> Option<Link> {
        let part = second.parts.get(at)?;
        let mut link = joined(scene, part, solved.and_then(|s| s.parts.get(at)), fluid_of(port));
        link.words = format!("second port, {}", link.words);
        Some(link)
    };
    let links = slots.places.iter().map(|place| place.and_then(link)).collect();
    let selected = match scene.session.view.selected {
        Some(Selected::SecondPart(at)) => slots.places.iter().position(|p| *p == Some(at)),
        _ => None,
    };
    Some(SecondRow { links, joins: slots.joins, fluid: fluid_of(port), selected })
}

/// The second branch's stairs up to the meeting, and its share of the flow in words.
pub fn run(scene: &Scene, scale: PressureScale) -> Option<(Run, String)> {
    let slots = scene.second.as_ref()?;
    let point = scene.point(scene.hand())?;
    let solved = point.second.as_ref()?;
    let kit: &Kit = scene.solved_document()?.kits.get(scene.hand())?;
    let second = kit.second_port.as_ref()?;
    // An answer for other parts cannot be drawn in these columns.
    if second.parts.len() != solved.parts.len() || scene.second_port()?.parts.len() != solved.parts.len() {
        return None;
    }
    let whole = scale.on(point.system_pressure - point.machine_inlet_pressure).max(1e-9);
    let mut at = scale.on(point.system_pressure);
    let mut stairs = Vec::new();
    for place in slots.places.iter().take(slots.joins) {
        let stair = match place {
            Some(i) => {
                part_stair(solved.parts.get(*i)?, second.parts.get(*i)?.tube().is_some(), whole, scale)
            }
            None => Stair::level(at),
        };
        at = stair.levels.last().copied().unwrap_or(at);
        stairs.push(stair);
    }
    let units = scene.units();
    let share = format!(
        "{} and {} meet",
        super::scale::number_and_unit(&units.rate(solved.first_mass_flow)).0,
        units.rate(solved.mass_flow)
    );
    Some((Run { kit: scene.hand(), letter: String::new(), stairs }, share))
}
