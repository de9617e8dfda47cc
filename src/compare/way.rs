//! Between system and receptacle: which hose and which cord give way when the machine is moved.
//!
//! The way is as long as hose and cord together. Whoever moves the machine away from the system adds
//! hose and takes away as much cord. Where two ports meet behind the hose that moves, a hose of the
//! other branch moves with it. Neglected: that hoses and cords come in lengths of their own; the
//! answer says what to bring.

use super::error::CompareError;
use super::hoses::{Hose, Partner, chosen_hose};
use super::vary::rounded;
use crate::kit::{Cord, Kit};
use crate::scenario::Document;
use crate::units::Typed;
use uom::si::f64::Length;

/// How many places there are if nobody says, besides today's.
pub const DEFAULT_PLACES: usize = 21;
/// The most that are worth computing.
const MOST_PLACES: usize = 1000;
/// A cord this short is none.
const NO_CORD_M: f64 = 1e-9;
/// Nobody moves a machine by less.
const LEAST_ROOM_M: f64 = 0.01;

/// What is asked for; what is left out is the usual.
#[derive(Debug, Clone, PartialEq)]
pub struct PlaceAsk {
    /// Which hose gives way: its place, name or shelf entry. The longest if left out.
    pub hose: Option<String>,
    /// Which cord, counted from the receptacle, the first one is 1. The longest if left out.
    pub cord: Option<usize>,
    /// How many places.
    pub steps: usize,
    /// No hose gets shorter.
    pub shortest_hose: Option<Typed<Length>>,
    /// The cord gets no shorter; plugged straight in if left out.
    pub shortest_cord: Option<Typed<Length>>,
}

impl Default for PlaceAsk {
    fn default() -> Self {
        Self { hose: None, cord: None, steps: DEFAULT_PLACES, shortest_hose: None, shortest_cord: None }
    }
}

/// A hose or a cord whose length gives way.
#[derive(Debug, Clone, PartialEq)]
pub struct Stretch {
    /// Where it stands in the document.
    pub path: String,
    /// What it is called.
    pub name: String,
    /// How long it is today.
    pub today: Typed<Length>,
    /// It gets no shorter.
    pub shortest: Typed<Length>,
}

/// Why the machine cannot be moved.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum NoWay {
    /// No hose in front of the machine.
    #[error("Kit {kit} has no hose in front of its machine that could be longer or shorter.")]
    NoHose {
        /// The kit.
        kit: String,
    },
    /// The other port's branch has no hose.
    #[error(
        "The hoses of kit {kit}'s two ports meet behind the one that would be longer, and the other port's \
         branch has no hose that could grow with it."
    )]
    NoHoseBeside {
        /// The kit.
        kit: String,
    },
    /// No cord.
    #[error(
        "The machine of kit {kit} is plugged straight into the receptacle: there is no cord to take from or \
         to add to. Add one to see other places."
    )]
    NoCord {
        /// The kit.
        kit: String,
    },
    /// Both are as short as they get.
    #[error(
        "Hose and cord of kit {kit} are as short as they get, {hose} and {cord}: there is no other place for \
         the machine on this way."
    )]
    NoRoom {
        /// The kit.
        kit: String,
        /// Length of the hose.
        hose: Typed<Length>,
        /// Length of the cord.
        cord: Typed<Length>,
    },
}

/// The way of one kit.
#[derive(Debug, Clone, PartialEq)]
pub struct Way {
    /// The kit.
    pub kit: String,
    /// The hose.
    pub hose: Stretch,
    /// The hose of the other port's branch that moves with it.
    pub beside: Option<Stretch>,
    /// The cord.
    pub cord: Stretch,
    /// Which cord it is, the receptacle's is 0.
    pub cord_index: usize,
    /// Kits that are fed by the same cord.
    pub shared_with: Vec<String>,
}

