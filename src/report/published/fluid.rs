//! Questions about refrigerant properties.

use serde::Deserialize;

use super::question::Ask;
use super::words;
use crate::fluid::Refrigerant;
use crate::units::factors::PSI_PA;

/// What is asked of a saturated state.
#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Property {
    BubblePressure,
    DewPressure,
    LiquidDensity,
    VapourDensity,
}

/// A property at a temperature, on the bubble line for liquid and the dew line for vapour.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Saturated {
    refrigerant: String,
    celsius: f64,
    property: Property,
}

impl Ask for Saturated {
    fn what(&self) -> String {
        let property = match self.property {
            Property::BubblePressure => "bubble pressure",
            Property::DewPressure => "dew pressure",
            Property::LiquidDensity => "liquid density",
            Property::VapourDensity => "vapour density",
        };
        format!("{} at {} °C, {property}", self.refrigerant, self.celsius)
    }

    fn unit(&self) -> &'static str {
        match self.property {
            Property::BubblePressure | Property::DewPressure => "kPa",
            Property::LiquidDensity | Property::VapourDensity => "kg/m³",
        }
    }

    fn answer(&self) -> Result<f64, String> {
        let refrigerant = Refrigerant::load(&self.refrigerant).map_err(words)?;
        let kelvin = self.celsius + 273.15;
        match self.property {
            Property::BubblePressure => refrigerant.bubble_pressure_pa(kelvin).map(|pascal| pascal / 1e3),
            Property::DewPressure => refrigerant.dew_pressure_pa(kelvin).map(|pascal| pascal / 1e3),
            Property::LiquidDensity => {
                refrigerant.saturation_at_bubble_temperature(kelvin).map(|at| at.liquid_density_kg_m3)
            }
            Property::VapourDensity => {
                refrigerant.saturation_at_dew_temperature(kelvin).map(|at| at.vapor_density_kg_m3)
            }
        }
        .map_err(words)
    }
}

/// The pressure that decides an appliance's class.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct At104F {
    refrigerant: String,
}

impl Ask for At104F {
    fn what(&self) -> String {
        format!("{}, bubble pressure at 104 °F", self.refrigerant)
    }

    fn unit(&self) -> &'static str {
        "psia"
    }

    fn answer(&self) -> Result<f64, String> {
        let pascal = Refrigerant::load(&self.refrigerant).and_then(|it| it.bubble_pressure_pa(313.15));
        pascal.map(|pascal| pascal / PSI_PA).map_err(words)
    }
}
