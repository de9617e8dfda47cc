//! What can be tried in one gesture: a part out, bigger, shorter, fresh; a cord or the wires behind
//! the wall out, thicker, shorter; the supply's voltage higher and lower.

use narrows::compare::{same_job, thicker};
use narrows::kit::{Branch, Cord, DrierState, Part, Supply};
use narrows::presets::Shelf;
use narrows::units::Typed;
use uom::si::f64::Length;

use super::parts;
use super::scale::pretty;
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

fn set(word: &'static str, says: String, path: String, text: String) -> WhatIf {
    WhatIf { word, says, edit: Edit::Set { path, text } }
}

/// Out, thicker, shorter: a cord, by its place and the path of its fields.
pub fn cord_what_ifs(cord: &Cord, at: usize, path: &str) -> Vec<WhatIf> {
    let name = format!("Cord {}", at + 1);
    let mut all = vec![WhatIf { word: "out", says: format!("{name} out"), edit: Edit::RemoveCord(at) }];
    if let Some(gauge) = thicker(cord.gauge.size()) {
        all.push(set("thicker", format!("{name}, {gauge}"), format!("{path}.gauge"), gauge.to_string()));
    }
    all.extend(shorter_run(&name, &cord.length, path));
    all
}

fn shorter_run(name: &str, length: &Typed<Length>, path: &str) -> Option<WhatIf> {
    let half = half(length)?;
    let says = format!("{name}, {}", pretty(half.as_typed()));
    Some(set("shorter", says, format!("{path}.length"), half.to_string()))
}

/// The same of the wires behind the wall; and its breaker's other loads switched off.
pub fn branch_what_ifs(branch: &Branch) -> Vec<WhatIf> {
    let (name, path) = ("Branch circuit", "supply.branch");
    let mut all = vec![set("out", format!("{name} out"), path.to_owned(), "none".to_owned())];
    if let Some(gauge) = thicker(branch.gauge.size()) {
        all.push(set("thicker", format!("{name}, {gauge}"), format!("{path}.gauge"), gauge.to_string()));
    }
    all.extend(shorter_run(name, &branch.length, path));
    if branch.other_load.is_some() {
        let says = "nothing else on the circuit".to_owned();
        all.push(set("alone", says, format!("{path}.other_load"), "none".to_owned()));
    }
    all
}

/// Share by which a supply's voltage well wanders over a day. Common practice, no source.
const WANDERS_RATIO: f64 = 0.05;

/// The supply's voltage higher and lower; what lies behind the panel out.
pub fn supply_what_ifs(supply: &Supply) -> Vec<WhatIf> {
    let shifted = |word, share: f64| {
        let voltage = supply.voltage.stepped(share * supply.voltage.number()).ok()?;
        Some(set(word, format!("supply at {voltage}"), "supply.voltage".to_owned(), voltage.to_string()))
    };
    let mut all: Vec<WhatIf> = [shifted("+5 %", WANDERS_RATIO), shifted("\u{2212}5 %", -WANDERS_RATIO)]
        .into_iter()
        .flatten()
        .collect();
    if supply.source_resistance.is_some() {
        let says = "nothing lost before the panel".to_owned();
        all.push(set("stiff", says, "supply.source_resistance".to_owned(), "none".to_owned()));
    }
    all
}
