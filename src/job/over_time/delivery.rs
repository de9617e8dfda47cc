//! The pressure a machine delivers against: condenser and cylinder, or gas into the system.
//!
//! Condensing: the higher of the condensing saturation pressure and the cylinder's pressure plus
//! the discharge path's loss. The loss is found by the march at a few flows, cylinder pressures and
//! temperatures of the condensed liquid, and interpolated between them: straight in the square of
//! the flow, in the logarithm of the pressure and in the temperature.
//!
//! Gas (push-pull): see [`super::gas_delivery`].

use std::cell::RefCell;
use std::collections::BTreeMap;

use uom::si::thermodynamic_temperature::kelvin;

use super::gas_delivery::GasDelivery;
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
    Gas(GasDelivery<'a>),
}

impl Delivery<'_> {
    /// The delivery of one machine's flow into a vessel at `back_pa`.
    pub fn at(&self, suction: &Suction, mass_flow_kg_s: f64, back_pa: f64) -> Result<Delivered, JobError> {
        match self {
            Self::Condensed(delivery) => delivery.at(suction, mass_flow_kg_s, back_pa),
            Self::Gas(delivery) => delivery.at(suction, mass_flow_kg_s, back_pa),
        }
    }
}

/// Flow, cylinder pressure and liquid temperature of a node.
type Key = (i32, i32, i32);

/// Condenser and discharge path.
#[derive(Debug)]
pub(super) struct CondensedDelivery<'a> {
    setup: &'a Setup,
    losses: RefCell<BTreeMap<Key, Result<f64, JobError>>>,
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
/// Step in the temperature of the liquid.
const TEMPERATURE_STEP_K: f64 = 6.0;

impl<'a> CondensedDelivery<'a> {
    pub fn new(setup: &'a Setup) -> Self {
        Self { setup, losses: RefCell::new(BTreeMap::new()) }
    }

    fn at(&self, suction: &Suction, mass_flow_kg_s: f64, back_pa: f64) -> Result<Delivered, JobError> {
        let machine = &self.setup.machine;
        let inlet = suction.point.enthalpy_j_kg;
        let back_pa = back_pa.max(self.least_back_pa()?);
        let work = |pressure_pa: f64| machine.compressor.shaft_work_j_kg(suction, pressure_pa.max(back_pa));
        let heat = |pressure_pa: f64, liquid: f64| mass_flow_kg_s * (inlet + work(pressure_pa) - liquid);
        let condensed =
            machine.condenser.condense(&self.setup.refrigerant, self.setup.ambient.temperature, heat)?;
        let pushed_pa = back_pa + self.loss_pa(mass_flow_kg_s, back_pa, condensed.temperature_k)?;
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

    fn loss_pa(&self, mass_flow_kg_s: f64, back_pa: f64, liquid_k: f64) -> Result<f64, JobError> {
        if self.is_open() {
            return Ok(0.0);
        }
        let floor_pa = self.setup.refrigerant.lowest_pressure_pa();
        let flow = mass_flow_kg_s.max(LEAST_KG_S);
        let row = ((flow / LEAST_KG_S).ln() / FLOW_STEP).floor() as i32;
        let column = (back_pa / floor_pa).ln() / PRESSURE_STEP;
        let layer = liquid_k / TEMPERATURE_STEP_K;
        let (low, high) = (flow_at(row), flow_at(row + 1));
        let along = (flow * flow - low * low) / (high * high - low * low);
        let in_layer = |i: i32, k: i32| {
            let j = column.floor() as i32;
            straight(self.node((i, j, k)), || self.node((i, j + 1, k)), column - column.floor())
        };
        let at_flow = |i: i32| {
            let k = layer.floor() as i32;
            straight(in_layer(i, k), || in_layer(i, k + 1), layer - layer.floor())
        };
        let near = at_flow(row)?;
        // Beyond the last flow that passes at all, the loss goes with the square.
        Ok(at_flow(row + 1).map_or(near * (flow / low).powi(2), |far| (1.0 - along) * near + along * far))
    }

    fn node(&self, key: Key) -> Result<f64, JobError> {
        if let Some(loss) = self.losses.borrow().get(&key) {
            return loss.clone();
        }
        let (i, j, k) = key;
        let loss = self.marched(flow_at(i), f64::from(j) * PRESSURE_STEP, f64::from(k) * TEMPERATURE_STEP_K);
        self.losses.borrow_mut().insert(key, loss.clone());
        loss
    }

    fn marched(&self, flow_kg_s: f64, log_ratio: f64, liquid_k: f64) -> Result<f64, JobError> {
        let refrigerant = &*self.setup.refrigerant;
        let back_pa = refrigerant.lowest_pressure_pa() * log_ratio.exp();
        let liquid = refrigerant.saturation_at_bubble_temperature(liquid_k)?.liquid_enthalpy_j_kg;
        let side = DischargeSide::against(self.setup, back_pa);
        Ok(side.pushed_pa(back_pa, liquid, flow_kg_s)? - back_pa)
    }
}

/// Between two neighbours, or the one that has an answer.
fn straight(
    near: Result<f64, JobError>,
    far: impl FnOnce() -> Result<f64, JobError>,
    share: f64,
) -> Result<f64, JobError> {
    match (near, far()) {
        (Ok(near), Ok(far)) => Ok((1.0 - share) * near + share * far),
        (Ok(only), Err(_)) | (Err(_), Ok(only)) => Ok(only),
        (Err(error), Err(_)) => Err(error),
    }
}

fn flow_at(row: i32) -> f64 {
    LEAST_KG_S * (f64::from(row) * FLOW_STEP).exp()
}
