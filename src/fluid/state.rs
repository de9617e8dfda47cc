//! One thermodynamic state.

/// Which phases are present.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Phase {
    /// Liquid below its bubble temperature.
    SubcooledLiquid,
    /// Liquid and vapour together, the saturated ends included.
    TwoPhase,
    /// Vapour above its dew temperature.
    SuperheatedVapor,
}

/// Refrigerant at one pressure and enthalpy (or entropy, or temperature), in equilibrium.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct State {
    /// Absolute pressure, Pa.
    pub pressure_pa: f64,
    /// Temperature, K.
    pub temperature_k: f64,
    /// Density of the whole, liquid and vapour together, kg/m3.
    pub density_kg_m3: f64,
    /// Specific enthalpy, J/kg.
    pub enthalpy_j_kg: f64,
    /// Specific entropy, J/(kg K).
    pub entropy_j_kg_k: f64,
    /// `(h - h_bubble)/(h_dew - h_bubble)`: below 0 in subcooled liquid, above 1 in superheated
    /// vapour. For a zeotropic blend this is not quite the vapour mass fraction.
    pub quality: f64,
    pub(crate) vapor_mass_fraction_ratio: f64,
    /// ln(Pa s) of the only phase; not a number where there are two.
    pub(crate) ln_viscosity: f64,
}

impl State {
    /// Which phases are present.
    pub fn phase(&self) -> Phase {
        if self.quality < 0.0 {
            Phase::SubcooledLiquid
        } else if self.quality <= 1.0 {
            Phase::TwoPhase
        } else {
            Phase::SuperheatedVapor
        }
    }

    /// Mass of vapour over mass of all, 0 to 1; for blends from the phase equilibrium.
    pub fn vapor_mass_fraction(&self) -> f64 {
        self.vapor_mass_fraction_ratio
    }

    /// Dynamic viscosity, Pa s, where there is one phase; `None` between bubble and dew, where a
    /// mixture's viscosity is a matter of the flow model.
    pub fn viscosity_pa_s(&self) -> Option<f64> {
        (self.phase() != Phase::TwoPhase).then(|| self.ln_viscosity.exp())
    }

    /// `u = h - p/rho`, J/kg.
    pub fn internal_energy_j_kg(&self) -> f64 {
        self.enthalpy_j_kg - self.pressure_pa / self.density_kg_m3
    }

    /// Specific volume, m3/kg.
    pub fn specific_volume_m3_kg(&self) -> f64 {
        1.0 / self.density_kg_m3
    }
}
