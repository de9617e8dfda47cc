//! Filter-driers: how large, and how far used up.

use super::{Door, LOADED_DRIER_AREA_RATIO, PRESSURE_RECOVERY, USED_DRIER_AREA_RATIO};
use crate::units::{CoolingCapacity, FlowCoefficient, PressureDifference, Typed};
use serde::{Deserialize, Serialize};
use uom::si::f64::{Length, MassRate, Ratio};

/// How far a filter-drier is used up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum DrierState {
    /// As it left the box.
    #[default]
    Clean,
    /// Has served some jobs.
    Used,
    /// Nearly plugged.
    Loaded,
}

/// A filter-drier. Its size is written in exactly one of four ways: a flow coefficient, a
/// measured or rated flow of liquid and its loss, a capacity in tons, or a hole.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FilterDrier {
    /// What its owner calls it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// The shelf part it was copied from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,
    /// Kv or Cv.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub flow_coefficient: Option<Typed<FlowCoefficient>>,
    /// Liquid flow at `rated_drop`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rated_flow: Option<Typed<MassRate>>,
    /// Capacity printed on it: liquid at 86 °F, vapour at 5 °F, 1 psi (the basis of AHRI 710).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rated_capacity: Option<Typed<CoolingCapacity>>,
    /// Diameter of the round hole of the same area.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bore: Option<Typed<Length>>,
    /// Loss at the rated flow; 1 psi if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rated_drop: Option<Typed<PressureDifference>>,
    /// What it was rated or measured with; the document's refrigerant if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rated_refrigerant: Option<String>,
    /// How far it is used up.
    #[serde(default)]
    pub state: DrierState,
    /// Flow area left of a clean one's; by `state` if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub area_left: Option<Typed<Ratio>>,
    /// F_L of IEC 60534-2-1; 1 (nothing won back) if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pressure_recovery: Option<Typed<Ratio>>,
}

impl FilterDrier {
    /// Flow area left of a clean one's, as written or by its state.
    pub fn area_left_ratio(&self) -> f64 {
        let by_state = match self.state {
            DrierState::Clean => 1.0,
            DrierState::Used => USED_DRIER_AREA_RATIO,
            DrierState::Loaded => LOADED_DRIER_AREA_RATIO,
        };
        self.area_left.as_ref().map_or(by_state, Typed::si)
    }

    /// F_L, or the one assumed.
    pub fn pressure_recovery_ratio(&self) -> f64 {
        self.pressure_recovery.as_ref().map_or(PRESSURE_RECOVERY, Typed::si)
    }

    pub(crate) fn check(&self, door: &mut Door<'_>) {
        let sizes = [
            self.flow_coefficient.is_some(),
            self.rated_flow.is_some(),
            self.rated_capacity.is_some(),
            self.bore.is_some(),
        ];
        let given = sizes.iter().filter(|is_given| **is_given).count();
        if given != 1 {
            door.fault(
                "flow_coefficient",
                format!(
                    "a filter-drier's size is written {given} times; give one of flow_coefficient, \
                 rated_flow, rated_capacity, bore"
                ),
            );
        }
        door.flow_coefficient(self.flow_coefficient.as_ref());
        door.optional(
            "rated_flow",
            self.rated_flow.as_ref(),
            1e-6..=100.0,
            "a flow above 0, up to 6000 kg/min",
        );
        door.optional("rated_capacity", self.rated_capacity.as_ref(), 10.0..=1e7, "10 W to 2800 tons");
        door.bore(self.bore.as_ref());
        door.optional("rated_drop", self.rated_drop.as_ref(), 10.0..=1e6, "a loss of 10 Pa to 10 bar");
        door.optional("area_left", self.area_left.as_ref(), 1e-3..=1.0, "a share of 0.001 to 1");
        door.pressure_recovery(self.pressure_recovery.as_ref());
    }
}
