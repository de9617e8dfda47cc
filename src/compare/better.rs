//! A real change for each thing that has one: what a person could fit, buy or do next.
//!
//! Common practice, no source. A filter-drier is never left out, fixed wiring never changed.

use super::aspect::{Aspect, Group, Listed};
use crate::kit::{Cord, DrierState, FilterDrier, Lay, Part, PartKind};
use crate::presets::Shelf;
use crate::scenario::Document;
use crate::units::{Typed, TypedWire, WireSize};
use uom::si::f64::{Length, ThermodynamicTemperature};

/// A change for the better, in words and in the document.
#[derive(Debug, Clone, PartialEq)]
pub struct Change {
    /// "Take the core out (4.2 mm bore)".
    pub words: String,
    /// What is fitted, bought or done: prices go by it, in any kit.
    pub key: String,
    pub(super) effect: Effect,
}

/// What a change does.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Effect {
    /// The thing is not there any more.
    TakenOut,
    Part(Part),
    Cord(Cord),
    CylinderTemperature(Typed<ThermodynamicTemperature>),
}

/// The change for one aspect, if there is one.
pub(super) fn change(document: &Document, listed: &Listed, shelf: &Shelf) -> Option<Change> {
    match listed.aspect {
        Aspect::PathPart(_) | Aspect::SecondPart(_) | Aspect::DischargePart(_) => {
            part_change(part(document, listed.aspect)?, listed.group, shelf)
        }
        Aspect::Cord(index) => cord_changes(cords(document)?.get(index)?).next(),
        Aspect::CylinderTemperature => cylinder_change(document),
        Aspect::InletThrottle
        | Aspect::Source
        | Aspect::Condenser
        | Aspect::CylinderAir
        | Aspect::Supply
        | Aspect::Branch => None,
    }
}

/// What can be tried for one aspect until the motor starts: one cord after the other, each thicker than
/// the last; else the one change that there is.
pub(super) fn changes_to_start(document: &Document, listed: &Listed, shelf: &Shelf) -> Vec<Change> {
    match listed.aspect {
        Aspect::Cord(index) => {
            let cord = cords(document).and_then(|cords| cords.get(index));
            cord.map_or(Vec::new(), |cord| cord_changes(cord).collect())
        }
        _ => change(document, listed, shelf).into_iter().collect(),
    }
}

/// Puts a change's new thing into the document; whether the thing is taken out instead.
pub(super) fn apply(document: &mut Document, aspect: Aspect, effect: &Effect) -> bool {
    match effect {
        Effect::TakenOut => return true,
        Effect::Part(part) => {
            if let Some(slot) = part_mut(document, aspect) {
                *slot = part.clone();
            }
        }
        Effect::Cord(cord) => {
            if let Aspect::Cord(index) = aspect
                && let Some(slot) = cords_mut(document).and_then(|cords| cords.get_mut(index))
            {
                *slot = cord.clone();
            }
        }
        Effect::CylinderTemperature(temperature) => document.cylinder.temperature = temperature.clone(),
    }
    false
}

/// Takes a part out of a document's only kit, or of its discharge.
pub(super) fn take_out(document: &mut Document, aspect: Aspect) {
    let parts = match aspect {
        Aspect::PathPart(_) => document.kits.first_mut().map(|kit| &mut kit.parts),
        Aspect::SecondPart(_) => {
            document.kits.first_mut().and_then(|kit| kit.second_port.as_mut()).map(|port| &mut port.parts)
        }
        Aspect::DischargePart(_) => Some(&mut document.discharge),
        _ => None,
    };
    if let (Some(parts), Aspect::PathPart(at) | Aspect::SecondPart(at) | Aspect::DischargePart(at)) =
        (parts, aspect)
        && at < parts.len()
    {
        parts.remove(at);
    }
}

/// The part of a document's only kit, or of its discharge.
pub(super) fn part(document: &Document, aspect: Aspect) -> Option<&Part> {
    let kit = document.kits.first()?;
    match aspect {
        Aspect::PathPart(index) => kit.parts.get(index),
        Aspect::SecondPart(index) => kit.second_port.as_ref()?.parts.get(index),
        Aspect::DischargePart(index) => document.discharge.get(index),
        _ => None,
    }
}

fn part_mut(document: &mut Document, aspect: Aspect) -> Option<&mut Part> {
    match aspect {
        Aspect::PathPart(index) => document.kits.first_mut()?.parts.get_mut(index),
        Aspect::SecondPart(index) => document.kits.first_mut()?.second_port.as_mut()?.parts.get_mut(index),
        Aspect::DischargePart(index) => document.discharge.get_mut(index),
        _ => None,
    }
}

fn cords(document: &Document) -> Option<&Vec<Cord>> {
    let kit = document.kits.first()?;
    Some(kit.cords.as_ref().unwrap_or(&document.supply.cords))
}

fn cords_mut(document: &mut Document) -> Option<&mut Vec<Cord>> {
    let kit = document.kits.first_mut()?;
    Some(kit.cords.as_mut().unwrap_or(&mut document.supply.cords))
}

