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
            let (entropy, rate) = self.pressed_entropy(at.pressure_pa, position);
            miss = entropy_j_kg_k - entropy;
            let next = (position + miss / rate).clamp(0.0, 1.0);
            let step = (next - position).abs();
            position = next;
            // Quadratic convergence: the next step would be near rounding.
            if step < 1e-8 {
                break;
            }
        }
        if miss.is_nan() || miss < -1e-3 {
            let coldest = self.liquid_at_position(at, 0.0, self.liquid_enthalpy.low).entropy_j_kg_k;
            return Err(self.out_of_range("entropy", "J/(kg K)", entropy_j_kg_k, coldest, FLOOR));
        }
        let (enthalpy, _) = self.curve.value_and_slope(LIQUID_ENTHALPY, position);
        Ok(self.liquid_at_position(at, position, enthalpy))
    }

    /// Entropy of liquid at `position` under a pressure, and its slope per unit position.
    ///
    /// `s = s_sat - (p - p_sat) w` with `w = 1/(rho T)`. Along saturation `T ds = dh - v dp`, so
    /// `ds/dx = h'/T - (p - p_sat) w'`.
    fn pressed_entropy(&self, pressure_pa: f64, position: f64) -> (f64, f64) {
        let (entropy, _) = self.curve.value_and_slope(LIQUID_ENTROPY, position);
        let (_, enthalpy_slope) = self.curve.value_and_slope(LIQUID_ENTHALPY, position);
        let (temperature, temperature_slope) = self.curve.value_and_slope(BUBBLE_TEMPERATURE, position);
        let (density, density_slope) = self.curve.value_and_slope(LIQUID_DENSITY, position);
        let pressed_pa = pressure_pa - self.coordinate.pressure_pa(position);
        let weight = 1.0 / (density * temperature);
        let weight_slope = -weight * weight * (density_slope * temperature + density * temperature_slope);
        (entropy - pressed_pa * weight, enthalpy_slope / temperature - pressed_pa * weight_slope)
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
