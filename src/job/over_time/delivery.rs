//! The pressure a machine delivers against: condenser and cylinder, or gas into the system.
//!
//! Condensing: the higher of the condensing saturation pressure and the cylinder's pressure plus
//! the discharge path's loss. The loss is that of liquid a little above ambient temperature (no
//! warmer than saturation), found by the march at a few flows and cylinder pressures and
//! interpolated: straight in the square of the flow, straight in the logarithm of the pressure.
//!
//! Gas (push-pull): the compressed gas passes the gas line into the system. On its way through the
//! machine's condenser and the hoses it gives up its superheat, and no more: it arrives saturated.
//! (Hotter gas would press harder: some 8 % more liquid for R-22 through a narrow line.)

use std::cell::RefCell;
use std::collections::BTreeMap;

use uom::si::thermodynamic_temperature::kelvin;

use super::path_map::PathMap;
use crate::job::discharge::DischargeSide;
use crate::job::{JobError, Setup};
use crate::machine::Suction;

/// What a flow is delivered against.
#[derive(Debug, Clone, Copy)]
pub(super) struct Delivered {
    pub pressure_pa: f64,
    /// Of what arrives at the other end.
    pub enthalpy_j_kg: f64,
    pub work_j_kg: f64,
}

/// Where a machine delivers to.
#[derive(Debug)]
pub(super) enum Delivery<'a> {
    Condensed(CondensedDelivery<'a>),
    Gas { setup: &'a Setup, line: PathMap<'a>, machines: f64 },
}

impl Delivery<'_> {
    /// The delivery of one machine's flow into a vessel at `back_pa`.
    pub fn at(&self, suction: &Suction, mass_flow_kg_s: f64, back_pa: f64) -> Result<Delivered, JobError> {
        match self {
            Self::Condensed(delivery) => delivery.at(suction, mass_flow_kg_s, back_pa),
            Self::Gas { setup, line, machines } => {
                gas(setup, line, suction, mass_flow_kg_s * machines, back_pa)
            }
        }
    }
}

/// Condenser and discharge path.
#[derive(Debug)]
pub(super) struct CondensedDelivery<'a> {
    setup: &'a Setup,
    losses: RefCell<BTreeMap<(i32, i32), Result<f64, JobError>>>,
}

/// Step in the logarithm of the flow.
const FLOW_STEP: f64 = 0.35;
/// Step in the logarithm of the cylinder's pressure.
const PRESSURE_STEP: f64 = 0.15;
/// Smallest flow of the map.
const LEAST_KG_S: f64 = 1e-6;
/// Share of the saturation pressure below which flashing liquid chokes in any path of note (an
/// estimate on the safe side: single holes choke near 0.8).
const CHOKES_RATIO: f64 = 0.3;
/// Liquid leaves a condenser about this much warmer than the air (common practice, no source).
const APPROACH_K: f64 = 8.0;

impl<'a> CondensedDelivery<'a> {
    pub fn new(setup: &'a Setup) -> Self {
        Self { setup, losses: RefCell::new(BTreeMap::new()) }
    }

    fn at(&self, suction: &Suction, mass_flow_kg_s: f64, back_pa: f64) -> Result<Delivered, JobError> {
        let machine = &self.setup.machine;
        let inlet = suction.point.enthalpy_j_kg;
        let back_pa = back_pa.max(self.least_back_pa()?);
        let pushed_pa = back_pa + self.loss_pa(mass_flow_kg_s, back_pa)?;
        let work = |pressure_pa: f64| machine.compressor.shaft_work_j_kg(suction, pressure_pa.max(pushed_pa));
        let heat = |pressure_pa: f64, liquid: f64| mass_flow_kg_s * (inlet + work(pressure_pa) - liquid);
        let condensed =
            machine.condenser.condense(&self.setup.refrigerant, self.setup.ambient.temperature, heat)?;
        let pressure_pa = condensed.pressure_pa.max(pushed_pa);
        let work_j_kg = machine.compressor.shaft_work_j_kg(suction, pressure_pa);
        Ok(Delivered { pressure_pa, enthalpy_j_kg: condensed.liquid_enthalpy_j_kg, work_j_kg })
    }

    /// Against less, warm liquid chokes as it flashes: it needs no less push.
    fn least_back_pa(&self) -> Result<f64, JobError> {
        let refrigerant = &*self.setup.refrigerant;
        if self.is_open() {
            return Ok(0.0);
        }
        let ambient_k = self.setup.ambient.temperature.get::<kelvin>();
        let coldest_k = ambient_k.min(refrigerant.highest_saturation_temperature_k());
        Ok(CHOKES_RATIO * refrigerant.bubble_pressure_pa(coldest_k)?)
    }

