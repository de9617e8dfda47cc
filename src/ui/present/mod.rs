//! From document and results to the plain models that the drawings show. No physics, only words,
//! scales and places.

pub mod align;
pub mod break_even;
pub mod card;
pub mod cause;
pub mod cautions;
pub mod chain;
pub mod checks;
pub mod clock;
pub mod compared;
pub mod counts;
pub mod cylinders;
pub mod explain;
pub mod explain_job;
pub mod faults;
pub mod figures;
pub mod found;
pub mod job_plates;
pub mod job_sheet;
pub mod job_words;
pub mod lesson;
pub mod newer;
pub mod parts;
pub mod place;
pub mod plates;
pub mod quantity;
pub mod scale;
pub mod second;
pub mod shelf;
pub mod site_log;
pub mod stairs;
pub mod top_counts;
pub mod volts;
pub mod what_if;

use narrows::job::OperatingPoint;
use narrows::kit::Kit;
use narrows::power::PowerPoint;
use narrows::scenario::Document;
use narrows::units::UnitSet;

use super::actions::{Edit, PartList};
use super::answer::Answer;
use super::diagram::time;
use super::moment::Moment;
use super::session::Session;
use super::study::Study;
use super::view::Selected;

/// A column of the chain and of the stairs.
#[derive(Clone, Debug, PartialEq)]
pub enum Slot {
    /// The system.
    Source,
    /// A part: for each kit its place in that kit, or none.
    Part(Vec<Option<usize>>),
    /// The machine.
    Machine,
    /// A part between machine and cylinder.
    Discharge(usize),
    /// The cylinder.
    Cylinder,
}

/// What the presenters look at.
pub struct Scene<'a> {
    /// The session.
    pub session: &'a Session,
    /// The columns.
    pub slots: Vec<Slot>,
    /// Where the branch of a second port stands in them, if the kit in hand has one.
    pub second: Option<second::SecondSlots>,
    /// The column of a part that is tried out of its list.
    pub gone: Option<Gone>,
    /// A class is asked: what was worked out is not to be had.
    covered: bool,
}

/// A part that is tried out of its list.
#[derive(Clone, Debug, PartialEq)]
pub struct Gone {
    /// Its column.
    pub slot: usize,
    /// Its place in its list.
    pub at: usize,
    /// Its name.
    pub name: String,
    columns: usize,
}

fn columns_of(document: &Document, session: &Session, alone: bool) -> Vec<Slot> {
    let mut slots = vec![Slot::Source];
    slots.extend(align::columns(&document.kits, session.view.kit, alone).into_iter().map(Slot::Part));
    slots.push(Slot::Machine);
    slots.extend((0..document.discharge.len()).map(Slot::Discharge));
    slots.push(Slot::Cylinder);
    slots
}

/// The part that is tried out of its list.
fn gone(session: &Session, alone: bool) -> Option<Gone> {
    let Edit::Remove { list, at } = *session.tried()? else { return None };
    let document = session.committed();
    let slots = columns_of(document, session, alone);
    let is_it = |slot: &Slot| match (slot, list) {
        (Slot::Part(places), PartList::Kit(kit)) => places.get(kit).copied().flatten() == Some(at),
        (Slot::Discharge(i), PartList::Discharge) => *i == at,
        _ => false,
    };
    let part = match list {
        PartList::Kit(kit) => document.kits.get(kit)?.parts.get(at)?,
        PartList::Discharge => document.discharge.get(at)?,
        PartList::Second(_) => return None,
    };
    let slot = slots.iter().position(is_it)?;
    Some(Gone { slot, at, name: parts::name(part), columns: slots.len() })
}

impl<'a> Scene<'a> {
    /// The scene of a session: with all kits, or with the one in hand alone. While a class is
    /// asked it holds no answer of any kind, so no view can let one slip.
    pub fn new(session: &'a Session) -> Self {
        let alone = session.view.alone || session.document().kits.len() < 2;
        Self::of(session, alone, session.is_covered())
    }

