//! What is uncertain in a part: its bore, its discharge coefficient, a drier's size.

use super::assumed;
use super::slot::filled;
use super::walk::{Thing, Visit};
use crate::kit::{
    Band, CORE_DISCHARGE_COEFFICIENT, Content, ContentMut, DISCHARGE_COEFFICIENT, DrierState, FilterDrier,
    Hole, Part, PartKind,
};
use crate::units::Typed;
use uom::si::f64::{Length, Ratio};

/// One coefficient for all valve cores and one for all other passages: what is not known about
/// them is the model's, not the single part's.
const CORES: &str = "all cores";
const PASSAGES: &str = "all passages";

/// Visits a part's uncertain fields.
pub(super) fn walk(part: &mut Part, place: &str, visit: &mut Visit<'_>) {
    let thing = Thing::new(key_of(part), part.label(), place);
    let coefficients = if part.kind() == PartKind::ValveCore {
        (CORES, CORE_DISCHARGE_COEFFICIENT)
    } else {
        (PASSAGES, DISCHARGE_COEFFICIENT)
    };
    match part.content_mut() {
        ContentMut::Tube(tube) => bore(&thing, visit, &mut tube.bore, tube.bore_band.as_ref()),
        ContentMut::Hole(one) => hole(&thing, visit, one, coefficients),
        ContentMut::GaugeSet(set) => {
            bore(&thing, visit, &mut set.bore, set.bore_band.as_ref());
            coefficient(&thing, visit, &mut set.discharge_coefficient, coefficients);
        }
        ContentMut::FilterDrier(one) => drier(&thing, visit, one),
        ContentMut::Valve(valve) => thing.banded(
            visit,
            "flow_coefficient",
            &mut valve.flow_coefficient,
            valve.flow_coefficient_band.as_ref(),
            &assumed::FLOW_COEFFICIENT,
        ),
    }
}

/// A hole that is no part of a kit: a machine's own inlet.
pub(super) fn inlet(one: &mut Hole, thing: &Thing, visit: &mut Visit<'_>) {
    hole(thing, visit, one, (PASSAGES, DISCHARGE_COEFFICIENT));
}

/// Shelf entry, or kind and likely size.
fn key_of(part: &Part) -> String {
    match (part.from(), part.bore(), part.content()) {
        (Some(id), ..) => id.to_owned(),
        (None, Some(bore), _) => format!("{} {bore}", part.kind().tag()),
        (None, None, Content::Valve(valve)) => format!("Valve {}", valve.flow_coefficient),
        (None, None, Content::FilterDrier(drier)) => {
            let size = [
                drier.flow_coefficient.as_ref().map(Typed::as_typed),
                drier.rated_flow.as_ref().map(Typed::as_typed),
                drier.rated_capacity.as_ref().map(Typed::as_typed),
            ];
            format!("FilterDrier {}", size.into_iter().flatten().next().unwrap_or_default())
        }
        (None, None, _) => part.kind().tag().to_owned(),
    }
}

fn hole(thing: &Thing, visit: &mut Visit<'_>, hole: &mut Hole, coefficients: (&str, f64)) {
    bore(thing, visit, &mut hole.bore, hole.bore_band.as_ref());
    coefficient(thing, visit, &mut hole.discharge_coefficient, coefficients);
}

fn bore(thing: &Thing, visit: &mut Visit<'_>, bore: &mut Typed<Length>, band: Option<&Band<Typed<Length>>>) {
    thing.banded(visit, "bore", bore, band, &assumed::BORE);
}

fn coefficient(
    thing: &Thing,
    visit: &mut Visit<'_>,
    field: &mut Option<Typed<Ratio>>,
    (key, usual): (&str, f64),
) {
    if let Some(typed) = filled(field, usual) {
        thing.shared(visit, key, "discharge_coefficient", typed, &assumed::DISCHARGE_COEFFICIENT);
    }
}

fn drier(thing: &Thing, visit: &mut Visit<'_>, drier: &mut FilterDrier) {
    if let Some(size) = &mut drier.flow_coefficient {
        thing.assumed(visit, "flow_coefficient", size, &assumed::DRIER_SIZE);
    }
    if let Some(size) = &mut drier.rated_flow {
        thing.assumed(visit, "rated_flow", size, &assumed::DRIER_SIZE);
    }
    if let Some(size) = &mut drier.rated_capacity {
        thing.assumed(visit, "rated_capacity", size, &assumed::DRIER_SIZE);
    }
    if let Some(size) = &mut drier.bore {
        thing.assumed(visit, "bore", size, &assumed::BORE);
    }
    let left = drier.area_left_ratio();
    let is_clean = drier.area_left.is_none() && drier.state == DrierState::Clean;
    if !is_clean && let Some(area) = filled(&mut drier.area_left, left) {
        thing.assumed(visit, "area_left", area, &assumed::DRIER_AREA);
    }
}
