//! What each element of the chain takes: volts lost, voltage after it, heat, temperature.
//!
//! A drop is the difference of two magnitudes, so that drops add up to the whole.

use uom::si::electric_potential::volt;
use uom::si::f64::{ElectricPotential, Power, ThermodynamicTemperature};
use uom::si::power::watt;
use uom::si::thermodynamic_temperature::degree_celsius;

use super::network::{Impedances, Joints};
use super::path::PowerPath;
use super::phasor::Phasor;
use super::point::{Element, ElementKind};

/// One solved state of the wiring.
pub(crate) struct Part<'a> {
    pub impedances: &'a Impedances,
    pub joints: &'a Joints,
    pub motor_current: Phasor,
}

/// What one element does in one state: entry, exit, watts, conductor temperature.
struct Passage {
    inlet: Phasor,
    outlet: Phasor,
    heat_w: f64,
    temperature_c: Option<f64>,
}

impl Part<'_> {
    fn passages(&self, open_circuit_v: f64) -> Vec<(ElementKind, Passage)> {
        let (z, j) = (self.impedances, self.joints);
        let heat = |current: Phasor, impedance: Phasor| current.squared() * impedance.re;
        let mut all = Vec::with_capacity(3 + z.cords.len());
        all.push((
            ElementKind::Supply,
            Passage {
                inlet: Phasor::real(open_circuit_v),
                outlet: j.panel,
                heat_w: heat(j.branch_current, z.source),
                temperature_c: None,
            },
        ));
        all.push((
            ElementKind::Branch,
            Passage {
                inlet: j.panel,
                outlet: j.branch_end,
                heat_w: heat(j.branch_current, z.branch),
                temperature_c: Some(z.branch_c),
            },
        ));
        all.push((
            ElementKind::Receptacle,
            Passage {
                inlet: j.branch_end,
                outlet: j.receptacle,
                heat_w: heat(self.motor_current, z.contact),
                temperature_c: None,
            },
        ));
        let mut inlet = j.receptacle;
        let cords = z.cords.iter().zip(&z.cords_c).zip(&j.cord_ends).enumerate();
        for (index, ((impedance, temperature_c), outlet)) in cords {
            let passage = Passage {
                inlet,
                outlet: *outlet,
                heat_w: heat(self.motor_current, *impedance),
                temperature_c: Some(*temperature_c),
            };
            all.push((ElementKind::Cord(index), passage));
            inlet = *outlet;
        }
        all
    }
}

/// What each element takes, running (if it does) and starting.
pub(crate) fn elements(path: &PowerPath, running: Option<Part<'_>>, starting: &Part<'_>) -> Vec<Element> {
    let open_circuit_v = path.supply.open_circuit_v();
    let mut running = running.map(|part| part.passages(open_circuit_v).into_iter());
    let drop = |p: &Passage| ElectricPotential::new::<volt>(p.inlet.magnitude() - p.outlet.magnitude());
    starting
        .passages(open_circuit_v)
        .into_iter()
        .map(|(kind, start)| {
            let run = running.as_mut().and_then(Iterator::next).map(|(_, passage)| passage);
            Element {
                kind,
                running_drop: run.as_ref().map(drop),
                running_outlet: run.as_ref().map(|p| volts(p.outlet)),
                heat: run.as_ref().map(|p| Power::new::<watt>(p.heat_w)),
                conductor_temperature: run
                    .as_ref()
                    .and_then(|p| p.temperature_c)
                    .map(ThermodynamicTemperature::new::<degree_celsius>),
                starting_drop: drop(&start),
                starting_outlet: volts(start.outlet),
            }
        })
        .collect()
}

fn volts(phasor: Phasor) -> ElectricPotential {
    ElectricPotential::new::<volt>(phasor.magnitude())
}
