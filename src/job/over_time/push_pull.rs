//! Push-pull: the machine draws the cylinder's vapour and presses it onto the system's liquid, which
//! flows through a line of its own into the cylinder.
//!
//! Liquid line and gas loop meet only in the two vessels' pressures. In the cylinder, liquid that
//! arrives warmer than saturation flashes, and that vapour takes displacement:
//! `m ((1 − x)/ρ_l + x/ρ_v) = η_v V̇`. Two steady bounds follow, one for each thing that may become
//! of the gas: all of it condenses on the system's liquid, which then stays at saturation, or none.

use uom::si::f64::{MassRate, Pressure};
use uom::si::mass_rate::kilogram_per_second;
use uom::si::pressure::pascal;

use super::answer::{PushPullLimit, PushPullLimits};
use super::delivery::Delivery;
use super::draw::{Draw, Drawer};
use super::gas_delivery::GasDelivery;
use super::path_curve::PathCurve;
use super::path_map::PathMap;
use super::receiving::CylinderView;
use super::setup::PushPull;
use super::system::SystemView;
use crate::flow::Path;
use crate::fluid::Saturation;
use crate::job::{JobError, Port, Setup};
use crate::numerics::{RootError, Tolerance, find_root};

/// The two lines.
#[derive(Debug)]
pub(super) struct GasLoop<'a> {
    setup: &'a Setup,
    drawer: Drawer<'a>,
    liquid: PathMap<'a>,
}

/// A flow above this share of a limit is held back by that limit.
pub(super) const NEAR_RATIO: f64 = 0.6;

/// What flows in both.
#[derive(Debug, Clone, Copy)]
pub(super) struct LoopFlow {
    pub liquid_kg_s: f64,
    /// The gas; none where the machine draws nothing.
    pub gas: Option<Draw>,
}

impl<'a> GasLoop<'a> {
    pub fn new(setup: &'a Setup, lines: &PushPull, machines: u32) -> Result<Self, JobError> {
        let refrigerant = &*setup.refrigerant;
        let map = |path: Path, port: Port| PathMap::new(refrigerant, setup.method, path, (port, port));
        let gas = map(Path::series(lines.gas_line.clone()), Port::Vapor);
        let delivery = Delivery::Gas(GasDelivery::new(setup, gas, machines));
        let path = Path::series(lines.vapor_line.clone());
        let drawer = Drawer::new(setup, &path, (Port::Vapor, Port::Vapor), machines, delivery)?;
        Ok(Self { setup, drawer, liquid: map(lines.liquid_line.clone(), Port::Liquid) })
    }

    pub fn flow(&self, system: &SystemView, cylinder: &CylinderView) -> Result<LoopFlow, JobError> {
        let line = self.liquid_line(system.pressure_pa, system.liquid_enthalpy_j_kg)?;
        let liquid_kg_s = line.flow_into(cylinder.pressure_pa);
        let quality = cylinder.filling.quality.max(1.0);
        let drawn = self.drawer.at(cylinder.filling.pressure_pa, [quality; 2], system.pressure_pa);
        let gas = match drawn {
            Ok(draw) => Some(draw),
            Err(JobError::DrawsNothing { .. }) => None,
            Err(error) => return Err(error),
        };
        Ok(LoopFlow { liquid_kg_s, gas })
    }

    fn liquid_line(&self, system_pa: f64, enthalpy_j_kg: f64) -> Result<PathCurve, JobError> {
        let at = self.setup.refrigerant.saturation_at_pressure(system_pa)?;
        // Liquid hotter than saturation boils before it reaches the port.
        let quality = ((enthalpy_j_kg - at.liquid_enthalpy_j_kg) / at.latent_heat_j_kg()).min(0.0);
        self.liquid.at(system_pa, [quality; 2])
    }

    /// Both steady bounds for liquid of this temperature.
    pub fn limits(&self, liquid_k: f64) -> Result<PushPullLimits, JobError> {
        let refrigerant = &*self.setup.refrigerant;
        let liquid = refrigerant.saturation_at_bubble_temperature(liquid_k)?;
        let none = self.balance(&liquid, |cylinder, draw| self.pressed_pa(&liquid, cylinder, draw))?;
        let full = self.balance(&liquid, |_, _| Ok(liquid.pressure_pa))?;
        let line = self.liquid_line(none.system_pa, liquid.liquid_enthalpy_j_kg)?;
        let liquid_line = line.flow_into(refrigerant.lowest_pressure_pa());
        let displacement = none.volume_m3_s * liquid.liquid_density_kg_m3;
        // Near the volume that the machine moves, a wider line would not pass much more.
        let limit = if none.flow_kg_s > NEAR_RATIO * displacement {
            PushPullLimit::Displacement
        } else {
            PushPullLimit::LiquidLine
        };
        let rate = MassRate::new::<kilogram_per_second>;
        Ok(PushPullLimits {
            full_condensation: rate(full.flow_kg_s),
            no_condensation: rate(none.flow_kg_s),
            displacement: rate(displacement),
            liquid_line: rate(liquid_line),
            system_pressure: Pressure::new::<pascal>(none.system_pa),
            cylinder_pressure: Pressure::new::<pascal>(none.cylinder_pa),
            limit,
        })
    }

