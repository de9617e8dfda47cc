//! Cylinders that something warms from outside: sun, or surroundings above the limit on their labels.

use uom::si::f64::ThermodynamicTemperature;
use uom::si::thermodynamic_temperature::degree_fahrenheit;

use super::caution::CYLINDER_LIMIT_F;
use crate::job::CylinderPlace;

/// What to say of a cylinder of this name in this place; none where nothing warms it.
pub(super) fn warm_place(name: &str, place: CylinderPlace) -> Option<String> {
    let is_hot = |around: ThermodynamicTemperature| around.get::<degree_fahrenheit>() > CYLINDER_LIMIT_F;
    let stands = if place.in_sun {
        "in the sun"
    } else if place.surroundings.is_some_and(is_hot) {
        "in surroundings above 125 °F (52 °C)"
    } else {
        return None;
    };
    Some(format!(
        "{name} stands {stands}: it warms, and its pressure climbs. Put it into shade or cool it with water; never \
         heat one with a flame, and keep below the limit on its label"
    ))
}
