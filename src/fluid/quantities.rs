//! The same questions asked and answered in `uom` quantities, for the public edge.

use uom::si::dynamic_viscosity::pascal_second;
use uom::si::f64::{DynamicViscosity, MassDensity, Pressure, ThermodynamicTemperature};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::thermodynamic_temperature::kelvin;

use super::error::FluidError;
use super::refrigerant::Refrigerant;
use super::saturation::Saturation;
use super::state::State;

impl Refrigerant {
    /// Bubble and dew properties at an absolute pressure; see `saturation_at_pressure`.
    ///
    /// # Errors
    /// As there.
    pub fn saturation(&self, pressure: Pressure) -> Result<Saturation, FluidError> {
        self.saturation_at_pressure(pressure.get::<pascal>())
    }

    /// Absolute pressure at which liquid of this temperature begins to boil.
    ///
    /// # Errors
    /// As `bubble_pressure_pa`.
    pub fn bubble_pressure(&self, temperature: ThermodynamicTemperature) -> Result<Pressure, FluidError> {
        self.bubble_pressure_pa(temperature.get::<kelvin>()).map(Pressure::new::<pascal>)
    }

    /// Absolute pressure at which vapour of this temperature begins to condense.
    ///
    /// # Errors
    /// As `dew_pressure_pa`.
    pub fn dew_pressure(&self, temperature: ThermodynamicTemperature) -> Result<Pressure, FluidError> {
        self.dew_pressure_pa(temperature.get::<kelvin>()).map(Pressure::new::<pascal>)
    }

    /// Superheated vapour or subcooled liquid at absolute pressure and temperature.
    ///
    /// # Errors
    /// As `state_pt`.
    pub fn state(
        &self,
        pressure: Pressure,
        temperature: ThermodynamicTemperature,
    ) -> Result<State, FluidError> {
        self.state_pt(pressure.get::<pascal>(), temperature.get::<kelvin>())
    }
}

impl Saturation {
    /// Absolute pressure.
    pub fn pressure(&self) -> Pressure {
        Pressure::new::<pascal>(self.pressure_pa)
    }

    /// Temperature at which liquid begins to boil.
    pub fn bubble_temperature(&self) -> ThermodynamicTemperature {
        ThermodynamicTemperature::new::<kelvin>(self.bubble_temperature_k)
    }

    /// Temperature at which vapour begins to condense.
    pub fn dew_temperature(&self) -> ThermodynamicTemperature {
        ThermodynamicTemperature::new::<kelvin>(self.dew_temperature_k)
    }
}

impl State {
    /// Absolute pressure.
    pub fn pressure(&self) -> Pressure {
        Pressure::new::<pascal>(self.pressure_pa)
    }

    /// Temperature.
    pub fn temperature(&self) -> ThermodynamicTemperature {
        ThermodynamicTemperature::new::<kelvin>(self.temperature_k)
    }

    /// Density of the whole.
    pub fn density(&self) -> MassDensity {
        MassDensity::new::<kilogram_per_cubic_meter>(self.density_kg_m3)
    }

    /// Dynamic viscosity where there is one phase; see `viscosity_pa_s`.
    pub fn viscosity(&self) -> Option<DynamicViscosity> {
        self.viscosity_pa_s().map(DynamicViscosity::new::<pascal_second>)
    }
}
