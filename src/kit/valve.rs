//! Valves known by Kv or Cv.

use super::{Band, Door, PRESSURE_RECOVERY};
use crate::units::{FlowCoefficient, Typed};
use serde::{Deserialize, Serialize};
use uom::si::f64::Ratio;

/// A valve known by its flow coefficient.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Valve {
    /// What its owner calls it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// The shelf part it was copied from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,
    /// Kv or Cv.
    pub flow_coefficient: Typed<FlowCoefficient>,
    /// How well it is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub flow_coefficient_band: Option<Band<Typed<FlowCoefficient>>>,
    /// F_L of IEC 60534-2-1; 1 (nothing won back) if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pressure_recovery: Option<Typed<Ratio>>,
}

impl Valve {
    /// F_L, or the one assumed.
    pub fn pressure_recovery_ratio(&self) -> f64 {
        self.pressure_recovery.as_ref().map_or(PRESSURE_RECOVERY, Typed::si)
    }

    pub(crate) fn check(&self, door: &mut Door<'_>) {
        door.flow_coefficient(Some(&self.flow_coefficient));
        door.band("flow_coefficient_band", self.flow_coefficient_band.as_ref());
        door.pressure_recovery(self.pressure_recovery.as_ref());
    }
}
