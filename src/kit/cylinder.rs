//! A recovery cylinder as written: the one in use, and those that wait.

use super::{Door, TypedDate, is_false};
use crate::units::{PressureDifference, Typed, TypedPressure};
use serde::{Deserialize, Serialize};
use uom::si::f64::{Mass, ThermalConductance, ThermodynamicTemperature};

/// The most cylinders that one entry of the stock may stand for.
const MOST_ALIKE: u32 = 200;

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
    /// Which refrigerant that is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub refrigerant: Option<String>,
    /// The most it may hold by its own marking, net.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub marking_limit: Option<Typed<Mass>>,
    /// Service pressure, as stamped.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub service_pressure: Option<TypedPressure>,
    /// When it was last tested, as stamped.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub test_date: Option<TypedDate>,
    /// Made to be filled once.
    #[serde(default, skip_serializing_if = "is_false")]
    pub disposable: bool,
    /// Dented, corroded, or its valve is faulty.
    #[serde(default, skip_serializing_if = "is_false")]
    pub damaged: bool,
    /// Heat conductance from its contents to what surrounds it: air, sun-warmed or a water bath.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub heat_exchange: Option<Typed<ThermalConductance>>,
    /// Temperature of what surrounds it; the ambient air's if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub surroundings: Option<Typed<ThermodynamicTemperature>>,
    /// The sun shines on it. Its temperature stays as given.
    #[serde(default, skip_serializing_if = "is_false")]
    pub in_sun: bool,
    /// How many alike stand in the stock; one if left out. The cylinder in use is always one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub count: Option<u32>,
}

impl Cylinder {
    pub(crate) fn check(&self, door: &mut Door<'_>) {
        let temperatures = (200.0..=400.0, "−100 to 260 degF (−73 to 127 degC)");
        door.range("temperature", &self.temperature, temperatures.0.clone(), temperatures.1);
        door.optional("surroundings", self.surroundings.as_ref(), temperatures.0, temperatures.1);
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
        door.optional(
            "marking_limit",
            self.marking_limit.as_ref(),
            0.01..=1e5,
            "0.03 to 220000 lb (10 g to 100 t)",
        );
        door.optional("heat_exchange", self.heat_exchange.as_ref(), 0.0..=1e5, "0 to 100 kW/K");
        door.marked_pressure("service_pressure", self.service_pressure.as_ref(), "400 psig");
        if self.count.is_some_and(|count| !(1..=MOST_ALIKE).contains(&count)) {
            let count = self.count.unwrap_or_default();
            door.fault("count", format!("{count} is out of range; expected 1 to {MOST_ALIKE}"));
        }
    }
}
