//! Liquid below its bubble temperature.
//!
//! Density, enthalpy and viscosity are those of saturated liquid at the same temperature
//! (`h(T, p) = h_sat(T)`: adding `dp/rho` would be wrong by 2 to 10 times). Entropy is
//! `s_sat(T) - (p - p_sat)/(rho T)`, so that along an isentrope `dh = v dp`: Bernoulli.

use super::curve::{
    BUBBLE_TEMPERATURE, LIQUID_DENSITY, LIQUID_ENTHALPY, LIQUID_ENTROPY, LN_LIQUID_VISCOSITY,
};
use super::error::FluidError;
use super::refrigerant::Refrigerant;
use super::saturation::Saturation;
use super::state::State;

const FLOOR: &str = "colder liquid is not in the table";

impl Refrigerant {
    /// Subcooled liquid at (p, h).
    pub(crate) fn liquid_at_enthalpy(
        &self,
        at: &Saturation,
        enthalpy_j_kg: f64,
    ) -> Result<State, FluidError> {
        if enthalpy_j_kg.is_nan() || enthalpy_j_kg < self.liquid_enthalpy.low {
            return Err(self.out_of_range(
                "enthalpy",
                "J/kg",
                enthalpy_j_kg,
                self.liquid_enthalpy.low,
                FLOOR,
            ));
        }
        let position = self.liquid_enthalpy.position(&self.curve, enthalpy_j_kg);
        Ok(self.liquid_at_position(at, position, enthalpy_j_kg))
    }

    /// Subcooled liquid at (p, s), the inverse of `liquid_at_enthalpy`.
    pub(crate) fn liquid_at_entropy(
        &self,
        at: &Saturation,
        entropy_j_kg_k: f64,
    ) -> Result<State, FluidError> {
        let mut position = self.liquid_entropy.guess(entropy_j_kg_k);
        let mut miss = f64::INFINITY;
        for _ in 0..8 {
            let (enthalpy, slope) = self.curve.value_and_slope(LIQUID_ENTHALPY, position);
            let state = self.liquid_at_position(at, position, enthalpy);
            miss = entropy_j_kg_k - state.entropy_j_kg_k;
            // ds = dh/T at constant pressure, to within v dp/(cp T), a few thousandths.
            let step = miss * state.temperature_k / slope;
            if step.abs() < 1e-12 {
                break;
            }
            position = (position + step).clamp(0.0, 1.0);
        }
        if miss.is_nan() || miss < -1e-3 {
            let coldest = self.liquid_at_position(at, 0.0, self.liquid_enthalpy.low).entropy_j_kg_k;
            return Err(self.out_of_range("entropy", "J/(kg K)", entropy_j_kg_k, coldest, FLOOR));
        }
        let (enthalpy, _) = self.curve.value_and_slope(LIQUID_ENTHALPY, position);
        Ok(self.liquid_at_position(at, position, enthalpy))
    }

    /// Subcooled liquid at (p, T).
    pub(crate) fn liquid_at_temperature(
        &self,
        at: &Saturation,
        temperature_k: f64,
    ) -> Result<State, FluidError> {
        if temperature_k.is_nan() || temperature_k < self.bubble.low {
            return Err(self.out_of_range("temperature", "K", temperature_k, self.bubble.low, FLOOR));
        }
        let position = self.bubble.position(&self.curve, temperature_k);
        let (enthalpy, _) = self.curve.value_and_slope(LIQUID_ENTHALPY, position);
        Ok(self.liquid_at_position(at, position, enthalpy))
    }

    /// Liquid as cold as the bubble point at `position`, under the pressure of `at`.
    fn liquid_at_position(&self, at: &Saturation, position: f64, enthalpy_j_kg: f64) -> State {
        let row = self.curve.row(position);
        let (temperature_k, density_kg_m3) = (row[BUBBLE_TEMPERATURE], row[LIQUID_DENSITY]);
        let pressed_pa = at.pressure_pa - self.coordinate.pressure_pa(position);
        State {
            pressure_pa: at.pressure_pa,
            temperature_k,
            density_kg_m3,
            enthalpy_j_kg,
            entropy_j_kg_k: row[LIQUID_ENTROPY] - pressed_pa / (density_kg_m3 * temperature_k),
            quality: (enthalpy_j_kg - at.liquid_enthalpy_j_kg) / at.latent_heat_j_kg(),
            vapor_mass_fraction_ratio: 0.0,
            ln_viscosity: row[LN_LIQUID_VISCOSITY],
        }
    }
}
