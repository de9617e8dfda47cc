//! The highest pressure that a part can meet: what a working pressure is held against.
//!
//! Neglects surges, and liquid shut in between two valves, which no working pressure holds.

use uom::si::f64::{Pressure, ThermodynamicTemperature};
use uom::si::thermodynamic_temperature::kelvin;

use super::{OperatingPoint, Setup};
use crate::fluid::Refrigerant;
use crate::units::GaugePressure;

/// What presses on a part.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// The system, as hot as it may get: the warmer of its contents and of the air around.
    System,
    /// The machine: up to its cut-out, or else its discharge pressure at this point.
    Machine,
    /// The cylinder, as warm as it is, with the air in it.
    Cylinder,
}

/// The highest pressure from this side, if it is known.
///
/// # Source
/// Common practice, no source: saturation at the hottest temperature, or the cut-out.
pub fn highest_pressure(setup: &Setup, point: Option<&OperatingPoint>, side: Side) -> Option<GaugePressure> {
    let air = setup.ambient.pressure;
    match side {
        Side::System => {
            // Warmer than liquid can be, the pressure depends on the charge; at least this one is met.
            let liquid_k = setup.refrigerant.highest_saturation_temperature_k();
            let kelvins = hottest_temperature(setup).get::<kelvin>().min(liquid_k);
            saturation_gauge(&setup.refrigerant, ThermodynamicTemperature::new::<kelvin>(kelvins), air)
        }
        Side::Machine => {
            let pressure = setup.machine.cut_out.or(point.map(|point| point.machine.discharge_pressure))?;
            Some(GaugePressure::from_absolute(pressure, air))
        }
        Side::Cylinder => {
            let with_air = air - setup.cylinder.non_condensables;
            saturation_gauge(&setup.refrigerant, setup.cylinder.temperature, with_air)
        }
    }
}

/// The warmer of the system's contents and of the air around.
pub fn hottest_temperature(setup: &Setup) -> ThermodynamicTemperature {
    let (source, around) = (setup.source.temperature, setup.ambient.temperature);
    if around > source { around } else { source }
}

/// What a gauge in this air reads at saturation; none outside the table.
pub(super) fn saturation_gauge(
    refrigerant: &Refrigerant,
    temperature: ThermodynamicTemperature,
    air: Pressure,
) -> Option<GaugePressure> {
    let absolute = refrigerant.bubble_pressure(temperature).ok()?;
    Some(GaugePressure::from_absolute(absolute, air))
}
