//! Liquid below its bubble temperature.
//!
//! Density, enthalpy and viscosity are those of saturated liquid at the same temperature
//! (`h(T, p) = h_sat(T)`: adding `dp/rho` would be wrong by 2 to 10 times). Entropy is
//! `s_sat(T) - (p - p_sat)/(rho T)`, so that along an isentrope `dh = v dp`: Bernoulli.

use super::bent::Bent;
use super::cubic::solve;
use super::curve::{
    BUBBLE_TEMPERATURE, LANES, LIQUID_DENSITY, LIQUID_ENTHALPY, LIQUID_ENTROPY, LN_LIQUID_VISCOSITY, SHORT,
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
        Ok(State { enthalpy_j_kg, ..self.liquid_at_position(at, position) })
    }

    /// Subcooled liquid at (p, s), the inverse of `liquid_at_enthalpy`.
    pub(crate) fn liquid_at_entropy(
        &self,
        at: &Saturation,
        entropy_j_kg_k: f64,
    ) -> Result<State, FluidError> {
        let position = solve(self.liquid_entropy.guess(entropy_j_kg_k), SHORT, |position| {
            self.pressed_entropy(at.pressure_pa, position) - entropy_j_kg_k
        });
        if !(position > 0.0) {
            let coldest = self.pressed_entropy(at.pressure_pa, 0.0).value;
            if !(entropy_j_kg_k >= coldest - 1e-3) {
                return Err(self.out_of_range("entropy", "J/(kg K)", entropy_j_kg_k, coldest, FLOOR));
            }
        }
        Ok(self.liquid_with_entropy(at, &self.curve.row(position), entropy_j_kg_k))
    }

    /// `s_sat - (p - p_sat)/(rho T)` at `position`, with its derivatives per unit position.
    fn pressed_entropy(&self, pressure_pa: f64, position: f64) -> Bent {
        let columns = [LIQUID_ENTROPY, BUBBLE_TEMPERATURE, LIQUID_DENSITY];
        let [entropy, temperature, density] = self.curve.bent(columns, position);
        let lacking_pa = self.coordinate.bent_pressure_pa(position) - pressure_pa;
        entropy + lacking_pa * (density * temperature).inverse()
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
        Ok(self.liquid_at_position(at, position))
    }

    /// Liquid as cold as the bubble point at `position`, under the pressure of `at`.
    fn liquid_at_position(&self, at: &Saturation, position: f64) -> State {
        let row = self.curve.row(position);
        let pressed_pa = at.pressure_pa - self.coordinate.pressure_pa(position);
        let pressed_j_kg_k = pressed_pa / (row[LIQUID_DENSITY] * row[BUBBLE_TEMPERATURE]);
        self.liquid_with_entropy(at, &row, row[LIQUID_ENTROPY] - pressed_j_kg_k)
    }

    /// Liquid with the saturated properties of a row, but under the pressure of `at`.
    fn liquid_with_entropy(&self, at: &Saturation, row: &[f64; LANES], entropy_j_kg_k: f64) -> State {
        let enthalpy_j_kg = row[LIQUID_ENTHALPY];
        State {
            pressure_pa: at.pressure_pa,
            temperature_k: row[BUBBLE_TEMPERATURE],
            density_kg_m3: row[LIQUID_DENSITY],
            enthalpy_j_kg,
            entropy_j_kg_k,
            quality: (enthalpy_j_kg - at.liquid_enthalpy_j_kg) / at.latent_heat_j_kg(),
            vapor_mass_fraction_ratio: 0.0,
            ln_viscosity: row[LN_LIQUID_VISCOSITY],
        }
    }
}
