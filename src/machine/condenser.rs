//! The machine's condenser: the temperature at which it condenses what it is given.
//!
//! `Q = UA (T_cond − T_ambient)` with one conductance; no desuperheating zone, no subcooling zone,
//! no pressure drop.

use uom::si::f64::{ThermalConductance, ThermodynamicTemperature};
use uom::si::thermal_conductance::watt_per_kelvin;
use uom::si::thermodynamic_temperature::kelvin;

use super::error::MachineError;
use crate::fluid::{FluidError, Refrigerant};
use crate::numerics::{RootError, Tolerance, find_root};

/// How the condensing temperature is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Condenser {
    /// It is given.
    FixedTemperature(ThermodynamicTemperature),
    /// It follows from the heat and the conductance to the ambient air.
    Conductance(ThermalConductance),
}

/// Refrigerant leaving the condenser.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Condensed {
    /// Condensing temperature.
    pub temperature_k: f64,
    /// Saturation (bubble) pressure there.
    pub pressure_pa: f64,
    /// Enthalpy of the liquid.
    pub liquid_enthalpy_j_kg: f64,
}

impl Condenser {
    /// The state that leaves.
    ///
    /// - `heat_w(pressure, liquid enthalpy)`: heat to reject if it condenses at this pressure
    ///
    /// # Errors
    /// - [`MachineError::CannotCondense`] if the balance lies beyond the property table;
    /// - [`MachineError::Fluid`] if the given temperature does.
    pub fn condense(
        &self,
        refrigerant: &Refrigerant,
        ambient: ThermodynamicTemperature,
        heat_w: impl Fn(f64, f64) -> f64,
    ) -> Result<Condensed, MachineError> {
        match self {
            Self::FixedTemperature(temperature) => {
                let pressure_pa = refrigerant.bubble_pressure_pa(temperature.get::<kelvin>())?;
                Ok(condensed_at(refrigerant, pressure_pa)?)
            }
            Self::Conductance(conductance) => {
                balance(refrigerant, conductance.get::<watt_per_kelvin>(), ambient.get::<kelvin>(), heat_w)
            }
        }
    }
}

fn condensed_at(refrigerant: &Refrigerant, pressure_pa: f64) -> Result<Condensed, FluidError> {
    let saturation = refrigerant.saturation_at_pressure(pressure_pa)?;
    Ok(Condensed {
        temperature_k: saturation.bubble_temperature_k,
        pressure_pa,
        liquid_enthalpy_j_kg: saturation.liquid_enthalpy_j_kg,
    })
}

fn balance(
    refrigerant: &Refrigerant,
    conductance_w_k: f64,
    ambient_k: f64,
    heat_w: impl Fn(f64, f64) -> f64,
) -> Result<Condensed, MachineError> {
    let excess = |pressure_pa: f64| -> Result<f64, FluidError> {
        let state = condensed_at(refrigerant, pressure_pa)?;
        let rejected = conductance_w_k * (state.temperature_k - ambient_k);
        Ok(rejected - heat_w(pressure_pa, state.liquid_enthalpy_j_kg))
    };
    let low_pa = refrigerant.bubble_pressure_pa(ambient_k)?;
    let low = excess(low_pa)?;
    if low >= 0.0 {
        return Ok(condensed_at(refrigerant, low_pa)?);
    }
    let high_pa = refrigerant.highest_pressure_pa() * (1.0 - 1e-9);
    let high = excess(high_pa)?;
    match find_root(excess, (low_pa, low), (high_pa, high), Tolerance::relative(1e-9)) {
        Ok(root) => Ok(condensed_at(refrigerant, root.x)?),
        Err(RootError::NotBracketed { .. }) => {
            let state = condensed_at(refrigerant, high_pa)?;
            Err(MachineError::CannotCondense {
                heat_w: heat_w(high_pa, state.liquid_enthalpy_j_kg),
                at_limit_w: conductance_w_k * (state.temperature_k - ambient_k),
                limit_k: state.temperature_k,
            })
        }
        Err(RootError::Function(error)) => Err(error.into()),
    }
}
