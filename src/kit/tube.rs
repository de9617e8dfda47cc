//! Hoses and dip tubes: a bore, a length, a roughness and a rise.

use super::{Band, Door, HOSE_ROUGHNESS_M};
use crate::units::{Measure, Typed, TypedPressure};
use serde::{Deserialize, Serialize};
use uom::si::f64::Length;

/// A hose or a dip tube.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tube {
    /// What its owner calls it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// The shelf part it was copied from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,
    /// Inside diameter, not the nominal size.
    pub bore: Typed<Length>,
    /// How well the bore is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bore_band: Option<Band<Typed<Length>>>,
    /// From end to end.
    pub length: Typed<Length>,
    /// Height of the roughness inside; [`HOSE_ROUGHNESS_M`] if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub roughness: Option<Typed<Length>>,
    /// Height of the outlet above the inlet; level if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rise: Option<Typed<Length>>,
    /// Pressure that it is made for, as printed on it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub working_pressure: Option<TypedPressure>,
}

impl Tube {
    /// A level tube of usual roughness.
    pub fn new(bore: Typed<Length>, length: Typed<Length>) -> Self {
        Self {
            name: None,
            from: None,
            bore,
            bore_band: None,
            length,
            roughness: None,
            rise: None,
            working_pressure: None,
        }
    }

    /// The roughness, or the one assumed.
    pub fn roughness(&self) -> Length {
        self.roughness.as_ref().map_or(Length::from_si(HOSE_ROUGHNESS_M), Typed::value)
    }

    /// The rise, or none.
    pub fn rise(&self) -> Length {
        self.rise.as_ref().map_or(Length::from_si(0.0), Typed::value)
    }

    pub(crate) fn check(&self, door: &mut Door<'_>) {
        door.bore(Some(&self.bore));
        door.band("bore_band", self.bore_band.as_ref());
        // 1 mm: shorter is no tube; 10 km: longer is a slip of the pen.
        door.range("length", &self.length, 1e-3..=1e4, "a length of 0.04 in to 32000 ft (1 mm to 10 km)");
        door.optional("roughness", self.roughness.as_ref(), 0.0..=1e-3, "a roughness of 0 to 1 mm");
        if self.roughness().si() > 0.1 * self.bore.si() && self.bore.si() > 0.0 {
            door.fault(
                "roughness",
                format!(
                    "{} mm is more than a tenth of the bore, {}; friction is not known beyond that",
                    self.roughness().si() * 1e3,
                    self.bore,
                ),
            );
        }
        door.marked_pressure("working_pressure", self.working_pressure.as_ref(), "800 psig");
        door.optional("rise", self.rise.as_ref(), -1e4..=1e4, "a rise between −10 and 10 km");
        if self.rise().si().abs() > self.length.si()
            && self.length.si() > 0.0
            && let Some(rise) = &self.rise
        {
            door.fault("rise", format!("{rise} is more than the hose is long, {}", self.length));
        }
    }
}
