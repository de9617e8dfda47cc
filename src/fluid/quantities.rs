//! The two questions that the public edge asks in `uom` quantities.

use uom::si::f64::{Pressure, ThermodynamicTemperature};
use uom::si::pressure::pascal;
use uom::si::thermodynamic_temperature::kelvin;

use super::error::FluidError;
use super::refrigerant::Refrigerant;

impl Refrigerant {
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
}
