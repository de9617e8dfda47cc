//! The walk over a document's uncertain inputs, always in the same order.
//!
//! An input's key says which inputs share their draws: the same shelf entry's same field, or,
//! where a thing came from no shelf, the same kind of thing with the same likely value. So a part
//! and its copy in another kit are one unknown.

use super::assumed::{self, Assumed};
use super::slot::{Slot, filled};
use super::{Basis, machine, part, supply};
use crate::compare::spread::Spread;
use crate::kit::{Band, Cylinder, Port, VAPOUR_SHARE};
use crate::scenario::Document;
use crate::units::{Measure, Typed};

/// One uncertain input as the walk meets it.
pub(super) struct Found<'a> {
    pub key: String,
    pub spread: Spread,
    pub basis: Basis,
    pub slot: &'a mut dyn Slot,
    thing: &'a Thing,
    field: &'a str,
}

impl Found<'_> {
    /// What people call it.
    pub fn name(&self) -> String {
        format!("{}, {}", self.thing.name, self.field.replace('_', " "))
    }

    /// Where it stands in the document.
    pub fn place(&self) -> String {
        format!("{}.{}", self.thing.place, self.field)
    }
}

/// What is done with each.
pub(super) type Visit<'v> = dyn FnMut(Found<'_>) + 'v;

/// A thing whose fields are visited: what its draws are keyed by, what people call it, where it
/// stands.
pub(super) struct Thing {
    pub key: String,
    pub name: String,
    pub place: String,
}

impl Thing {
    pub fn new(key: impl Into<String>, name: impl Into<String>, place: impl Into<String>) -> Self {
        Self { key: key.into(), name: name.into(), place: place.into() }
    }

    /// Visits a field with an assumed band.
    pub fn assumed<Q: Measure>(
        &self,
        visit: &mut Visit<'_>,
        field: &str,
        typed: &mut Typed<Q>,
        assumed: &Assumed,
    ) {
        let spread = assumed.around(typed.si());
        self.found(visit, &self.key, field, typed, spread);
    }

    /// Visits a field with an assumed band, where it is given.
    pub fn given<Q: Measure>(
        &self,
        visit: &mut Visit<'_>,
        field: &str,
        typed: &mut Option<Typed<Q>>,
        assumed: &Assumed,
    ) {
        if let Some(typed) = typed {
            self.assumed(visit, field, typed, assumed);
        }
    }

    /// Visits a field with the document's own band, where it holds the likely value.
    pub fn banded<Q: Measure>(
        &self,
        visit: &mut Visit<'_>,
        field: &str,
        typed: &mut Typed<Q>,
        band: Option<&Band<Typed<Q>>>,
        otherwise: &Assumed,
    ) {
        let likely = typed.si();
        let spread = match band.and_then(|band| band.around(typed)) {
            Some((low, high)) => (Spread::new(low.si(), likely, high.si()), Basis::Document),
            None => otherwise.around(likely),
        };
        self.found(visit, &self.key, field, typed, spread);
    }

    /// Visits a field whose draws are keyed by something wider than this thing.
    pub fn shared<Q: Measure>(
        &self,
        visit: &mut Visit<'_>,
        key: &str,
        field: &str,
        typed: &mut Typed<Q>,
        assumed: &Assumed,
    ) {
        let spread = assumed.around(typed.si());
        self.found(visit, key, field, typed, spread);
    }

    fn found<Q: Measure>(
        &self,
        visit: &mut Visit<'_>,
        key: &str,
        field: &str,
        typed: &mut Typed<Q>,
        (spread, basis): (Spread, Basis),
    ) {
        visit(Found { key: format!("{key}.{field}"), spread, basis, slot: typed, thing: self, field });
    }
}

