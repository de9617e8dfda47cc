//! A vessel whose contents are in equilibrium: mass and energy in, state out.
//!
//! Energy is the refrigerant's and its metal's: `E = M u + C (T − T_start)`. Metal follows the
//! refrigerant's temperature. Where the temperature is held, energy does not matter.

use std::cell::Cell;

use super::filling::{Filling, at_volume, find_filling};
use crate::fluid::Refrigerant;
use crate::job::JobError;
use crate::numerics::Warm;

/// A vessel in equilibrium.
#[derive(Debug)]
pub(super) struct Vessel<'a> {
    pub refrigerant: &'a Refrigerant,
    pub volume_m3: f64,
    pub metal_j_k: f64,
    pub start_k: f64,
    /// Contents stay at the starting temperature.
    pub is_held: bool,
    warm: Cell<Option<Warm>>,
}

/// Energy that counts as none, J/kg: pressures are then exact to some 1e-8.
const ENERGY_J_KG: f64 = 1e-3;
/// Temperature that counts as none.
const TEMPERATURE_K: f64 = 1e-7;

impl<'a> Vessel<'a> {
    pub fn new(refrigerant: &'a Refrigerant, volume_m3: f64, start_k: f64) -> Self {
        Self { refrigerant, volume_m3, metal_j_k: 0.0, start_k, is_held: false, warm: Cell::new(None) }
    }

    /// The state of this mass with this energy.
    pub fn filling(&self, mass_kg: f64, energy_j: f64) -> Result<Filling, JobError> {
        if !(mass_kg > 0.0) {
            return Err(JobError::BelowTable { floor_pa: self.refrigerant.lowest_pressure_pa() });
        }
        let mut warm = self.warm.get();
        let volume_m3_kg = self.volume_m3 / mass_kg;
        let filling = if self.is_held {
            let excess = |filling: &Filling| filling.temperature_k - self.start_k;
            find_filling(self.refrigerant, volume_m3_kg, excess, TEMPERATURE_K, &mut warm)?
        } else {
            let (metal, energy) = (self.metal_j_k / mass_kg, energy_j / mass_kg);
            let excess = |filling: &Filling| {
                filling.energy_j_kg + metal * (filling.temperature_k - self.start_k) - energy
            };
            let enough = ENERGY_J_KG * (1.0 + metal / 1000.0);
            find_filling(self.refrigerant, volume_m3_kg, excess, enough, &mut warm)?
        };
        self.warm.set(warm);
        Ok(filling)
    }

    /// The energy that goes with a state.
    pub fn energy_j(&self, mass_kg: f64, filling: &Filling) -> f64 {
        mass_kg * filling.energy_j_kg + self.metal_j_k * (filling.temperature_k - self.start_k)
    }

    /// The state of a mass at the starting temperature.
    pub fn start(&self, mass_kg: f64) -> Result<Filling, JobError> {
        let volume_m3_kg = self.volume_m3 / mass_kg;
        let holds_kg = self.holds_kg()?;
        if mass_kg > holds_kg {
            return Err(JobError::DoesNotFit { mass_kg, holds_kg, temperature_k: self.start_k });
        }
        let excess = |filling: &Filling| filling.temperature_k - self.start_k;
        find_filling(self.refrigerant, volume_m3_kg, excess, TEMPERATURE_K, &mut None)
    }

    /// The mass of liquid that fills it at the starting temperature.
    pub fn holds_kg(&self) -> Result<f64, JobError> {
        Ok(self.volume_m3
            * self.refrigerant.saturation_at_bubble_temperature(self.start_k)?.liquid_density_kg_m3)
    }

    /// The state of this mass at the table's lowest pressure.
    pub fn at_floor(&self, mass_kg: f64) -> Result<Filling, JobError> {
        let floor_pa = self.refrigerant.lowest_pressure_pa() * (1.0 + 1e-12);
        Ok(at_volume(self.refrigerant, floor_pa, self.volume_m3 / mass_kg)?)
    }

    /// The least mass that a vessel counts as evacuated: vapour a little above the table's floor.
    pub fn evacuated_kg(&self) -> Result<f64, JobError> {
        let pressure_pa = 1.05 * self.refrigerant.lowest_pressure_pa();
        let at = self.refrigerant.saturation_at_pressure(pressure_pa)?;
        let state = if self.start_k > at.dew_temperature_k {
            let hot_k = self.start_k.min(self.refrigerant.highest_temperature_k());
            self.refrigerant.state_pt(pressure_pa, hot_k)?.density_kg_m3
        } else {
            at.vapor_density_kg_m3
        };
        Ok(self.volume_m3 * state)
    }
}
