//! One moment of a job: both vessels, what flows, and how fast everything changes.

use super::draw::Drawer;
use super::push_pull::GasLoop;
use super::receiving::{CylinderView, Receiving};
use super::setup::Ports;
use super::system::{Exchange, SystemModel, SystemView};
use crate::job::{JobError, Port};

/// What the integrator carries: the system's four numbers, the oil's refrigerant, the cylinder's
/// mass and energy.
pub(super) type JobState = [f64; 7];

/// What flows.
#[derive(Debug)]
pub(super) enum Mode<'m, 'a> {
    /// Nothing.
    Rest,
    /// Machines draw from the system; `copies` of the drawer work side by side.
    Draw { drawer: &'m Drawer<'a>, ports: Ports, copies: f64 },
    /// Push-pull.
    Loop(&'m GasLoop<'a>),
}

/// The vessels and what passes their walls.
#[derive(Debug)]
pub(super) struct Vessels<'a> {
    pub system: SystemModel<'a>,
    /// None while it is being changed.
    pub cylinder: Option<Receiving<'a>>,
    pub ambient_k: f64,
    pub heat_gain_w_k: f64,
    pub oil: Oil,
}

/// The oil: what it holds at the start, and how fast it gives it up.
#[derive(Debug, Clone, Copy)]
pub(super) struct Oil {
    pub start_kg: f64,
    pub start_pa: f64,
    pub release_s: f64,
}

impl Oil {
    /// Released a second from what it still holds.
    fn released_kg_s(&self, held_kg: f64, system_pa: f64) -> f64 {
        let at_rest_kg = self.start_kg * system_pa / self.start_pa;
        (held_kg - at_rest_kg).max(0.0) / self.release_s
    }
}

/// All that can be said of one moment.
#[derive(Debug, Clone, Copy)]
pub(super) struct Moment {
    pub system: SystemView,
    pub cylinder: Option<CylinderView>,
    /// Leaves the system, all told.
    pub rate_kg_s: f64,
    /// Liquid through the line of push-pull.
    pub liquid_kg_s: f64,
    pub suction_pa: f64,
    pub discharge_pa: f64,
    /// The lowest pressure the machine reaches against this discharge; zero where none runs.
    pub ultimate_pa: f64,
    pub vapor_ratio: f64,
    pub slopes: JobState,
}

impl<'a> Vessels<'a> {
    pub fn moment(&self, mode: &Mode<'_, 'a>, state: &JobState) -> Result<Moment, JobError> {
        let [a, b, c, d, held_kg, cylinder_kg, cylinder_j] = *state;
        let system = self.system.view(&[a, b, c, d])?;
        let cylinder = match &self.cylinder {
            Some(receiving) => Some(receiving.view(cylinder_kg, cylinder_j)?),
            None => None,
        };
        let mut flows = Flows::none(&system, cylinder.as_ref());
        match (mode, &cylinder) {
            (Mode::Rest, _) | (_, None) => {}
            (Mode::Draw { drawer, ports, copies }, Some(view)) => {
                draw(drawer, *ports, *copies, &system, view, &mut flows)?;
            }
            (Mode::Loop(gas_loop), Some(view)) => push(gas_loop, &system, view, &mut flows)?,
        }
        let released = self.oil.released_kg_s(held_kg, system.pressure_pa);
        flows.exchange.released_kg_s = released;
        flows.exchange.heat_w = self.heat_gain_w_k * (self.ambient_k - system.temperature_k);
        let mut slope = self.system.slopes(&system, &flows.exchange);
        if self.system.vessel.is_held {
            slope[1] = 0.0;
        }
        let (into_kg_s, into_w) = match (&self.cylinder, &cylinder) {
            (Some(receiving), _) if receiving.is_held() => (flows.into_kg_s, 0.0),
            (Some(receiving), Some(view)) => (flows.into_kg_s, flows.into_w + receiving.heat_w(view)),
            _ => (0.0, 0.0),
        };
        let slopes = [slope[0], slope[1], slope[2], slope[3], -released, into_kg_s, into_w];
        Ok(Moment {
            system,
            cylinder,
            rate_kg_s: flows.exchange.out_kg_s - flows.exchange.gas_kg_s,
            liquid_kg_s: flows.liquid_kg_s,
            suction_pa: flows.suction_pa,
            discharge_pa: flows.discharge_pa,
            ultimate_pa: flows.ultimate_pa,
            vapor_ratio: flows.vapor_ratio,
            slopes,
        })
    }
}

