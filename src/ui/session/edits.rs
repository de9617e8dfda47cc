//! Carrying out edits of the document.

use narrows::kit::{Branch, ChangePrice, Cord, Cylinder, Machine, Part, Price, PriceList};
use narrows::scenario::{self, Document};

use super::Session;
use crate::ui::actions::{Edit, PartList};
use crate::ui::second_port;
use crate::ui::view::Selected;

impl Session {
    pub(super) fn carry_out(&mut self, edit: Edit) -> Result<(), String> {
        let document = &mut self.document;
        match edit {
            Edit::Set { path, text } => {
                scenario::set(document, &path, &text).map_err(|e| e.to_string())?;
            }
            Edit::SetAll(fields) => {
                for (path, text) in fields {
                    scenario::set(document, &path, &text).map_err(|e| e.to_string())?;
                }
            }
            Edit::Insert { list, at, part } => {
                let parts = parts_mut(document, list)?;
                let at = at.min(parts.len());
                parts.insert(at, *part);
                second_port::after_insert(document, list, at);
                self.view.selected = Some(selected_in(list, at));
            }
            Edit::Remove { list, at } => {
                let parts = parts_mut(document, list)?;
                let there = at < parts.len();
                if there {
                    parts.remove(at);
                }
                let left = parts.len();
                if there {
                    second_port::after_remove(document, list, at);
                }
                self.view.selected = (left > 0).then(|| selected_in(list, at.min(left - 1)));
            }
            Edit::Move { list, from, to } => {
                let parts = parts_mut(document, list)?;
                if from < parts.len() && to < parts.len() {
                    let part = parts.remove(from);
                    parts.insert(to, part);
                    second_port::after_move(document, list, from, to);
                    self.view.selected = Some(selected_in(list, to));
                }
            }
            Edit::Replace { list, at, part } => {
                if let Some(slot) = parts_mut(document, list)?.get_mut(at) {
                    *slot = *part;
                }
            }
            Edit::AddSecondPort(kit) => {
                if let Some(kit) = document.kits.get_mut(kit) {
                    second_port::add(kit);
                    self.view.selected = Some(Selected::SecondPart(0));
                }
            }
            Edit::RemoveSecondPort(kit) => {
                if let Some(kit) = document.kits.get_mut(kit) {
                    kit.second_port = None;
                    self.view.selected = Some(Selected::Source);
                }
            }
            Edit::CopyKit(kit) => {
                if let Some(mut copy) = document.kits.get(kit).cloned() {
                    copy.label = Some(format!("as {}", copy.name));
                    copy.name = document.free_kit_name();
                    document.kits.push(copy);
                    self.view.kit = document.kits.len() - 1;
                }
            }
            Edit::RemoveKit(kit) => {
                if kit < document.kits.len() && document.kits.len() > 1 {
                    document.kits.remove(kit);
                }
            }
            Edit::AddCord(cord) => self.cords_mut().push(*cord),
            Edit::RemoveCord(at) => {
                let cords = self.cords_mut();
                if at < cords.len() {
                    cords.remove(at);
                    self.view.selected = Some(Selected::Supply);
                }
            }
            Edit::SwapCord { at, cord } => {
                if let Some(slot) = self.cords_mut().get_mut(at) {
                    *slot = *cord;
                }
            }
            Edit::SwapBranch(branch) => {
                let old = document.supply.branch.as_ref();
                let other_load = old.and_then(|b| b.other_load.clone());
                document.supply.branch = Some(Branch { other_load, ..*branch });
            }
            Edit::SwapMachine(machine) => *self.machine_mut() = *machine,
            Edit::SwapMotor(motor) => self.machine_mut().motor = *motor,
            Edit::SwapCylinder(cylinder) => document.cylinder = *cylinder,
            Edit::SwapCard(card) => document.rating_card = card.map(|card| *card),
            Edit::SetPrice { name, text } => set_price(document, name, &text)?,
            Edit::SwapLog(log) => document.log = log.map(|log| *log),
            Edit::AddCylinder => {
                let last = document.cylinders.last().unwrap_or(&document.cylinder);
                // A copy of the one in use stands for an empty one beside it.
                let another = Cylinder { contents: None, refrigerant: None, count: None, ..last.clone() };
                document.cylinders.push(another);
            }
            Edit::RemoveCylinder(at) => {
                if at > 0 && at <= document.cylinders.len() {
                    document.cylinders.remove(at - 1);
                    self.view.cylinder = self.view.cylinder.min(at - 1);
                }
            }
        }
        Ok(())
    }

    /// The cords that feed the kit in hand.
    pub(super) fn cords_mut(&mut self) -> &mut Vec<Cord> {
        let own = self.document.kits.get_mut(self.view.kit).and_then(|k| k.cords.as_mut());
        own.unwrap_or(&mut self.document.supply.cords)
    }

    /// The machine that the kit in hand is on.
    pub(super) fn machine_mut(&mut self) -> &mut Machine {
        let own = self.document.kits.get_mut(self.view.kit).and_then(|k| k.machine.as_mut());
        own.unwrap_or(&mut self.document.machine)
    }
}

pub(super) fn selected_in(list: PartList, at: usize) -> Selected {
    match list {
        PartList::Kit(_) => Selected::Part(at),
        PartList::Second(_) => Selected::SecondPart(at),
        PartList::Discharge => Selected::Discharge(at),
    }
}

fn set_price(document: &mut Document, name: String, text: &str) -> Result<(), String> {
    let list = document.prices.get_or_insert_default();
    list.changes.retain(|change| change.name != name);
    if !text.trim().is_empty() {
        let price = Price::parse(text).map_err(|error| error.to_string())?;
        list.changes.push(ChangePrice { name, price });
    }
    let is_empty = *list == PriceList::default();
    if is_empty {
        document.prices = None;
    }
    match scenario::check(document).iter().find(|fault| fault.path.starts_with("prices.")) {
        Some(fault) => Err(fault.to_string()),
        None => Ok(()),
    }
}

fn parts_mut(document: &mut Document, list: PartList) -> Result<&mut Vec<Part>, String> {
    match list {
        PartList::Kit(kit) => match document.kits.get_mut(kit) {
            Some(kit) => Ok(&mut kit.parts),
            None => Err("that kit is not in the document any more".to_owned()),
        },
        PartList::Second(kit) => {
            let second = document.kits.get_mut(kit).and_then(|k| k.second_port.as_mut());
            second.map(|s| &mut s.parts).ok_or_else(|| "that kit has no second port any more".to_owned())
        }
        PartList::Discharge => Ok(&mut document.discharge),
    }
}
