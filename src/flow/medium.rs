//! What flow needs to know of a fluid: states at a pressure by enthalpy or by entropy.
//!
//! Implemented by the refrigerant tables, and in tests by fluids whose flows have closed forms
//! (an ideal gas, a liquid of constant density).

use super::friction::Phases;
use crate::fluid::{FluidError, Refrigerant, Saturation, State};

/// A state of the flowing fluid. Pressures absolute.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// Pressure.
    pub pressure_pa: f64,
    /// Specific volume of the mixture.
    pub specific_volume_m3_kg: f64,
    /// Specific enthalpy.
    pub enthalpy_j_kg: f64,
    /// Specific entropy.
    pub entropy_j_kg_k: f64,
    /// `(h − h_l)/(h_v − h_l)`: below 0 subcooled, above 1 superheated.
    pub quality: f64,
    /// The mass fraction that is vapour, 0 to 1; in a blend with glide not quite the quality.
    pub vapor_ratio: f64,
    /// ln(Pa s) of the one phase there is; not a number where there are two.
    pub ln_viscosity: f64,
}

/// A fluid that can be looked up. Everything at one pressure goes through an isobar, so that
/// repeated look-ups there share the saturation work.
pub trait Medium {
    /// What is known once the pressure is.
    type Isobar;

    /// Prepares look-ups at a pressure.
    ///
    /// # Errors
    /// The pressure is outside the fluid's range.
    fn isobar(&self, pressure_pa: f64) -> Result<Self::Isobar, FluidError>;

    /// The state with this enthalpy.
    ///
    /// # Errors
    /// The state is outside the fluid's range.
    fn by_enthalpy(&self, isobar: &Self::Isobar, enthalpy_j_kg: f64) -> Result<Point, FluidError>;

    /// The state with this entropy.
    ///
    /// # Errors
    /// The state is outside the fluid's range.
    fn by_entropy(&self, isobar: &Self::Isobar, entropy_j_kg_k: f64) -> Result<Point, FluidError>;

    /// Density and viscosity of the phases at this state; a phase that is absent may be zero.
    fn phases(&self, isobar: &Self::Isobar, point: &Point) -> Phases;

    /// The lowest pressure that can be looked up.
    fn lowest_pressure_pa(&self) -> f64;

    /// State by pressure and enthalpy in one call.
    ///
    /// # Errors
    /// The state is outside the fluid's range.
    fn point(&self, pressure_pa: f64, enthalpy_j_kg: f64) -> Result<Point, FluidError> {
        self.by_enthalpy(&self.isobar(pressure_pa)?, enthalpy_j_kg)
    }
}

impl From<State> for Point {
    fn from(state: State) -> Self {
        Self {
            pressure_pa: state.pressure_pa,
            specific_volume_m3_kg: 1.0 / state.density_kg_m3,
            enthalpy_j_kg: state.enthalpy_j_kg,
            entropy_j_kg_k: state.entropy_j_kg_k,
            quality: state.quality,
            vapor_ratio: state.vapor_mass_fraction(),
            ln_viscosity: state.ln_viscosity,
        }
    }
}

impl Medium for Refrigerant {
    type Isobar = Saturation;

    fn isobar(&self, pressure_pa: f64) -> Result<Saturation, FluidError> {
        self.saturation_at_pressure(pressure_pa)
    }

    fn by_enthalpy(&self, isobar: &Saturation, enthalpy_j_kg: f64) -> Result<Point, FluidError> {
        self.state_ph_at(isobar, enthalpy_j_kg).map(Point::from)
    }

    fn by_entropy(&self, isobar: &Saturation, entropy_j_kg_k: f64) -> Result<Point, FluidError> {
        self.state_ps_at(isobar, entropy_j_kg_k).map(Point::from)
    }

    fn phases(&self, isobar: &Saturation, point: &Point) -> Phases {
        let mut phases = Phases {
            liquid_density_kg_m3: isobar.liquid_density_kg_m3,
            vapor_density_kg_m3: isobar.vapor_density_kg_m3,
            liquid_viscosity_pa_s: 0.0,
            vapor_viscosity_pa_s: 0.0,
        };
        if point.quality > 1.0 {
            phases.vapor_density_kg_m3 = 1.0 / point.specific_volume_m3_kg;
            phases.vapor_viscosity_pa_s = point.ln_viscosity.exp();
        } else if point.quality < 0.0 {
            phases.liquid_density_kg_m3 = 1.0 / point.specific_volume_m3_kg;
            phases.liquid_viscosity_pa_s = point.ln_viscosity.exp();
        } else {
            phases.liquid_viscosity_pa_s = isobar.liquid_viscosity_pa_s();
            phases.vapor_viscosity_pa_s = isobar.vapor_viscosity_pa_s();
            phases.vapor_density_kg_m3 = wet_vapor_density_kg_m3(isobar, point);
        }
        phases
    }

    fn lowest_pressure_pa(&self) -> f64 {
        Refrigerant::lowest_pressure_pa(self)
    }
}

/// Density of the vapour in a wet mixture: what the mixture's own volume leaves to it,
/// `1/ρ_v = (v − (1 − x)/ρ_l)/x`.
///
/// In a blend with glide the vapour between bubble and dew is not the one of the dew line: lighter
/// near the bubble line, by 5 % in R-407C and 20 % in R-455A. Where there is too little vapour to
/// tell, the dew line's stands in.
fn wet_vapor_density_kg_m3(isobar: &Saturation, point: &Point) -> f64 {
    let dew = isobar.vapor_density_kg_m3;
    let x = point.vapor_ratio;
    let left_m3_kg = point.specific_volume_m3_kg - (1.0 - x) / isobar.liquid_density_kg_m3;
    let density = x / left_m3_kg;
    if (0.5 * dew..2.0 * dew).contains(&density) { density } else { dew }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Between bubble and dew at 8 bar: J/kg above the bubble line, density of the vapour there.
    /// CoolProp 8.0.0, equilibrium phases of the mixture.
    #[test]
    fn vapour_of_a_blend_between_bubble_and_dew() {
        for (name, wet) in [
            ("R-407C", [(3950.2, 32.281), (19782.3, 32.422), (59587.0, 32.787), (180799.6, 33.917)]),
            ("R-455A", [(4079.4, 28.291), (20242.1, 28.904), (60071.9, 30.282), (178012.9, 33.925)]),
        ] {
            let refrigerant = Refrigerant::load(name).unwrap();
            let isobar = refrigerant.isobar(8e5).unwrap();
            for (above_bubble_j_kg, expected) in wet {
                let enthalpy = isobar.liquid_enthalpy_j_kg + above_bubble_j_kg;
                let point = refrigerant.by_enthalpy(&isobar, enthalpy).unwrap();
                let phases = refrigerant.phases(&isobar, &point);
                let got = phases.vapor_density_kg_m3;
                assert!((got / expected - 1.0).abs() < 0.01, "{name}: {got}, expected {expected}");
                let mixed = point.vapor_ratio / got + (1.0 - point.vapor_ratio) / phases.liquid_density_kg_m3;
                assert!((mixed / point.specific_volume_m3_kg - 1.0).abs() < 1e-12);
            }
        }
    }
}
