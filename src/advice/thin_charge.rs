//! A charge that is too little for saturation, while the rate is for saturation.

use super::caution::Facts;
use crate::job::thin_charge;
use crate::units::UnitSet;

/// Says so where charge, volume and temperature of the system contradict each other.
pub(super) fn too_little(facts: &Facts<'_>) -> Option<String> {
    let (setup, charged) = (&facts.kit.setup, facts.kit.charged?);
    let temperature = setup.source.temperature;
    let thin = thin_charge(&setup.refrigerant, temperature, charged.free, charged.volume)?;
    let both = |say: &dyn Fn(UnitSet) -> String| format!("{} ({})", say(UnitSet::US_TRADE), say(UnitSet::SI));
    let air = setup.ambient.pressure;
    let stands = thin
        .pressure
        .map_or("next to no pressure".to_owned(), |pressure| both(&|units| units.pressure(pressure, air)));
    Some(format!(
        "A charge of {} is less than the {} of saturated vapour that fill the system at {}: it holds superheated \
         gas at {stands}. The rate now is for saturation, at {}; the true one is lower. Check charge, volume and \
         temperature.",
        both(&|units| units.mass(charged.free)),
        both(&|units| units.mass(thin.saturated)),
        both(&|units| units.temperature(temperature)),
        both(&|units| {
            let dew = setup.refrigerant.dew_pressure(temperature);
            dew.map_or_else(|_| "saturation".to_owned(), |dew| units.pressure(dew, air))
        }),
    ))
}
