//! The shelf as rows to browse, and changes of a person's own things.

use narrows::kit::{FilterDrier, Part, Shelved as _};
use narrows::presets::{Item, Origin, Shelf, Thing, ThingKind};
use narrows::scenario::{self, SetError};
use narrows::units::Typed;

use super::figures::{self, Figure};
use super::found::matches;
use super::parts;
use super::scale::pretty;
use crate::ui::symbols::Symbol;
use crate::ui::view::ShelfLook;

/// One entry in the list.
#[derive(Clone, Debug)]
pub struct Row {
    /// The entry.
    pub item: Item<Thing>,
    /// Its sizes in a few words.
    pub detail: String,
    /// Low, likely and high bore in millimetres, where it has one.
    pub bores_mm: Option<[f64; 3]>,
    /// The band in words, if it has one.
    pub band: String,
    /// All of it, read aloud.
    pub words: String,
}

/// What is looked at, one's own first.
pub fn rows(shelf: &Shelf, look: &ShelfLook) -> Vec<Row> {
    let mut items: Vec<Item<Thing>> =
        shelf.things().into_iter().filter(|item| is_shown(item, look)).collect();
    items.sort_by_key(|item| item.file.is_none());
    items.into_iter().map(row).collect()
}

fn is_shown(item: &Item<Thing>, look: &ShelfLook) -> bool {
    let kind = look.kind.is_none_or(|kind| kind == item.item.kind());
    kind && (look.retired || !item.retired) && matches(&searched(item), &look.words)
}

fn searched(item: &Item<Thing>) -> String {
    let note = item.note.as_deref().unwrap_or_default();
    let (kind, origin) = (item.item.kind().label(), item.origin.label());
    format!("{} {} {} {kind} {origin} {note} {}", item.name, item.id, detail(&item.item), whose(item))
}

/// Whose it is, in a word.
pub fn whose(item: &Item<Thing>) -> &'static str {
    match (&item.file, item.retired) {
        (_, true) => "retired",
        (Some(_), false) => "own",
        (None, false) => "built in",
    }
}

fn row(item: Item<Thing>) -> Row {
    let detail = detail(&item.item);
    let band = first_banded(&item.item).filter(|figure| figure.band.is_some());
    let band = band.map(|figure| pretty(&super::newer::band_text(&figure))).unwrap_or_default();
    let banded = if band.is_empty() { String::new() } else { format!(" ({band})") };
    let words = format!("{}: {detail}{banded}, {}, {}", item.name, item.origin.label(), whose(&item));
    Row { bores_mm: bores_mm(&item.item), item, detail, band, words }
}

fn first_banded(thing: &Thing) -> Option<Figure> {
    figures::of_thing(thing).into_iter().find(|figure| figure.bandable)
}

/// Sizes in a few words.
pub fn detail(thing: &Thing) -> String {
    match thing {
        Thing::Part(Part::FilterDrier(drier)) => {
            let state = parts::detail(&Part::FilterDrier(drier.clone()));
            format!("{}, {state}", drier_size(drier))
        }
        Thing::Part(part) => parts::detail(part),
        Thing::Machine(machine) => machine.displacement.to_string(),
        Thing::Motor(motor) => format!("{}, {}", motor.rated_voltage, motor.rated_current),
        Thing::Cylinder(cylinder) => match &cylinder.water_capacity {
            Some(capacity) => format!("holds {capacity} of water"),
            None => "capacity not known".to_owned(),
        },
        Thing::Cord(cord) => pretty(&format!("{}, {}", cord.gauge, cord.length)),
        Thing::Wiring(branch) => pretty(&format!("{}, {}", branch.gauge, branch.length)),
    }
}

fn drier_size(drier: &FilterDrier) -> &str {
    let sizes = [
        drier.rated_capacity.as_ref().map(Typed::as_typed),
        drier.rated_flow.as_ref().map(Typed::as_typed),
        drier.flow_coefficient.as_ref().map(Typed::as_typed),
        drier.bore.as_ref().map(Typed::as_typed),
    ];
    sizes.into_iter().flatten().next().unwrap_or_default()
}

fn bores_mm(thing: &Thing) -> Option<[f64; 3]> {
    let Thing::Part(part) = thing else { return None };
    let likely = part.bore()?.si();
    let band = match part {
        Part::Hose(tube) | Part::DipTube(tube) => tube.bore_band.clone(),
        other => other.hole().and_then(|hole| hole.bore_band),
    };
    let ends = band.map_or((likely, likely), |band| (band.low.si(), band.high.si()));
    Some([ends.0, likely, ends.1].map(|metres| metres * 1e3))
}

/// The drawing of anything on the shelf.
pub fn symbol(thing: &Thing) -> Symbol {
    match thing {
        Thing::Part(part) => parts::symbol(part),
        Thing::Machine(_) => Symbol::Machine,
        Thing::Motor(_) => Symbol::Motor,
        Thing::Cylinder(_) => Symbol::Cylinder { liquid_ratio: 0.0 },
        Thing::Cord(cord) => super::volts::cord_symbol(cord),
        Thing::Wiring(_) => Symbol::Branch,
    }
}

