//! Holes, gauge sets, filter-driers and valves: parts that are short and narrow.

use super::{
    Band, CORE_DISCHARGE_COEFFICIENT, DISCHARGE_COEFFICIENT, Door, LOADED_DRIER_AREA_RATIO,
    PRESSURE_RECOVERY, USED_DRIER_AREA_RATIO,
};
use crate::units::{CoolingCapacity, FlowCoefficient, PressureDifference, Typed};
use serde::{Deserialize, Serialize};
use uom::si::f64::{Length, MassRate, Ratio};

/// A part that acts as one hole.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Hole {
    /// What its owner calls it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// The shelf part it was copied from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,
    /// Diameter of the round hole of the same area.
    pub bore: Typed<Length>,
    /// How well the bore is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bore_band: Option<Band<Typed<Length>>>,
    /// Share of the hole that flows; see [`Hole::discharge_coefficient_ratio`] if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub discharge_coefficient: Option<Typed<Ratio>>,
    /// F_L of IEC 60534-2-1; 1 (nothing won back) if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pressure_recovery: Option<Typed<Ratio>>,
}

impl Hole {
    /// A hole with what is usually assumed.
    pub fn new(bore: Typed<Length>) -> Self {
        Self {
            name: None,
            from: None,
            bore,
            bore_band: None,
            discharge_coefficient: None,
            pressure_recovery: None,
        }
    }

    /// The discharge coefficient, or the one assumed: lower for a valve core.
    pub fn discharge_coefficient_ratio(&self, is_core: bool) -> f64 {
        let assumed = if is_core { CORE_DISCHARGE_COEFFICIENT } else { DISCHARGE_COEFFICIENT };
        self.discharge_coefficient.as_ref().map_or(assumed, Typed::si)
    }

    /// F_L, or the one assumed.
    pub fn pressure_recovery_ratio(&self) -> f64 {
        self.pressure_recovery.as_ref().map_or(PRESSURE_RECOVERY, Typed::si)
    }

    pub(crate) fn check(&self, door: &mut Door<'_>) {
        check_bore(&self.bore, self.bore_band.as_ref(), door);
        check_coefficients(self.discharge_coefficient.as_ref(), self.pressure_recovery.as_ref(), door);
    }
}

fn check_bore(bore: &Typed<Length>, band: Option<&Band<Typed<Length>>>, door: &mut Door<'_>) {
    door.range("bore", bore, 0.05e-3..=0.2, "a bore of 0.05 to 200 mm");
    door.band("bore_band", band);
}

fn check_coefficients(cd: Option<&Typed<Ratio>>, recovery: Option<&Typed<Ratio>>, door: &mut Door<'_>) {
    door.optional("discharge_coefficient", cd, 0.05..=1.0, "a share of 0.05 to 1");
    door.optional("pressure_recovery", recovery, 0.3..=1.0, "a factor F_L of 0.3 to 1");
}

/// A gauge set: a body with valve seats that the flow passes one after another.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GaugeSet {
    /// What its owner calls it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// The shelf part it was copied from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,
    /// How many seats the flow passes.
    pub seats: u32,
    /// Diameter of the round hole of one open seat's area.
    pub bore: Typed<Length>,
    /// How well the bore is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bore_band: Option<Band<Typed<Length>>>,
    /// Share of the hole that flows; 0.8 if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub discharge_coefficient: Option<Typed<Ratio>>,
    /// F_L of IEC 60534-2-1; 1 (nothing won back) if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pressure_recovery: Option<Typed<Ratio>>,
}

impl GaugeSet {
    /// One of its seats, as a hole.
    pub fn seat(&self) -> Hole {
        Hole {
            name: self.name.clone(),
            from: self.from.clone(),
            bore: self.bore.clone(),
            bore_band: self.bore_band.clone(),
            discharge_coefficient: self.discharge_coefficient.clone(),
            pressure_recovery: self.pressure_recovery.clone(),
        }
    }

    pub(crate) fn check(&self, door: &mut Door<'_>) {
        if !(1..=6).contains(&self.seats) {
            door.fault("seats", format!("{} seats; expected 1 to 6", self.seats));
        }
        check_bore(&self.bore, self.bore_band.as_ref(), door);
        check_coefficients(self.discharge_coefficient.as_ref(), self.pressure_recovery.as_ref(), door);
    }
}

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
        door.optional("flow_coefficient", self.flow_coefficient.as_ref(), 1e-4..=1e3, "0.0001 to 1000 Kv");
        door.optional(
            "rated_flow",
            self.rated_flow.as_ref(),
            1e-6..=100.0,
            "a flow above 0, up to 6000 kg/min",
        );
        door.optional("rated_capacity", self.rated_capacity.as_ref(), 10.0..=1e7, "10 W to 2800 tons");
        door.optional("bore", self.bore.as_ref(), 0.05e-3..=0.2, "a bore of 0.05 to 200 mm");
        door.optional("rated_drop", self.rated_drop.as_ref(), 10.0..=1e6, "a loss of 10 Pa to 10 bar");
        door.optional("area_left", self.area_left.as_ref(), 1e-3..=1.0, "a share of 0.001 to 1");
        door.optional(
            "pressure_recovery",
            self.pressure_recovery.as_ref(),
            0.3..=1.0,
            "a factor F_L of 0.3 to 1",
        );
    }
}

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
        door.range("flow_coefficient", &self.flow_coefficient, 1e-4..=1e3, "0.0001 to 1000 Kv");
        door.band("flow_coefficient_band", self.flow_coefficient_band.as_ref());
        door.optional(
            "pressure_recovery",
            self.pressure_recovery.as_ref(),
            0.3..=1.0,
            "a factor F_L of 0.3 to 1",
        );
    }
}
