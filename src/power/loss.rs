//! Which stretch of a power path loses most volts. All cords count as one stretch, since they are
//! replaced or moved together.

use uom::si::electric_potential::volt;
use uom::si::f64::ElectricPotential;

use super::point::{Element, ElementKind, PowerPoint};

/// A stretch of the power path that can be changed by itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LosesMost {
    /// Service or generator.
    Supply,
    /// The branch circuit in the wall.
    Branch,
    /// The receptacle's contacts.
    Receptacle,
    /// The cords.
    Cords,
}

impl LosesMost {
    /// Of two that lose as much, the one that is easier to change comes first.
    const ALL: [Self; 4] = [Self::Cords, Self::Receptacle, Self::Branch, Self::Supply];

    fn holds(self, kind: ElementKind) -> bool {
        match kind {
            ElementKind::Supply => self == Self::Supply,
            ElementKind::Branch => self == Self::Branch,
            ElementKind::Receptacle => self == Self::Receptacle,
            ElementKind::Cord(_) => self == Self::Cords,
        }
    }
}

impl PowerPoint {
    /// What loses most volts while the motor starts; none where nothing loses any.
    pub fn loses_most_starting(&self) -> Option<LosesMost> {
        most(&self.elements, |element| Some(element.starting_drop))
    }

    /// What loses most volts while it runs; none where nothing loses any, or it cannot hold.
    pub fn loses_most_running(&self) -> Option<LosesMost> {
        most(&self.elements, |element| element.running_drop)
    }
}

fn most(elements: &[Element], drop: impl Fn(&Element) -> Option<ElectricPotential>) -> Option<LosesMost> {
    let lost_v = |stretch: LosesMost| -> f64 {
        let its = elements.iter().filter(|element| stretch.holds(element.kind));
        its.filter_map(&drop).map(|drop| drop.get::<volt>()).sum()
    };
    let losses = LosesMost::ALL.into_iter().map(|stretch| (stretch, lost_v(stretch)));
    let most = losses.fold(None, |most: Option<(LosesMost, f64)>, (stretch, lost_v)| match most {
        Some((_, highest_v)) if lost_v <= highest_v => most,
        _ => Some((stretch, lost_v)),
    });
    most.filter(|(_, lost_v)| *lost_v > 0.0).map(|(stretch, _)| stretch)
}