/// The word of the command that takes it into the document.
pub fn take_word(kind: ThingKind, kit: &str) -> String {
    match kind {
        ThingKind::Part(_) => format!("Add to kit {kit}"),
        ThingKind::Machine => "Use this machine".to_owned(),
        ThingKind::Motor => "Use this motor".to_owned(),
        ThingKind::Cylinder => "Use this cylinder".to_owned(),
        ThingKind::Cord => "Add this cord".to_owned(),
        ThingKind::Wiring => "Use this circuit".to_owned(),
    }
}

/// The first thing of a kind that is built in: what a new one of one's own begins as.
pub fn pattern(shelf: &Shelf, kind: ThingKind) -> Option<Thing> {
    shelf
        .things()
        .into_iter()
        .find(|item| item.item.kind() == kind && item.file.is_none())
        .map(|item| item.item)
}

/// Paths of an entry itself, beside those of its thing.
pub const NAME: &str = "name of the entry";
/// Where the figures come from.
pub const ORIGIN: &str = "origin of the entry";
/// The note.
pub const NOTE: &str = "note of the entry";

/// The entry with one field as typed.
///
/// # Errors
/// What is expected instead.
pub fn changed(item: &Item<Thing>, path: &str, text: &str) -> Result<Item<Thing>, Refused> {
    let mut new = item.clone();
    let is_none = text.eq_ignore_ascii_case("none");
    match path {
        NAME if text.is_empty() || is_none => return Err(Refused::Words("expected a name".to_owned())),
        NAME => new.name = text.to_owned(),
        NOTE => new.note = (!is_none && !text.is_empty()).then(|| text.to_owned()),
        ORIGIN => {
            let origin = Origin::ALL.into_iter().find(|origin| origin.label() == text);
            new.origin = origin.ok_or_else(|| Refused::Words("expected one of the origins".to_owned()))?;
        }
        path => set(&mut new.item, path, text).map_err(Refused::Set)?,
    }
    match new.item.faults().into_iter().next() {
        None => Ok(new),
        Some(fault) if fault.path == path => Err(Refused::Words(fault.message)),
        Some(fault) => Err(Refused::Words(fault.to_string())),
    }
}

/// Why a field is not taken.
#[derive(Debug)]
pub enum Refused {
    /// The field's own refusal.
    Set(SetError),
    /// In words.
    Words(String),
}

/// Figures of which a thing has one: giving another takes the one before away.
const ONE_OF: [&[&str]; 2] = [
    &["condenser.condensing_temperature", "condenser.conductance"],
    &["flow_coefficient", "rated_flow", "rated_capacity", "bore"],
];

fn set(thing: &mut Thing, path: &str, text: &str) -> Result<(), SetError> {
    let others = ONE_OF.iter().find(|paths| paths.contains(&path)).copied().unwrap_or_default();
    for other in others.iter().filter(|other| **other != path && !text.eq_ignore_ascii_case("none")) {
        // What has no such figure, or must have it, keeps it.
        let _ = set_one(thing, other, "none");
    }
    set_one(thing, path, text)
}

fn set_one(thing: &mut Thing, path: &str, text: &str) -> Result<(), SetError> {
    match thing {
        Thing::Part(part) => scenario::set_in(part, path, text),
        Thing::Machine(machine) => scenario::set_in(machine, path, text),
        Thing::Motor(motor) => scenario::set_in(motor, path, text),
        Thing::Cylinder(cylinder) => scenario::set_in(cylinder, path, text),
        Thing::Cord(cord) => scenario::set_in(cord, path, text),
        Thing::Wiring(branch) => scenario::set_in(branch, path, text),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn item(id: &str) -> Item<Thing> {
        let shelf = Shelf::built_in().unwrap();
        shelf.things().into_iter().find(|item| item.id == id).unwrap()
    }

    #[test]
    fn a_size_written_another_way_takes_the_place_of_the_first() {
        let drier = changed(&item("drier-3-tons-clean"), "rated_flow", "8 lb/min").unwrap();
        let Thing::Part(Part::FilterDrier(drier)) = drier.item else { panic!("a drier") };
        assert!(drier.rated_capacity.is_none() && drier.rated_flow.is_some());
        let machine =
            changed(&item("machine-small"), "condenser.condensing_temperature", "100 degF").unwrap();
        let Thing::Machine(machine) = machine.item else { panic!("a machine") };
        assert!(machine.condenser.conductance.is_none());
    }

    #[test]
    fn what_no_thing_can_be_is_refused() {
        for (path, text) in
            [("bore", "-3 mm"), ("bore", "none"), ("bore_band.low", "9 mm"), (NAME, ""), ("seats", "2")]
        {
            assert!(changed(&item("hose-quarter"), path, text).is_err(), "{path} = {text}");
        }
    }

    #[test]
    fn words_and_kinds_find_what_is_looked_for() {
        let shelf = Shelf::built_in().unwrap();
        let found = |words: &str, kind| {
            let look = ShelfLook { words: words.to_owned(), kind, ..ShelfLook::default() };
            rows(&shelf, &look).into_iter().map(|row| row.item.id).collect::<Vec<_>>()
        };
        assert_eq!(found("half inch", None), ["hose-half"]);
        assert!(found("", Some(ThingKind::Cord)).iter().all(|id| id.starts_with("cord-")));
        assert!(found("no such thing", None).is_empty());
        assert_eq!(found("", None).len(), shelf.ids().count());
    }
}