fn part_change(part: &Part, group: Group, shelf: &Shelf) -> Option<Change> {
    let fit = |id: &str, what: &str| {
        let item = shelf.part(id)?;
        is_wider(&item.item, part).then(|| Change {
            words: match item.item.bore() {
                Some(bore) => format!("{what} ({bore} bore)"),
                None => what.to_owned(),
            },
            key: id.to_owned(),
            effect: Effect::Part(item.taken()),
        })
    };
    match part.kind() {
        PartKind::ValveCore => fit("stem-quarter", "Take the core out"),
        PartKind::SelfSealingEnd => fit("ball-valve-quarter", "Fit a ball valve instead"),
        PartKind::BallValve => fit("ball-valve-three-eighths", "Fit a wider ball valve"),
        PartKind::InletScreen => fit("inlet-screen-clean", "Clean it"),
        // The valve on a cylinder and one that pierces a pipe are as wide as they are.
        PartKind::ServiceValve if matches!(part.from(), None | Some("service-valve-half")) => {
            fit("service-valve-open", "Open it fully")
        }
        PartKind::Hose => wider_hose(part, shelf),
        PartKind::FilterDrier => fresh_drier(part),
        PartKind::GaugeSet | PartKind::Adapter if group == Group::Path => Some(Change {
            words: "Take it out of the line".to_owned(),
            key: format!("without {}", part.kind().tag()),
            effect: Effect::TakenOut,
        }),
        _ => None,
    }
}

fn is_wider(one: &Part, other: &Part) -> bool {
    match (one.bore(), other.bore()) {
        (Some(one), Some(other)) => one.si() > other.si(),
        _ => false,
    }
}

/// The next hose of the shelf, as long as this one.
fn wider_hose(part: &Part, shelf: &Shelf) -> Option<Change> {
    let (Part::Hose(tube), wider) = (part, |id: &str| shelf.part(id)) else { return None };
    let item = ["hose-three-eighths", "hose-half"]
        .into_iter()
        .filter_map(wider)
        .find(|item| is_wider(&item.item, part))?;
    let Part::Hose(next) = item.taken() else { return None };
    let bore: &Typed<Length> = &next.bore;
    let words = format!("Fit a wider hose ({bore} bore, {})", tube.length);
    let (length, rise) = (tube.length.clone(), tube.rise.clone());
    Some(Change {
        words,
        key: format!("{} {length}", item.id),
        effect: Effect::Part(Part::Hose(crate::kit::Tube { length, rise, from: None, ..next })),
    })
}

fn fresh_drier(part: &Part) -> Option<Change> {
    let Part::FilterDrier(drier) = part else { return None };
    if drier.area_left_ratio() >= 1.0 {
        return None;
    }
    let fresh = FilterDrier { state: DrierState::Clean, area_left: None, from: None, ..drier.clone() };
    Some(Change {
        words: "Fit a fresh one".to_owned(),
        key: "fresh filter-drier".to_owned(),
        effect: Effect::Part(Part::FilterDrier(fresh)),
    })
}

/// Metric sizes of cords, in mm² (IEC 60228).
const METRIC_MM2: [f64; 5] = [1.0, 1.5, 2.5, 4.0, 6.0];
/// What people take who know that a cord is too thin, and what they take if that is not enough.
const THICKER_AWG: [i32; 2] = [12, 10];

/// The next thicker wire that people take, if there is one.
pub fn thicker(wire: WireSize) -> Option<TypedWire> {
    let text = match wire {
        WireSize::Awg(number) => {
            let next = THICKER_AWG.into_iter().find(|thicker| *thicker < number)?;
            format!("{next} AWG")
        }
        WireSize::SquareMillimetres(mm2) => {
            let next = METRIC_MM2.into_iter().find(|size| *size > mm2 + 1e-9)?;
            format!("{next} mm2")
        }
    };
    TypedWire::parse(&text).ok()
}

/// The thicker cords that people take, the next one first, each laid out.
fn cord_changes(cord: &Cord) -> impl Iterator<Item = Change> {
    std::iter::successors(thicker(cord.gauge.size()), |gauge| thicker(gauge.size())).map(|gauge| {
        let words = format!("Take a thicker cord ({gauge}, {}, laid out)", cord.length);
        let key = format!("cord {gauge} {}", cord.length);
        let next = Cord { gauge, lay: Lay::Straight, marked_current: None, from: None, ..cord.clone() };
        Change { words, key, effect: Effect::Cord(next) }
    })
}

/// Shade and water bring a cylinder to about this much below the air. Invented.
const BATH_BELOW_AIR_K: f64 = 10.0 / 1.8;

fn cylinder_change(document: &Document) -> Option<Change> {
    let bath_k = document.ambient.temperature.si() - BATH_BELOW_AIR_K;
    if document.cylinder.temperature.si() <= bath_k {
        return None;
    }
    let temperature = Typed::of(bath_k, "K").ok()?;
    Some(Change {
        words: "Stand it in shade and water, 10 °F below the air".to_owned(),
        key: "shade and water".to_owned(),
        effect: Effect::CylinderTemperature(temperature),
    })
}