    /// The scene of the class: the kit in hand alone, with every answer. Who draws from it keeps
    /// covered what is.
    pub fn of_class(session: &'a Session) -> Self {
        Self::of(session, true, false)
    }

    fn of(session: &'a Session, alone: bool, covered: bool) -> Self {
        let document = session.document();
        let mut slots = columns_of(document, session, alone);
        let gone = gone(session, alone);
        if let Some(gone) = &gone
            && gone.columns > slots.len()
        {
            slots.insert(gone.slot.min(slots.len()), Slot::Part(vec![None; document.kits.len()]));
        }
        let second = second::place(document, session.view.kit, &mut slots);
        Self { session, slots, second, gone, covered }
    }

    /// The document.
    pub fn document(&self) -> &'a Document {
        self.session.document()
    }

    /// Place of the kit in hand.
    pub fn hand(&self) -> usize {
        self.session.view.kit
    }

    /// The kit in hand.
    pub fn kit(&self) -> Option<&'a Kit> {
        self.document().kits.get(self.hand())
    }

    /// The newest answer.
    pub fn answer(&self) -> Option<&'a Answer> {
        self.session.answer().filter(|_| !self.covered)
    }

    /// The answer before the last change.
    pub fn before(&self) -> Option<&'a Answer> {
        self.session.before().filter(|_| !self.covered)
    }

    /// What was worked out behind the answer.
    pub fn study(&self) -> Option<&'a Study> {
        self.session.study().filter(|_| !self.covered)
    }

    /// The operating point at the moment that is looked at.
    pub fn moment(&self) -> Option<&'a Moment> {
        self.session.moment().filter(|_| !self.covered)
    }

    /// Why there is nothing yet.
    pub fn waiting(&self) -> &'static str {
        if self.covered { "Covered while the class is asked." } else { "Solving." }
    }

    /// The same in one word, for a row of a table.
    pub fn waiting_word(&self) -> &'static str {
        if self.covered { "covered" } else { "solving" }
    }

    /// Units of answers.
    pub fn units(&self) -> UnitSet {
        self.session.view.units
    }

    /// A time in words, with the decimal sign of answers.
    pub fn time_text(&self, minutes: f64) -> String {
        self.units().sentence(&time::text(minutes))
    }

    /// The operating point of a kit, if there is one. A stale one is still shown.
    pub fn point(&self, kit: usize) -> Option<&'a OperatingPoint> {
        self.answer()?.kits.get(kit)?.point()
    }

    /// Volts and amps of a kit; they stand even where the flow has no answer.
    pub fn power(&self, kit: usize) -> Option<&'a PowerPoint> {
        self.answer()?.kits.get(kit)?.power()
    }

    /// The document that the shown answer is for.
    pub fn solved_document(&self) -> Option<&'a Document> {
        self.answer().map(|a| &a.document)
    }

    /// What a slot is, for the kit in hand.
    pub fn selected_at(&self, slot: usize) -> Option<Selected> {
        match self.slots.get(slot)? {
            Slot::Source => Some(Selected::Source),
            Slot::Part(places) => places.get(self.hand()).copied().flatten().map(Selected::Part),
            Slot::Machine => Some(Selected::Machine),
            Slot::Discharge(i) => Some(Selected::Discharge(*i)),
            Slot::Cylinder => Some(Selected::Cylinder),
        }
    }

    /// The slot of what has the focus box.
    pub fn slot_of_selected(&self) -> Option<usize> {
        self.gone.as_ref().map(|gone| gone.slot).or_else(|| self.slot_of(self.session.view.selected?))
    }

    /// The slot of something.
    pub fn slot_of(&self, thing: Selected) -> Option<usize> {
        (0..self.slots.len()).find(|i| self.selected_at(*i) == Some(thing))
    }

    /// The machine's slot.
    pub fn machine_slot(&self) -> usize {
        self.slots.iter().position(|s| *s == Slot::Machine).unwrap_or_default()
    }
}