    fn is_open(&self) -> bool {
        self.setup.discharge.iter().all(|part| part.elements.is_empty())
    }

    fn loss_pa(&self, mass_flow_kg_s: f64, back_pa: f64) -> Result<f64, JobError> {
        if self.is_open() {
            return Ok(0.0);
        }
        let floor_pa = self.setup.refrigerant.lowest_pressure_pa();
        let flow = mass_flow_kg_s.max(LEAST_KG_S);
        let (row, column) = ((flow / LEAST_KG_S).ln() / FLOW_STEP, (back_pa / floor_pa).ln() / PRESSURE_STEP);
        let (i, j) = (row.floor() as i32, column.floor() as i32);
        let across = column - column.floor();
        let (low, high) = (flow_at(i), flow_at(i + 1));
        let along = (flow * flow - low * low) / (high * high - low * low);
        let pair = |i: i32| -> Result<f64, JobError> {
            let near = self.node(i, j);
            match (near, self.node(i, j + 1)) {
                (Ok(near), Ok(far)) => Ok((1.0 - across) * near + across * far),
                (Ok(only), Err(_)) | (Err(_), Ok(only)) => Ok(only),
                (Err(error), Err(_)) => Err(error),
            }
        };
        let near = pair(i)?;
        // Beyond the last flow that passes at all, the loss goes with the square.
        Ok(pair(i + 1).map_or(near * (flow / low).powi(2), |far| (1.0 - along) * near + along * far))
    }

    fn node(&self, i: i32, j: i32) -> Result<f64, JobError> {
        if let Some(loss) = self.losses.borrow().get(&(i, j)) {
            return loss.clone();
        }
        let loss = self.marched(flow_at(i), f64::from(j) * PRESSURE_STEP);
        self.losses.borrow_mut().insert((i, j), loss.clone());
        loss
    }

    fn marched(&self, flow_kg_s: f64, log_ratio: f64) -> Result<f64, JobError> {
        let refrigerant = &*self.setup.refrigerant;
        let back_pa = refrigerant.lowest_pressure_pa() * log_ratio.exp();
        let boiling_k = refrigerant.saturation_at_pressure(back_pa)?.bubble_temperature_k;
        let liquid_k = (self.setup.ambient.temperature.get::<kelvin>() + APPROACH_K).min(boiling_k);
        let liquid = refrigerant.saturation_at_bubble_temperature(liquid_k)?.liquid_enthalpy_j_kg;
        let side = DischargeSide::against(self.setup, back_pa);
        Ok(side.pushed_pa(back_pa, liquid, flow_kg_s)? - back_pa)
    }
}

fn flow_at(row: i32) -> f64 {
    LEAST_KG_S * (f64::from(row) * FLOW_STEP).exp()
}

/// Gas through its line into the system: the delivery pressure is sought from the system's.
fn gas(
    setup: &Setup,
    line: &PathMap<'_>,
    suction: &Suction,
    mass_flow_kg_s: f64,
    back_pa: f64,
) -> Result<Delivered, JobError> {
    let refrigerant = &*setup.refrigerant;
    let compressor = &setup.machine.compressor;
    let top_pa = refrigerant.highest_pressure_pa() * (1.0 - 1e-9);
    let mut pressure_pa = back_pa;
    for _ in 0..40 {
        let at = refrigerant.saturation_at_pressure(pressure_pa)?;
        let work_j_kg = compressor.shaft_work_j_kg(suction, pressure_pa);
        let delivered = Delivered { pressure_pa, enthalpy_j_kg: at.vapor_enthalpy_j_kg, work_j_kg };
        let curve = line.at(pressure_pa, [1.0, 1.0])?;
        if curve.is_open() || mass_flow_kg_s <= 0.0 {
            return Ok(delivered);
        }
        let share = mass_flow_kg_s / curve.largest_kg_s;
        let wanted_pa = if share < 1.0 {
            let place = 1.0 - (1.0 - share).sqrt();
            pressure_pa * back_pa / curve.outlet_pa(place)
        } else {
            pressure_pa * share.max(1.02)
        };
        if (wanted_pa / pressure_pa - 1.0).abs() < 1e-9 {
            return Ok(delivered);
        }
        if wanted_pa >= top_pa {
            return Err(JobError::DischargeBlocked { mass_flow_kg_s, limit_pa: top_pa });
        }
        pressure_pa = wanted_pa.max(back_pa);
    }
    Err(JobError::DischargeBlocked { mass_flow_kg_s, limit_pa: top_pa })
}
