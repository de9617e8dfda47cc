//! The saturated liquid and vapour at one pressure.

use super::curve::{
    BUBBLE_TEMPERATURE, DEW_TEMPERATURE, HOT_ENTHALPY, HOT_ENTROPY, LIQUID_DENSITY, LIQUID_ENTHALPY,
    LIQUID_ENTROPY, LN_LIQUID_VISCOSITY, LN_VAPOR_VISCOSITY, VAPOR_COMPRESSIBILITY, VAPOR_ENTHALPY,
    VAPOR_ENTROPY,
};
use super::error::FluidError;
use super::refrigerant::Refrigerant;

/// Bubble (liquid) and dew (vapour) properties at one absolute pressure.
///
/// A zeotropic blend boils from the bubble to the dew temperature; for a pure refrigerant they
/// are equal.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Saturation {
    /// Absolute pressure, Pa.
    pub pressure_pa: f64,
    /// Temperature at which liquid begins to boil, K.
    pub bubble_temperature_k: f64,
    /// Temperature at which vapour begins to condense, K.
    pub dew_temperature_k: f64,
    /// Liquid at the bubble point, kg/m3.
    pub liquid_density_kg_m3: f64,
    /// Vapour at the dew point, kg/m3.
    pub vapor_density_kg_m3: f64,
    /// Liquid at the bubble point, J/kg.
    pub liquid_enthalpy_j_kg: f64,
    /// Vapour at the dew point, J/kg.
    pub vapor_enthalpy_j_kg: f64,
    /// Liquid at the bubble point, J/(kg K).
    pub liquid_entropy_j_kg_k: f64,
    /// Vapour at the dew point, J/(kg K).
    pub vapor_entropy_j_kg_k: f64,
    /// Vapour compressibility factor at the dew point.
    pub(crate) vapor_compressibility: f64,
    /// Enthalpy where the table's hottest isotherm crosses this pressure, J/kg.
    pub(crate) hot_enthalpy_j_kg: f64,
    /// Entropy there, J/(kg K).
    pub(crate) hot_entropy_j_kg_k: f64,
    pub(crate) ln_liquid_viscosity: f64,
    pub(crate) ln_vapor_viscosity: f64,
    /// Place of the pressure in the table, 0..=1.
    pub(crate) position: f64,
}

impl Saturation {
    /// Dynamic viscosity of the liquid at the bubble point, Pa s.
    pub fn liquid_viscosity_pa_s(&self) -> f64 {
        self.ln_liquid_viscosity.exp()
    }

    /// Dynamic viscosity of the vapour at the dew point, Pa s.
    pub fn vapor_viscosity_pa_s(&self) -> f64 {
        self.ln_vapor_viscosity.exp()
    }

    /// Heat of vaporisation from bubble to dew at this pressure, J/kg.
    pub fn latent_heat_j_kg(&self) -> f64 {
        self.vapor_enthalpy_j_kg - self.liquid_enthalpy_j_kg
    }

    /// How far the temperature rises from bubble to dew, K.
    pub fn glide_k(&self) -> f64 {
        self.dew_temperature_k - self.bubble_temperature_k
    }
}

impl Refrigerant {
    /// Bubble and dew properties at an absolute pressure.
    ///
    /// # Valid
    /// `lowest_pressure_pa` to `highest_pressure_pa`.
    /// # Errors
    /// `AboveRange`, `BelowRange`, `NotANumber`: outside, nothing is clamped.
    pub fn saturation_at_pressure(&self, pressure_pa: f64) -> Result<Saturation, FluidError> {
        if !(self.lowest_pressure_pa()..=self.highest_pressure_pa()).contains(&pressure_pa) {
            return Err(self.pressure_out_of_range(pressure_pa));
        }
        Ok(self.saturation_at(self.coordinate.position(pressure_pa), pressure_pa))
    }

    /// The saturation whose liquid boils at this temperature.
    ///
    /// # Errors
    /// As `bubble_pressure_pa`.
    pub fn saturation_at_bubble_temperature(&self, temperature_k: f64) -> Result<Saturation, FluidError> {
        self.check_saturation_temperature(temperature_k, &self.bubble)?;
        let position = self.bubble.position(&self.curve, temperature_k);
        Ok(self.saturation_at(position, self.pressure_at(position)))
    }

    /// The saturation whose vapour condenses at this temperature.
    ///
    /// # Errors
    /// As `dew_pressure_pa`.
    pub fn saturation_at_dew_temperature(&self, temperature_k: f64) -> Result<Saturation, FluidError> {
        self.check_saturation_temperature(temperature_k, &self.dew)?;
        let position = self.dew.position(&self.curve, temperature_k);
        Ok(self.saturation_at(position, self.pressure_at(position)))
    }

    /// Absolute pressure at which liquid of this temperature begins to boil, Pa.
    ///
    /// # Errors
    /// `AboveRange` near and above the critical temperature, `BelowRange`, `NotANumber`.
    pub fn bubble_pressure_pa(&self, temperature_k: f64) -> Result<f64, FluidError> {
        Ok(self.saturation_at_bubble_temperature(temperature_k)?.pressure_pa)
    }

    /// Absolute pressure at which vapour of this temperature begins to condense, Pa.
    ///
    /// # Errors
    /// `AboveRange` near and above the critical temperature, `BelowRange`, `NotANumber`.
    pub fn dew_pressure_pa(&self, temperature_k: f64) -> Result<f64, FluidError> {
        Ok(self.saturation_at_dew_temperature(temperature_k)?.pressure_pa)
    }

    /// The pressure at a position; at the ends rounding must not leave the range.
    fn pressure_at(&self, position: f64) -> f64 {
        self.coordinate.pressure_pa(position).clamp(self.lowest_pressure_pa(), self.highest_pressure_pa())
    }

    fn saturation_at(&self, position: f64, pressure_pa: f64) -> Saturation {
        let row = self.curve.row(position);
        let (compressibility, dew_temperature_k) = (row[VAPOR_COMPRESSIBILITY], row[DEW_TEMPERATURE]);
        Saturation {
            pressure_pa,
            bubble_temperature_k: row[BUBBLE_TEMPERATURE],
            dew_temperature_k,
            liquid_density_kg_m3: row[LIQUID_DENSITY],
            vapor_density_kg_m3: self.vapor_density_kg_m3(pressure_pa, compressibility, dew_temperature_k),
            liquid_enthalpy_j_kg: row[LIQUID_ENTHALPY],
            vapor_enthalpy_j_kg: row[VAPOR_ENTHALPY],
            liquid_entropy_j_kg_k: row[LIQUID_ENTROPY],
            vapor_entropy_j_kg_k: row[VAPOR_ENTROPY],
            vapor_compressibility: compressibility,
            hot_enthalpy_j_kg: row[HOT_ENTHALPY],
            hot_entropy_j_kg_k: row[HOT_ENTROPY],
            ln_liquid_viscosity: row[LN_LIQUID_VISCOSITY],
            ln_vapor_viscosity: row[LN_VAPOR_VISCOSITY],
            position,
        }
    }

    /// `rho = p M / (Z R T)`, kg/m3.
    pub(crate) fn vapor_density_kg_m3(
        &self,
        pressure_pa: f64,
        compressibility: f64,
        temperature_k: f64,
    ) -> f64 {
        pressure_pa / (compressibility * self.specific_gas_constant_j_kg_k * temperature_k)
    }
}