/// What flows between the vessels.
struct Flows {
    exchange: Exchange,
    into_kg_s: f64,
    into_w: f64,
    liquid_kg_s: f64,
    suction_pa: f64,
    discharge_pa: f64,
    ultimate_pa: f64,
    vapor_ratio: f64,
}

impl Flows {
    fn none(system: &SystemView, cylinder: Option<&CylinderView>) -> Self {
        Self {
            exchange: Exchange::default(),
            into_kg_s: 0.0,
            into_w: 0.0,
            liquid_kg_s: 0.0,
            suction_pa: system.pressure_pa,
            discharge_pa: cylinder.map_or(system.pressure_pa, |view| view.pressure_pa),
            ultimate_pa: 0.0,
            vapor_ratio: 1.0,
        }
    }
}

/// Quality of what a port draws from contents in equilibrium.
fn quality_at(port: Port, system: &SystemView) -> f64 {
    match port {
        _ if system.quality > 1.0 => system.quality,
        Port::Vapor => 1.0,
        Port::Liquid => 0.0,
        Port::Mixed { vapor_ratio } => vapor_ratio.value,
    }
}

fn draw(
    drawer: &Drawer<'_>,
    ports: Ports,
    copies: f64,
    system: &SystemView,
    cylinder: &CylinderView,
    flows: &mut Flows,
) -> Result<(), JobError> {
    let qualities = [quality_at(ports.0, system), quality_at(ports.1, system)];
    let draw = drawer.at(system.pressure_pa, qualities, cylinder.pressure_pa)?;
    let rate_kg_s = copies * draw.mass_flow_kg_s;
    flows.exchange.out_kg_s = rate_kg_s;
    flows.exchange.out_w = rate_kg_s * draw.enthalpy_j_kg;
    flows.into_kg_s = rate_kg_s;
    flows.into_w = rate_kg_s * draw.delivered.enthalpy_j_kg;
    flows.liquid_kg_s = rate_kg_s;
    flows.suction_pa = draw.suction.point.pressure_pa;
    flows.discharge_pa = draw.delivered.pressure_pa;
    flows.ultimate_pa = drawer.ultimate_pa(&draw);
    flows.vapor_ratio = draw.suction.point.vapor_ratio;
    Ok(())
}

fn push(
    gas_loop: &GasLoop<'_>,
    system: &SystemView,
    cylinder: &CylinderView,
    flows: &mut Flows,
) -> Result<(), JobError> {
    let flow = gas_loop.flow(system, cylinder)?;
    flows.liquid_kg_s = flow.liquid_kg_s;
    flows.exchange.out_kg_s = flow.liquid_kg_s;
    flows.exchange.out_w = flow.liquid_kg_s * system.liquid_enthalpy_j_kg;
    flows.into_kg_s = flow.liquid_kg_s;
    flows.into_w = flow.liquid_kg_s * system.liquid_enthalpy_j_kg;
    if let Some(gas) = flow.gas {
        flows.exchange.gas_kg_s = gas.mass_flow_kg_s;
        flows.exchange.gas_w = gas.mass_flow_kg_s * gas.delivered.enthalpy_j_kg;
        flows.into_kg_s -= gas.mass_flow_kg_s;
        flows.into_w -= gas.mass_flow_kg_s * gas.enthalpy_j_kg;
        flows.suction_pa = gas.suction.point.pressure_pa;
        flows.discharge_pa = gas.delivered.pressure_pa;
    }
    Ok(())
}
