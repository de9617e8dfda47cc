//! The chain of the kit in hand.

use narrows::job::PartPoint;
use narrows::kit::{Part, Port};
use uom::si::ratio::ratio;

use super::faults::fault_place;
use super::scale::{PressureScale, pretty};
use super::{Scene, Slot, parts};
use crate::ui::diagram::chain::{Chain, Link};
use crate::ui::symbols::{Fluid, Mark, Symbol};

/// The model of the chain.
pub fn chain(scene: &Scene) -> Chain {
    let mut links: Vec<Link> = scene.slots.iter().map(|slot| link(scene, slot)).collect();
    if let Some(gone) = &scene.gone
        && let Some(link) = links.get_mut(gone.slot)
    {
        *link = bridge(gone.name.clone(), "out".to_owned());
    }
    for fault in scene.session.faults() {
        let place = fault_place(scene.document(), &fault.path);
        let here = place.kit.is_none_or(|kit| kit == scene.hand());
        let slot = place.selected.filter(|_| here).and_then(|s| scene.slot_of(s));
        if let Some(link) = slot.and_then(|i| links.get_mut(i)) {
            link.mark = Some(Mark::Note);
            link.words = format!("{}, to put right: {}", link.words, fault.message);
        }
    }
    let second = super::second::row(scene);
    let tried = scene.session.tried().is_some();
    Chain { links, second, tried, selected: scene.slot_of_selected(), stale: scene.session.is_stale() }
}

fn link(scene: &Scene, slot: &Slot) -> Link {
    let document = scene.document();
    let point = scene.point(scene.hand());
    match slot {
        Slot::Source => {
            let charge = document.source.charge.as_ref().map(|c| format!("{c}, ")).unwrap_or_default();
            let detail = format!("{charge}{}", pretty(document.source.temperature.as_typed()));
            let pressure = point.map(|p| scene.pressure_text(p.system_pressure)).unwrap_or_default();
            Link {
                symbol: Some(Symbol::Vessel { liquid_ratio: 0.4 }),
                words: format!("System, {}, {detail}, {pressure}", document.refrigerant),
                name: "System".to_owned(),
                detail,
                fluid: port_fluid(scene),
                joined_left: false,
                joined_right: true,
                covered: false,
                mark: None,
            }
        }
        Slot::Part(places) => part_link(scene, places),
        Slot::Machine => machine_link(scene),
        Slot::Discharge(i) => {
            let solved = point.and_then(|p| p.discharge_parts.get(*i));
            match document.discharge.get(*i) {
                Some(part) => joined(scene, part, solved, Fluid::Liquid),
                None => bridge(String::new(), String::new()),
            }
        }
        Slot::Cylinder => cylinder_link(scene),
    }
}

fn part_link(scene: &Scene, places: &[Option<usize>]) -> Link {
    let document = scene.document();
    let of_kit = |kit: usize| {
        let place = places.get(kit).copied().flatten()?;
        Some((place, document.kits.get(kit)?.parts.get(place)?))
    };
    if let Some((place, part)) = of_kit(scene.hand()) {
        let solved = scene.point(scene.hand()).and_then(|p| p.parts.get(place));
        return joined(scene, part, solved, port_fluid(scene));
    }
    let other = (0..document.kits.len()).find_map(|kit| Some((kit, of_kit(kit)?.1)));
    match other {
        Some((kit, part)) => {
            let owner = document.kits.get(kit).map_or("", |k| k.name.as_str());
            bridge(parts::name(part), format!("only in {owner}"))
        }
        None => Link {
            symbol: Some(Symbol::Pipe),
            joined_left: true,
            joined_right: true,
            fluid: port_fluid(scene),
            words: "Straight on to where the two ports meet".to_owned(),
            ..bridge(String::new(), String::new())
        },
    }
}

fn bridge(name: String, detail: String) -> Link {
    Link {
        symbol: None,
        words: format!("{name}, {detail}"),
        name,
        detail,
        fluid: Fluid::Vapor,
        joined_left: false,
        joined_right: false,
        covered: false,
        mark: None,
    }
}

/// A part that stands in the passage.
pub fn joined(scene: &Scene, part: &Part, solved: Option<&PartPoint>, fluid: Fluid) -> Link {
    let (name, detail) = (parts::name(part), parts::detail(part));
    let mut words = format!("{name}, {detail}");
    if let Some(solved) = solved {
        let scale = PressureScale::of(scene.units());
        let loss = scale.loss(scale.on(solved.drop()));
        words = format!("{words}, loses {loss} {}", scale.difference);
        if solved.choked {
            words.push_str(", choked");
        }
        if solved.flash_onset {
            words.push_str(", liquid begins to flash");
        }
    }
    let newer = scene.session.shelf().all().newer(part).is_some();
    if newer {
        words.push_str(", the shelf has a newer figure");
    }
    Link {
        symbol: Some(parts::symbol(part)),
        words,
        name,
        detail: parts::short_detail(part).unwrap_or(detail),
        fluid: solved.map_or(fluid, fluid_after),
        joined_left: true,
        joined_right: true,
        covered: false,
        mark: newer.then_some(Mark::Note),
    }
}

fn machine_link(scene: &Scene) -> Link {
    let kit_machine = scene.kit().and_then(|k| k.machine.as_ref());
    let machine = kit_machine.unwrap_or(&scene.document().machine);
    let detail = machine.displacement.as_typed().to_owned();
    let fluid = scene.point(scene.hand()).and_then(|p| p.parts.last()).map_or(port_fluid(scene), fluid_after);
    Link {
        symbol: Some(Symbol::Machine),
        words: format!("Machine, {detail}"),
        name: "Machine".to_owned(),
        detail,
        fluid,
        joined_left: true,
        joined_right: true,
        covered: false,
        mark: None,
    }
}

fn cylinder_link(scene: &Scene) -> Link {
    let cylinder = &scene.document().cylinder;
    let size = cylinder.water_capacity.as_ref().map(|wc| format!("{wc} WC"));
    let detail = size.unwrap_or_else(|| pretty(cylinder.temperature.as_typed()));
    let pressure = scene.point(scene.hand()).map(|p| scene.pressure_text(p.cylinder_pressure));
    Link {
        symbol: Some(Symbol::Cylinder { liquid_ratio: 0.3 }),
        words: format!("Cylinder, {detail}, {}", pressure.unwrap_or_default()),
        name: "Cylinder".to_owned(),
        detail,
        fluid: Fluid::Vapor,
        joined_left: true,
        joined_right: false,
        covered: false,
        mark: None,
    }
}

fn port_fluid(scene: &Scene) -> Fluid {
    fluid_of(scene.kit().and_then(|k| k.port).unwrap_or(scene.document().source.port))
}

/// What a port draws.
pub fn fluid_of(port: Port) -> Fluid {
    match port {
        Port::Liquid => Fluid::Liquid,
        Port::Vapour => Fluid::Vapor,
        Port::Both => Fluid::Mixed,
    }
}

fn fluid_after(part: &PartPoint) -> Fluid {
    let quality = part.outlet_quality.get::<ratio>();
    // A breath of liquid in vapour would not be seen in a hose.
    if quality >= 0.95 {
        Fluid::Vapor
    } else if quality <= 0.001 {
        Fluid::Liquid
    } else {
        Fluid::Mixed
    }
}
