//! Holes, and gauge sets, whose seats are holes.

use super::{Band, CORE_DISCHARGE_COEFFICIENT, DISCHARGE_COEFFICIENT, Door, PRESSURE_RECOVERY};
use crate::units::{Typed, TypedPressure};
use serde::{Deserialize, Serialize};
use uom::si::f64::{Length, Ratio};

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
        door.bore(Some(&self.bore));
        door.band("bore_band", self.bore_band.as_ref());
        let share = self.discharge_coefficient.as_ref();
        door.optional("discharge_coefficient", share, 0.05..=1.0, "a share of 0.05 to 1");
        door.pressure_recovery(self.pressure_recovery.as_ref());
    }
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
    /// Share of a seat that flows; see [`Hole::discharge_coefficient_ratio`] if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub discharge_coefficient: Option<Typed<Ratio>>,
    /// F_L of IEC 60534-2-1; 1 (nothing won back) if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pressure_recovery: Option<Typed<Ratio>>,
    /// Pressure that it is made for, as printed on it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub working_pressure: Option<TypedPressure>,
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
        door.marked_pressure("working_pressure", self.working_pressure.as_ref(), "500 psig");
        self.seat().check(door);
    }
}
