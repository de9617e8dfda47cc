//! The system's charge against its inside volume.

use super::super::document::Source;
use crate::fluid::Refrigerant;
use crate::kit::Door;
use crate::units::{Typed, three_figures};
use uom::si::f64::{Mass, Volume};

/// What a document says of the system's contents.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Charged {
    /// The charge, less what the oil holds.
    pub free: Mass,
    /// Inside volume.
    pub volume: Volume,
}

/// Charge and volume, where both are said; a fault where the charge is more than the volume holds.
pub(super) fn charged(source: &Source, refrigerant: &Refrigerant, door: &mut Door<'_>) -> Option<Charged> {
    let (charge, volume) = (source.charge.as_ref()?, source.volume.as_ref()?);
    // A temperature without saturation is refused where the ports are made.
    let full = refrigerant.saturation_at_bubble_temperature(source.temperature.si()).ok()?;
    let holds_kg = full.liquid_density_kg_m3 * volume.si();
    if charge.si() > holds_kg {
        let holds =
            Typed::<Mass>::of(holds_kg, "kg").map_or(holds_kg, |holds| holds.number_in_unit_of(charge));
        door.fault(
            "charge",
            format!(
                "{charge} do not fit: source.volume {volume} is full of liquid at {} {}; expected less, or a \
                 larger volume",
                three_figures(holds),
                charge.unit()
            ),
        );
    }
    let dissolved = source.dissolved.as_ref().map_or(0.0, Typed::si);
    Some(Charged { free: charge.value() * (1.0 - dissolved), volume: volume.value() })
}
