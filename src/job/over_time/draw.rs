//! What machines draw from a vessel through a path: the operating point, fast.
//!
//! The same crossing as in [`crate::job::solve`], with the path looked up in a map and the machine
//! computed. Delivery pressure, polytropic exponent and motor speed hardly depend on the flow, so
//! they are held while the crossing is found and then set right, round after round.

use std::cell::Cell;

use uom::si::f64::Power;
use uom::si::power::watt;

use super::delivery::{Delivered, Delivery};
use super::path_curve::PathCurve;
use super::path_map::{PathMap, Qualities};
use crate::flow::{Medium, Point};
use crate::job::balance::with_throttles;
use crate::job::solve::{powered, speed_ratio};
use crate::job::{JobError, LoadBasis, Port, Setup};
use crate::machine::Suction;
use crate::numerics::{RootError, Tolerance, Warm, find_root};
use crate::power::Load;

/// Machines on a path.
#[derive(Debug)]
pub(super) struct Drawer<'a> {
    setup: &'a Setup,
    map: PathMap<'a>,
    delivery: Delivery<'a>,
    /// Machines that share the path.
    sharing: f64,
    /// The motor's speed on its nameplate load.
    planned_speed: f64,
    last: Cell<Option<(f64, f64)>>,
    /// Where on its curve the path was crossed last.
    place: Cell<Option<Warm>>,
}

/// What is drawn.
#[derive(Debug, Clone, Copy)]
pub(super) struct Draw {
    /// Through the path, all machines on it together.
    pub mass_flow_kg_s: f64,
    /// Of what leaves the vessel.
    pub enthalpy_j_kg: f64,
    pub suction: Suction,
    pub delivered: Delivered,
}

const ROUNDS: usize = 80;
/// From this round on each step goes only half the way: flow and delivery pressure may otherwise
/// swing about their answer where a small change of one moves the other much.
const HALF_STEPS_FROM: usize = 8;
/// What the path passes and what the machines draw differ by no more than this share of both.
const CROSSED: f64 = 5e-10;
/// Longest step along the path's curve from the last crossing to the next.
const STRIDE: f64 = 0.2;
/// Delivery pressure and flow have settled.
const SETTLED: f64 = 1e-7;

impl<'a> Drawer<'a> {
    /// - `setup`: whose `path` leads to the machine
    /// - `sharing`: machines on the same path, each with its own inlet throttle
    pub fn new(
        setup: &'a Setup,
        path: &crate::flow::Path,
        ports: (Port, Port),
        sharing: u32,
        delivery: Delivery<'a>,
    ) -> Result<Self, JobError> {
        let sharing = sharing.max(1);
        let path = with_throttles(setup, path, sharing)?;
        let map = PathMap::new(&setup.refrigerant, setup.method, path, ports);
        let planned_speed = speed_ratio(&powered(setup, Load::Nameplate)?)?;
        Ok(Self {
            setup,
            map,
            delivery,
            sharing: f64::from(sharing),
            planned_speed,
            last: Cell::new(None),
            place: Cell::new(None),
        })
    }

    /// What is drawn from a vessel into another at `back_pa`.
    pub fn at(&self, source_pa: f64, qualities: Qualities, back_pa: f64) -> Result<Draw, JobError> {
        let curve = self.map.at(source_pa, qualities)?;
        let (mut pressure_pa, mut speed) = match self.last.get() {
            Some((share, speed)) => (share * back_pa, speed),
            None => (back_pa, self.planned_speed),
        };
        let mut flow = f64::NAN;
        let refrigerant = &*self.setup.refrigerant;
        let compressor = &self.setup.machine.compressor;
        let mut suction = compressor.suction(refrigerant, self.end(&curve, 0.0)?)?;
        for round in 0..ROUNDS {
            let crossing = self.cross(&curve, &suction, pressure_pa, speed)?;
            suction = compressor.suction(refrigerant, crossing.point)?;
            let delivered = self.delivery.at(&suction, crossing.flow_kg_s / self.sharing, back_pa)?;
            let before = (pressure_pa, speed);
            pressure_pa = delivered.pressure_pa;
            if round >= HALF_STEPS_FROM {
                pressure_pa = (pressure_pa * before.0).sqrt();
            }
            if self.setup.load == LoadBasis::Duty && crossing.flow_kg_s > 0.0 {
                speed = self.speed_on_duty(crossing.flow_kg_s / self.sharing, &delivered, speed)?;
            }
            let moved = (pressure_pa / before.0 - 1.0).abs() + (speed / before.1 - 1.0).abs();
            let settled = (crossing.flow_kg_s - flow).abs() <= SETTLED * crossing.flow_kg_s;
            flow = crossing.flow_kg_s;
            if moved > SETTLED && !settled {
                continue;
            }
            if flow <= 0.0 {
                let ultimate_pa = compressor.ultimate_suction_pa(suction.exponent, pressure_pa);
                return Err(JobError::DrawsNothing {
                    system_pa: source_pa,
                    discharge_pa: pressure_pa,
                    ultimate_pa,
                });
            }
            self.last.set(Some((pressure_pa / back_pa, speed)));
            return Ok(Draw {
                mass_flow_kg_s: flow,
                enthalpy_j_kg: crossing.point.enthalpy_j_kg,
                suction,
                delivered,
            });
        }
        Err(JobError::DischargeBlocked { mass_flow_kg_s: flow, limit_pa: pressure_pa })
    }

