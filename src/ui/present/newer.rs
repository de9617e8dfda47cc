//! Things in the document whose shelf entry has newer figures: what differs, and what keeping the
//! old ones or taking the new ones would be.

use narrows::kit::{Branch, Cylinder, Part};
use narrows::presets::{OnShelf, Shelf};

use super::figures::{self, Figure};
use super::{Scene, parts, volts};
use crate::ui::actions::{Edit, PartList};
use crate::ui::view::Selected;

/// News from the shelf about one thing.
#[derive(Clone, Debug)]
pub struct Newer {
    /// What differs, as "bore 5.1 mm instead of 4.8 mm".
    pub words: String,
    /// The document's figures stay, and the shelf's are known.
    pub keep: Edit,
    /// The shelf's figures take their place.
    pub update: Edit,
}

/// News about something of the kit in hand.
pub fn newer(scene: &Scene, shelf: &Shelf, selected: Selected) -> Option<Newer> {
    let (document, hand) = (scene.document(), scene.hand());
    let part = |list: PartList, at: usize, part: &Part| {
        found(shelf, part, Clone::clone, |part| Edit::Replace { list, at, part: Box::new(part) })
    };
    let machine = scene.kit().and_then(|kit| kit.machine.as_ref()).unwrap_or(&document.machine);
    match selected {
        Selected::Part(at) => part(PartList::Kit(hand), at, scene.kit()?.parts.get(at)?),
        Selected::SecondPart(at) => part(PartList::Second(hand), at, scene.second_port()?.parts.get(at)?),
        Selected::Discharge(at) => part(PartList::Discharge, at, document.discharge.get(at)?),
        Selected::Machine => found(shelf, machine, Clone::clone, |new| Edit::SwapMachine(Box::new(new))),
        Selected::Motor => found(shelf, &machine.motor, Clone::clone, |new| Edit::SwapMotor(Box::new(new))),
        Selected::Cylinder => {
            let old = &document.cylinder;
            found(shelf, old, |new| in_use(old, new), |new| Edit::SwapCylinder(Box::new(new)))
        }
        Selected::Branch => {
            let old = document.supply.branch.as_ref()?;
            let loaded = |new: &Branch| Branch { other_load: old.other_load.clone(), ..new.clone() };
            found(shelf, old, loaded, |new| Edit::SwapBranch(Box::new(new)))
        }
        Selected::Cord(at) => {
            let old = volts::cords(scene).get(at)?;
            found(shelf, old, Clone::clone, |new| Edit::SwapCord { at, cord: Box::new(new) })
        }
        Selected::Source | Selected::Supply => None,
    }
}

/// Everything of the kit in hand that there is news about: its name, what differs.
pub fn all_newer(scene: &Scene) -> Vec<(String, String)> {
    let shelf = scene.session.shelf().all();
    let document = scene.document();
    let kit = scene.kit();
    let parts = (0..kit.map_or(0, |kit| kit.parts.len())).map(Selected::Part);
    let second = (0..scene.second_port().map_or(0, |second| second.parts.len())).map(Selected::SecondPart);
    let discharge = (0..document.discharge.len()).map(Selected::Discharge);
    let cords = (0..volts::cords(scene).len()).map(Selected::Cord);
    let others = [Selected::Machine, Selected::Motor, Selected::Cylinder, Selected::Branch];
    let all = parts.chain(second).chain(discharge).chain(cords).chain(others);
    all.filter_map(|thing| Some((name_of(scene, thing), newer(scene, shelf, thing)?.words))).collect()
}

fn name_of(scene: &Scene, thing: Selected) -> String {
    let numbered = |word: &str, at: usize, part: Option<&Part>| {
        format!("{word} {}, {}", at + 1, part.map(parts::name).unwrap_or_default())
    };
    match thing {
        Selected::Part(at) => numbered("Part", at, scene.kit().and_then(|kit| kit.parts.get(at))),
        Selected::SecondPart(at) => {
            numbered("Second port, part", at, scene.second_port().and_then(|second| second.parts.get(at)))
        }
        Selected::Discharge(at) => numbered("Discharge part", at, scene.document().discharge.get(at)),
        Selected::Machine => "The machine".to_owned(),
        Selected::Motor => "The motor".to_owned(),
        Selected::Cylinder => "The cylinder".to_owned(),
        Selected::Branch => "The branch circuit".to_owned(),
        Selected::Cord(at) => format!("Cord {}", at + 1),
        Selected::Source | Selected::Supply => "The supply".to_owned(),
    }
}

/// What is in a cylinder today is the job's, not the shelf's.
fn in_use(old: &Cylinder, new: &Cylinder) -> Cylinder {
    Cylinder {
        temperature: old.temperature.clone(),
        contents: old.contents.clone(),
        refrigerant: old.refrigerant.clone(),
        surroundings: old.surroundings.clone(),
        in_sun: old.in_sun,
        count: old.count,
        ..new.clone()
    }
}

/// `updated` makes of the shelf's thing what would stand in the document.
fn found<T: OnShelf>(
    shelf: &Shelf,
    copy: &T,
    updated: impl Fn(&T) -> T,
    edit: impl Fn(T) -> Edit,
) -> Option<Newer> {
    let item = shelf.newer(copy)?;
    let (mut kept, mut new) = (copy.clone(), updated(&item.taken()));
    kept.set_from(Some(item.remembered()));
    // What its owner calls it stays.
    if copy.name().is_some() {
        new.set_name(copy.name().map(str::to_owned));
    }
    (kept != new).then(|| Newer { words: differences(copy, &new), keep: edit(kept), update: edit(new) })
}

fn differences<T: OnShelf>(copy: &T, new: &T) -> String {
    let (old, new) = (figures::of_thing(&copy.clone().into()), figures::of_thing(&new.clone().into()));
    let mut all = Vec::new();
    for new in &new {
        let Some(old) = old.iter().find(|old| old.path == new.path) else { continue };
        if old.value != new.value {
            all.push(format!("{} {} instead of {}", lower(new), said(&new.value), said(&old.value)));
        } else if old.band != new.band {
            all.push(format!("{} band {} instead of {}", lower(new), band_text(new), band_text(old)));
        }
    }
    if all.is_empty() { "its other details differ".to_owned() } else { all.join(", ") }
}

/// The label inside a sentence; "Recovery F_L" keeps its symbol.
fn lower(figure: &Figure) -> String {
    let mut letters = figure.label.chars();
    letters
        .next()
        .map(|first| first.to_lowercase().collect::<String>() + letters.as_str())
        .unwrap_or_default()
}

fn said(value: &str) -> &str {
    if value.is_empty() { "none" } else { value }
}

/// Low to high, or none; a unit that both have is written once.
pub fn band_text(figure: &Figure) -> String {
    let Some((low, high)) = &figure.band else { return "none".to_owned() };
    match (low.split_once(' '), high.split_once(' ')) {
        (Some((number, unit)), Some((_, other))) if unit == other => format!("{number} to {high}"),
        _ => format!("{low} to {high}"),
    }
}
