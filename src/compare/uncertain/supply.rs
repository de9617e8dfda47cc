//! What is uncertain on the way of the power: panel, wiring in the wall, contacts.

use super::assumed;
use super::walk::{Thing, Visit};
use crate::kit::{Cord, Supply};

/// Visits a supply's uncertain fields, its cords' too.
pub(super) fn walk(supply: &mut Supply, visit: &mut Visit<'_>) {
    let thing = Thing::new("supply", "Supply", "supply");
    thing.assumed(visit, "voltage", &mut supply.voltage, &assumed::PANEL_VOLTAGE);
    if let Some(resistance) = &mut supply.source_resistance {
        thing.assumed(visit, "source_resistance", resistance, &assumed::SOURCE_IMPEDANCE);
    }
    if let Some(reactance) = &mut supply.source_reactance {
        thing.assumed(visit, "source_reactance", reactance, &assumed::SOURCE_IMPEDANCE);
    }
    if let Some(sag) = supply.generator.as_mut().and_then(|generator| generator.sag.as_mut()) {
        let at = Thing::new("supply.generator", "Generator", "supply.generator");
        at.assumed(visit, "sag", sag, &assumed::SAG);
    }
    if let Some(branch) = &mut supply.branch {
        let at = Thing::new("supply.branch", "Branch circuit", "supply.branch");
        at.assumed(visit, "length", &mut branch.length, &assumed::BRANCH_LENGTH);
        if let Some(load) = &mut branch.other_load {
            at.assumed(visit, "other_load", load, &assumed::OTHER_LOAD);
        }
        if let Some(contact) = &mut branch.contact_resistance {
            at.assumed(visit, "contact_resistance", contact, &assumed::CONTACT);
        }
    }
    walk_cords(&mut supply.cords, "supply.cords", visit);
}

/// Visits the uncertain fields of cords.
pub(super) fn walk_cords(cords: &mut [Cord], place: &str, visit: &mut Visit<'_>) {
    for (index, cord) in cords.iter_mut().enumerate() {
        let key = match &cord.from {
            Some(id) => id.clone(),
            None => format!("cord {} {}", cord.gauge, cord.length),
        };
        let name = cord.name.clone().unwrap_or_else(|| "Cord".to_owned());
        let thing = Thing::new(key, name, format!("{place}.{index}"));
        if let Some(contact) = &mut cord.contact_resistance {
            thing.assumed(visit, "contact_resistance", contact, &assumed::CONTACT);
        }
    }
}
