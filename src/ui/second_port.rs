//! Edits of a kit with a second port: where the branches meet moves along with the parts.

use narrows::kit::{Kit, Part, SecondPort};
use narrows::scenario::Document;

use super::actions::PartList;

/// Gives a kit a second port: a copy of the first one's branch, up to the first tee, else up to
/// the gauge set, else of two parts.
pub fn add(kit: &mut Kit) {
    let of = |wanted: fn(&Part) -> bool| kit.parts.iter().position(wanted).filter(|at| *at > 0);
    let joins_before = of(|p| matches!(p, Part::Tee(_)))
        .or_else(|| of(|p| matches!(p, Part::GaugeSet(_))))
        .unwrap_or(2)
        .min(kit.parts.len());
    let parts = kit.parts.iter().take(joins_before).cloned().collect();
    kit.second_port = Some(SecondPort { port: None, parts, joins_before });
}

/// A part put in front of the meeting stands on the first branch.
pub fn after_insert(document: &mut Document, list: PartList, at: usize) {
    if let Some(joins_before) = meeting(document, list)
        && at <= *joins_before
    {
        *joins_before += 1;
    }
}

/// A part gone from the first branch brings the meeting nearer.
pub fn after_remove(document: &mut Document, list: PartList, at: usize) {
    if let Some(joins_before) = meeting(document, list)
        && at < *joins_before
    {
        *joins_before -= 1;
    }
}

/// A part that crosses the meeting changes sides.
pub fn after_move(document: &mut Document, list: PartList, from: usize, to: usize) {
    let Some(joins_before) = meeting(document, list) else { return };
    if from < *joins_before && to >= *joins_before {
        *joins_before -= 1;
    } else if from >= *joins_before && to < *joins_before {
        *joins_before += 1;
    }
}

fn meeting(document: &mut Document, list: PartList) -> Option<&mut usize> {
    match list {
        PartList::Kit(kit) => Some(&mut document.kits.get_mut(kit)?.second_port.as_mut()?.joins_before),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn document() -> Document {
        let scenario = narrows::presets::scenarios().iter().find(|s| s.id == "hospital-two-ports").unwrap();
        narrows::scenario::read(scenario.text).unwrap()
    }

    fn joins(document: &Document) -> usize {
        document.kits[1].second_port.as_ref().unwrap().joins_before
    }

    /// The scenario's branches meet before part 2, the tee; each line by hand.
    #[test]
    fn the_meeting_stays_at_the_tee() {
        let list = PartList::Kit(1);
        let mut d = document();
        assert_eq!(joins(&d), 2);
        after_insert(&mut d, list, 0);
        assert_eq!(joins(&d), 3);
        after_insert(&mut d, list, 4);
        assert_eq!(joins(&d), 3);
        after_remove(&mut d, list, 0);
        assert_eq!(joins(&d), 2);
        after_move(&mut d, list, 0, 2);
        assert_eq!(joins(&d), 1);
        after_move(&mut d, list, 3, 0);
        assert_eq!(joins(&d), 2);
        after_insert(&mut d, PartList::Second(1), 0);
        after_insert(&mut d, PartList::Discharge, 0);
        after_insert(&mut d, PartList::Kit(0), 0);
        assert_eq!(joins(&d), 2);
    }

    #[test]
    fn a_new_port_is_a_copy_up_to_the_tee() {
        let mut kit = document().kits[0].clone();
        add(&mut kit);
        let second = kit.second_port.as_ref().unwrap();
        assert_eq!((second.joins_before, second.parts.as_slice()), (2, &kit.parts[..2]));
        let mut bare = Kit::new("X", Vec::new());
        add(&mut bare);
        assert_eq!(bare.second_port.unwrap().joins_before, 0);
    }
}
