//! The discharge side: condensing temperature, discharge pressure, the way into the cylinder.
//!
//! Discharge pressure is the higher of the condensing saturation pressure and the cylinder's
//! pressure plus the discharge path's own loss. Heat rejected: `ṁ (h0 + w − h_liquid)`.

use uom::si::thermodynamic_temperature::kelvin;

use super::error::JobError;
use super::push::Push;
use super::setup::Setup;
use crate::flow::{Line, Path, Point};
use crate::fluid::Refrigerant;
use crate::machine::Suction;

/// The discharge side of a setup, ready for many flows.
pub(super) struct DischargeSide<'a> {
    setup: &'a Setup,
    path: Path,
    cylinder_pa: f64,
}

/// What one flow needs.
#[derive(Debug, Clone, Copy)]
pub(super) struct Discharge {
    pub pressure_pa: f64,
    pub condensing_k: f64,
    pub liquid_enthalpy_j_kg: f64,
    pub work_j_kg: f64,
    pub heat_w: f64,
}

impl<'a> DischargeSide<'a> {
    pub fn new(setup: &'a Setup) -> Result<Self, JobError> {
        let saturated = setup.refrigerant.bubble_pressure_pa(setup.cylinder.temperature.get::<kelvin>())?;
        Ok(Self::against(setup, saturated + setup.cylinder.non_condensables.value))
    }

    /// The same against a cylinder at this pressure, whatever the setup says of it.
    pub fn against(setup: &'a Setup, cylinder_pa: f64) -> Self {
        Self { setup, path: Path::series(setup.discharge.clone()), cylinder_pa }
    }

    pub fn refrigerant(&self) -> &'a Refrigerant {
        &self.setup.refrigerant
    }

    pub fn cylinder_pa(&self) -> f64 {
        self.cylinder_pa
    }

    /// Discharge state for a flow drawn from this suction.
    pub fn at(&self, suction: &Suction, mass_flow_kg_s: f64) -> Result<Discharge, JobError> {
        let setup = self.setup;
        let compressor = &setup.machine.compressor;
        let inlet_enthalpy = suction.point.enthalpy_j_kg;
        let work = |pressure_pa: f64| compressor.shaft_work_j_kg(suction, pressure_pa.max(self.cylinder_pa));
        let heat_w =
            |pressure_pa: f64, liquid: f64| mass_flow_kg_s * (inlet_enthalpy + work(pressure_pa) - liquid);
        let condensed =
            setup.machine.condenser.condense(&setup.refrigerant, setup.ambient.temperature, heat_w)?;
        let wanted_pa = condensed.pressure_pa.max(self.cylinder_pa);
        let pressure_pa = self.pushed_pa(wanted_pa, condensed.liquid_enthalpy_j_kg, mass_flow_kg_s)?;
        let work_j_kg = compressor.shaft_work_j_kg(suction, pressure_pa);
        Ok(Discharge {
            pressure_pa,
            condensing_k: condensed.temperature_k,
            liquid_enthalpy_j_kg: condensed.liquid_enthalpy_j_kg,
            work_j_kg,
            heat_w: mass_flow_kg_s * (inlet_enthalpy + work_j_kg - condensed.liquid_enthalpy_j_kg),
        })
    }

    /// The pressure, at least `wanted_pa`, that pushes the flow through the discharge path.
    pub fn pushed_pa(&self, wanted_pa: f64, enthalpy: f64, mass_flow_kg_s: f64) -> Result<f64, JobError> {
        if self.path.parts.is_empty() || mass_flow_kg_s == 0.0 {
            return Ok(wanted_pa);
        }
        Push { side: self, enthalpy, mass_flow_kg_s }.at_least_pa(wanted_pa)
    }

    /// The discharge path on the condenser's outlet.
    pub fn line(&self, start: Point) -> Result<Line<'_, Refrigerant>, JobError> {
        Ok(Line::new(self.refrigerant(), self.setup.method, &self.path, start, start)?)
    }
}
