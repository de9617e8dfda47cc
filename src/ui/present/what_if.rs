//! What can be tried with a part in one gesture: out, bigger, shorter, fresh.

use narrows::compare::same_job;
use narrows::kit::{DrierState, Part};
use narrows::presets::Shelf;
use narrows::units::Typed;
use uom::si::f64::Length;

use super::parts;
use crate::ui::actions::{Edit, PartList};

/// One thing to try.
#[derive(Clone, Debug)]
pub struct WhatIf {
    /// On the button.
    pub word: &'static str,
    /// What stands there then, as "Core out, 3.8 mm".
    pub says: String,
    /// The change.
    pub edit: Edit,
}

/// Everything that makes sense for this part.
pub fn what_ifs(part: &Part, list: PartList, at: usize, shelf: &Shelf) -> Vec<WhatIf> {
    let mut all = vec![WhatIf {
        word: "out",
        says: format!("{} out", parts::name(part)),
        edit: Edit::Remove { list, at },
    }];
    let replaced = |word, other: Part| WhatIf {
        word,
        says: format!("{}, {}", parts::name(&other), parts::detail(&other)),
        edit: Edit::Replace { list, at, part: Box::new(other) },
    };
    all.extend(bigger(part, shelf).map(|other| replaced("bigger", other)));
    all.extend(shorter(part).map(|other| replaced("shorter", other)));
    all.extend(fresh(part).map(|other| replaced("fresh", other)));
    all
}

/// The next wider one on the shelf that does the same job; a hose keeps its length.
fn bigger(part: &Part, shelf: &Shelf) -> Option<Part> {
    let bore = part.bore()?.si();
    let wider = |other: &&Part| {
        same_job(other.kind(), part.kind()) && other.bore().is_some_and(|b| b.si() > 1.02 * bore)
    };
    let by_bore = |a: &&Part, b: &&Part| {
        let si = |p: &Part| p.bore().map_or(f64::INFINITY, Typed::si);
        si(a).total_cmp(&si(b))
    };
    let mut other = shelf.offered().map(|item| &item.item).filter(wider).min_by(by_bore)?.clone();
    if let (Some(own), Part::Hose(tube) | Part::DipTube(tube)) = (part.length(), &mut other) {
        tube.length = own.clone();
    }
    Some(other)
}

/// Half as long.
fn shorter(part: &Part) -> Option<Part> {
    let mut other = part.clone();
    if let Part::Hose(tube) | Part::DipTube(tube) = &mut other {
        tube.length = half(&tube.length)?;
        return Some(other);
    }
    None
}

fn half(length: &Typed<Length>) -> Option<Typed<Length>> {
    Typed::of(length.number() / 2.0, &length.unit()).ok()
}

/// A drier that has taken up nothing yet.
fn fresh(part: &Part) -> Option<Part> {
    let mut other = part.clone();
    match &mut other {
        Part::FilterDrier(drier) if drier.state != DrierState::Clean => {
            drier.state = DrierState::Clean;
            Some(other)
        }
        _ => None,
    }
}
