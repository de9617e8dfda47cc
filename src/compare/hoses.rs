//! The hoses of a kit that may be longer or shorter, and what moves with them.

use super::error::CompareError;
use super::way::{PlaceAsk, Stretch};
use crate::kit::{Kit, Part, PartKind};
use crate::units::Typed;
use uom::si::f64::Length;

/// The shortest hose that people carry, where hoses are measured in feet and in metres. Common
/// practice, no source.
const SHORTEST_HOSES: [&str; 2] = ["3 ft", "1 m"];

/// Where a hose stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Branch {
    /// In front of where a second port's branch comes in.
    First,
    /// In that branch.
    Second,
    /// What all of it passes.
    Shared,
}

/// One hose of the path.
pub(super) struct Hose<'k> {
    part: &'k Part,
    length: &'k Typed<Length>,
    /// In the kit: `parts.1`.
    at: String,
    branch: Branch,
}

/// What moves with a hose.
pub(super) enum Partner<'h, 'k> {
    None,
    Hose(&'h Hose<'k>),
    Missing,
}

impl<'k> Hose<'k> {
    /// Every hose in front of the machine.
    pub fn all(kit: &'k Kit) -> Vec<Self> {
        let joins = kit.second_port.as_ref().map_or(0, |second| second.joins_before);
        let own = kit.parts.iter().enumerate().map(|(index, part)| {
            let branch = if index < joins { Branch::First } else { Branch::Shared };
            (part, format!("parts.{index}"), branch)
        });
        let second = kit.second_port.iter().flat_map(|second| second.parts.iter().enumerate());
        let second = second.map(|(index, part)| (part, format!("second_port.parts.{index}"), Branch::Second));
        let hoses = own.chain(second).filter(|(part, ..)| part.kind() == PartKind::Hose);
        hoses
            .filter_map(|(part, at, branch)| Some(Self { part, length: part.length()?, at, branch }))
            .collect()
    }

    fn is_called(&self, kit: &Kit, asked: &str) -> bool {
        let place = asked.strip_prefix(&format!("kits.{}.", kit.name)).unwrap_or(asked);
        let named = [self.part.name(), self.part.from()];
        place == self.at
            || self.at.strip_prefix("parts.") == Some(place)
            || named.into_iter().flatten().any(|name| name.eq_ignore_ascii_case(asked))
    }

    /// The hose of the other branch that has to be longer, too.
    pub fn partner<'h>(&self, hoses: &'h [Self]) -> Partner<'h, 'k> {
        let other = match self.branch {
            Branch::Shared => return Partner::None,
            Branch::First => Branch::Second,
            Branch::Second => Branch::First,
        };
        longest(hoses.iter().filter(|one| one.branch == other)).map_or(Partner::Missing, Partner::Hose)
    }

    /// The hose as one that gives way.
    pub fn stretch(&self, kit: &Kit, ask: &PlaceAsk) -> Stretch {
        Stretch {
            path: format!("kits.{}.{}", kit.name, self.at),
            name: self.part.label().to_owned(),
            today: self.length.clone(),
            shortest: self.shortest(ask),
        }
    }

    /// No shorter than it rises, and no longer than today.
    fn shortest(&self, ask: &PlaceAsk) -> Typed<Length> {
        let rise = self.part.tube().and_then(|tube| tube.rise.as_ref());
        let rise = rise
            .map(|rise| if rise.si() < 0.0 { rise.stepped(-2.0 * rise.number()) } else { Ok(rise.clone()) });
        let asked = ask.shortest_hose.clone().or_else(|| usual_shortest(self.length));
        let wanted = asked.into_iter().chain(rise.and_then(Result::ok));
        let wanted = wanted.max_by(|a, b| a.si().total_cmp(&b.si()));
        wanted.filter(|wanted| wanted.si() < self.length.si()).unwrap_or_else(|| self.length.clone())
    }
}

/// The first of the longest.
fn longest<'h, 'k: 'h>(hoses: impl Iterator<Item = &'h Hose<'k>>) -> Option<&'h Hose<'k>> {
    hoses.fold(None, |best: Option<&Hose<'k>>, one| match best {
        Some(best) if best.length.si() >= one.length.si() => Some(best),
        _ => Some(one),
    })
}

/// The hose that is asked for; the longest of what all of the flow passes, else of the first port's branch.
pub(super) fn chosen_hose<'h, 'k>(
    kit: &Kit,
    hoses: &'h [Hose<'k>],
    ask: &PlaceAsk,
) -> Result<Option<&'h Hose<'k>>, CompareError> {
    let Some(asked) = &ask.hose else {
        let in_branch = |branch| longest(hoses.iter().filter(move |one| one.branch == branch));
        return Ok(in_branch(Branch::Shared).or_else(|| in_branch(Branch::First)));
    };
    let called: Vec<&Hose<'k>> = hoses.iter().filter(|one| one.is_called(kit, asked)).collect();
    let listed = |hoses: &mut dyn Iterator<Item = &Hose<'_>>| {
        let one = |hose: &Hose<'_>| format!("{} ({}, {})", hose.at, hose.part.label(), hose.length);
        hoses.map(one).collect::<Vec<_>>().join(", ")
    };
    let problem = match called.as_slice() {
        [one] => return Ok(Some(one)),
        [] if hoses.is_empty() => format!("kit {} has no hose in front of its machine", kit.name),
        [] => format!("kit {} has no such hose; expected one of {}", kit.name, listed(&mut hoses.iter())),
        several => {
            format!("kit {} has several; expected one of {}", kit.name, listed(&mut several.iter().copied()))
        }
    };
    Err(CompareError::Place { asked: format!("hose {asked:?}"), problem })
}

fn usual_shortest(hose: &Typed<Length>) -> Option<Typed<Length>> {
    let [feet, metres] = SHORTEST_HOSES;
    let is_metric = matches!(hose.unit().as_str(), "m" | "cm" | "mm");
    Typed::parse(if is_metric { metres } else { feet }).ok()
}
