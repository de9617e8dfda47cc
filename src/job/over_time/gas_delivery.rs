//! Gas through its line into the system (push-pull): the delivery pressure is sought from the system's.
//!
//! On its way through the machine's condenser and the hoses the compressed gas gives up its superheat,
//! and no more: it arrives saturated. (Hotter gas would press harder: some 8 % more liquid for R-22
//! through a narrow line.)

use std::cell::Cell;

use super::delivery::Delivered;
use super::path_map::PathMap;
use crate::job::{JobError, Setup};
use crate::machine::Suction;
use crate::numerics::Warm;

/// The gas line.
#[derive(Debug)]
pub(super) struct GasDelivery<'a> {
    setup: &'a Setup,
    line: PathMap<'a>,
    machines: f64,
    /// How far above the system's pressure the last delivery stood, as a logarithm.
    above: Cell<Warm>,
}

/// The line ends at the system's pressure to this share.
const SETTLED: f64 = 1e-9;
/// Longest step in the logarithm of the pressure.
const STRIDE: f64 = 0.1;
const ROUNDS: usize = 40;

impl<'a> GasDelivery<'a> {
    /// - `machines`: how many share the line
    pub fn new(setup: &'a Setup, line: PathMap<'a>, machines: u32) -> Self {
        let above = Cell::new(Warm { x: 0.0, slope: 1.0 });
        Self { setup, line, machines: f64::from(machines.max(1)), above }
    }

    /// The delivery of one machine's flow into a system at `back_pa`.
    pub fn at(&self, suction: &Suction, mass_flow_kg_s: f64, back_pa: f64) -> Result<Delivered, JobError> {
        let flow_kg_s = mass_flow_kg_s * self.machines;
        let near = |above: f64| {
            let delivered = self.pressed(suction, back_pa * above.exp()).ok()?;
            let end_pa = self.end_pa(delivered.pressure_pa, flow_kg_s).ok()??;
            Some(((end_pa / back_pa).ln(), delivered))
        };
        if let Some((delivered, above)) = self.above.get().root(near, SETTLED, STRIDE) {
            self.above.set(above);
            return Ok(delivered);
        }
        self.raised(suction, flow_kg_s, back_pa)
    }

    /// Raised from the system's own pressure, however far it has to go.
    fn raised(&self, suction: &Suction, flow_kg_s: f64, back_pa: f64) -> Result<Delivered, JobError> {
        let top_pa = self.setup.refrigerant.highest_pressure_pa() * (1.0 - 1e-9);
        let blocked = JobError::DischargeBlocked { mass_flow_kg_s: flow_kg_s, limit_pa: top_pa };
        let mut pressure_pa = back_pa;
        for _ in 0..ROUNDS {
            let wanted_pa = match self.end_pa(pressure_pa, flow_kg_s)? {
                Some(end_pa) => pressure_pa * back_pa / end_pa,
                None => {
                    let largest_kg_s = self.line.at(pressure_pa, [1.0, 1.0])?.largest_kg_s;
                    pressure_pa * (flow_kg_s / largest_kg_s).max(1.02)
                }
            };
            if (wanted_pa / pressure_pa - 1.0).abs() < SETTLED {
                return self.pressed(suction, pressure_pa);
            }
            if wanted_pa >= top_pa {
                return Err(blocked);
            }
            pressure_pa = wanted_pa.max(back_pa);
        }
        Err(blocked)
    }

    /// Saturated vapour, and the work of pressing it.
    fn pressed(&self, suction: &Suction, pressure_pa: f64) -> Result<Delivered, JobError> {
        let at = self.setup.refrigerant.saturation_at_pressure(pressure_pa)?;
        let work_j_kg = self.setup.machine.compressor.shaft_work_j_kg(suction, pressure_pa);
        Ok(Delivered { pressure_pa, enthalpy_j_kg: at.vapor_enthalpy_j_kg, work_j_kg })
    }

    /// Where a flow arrives that enters at a pressure; none where it is more than the line passes.
    fn end_pa(&self, pressure_pa: f64, flow_kg_s: f64) -> Result<Option<f64>, JobError> {
        let curve = self.line.at(pressure_pa, [1.0, 1.0])?;
        if curve.is_open() || flow_kg_s <= 0.0 {
            return Ok(Some(pressure_pa));
        }
        let share = flow_kg_s / curve.largest_kg_s;
        Ok((share < 1.0).then(|| curve.outlet_pa(1.0 - (1.0 - share).sqrt())))
    }
}