    /// The lowest pressure the machine reaches against the delivery of a draw.
    pub fn ultimate_pa(&self, draw: &Draw) -> f64 {
        self.setup.machine.compressor.ultimate_suction_pa(draw.suction.exponent, draw.delivered.pressure_pa)
    }

    fn speed_on_duty(&self, flow_kg_s: f64, delivered: &Delivered, speed: f64) -> Result<f64, JobError> {
        let at_rated = Power::new::<watt>(flow_kg_s * delivered.work_j_kg / speed);
        speed_ratio(&powered(self.setup, Load::ShaftPower(at_rated))?)
    }

    /// The state at the end of the path; no lower than the table, where a machine draws next to
    /// nothing anyway.
    fn end(&self, curve: &PathCurve, place: f64) -> Result<Point, JobError> {
        let refrigerant = &*self.setup.refrigerant;
        let pressure_pa = curve.outlet_pa(place).max(refrigerant.lowest_pressure_pa() * 1.000_001);
        Ok(refrigerant.point(pressure_pa, curve.enthalpy_j_kg(place))?)
    }

    /// The crossing of path and machines against a delivery pressure.
    fn cross(
        &self,
        curve: &PathCurve,
        suction: &Suction,
        delivery_pa: f64,
        speed: f64,
    ) -> Result<Crossing, JobError> {
        let compressor = &self.setup.machine.compressor;
        let capacity = |point: Point| {
            let suction = Suction { point, exponent: suction.exponent };
            self.sharing * compressor.mass_flow_kg_s(&suction, delivery_pa, speed)
        };
        let crossing = |place: f64| -> Result<(f64, Crossing), JobError> {
            let (flow_kg_s, point) = (curve.flow_kg_s(place), self.end(curve, place)?);
            let drawn = capacity(point);
            Ok(((flow_kg_s - drawn) / (flow_kg_s + drawn), Crossing { flow_kg_s, point }))
        };
        let nearby = |place: f64| (place > 0.0 && place < 1.0).then(|| crossing(place).ok()).flatten();
        if let Some((found, end)) = self.place.get().and_then(|start| start.root(nearby, CROSSED, STRIDE)) {
            self.place.set(Some(end));
            return Ok(found);
        }
        self.place.set(None);
        let open = self.end(curve, 0.0)?;
        let drawn = capacity(open);
        if curve.is_open() || drawn <= 0.0 {
            return Ok(Crossing { flow_kg_s: drawn, point: open });
        }
        let excess = |place: f64| Ok::<_, JobError>(crossing(place)?.0);
        let at_choke = excess(1.0)?;
        if at_choke <= 0.0 {
            return self.choked(curve, capacity);
        }
        let tolerance = Tolerance { absolute: 1e-10, relative: 0.0, residual: CROSSED };
        let place = match find_root(excess, (0.0, -1.0), (1.0, at_choke), tolerance) {
            Ok(root) => root.x,
            Err(RootError::NotBracketed { .. }) => 1.0,
            Err(RootError::Function(error)) => return Err(error),
        };
        let aside = 0.999 * place;
        let (at_place, found) = crossing(place)?;
        self.place.set(Some(Warm { x: place, slope: (at_place - excess(aside)?) / (place - aside) }));
        Ok(found)
    }

    /// On the plateau the machines pull their inlet down until they draw just that.
    fn choked(&self, curve: &PathCurve, capacity: impl Fn(Point) -> f64) -> Result<Crossing, JobError> {
        let refrigerant = &*self.setup.refrigerant;
        let (flow_kg_s, enthalpy) = (curve.largest_kg_s, curve.enthalpy_j_kg(1.0));
        let excess = |log_pa: f64| -> Result<f64, JobError> {
            Ok(capacity(refrigerant.point(log_pa.exp(), enthalpy)?) / flow_kg_s - 1.0)
        };
        let low = (refrigerant.lowest_pressure_pa() * 1.000_001).ln();
        let high = curve.outlet_pa(1.0).ln().max(low);
        let ends = ((high, excess(high)?), (low, excess(low)?));
        let tolerance = Tolerance { absolute: 1e-9, relative: 0.0, residual: 1e-8 };
        let log_pa = match find_root(excess, ends.0, ends.1, tolerance) {
            Ok(root) => root.x,
            // Even at the end of the table they could draw more: the flow is the plateau's anyway.
            Err(RootError::NotBracketed { .. }) => low,
            Err(RootError::Function(error)) => return Err(error),
        };
        Ok(Crossing { flow_kg_s, point: refrigerant.point(log_pa.exp(), enthalpy)? })
    }
}

struct Crossing {
    flow_kg_s: f64,
    point: Point,
}