/// Visits every uncertain input.
pub(super) fn walk(document: &mut Document, visit: &mut Visit<'_>) {
    source(document, visit);
    let air = Thing::new("ambient", "Air", "ambient");
    air.assumed(visit, "temperature", &mut document.ambient.temperature, &assumed::AMBIENT);
    machine::walk(&mut document.machine, "machine", visit);
    cylinders(document, visit);
    plan(document, visit);
    for (index, one) in document.discharge.iter_mut().enumerate() {
        part::walk(one, &format!("discharge.{index}"), visit);
    }
    supply::walk(&mut document.supply, visit);
    for kit in &mut document.kits {
        let at = format!("kits.{}", kit.name);
        for (index, one) in kit.parts.iter_mut().enumerate() {
            part::walk(one, &format!("{at}.parts.{index}"), visit);
        }
        let second = kit.second_port.iter_mut().flat_map(|second| second.parts.iter_mut());
        for (index, one) in second.enumerate() {
            part::walk(one, &format!("{at}.second_port.parts.{index}"), visit);
        }
        if let Some(machine) = &mut kit.machine {
            machine::walk(machine, &format!("{at}.machine"), visit);
        }
        if let Some(cords) = &mut kit.cords {
            supply::walk_cords(cords, &format!("{at}.cords"), visit);
        }
    }
}

fn source(document: &mut Document, visit: &mut Visit<'_>) {
    let thing = Thing::new("source", "Source", "source");
    let source = &mut document.source;
    thing.assumed(visit, "temperature", &mut source.temperature, &assumed::SOURCE);
    if let Some(charge) = &mut source.charge {
        let spread = match &document.charge_band {
            Some(band) => {
                let (likely, half) = (charge.si(), band.si() * charge.si());
                (Spread::new(likely - half, likely, likely + half), Basis::Document)
            }
            None => assumed::CHARGE.around(charge.si()),
        };
        thing.found(visit, &thing.key, "charge", charge, spread);
    }
    thing.given(visit, "volume", &mut source.volume, &assumed::VOLUME);
    thing.given(visit, "metal_heat_capacity", &mut source.metal_heat_capacity, &assumed::METAL);
    thing.given(visit, "heat_gain", &mut source.heat_gain, &assumed::HEAT_GAIN);
    thing.given(visit, "unreachable", &mut source.unreachable, &assumed::HELD_BACK);
    thing.given(visit, "dissolved", &mut source.dissolved, &assumed::HELD_BACK);
    let draws_both = |port: Option<Port>| port == Some(Port::Both);
    let mixed = source.port == Port::Both || document.kits.iter().any(|kit| draws_both(kit.port));
    if mixed && let Some(share) = filled(&mut source.vapour_share, VAPOUR_SHARE) {
        thing.assumed(visit, "vapour_share", share, &assumed::VAPOUR_SHARE);
    }
}

/// The one in use and those that wait: what is not known of them is the same for all.
fn cylinders(document: &mut Document, visit: &mut Visit<'_>) {
    let mut one = |cylinder: &mut Cylinder, place: &str| {
        let thing = Thing::new("cylinder", "Cylinder", place);
        thing.assumed(visit, "temperature", &mut cylinder.temperature, &assumed::CYLINDER);
        thing.given(visit, "excess_pressure", &mut cylinder.excess_pressure, &assumed::EXCESS_PRESSURE);
        thing.given(visit, "heat_exchange", &mut cylinder.heat_exchange, &assumed::HEAT_GAIN);
    };
    one(&mut document.cylinder, "cylinder");
    for (index, cylinder) in document.cylinders.iter_mut().enumerate() {
        one(cylinder, &format!("cylinders.{index}"));
    }
}

/// Minutes of hands.
fn plan(document: &mut Document, visit: &mut Visit<'_>) {
    let Some(plan) = &mut document.job else { return };
    let thing = Thing::new("job", "Job", "job");
    thing.given(visit, "swap", &mut plan.swap, &assumed::HANDS);
    thing.given(visit, "hose_change", &mut plan.hose_change, &assumed::HANDS);
}