    /// The steady point: the line passes what the machine's displacement makes room for.
    fn balance(
        &self,
        liquid: &Saturation,
        system_pa: impl Fn(&Saturation, &Draw) -> Result<f64, JobError>,
    ) -> Result<Balanced, JobError> {
        let refrigerant = &*self.setup.refrigerant;
        let at = |cylinder_pa: f64| -> Result<(Balanced, f64), JobError> {
            let cylinder = refrigerant.saturation_at_pressure(cylinder_pa)?;
            // The delivery pressure that goes with the system's: two or three rounds settle it.
            let mut pressed_pa = liquid.pressure_pa;
            let mut draw = self.drawer.at(cylinder_pa, [1.0; 2], pressed_pa)?;
            for _ in 0..30 {
                let next_pa = system_pa(&cylinder, &draw)?;
                let moved = (next_pa / pressed_pa - 1.0).abs();
                pressed_pa = next_pa;
                draw = self.drawer.at(cylinder_pa, [1.0; 2], pressed_pa)?;
                if moved < 1e-5 {
                    break;
                }
            }
            let volume_m3_s = draw.mass_flow_kg_s / cylinder.vapor_density_kg_m3;
            let room_kg_s = volume_m3_s / arriving_m3_kg(liquid, &cylinder);
            let line = self.liquid_line(pressed_pa, liquid.liquid_enthalpy_j_kg)?;
            let flow_kg_s = line.flow_into(cylinder_pa);
            let point = Balanced { flow_kg_s, volume_m3_s, system_pa: pressed_pa, cylinder_pa };
            Ok((point, flow_kg_s / room_kg_s - 1.0))
        };
        let high = liquid.pressure_pa.ln();
        let at_high = at(liquid.pressure_pa)?.1;
        // Down from there until the machine no longer makes the room.
        let (mut low, mut at_low) = (high, at_high);
        while at_low < 0.0 {
            low -= 0.1;
            if low < refrigerant.lowest_pressure_pa().ln() {
                return Err(JobError::BelowTable { floor_pa: refrigerant.lowest_pressure_pa() });
            }
            at_low = match at(low.exp()) {
                Ok((_, excess)) => excess,
                // A machine that draws nothing makes no room at all.
                Err(JobError::DrawsNothing { .. }) => 1.0,
                Err(error) => return Err(error),
            };
        }
        let excess = |log_pa: f64| match at(log_pa.exp()) {
            Ok((_, excess)) => Ok(excess),
            Err(JobError::DrawsNothing { .. }) => Ok(1.0),
            Err(error) => Err(error),
        };
        let tolerance = Tolerance { absolute: 1e-6, relative: 0.0, residual: 1e-5 };
        match find_root(excess, (high, at_high), (low, at_low), tolerance) {
            Ok(root) => Ok(at(root.x.exp())?.0),
            Err(RootError::NotBracketed { .. }) => Ok(at(low.exp())?.0),
            Err(RootError::Function(error)) => Err(error),
        }
    }

    /// The system's pressure at which the gas that is drawn fills the room the liquid leaves.
    fn pressed_pa(&self, liquid: &Saturation, cylinder: &Saturation, draw: &Draw) -> Result<f64, JobError> {
        let refrigerant = &*self.setup.refrigerant;
        let volume_m3_s = draw.mass_flow_kg_s / cylinder.vapor_density_kg_m3;
        let leaving_m3_s = volume_m3_s / arriving_m3_kg(liquid, cylinder) / liquid.liquid_density_kg_m3;
        let wanted_m3_kg = leaving_m3_s / draw.mass_flow_kg_s;
        let enthalpy = draw.delivered.enthalpy_j_kg;
        let excess = |log_pa: f64| -> Result<f64, JobError> {
            let state = refrigerant.state_ph(log_pa.exp(), enthalpy)?;
            Ok(state.specific_volume_m3_kg() / wanted_m3_kg - 1.0)
        };
        let low = cylinder.pressure_pa.ln();
        let high = (refrigerant.highest_pressure_pa() * (1.0 - 1e-9)).ln();
        let ends = ((low, excess(low)?), (high, excess(high)?));
        let tolerance = Tolerance { absolute: 1e-9, relative: 0.0, residual: 1e-7 };
        match find_root(excess, ends.0, ends.1, tolerance) {
            Ok(root) => Ok(root.x.exp()),
            Err(RootError::NotBracketed { .. }) if ends.0.1 <= 0.0 => Ok(cylinder.pressure_pa),
            Err(RootError::NotBracketed { .. }) => {
                Err(JobError::VesselAboveTable { ceiling_pa: refrigerant.highest_pressure_pa() })
            }
            Err(RootError::Function(error)) => Err(error),
        }
    }
}

/// A steady point.
struct Balanced {
    flow_kg_s: f64,
    volume_m3_s: f64,
    system_pa: f64,
    cylinder_pa: f64,
}

/// The room that a kilogram takes as it arrives in the cylinder: what flashes, and what does not.
///
/// # Example
/// R-22 from 24 °C into 19 °C: 3 % flashes and takes as much room as the liquid; factor 2.
fn arriving_m3_kg(liquid: &Saturation, cylinder: &Saturation) -> f64 {
    let flashed = (liquid.liquid_enthalpy_j_kg - cylinder.liquid_enthalpy_j_kg) / cylinder.latent_heat_j_kg();
    let flashed = flashed.clamp(0.0, 1.0);
    (1.0 - flashed) / cylinder.liquid_density_kg_m3 + flashed / cylinder.vapor_density_kg_m3
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fluid::Refrigerant;

    /// From CoolProp 8.0.0 by hand: R-22 from 24 °C into 19 °C, factor 2.00.
    #[test]
    fn flashing_liquid_takes_twice_its_room() {
        let refrigerant = Refrigerant::load("R-22").unwrap();
        let at = |k: f64| refrigerant.saturation_at_bubble_temperature(k).unwrap();
        let (warm, cold) = (at(297.15), at(292.15));
        let factor = arriving_m3_kg(&warm, &cold) * warm.liquid_density_kg_m3;
        assert!((factor - 2.0).abs() < 0.04, "{factor}");
    }
}
