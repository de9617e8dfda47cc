//! The recovery cylinder that the machine fills, as written.

use super::Door;
use crate::units::{PressureDifference, Typed, TypedPressure};
use serde::{Deserialize, Serialize};
use uom::si::f64::{Mass, ThermodynamicTemperature};

/// A recovery cylinder.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cylinder {
    /// What its owner calls it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// The shelf cylinder it was copied from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,
    /// Temperature of what is in it.
    pub temperature: Typed<ThermodynamicTemperature>,
    /// Pressure above saturation, as air in it makes; none if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub excess_pressure: Option<Typed<PressureDifference>>,
    /// Mass of water it holds, as stamped (WC).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub water_capacity: Option<Typed<Mass>>,
    /// Empty mass, as stamped (TW).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tare: Option<Typed<Mass>>,
    /// What is in it at the start.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub contents: Option<Typed<Mass>>,
    /// Service pressure, as stamped.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub service_pressure: Option<TypedPressure>,
}

impl Cylinder {
    pub(crate) fn check(&self, door: &mut Door<'_>) {
        door.range("temperature", &self.temperature, 200.0..=400.0, "−100 to 260 degF (−73 to 127 degC)");
        door.optional(
            "excess_pressure",
            self.excess_pressure.as_ref(),
            0.0..=3e6,
            "0 to 435 psi (0 to 30 bar)",
        );
        door.optional(
            "water_capacity",
            self.water_capacity.as_ref(),
            0.1..=1e5,
            "0.3 to 220000 lb (0.1 kg to 100 t)",
        );
        door.optional("tare", self.tare.as_ref(), 0.0..=1e5, "0 to 220000 lb (0 kg to 100 t)");
        door.optional("contents", self.contents.as_ref(), 0.0..=1e5, "0 to 220000 lb (0 kg to 100 t)");
    }
}