impl Way {
    /// The way of the only kit of `alone`, a kit of `document`; why it has none, if it has none.
    ///
    /// # Errors
    /// A hose, a cord or a number of places that there is not.
    pub(super) fn of(
        document: &Document,
        alone: &Document,
        ask: &PlaceAsk,
    ) -> Result<Result<Self, NoWay>, CompareError> {
        if !(2..=MOST_PLACES).contains(&ask.steps) {
            let problem = format!("expected 2 to {MOST_PLACES}");
            return Err(CompareError::Place { asked: format!("{} places", ask.steps), problem });
        }
        let Some(kit) = alone.kits.first() else {
            return Err(CompareError::UnknownKit { name: String::new(), known: String::new() });
        };
        let name = || kit.name.clone();
        let hoses = Hose::all(kit);
        let Some(hose) = chosen_hose(kit, &hoses, ask)? else {
            return Ok(Err(NoWay::NoHose { kit: name() }));
        };
        let beside = match hose.partner(&hoses) {
            Partner::None => None,
            Partner::Hose(partner) => Some(partner),
            Partner::Missing => return Ok(Err(NoWay::NoHoseBeside { kit: name() })),
        };
        let cords = alone.cords_of(kit);
        let Some(cord_index) = chosen_cord(kit, cords, ask)? else {
            return Ok(Err(NoWay::NoCord { kit: name() }));
        };
        let Some(cord) = cords.get(cord_index) else { return Ok(Err(NoWay::NoCord { kit: name() })) };
        let shares = |other: &&Kit| kit.cords.is_none() && other.cords.is_none() && other.name != kit.name;
        let way = Self {
            kit: kit.name.clone(),
            hose: hose.stretch(kit, ask),
            beside: beside.map(|beside| beside.stretch(kit, ask)),
            cord: Stretch {
                path: format!("{}.{cord_index}", kit.cords_path()),
                name: cord.name.clone().unwrap_or_else(|| format!("{} cord", cord.gauge)),
                today: cord.length.clone(),
                shortest: shortest_cord(cord, ask),
            },
            cord_index,
            shared_with: document.kits.iter().filter(shares).map(|other| other.name.clone()).collect(),
        };
        if way.room_m() < LEAST_ROOM_M {
            let (hose, cord) = (way.hose.today, way.cord.today);
            return Ok(Err(NoWay::NoRoom { kit: name(), hose, cord }));
        }
        Ok(Ok(way))
    }

    /// Shortest and longest hose, in the hose's own unit.
    pub(super) fn ends(&self) -> (f64, f64) {
        let hose = &self.hose.today;
        let less = |one: &Stretch| one.shortest.number_in_unit_of(hose) - one.today.number_in_unit_of(hose);
        let shorter = self.beside.iter().map(less).fold(less(&self.hose), f64::max);
        (rounded(hose.number() + shorter), rounded(hose.number() - less(&self.cord)))
    }

    /// How far the machine can be moved.
    fn room_m(&self) -> f64 {
        let less = |one: &Stretch| one.shortest.si() - one.today.si();
        self.beside.iter().map(less).fold(less(&self.hose), f64::max).abs() - less(&self.cord)
    }

    /// Lengths of the hose in its own unit, from the system to the receptacle: both ends, and between them
    /// whole steps of 1, 2 or 5 that lie as far apart as the number of places asks. Today's is not
    /// among them unless it falls on one.
    pub(super) fn numbers(&self, steps: usize) -> Vec<f64> {
        let (shortest, longest) = self.ends();
        let apart = (longest - shortest) / (steps.max(2) - 1) as f64;
        let whole = round_below(apart);
        let last = steps.max(2) - 1;
        (0..=last)
            .map(|at| match at {
                0 => shortest,
                at if at == last => longest,
                at => rounded(((shortest + apart * at as f64) / whole).round() * whole),
            })
            .collect()
    }

