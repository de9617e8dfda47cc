//! The discharge side: condensing temperature, discharge pressure, the way into the cylinder.
//!
//! Discharge pressure is the higher of the condensing saturation pressure and the cylinder's
//! pressure plus the discharge path's own loss. Heat rejected: `ṁ (h0 + w − h_liquid)`.

use uom::si::thermodynamic_temperature::kelvin;

use super::error::JobError;
use super::setup::Setup;
use crate::flow::{Arrival, Line, Path, Point};
use crate::machine::Suction;
use crate::numerics::{RootError, Tolerance, find_root};

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
        let spare = |pressure_pa: f64| -> Result<f64, JobError> {
            let start = crate::flow::Medium::point(&*self.setup.refrigerant, pressure_pa, enthalpy)?;
            let line = self.line(start)?;
            Ok(match line.arrival(mass_flow_kg_s)? {
                Arrival::Arrives(end) => end.pressure_pa - self.cylinder_pa,
                Arrival::TooMuch { .. } => -self.cylinder_pa,
            })
        };
        let at_wanted = spare(wanted_pa)?;
        if at_wanted >= 0.0 {
            return Ok(wanted_pa);
        }
        let limit_pa = self.setup.refrigerant.highest_pressure_pa() * (1.0 - 1e-9);
        let residual_pa = 1e-8 * self.cylinder_pa;
        // The loss hardly depends on the pressure, that of a liquid not at all: the shortfall once more
        // is nearly enough.
        let mut high_pa = (wanted_pa - at_wanted).min(limit_pa);
        let mut at_high = spare(high_pa)?;
        if at_high.abs() <= residual_pa {
            return Ok(high_pa);
        }
        if at_high < 0.0 {
            high_pa = (high_pa - 0.2 * at_wanted).min(limit_pa);
            at_high = spare(high_pa)?;
        }
        while at_high < 0.0 && high_pa < limit_pa {
            high_pa = (1.6 * high_pa).min(limit_pa);
            at_high = spare(high_pa)?;
        }
        let tolerance = Tolerance { absolute: 0.0, relative: 1e-6, residual: residual_pa };
        match find_root(spare, (wanted_pa, at_wanted), (high_pa, at_high), tolerance) {
            Ok(root) => Ok(root.x),
            Err(RootError::NotBracketed { .. }) => {
                Err(JobError::DischargeBlocked { mass_flow_kg_s, limit_pa })
            }
            Err(RootError::Function(error)) => Err(error),
        }
    }

    /// The discharge path on the condenser's outlet.
    pub fn line(&self, start: Point) -> Result<Line<'_, crate::fluid::Refrigerant>, JobError> {
        Ok(Line::new(&*self.setup.refrigerant, self.setup.method, &self.path, start, start)?)
    }
}