    /// What has to be set for a hose of this length, in its own unit: path and text.
    ///
    /// # Errors
    /// A length that no field holds.
    pub(super) fn lengths(&self, hose: f64) -> Result<Lengths, CompareError> {
        let refused = |error: crate::units::UnitError| CompareError::Place {
            asked: format!("{} of {}", self.hose.path, hose),
            problem: error.to_string(),
        };
        let hose = Typed::of(hose, &self.hose.today.unit()).map_err(refused)?;
        let more = |one: &Stretch| {
            hose.number_in_unit_of(&one.today) - self.hose.today.number_in_unit_of(&one.today)
        };
        let beside =
            self.beside.as_ref().map(|one| one.today.stepped(more(one))).transpose().map_err(refused)?;
        let cord = self.cord.today.stepped(-more(&self.cord)).map_err(refused)?;
        Ok(Lengths { hose, beside, cord: Some(cord).filter(|cord| cord.si() > NO_CORD_M) })
    }

    /// What has to be set for these lengths: path and text. A cord of no length is taken out.
    pub(super) fn edits(&self, lengths: &Lengths) -> Vec<(String, String)> {
        let length = |one: &Stretch, typed: &Typed<Length>| {
            (format!("{}.length", one.path), typed.as_typed().to_owned())
        };
        let mut edits = vec![length(&self.hose, &lengths.hose)];
        edits.extend(self.beside.iter().zip(&lengths.beside).map(|(one, typed)| length(one, typed)));
        edits.push(match &lengths.cord {
            Some(cord) => length(&self.cord, cord),
            None => (self.cord.path.clone(), "none".to_owned()),
        });
        edits
    }

    /// The lengths of today, as typed.
    pub(super) fn today(&self) -> Lengths {
        Lengths {
            hose: self.hose.today.clone(),
            beside: self.beside.as_ref().map(|one| one.today.clone()),
            cord: Some(self.cord.today.clone()),
        }
    }
}

/// Hose and cord at one place.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Lengths {
    pub hose: Typed<Length>,
    pub beside: Option<Typed<Length>>,
    pub cord: Option<Typed<Length>>,
}

/// The cord that is asked for, or the first of the longest.
fn chosen_cord(kit: &Kit, cords: &[Cord], ask: &PlaceAsk) -> Result<Option<usize>, CompareError> {
    let Some(asked) = ask.cord else {
        let longer = |best: Option<(usize, f64)>, (at, cord): (usize, &Cord)| match best {
            Some((_, longest)) if longest >= cord.length.si() => best,
            _ => Some((at, cord.length.si())),
        };
        return Ok(cords.iter().enumerate().fold(None, longer).map(|(at, _)| at));
    };
    let problem = match cords.len() {
        0 => format!("kit {} has no cord", kit.name),
        count if !(1..=count).contains(&asked) => {
            format!("kit {} has {count}, counted from the receptacle; expected 1 to {count}", kit.name)
        }
        _ => return Ok(Some(asked - 1)),
    };
    Err(CompareError::Place { asked: format!("cord {asked}"), problem })
}

fn shortest_cord(cord: &Cord, ask: &PlaceAsk) -> Typed<Length> {
    let none = || cord.length.stepped(-cord.length.number()).ok();
    let wanted = ask.shortest_cord.clone().or_else(none);
    wanted.filter(|wanted| wanted.si() < cord.length.si()).unwrap_or_else(|| cord.length.clone())
}

/// The largest of 1, 2 and 5 times a power of ten that is not more.
fn round_below(number: f64) -> f64 {
    let ten = 10f64.powf(number.log10().floor());
    [5.0, 2.0].into_iter().map(|times| times * ten).find(|round| *round <= number).unwrap_or(ten)
}

#[cfg(test)]
mod tests {
    use super::round_below;

    #[test]
    fn round_numbers_below() {
        for (number, expected) in
            [(5.1, 5.0), (4.9, 2.0), (1.0, 1.0), (20.4, 20.0), (0.3, 0.2), (0.0123, 0.01)]
        {
            assert!((round_below(number) / expected - 1.0).abs() < 1e-12, "{number}");
        }
    }
}
