//! A system that holds less than the saturated vapour that would fill it: it holds superheated gas at a
//! lower pressure. Gas from the property tables; what the oil holds is not counted.

use uom::si::f64::{Mass, Pressure, ThermodynamicTemperature, Volume};
use uom::si::mass::kilogram;
use uom::si::pressure::pascal;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::volume::cubic_meter;

use crate::fluid::{FluidError, Refrigerant};
use crate::numerics::{Tolerance, find_root};

/// What is typed with two or three figures may be off by this share.
const ROUNDED_RATIO: f64 = 0.01;

/// Too little refrigerant for saturation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ThinCharge {
    /// Saturated vapour that would fill the system.
    pub saturated: Mass,
    /// What the gas stands at, absolute; none where that is below the property table.
    pub pressure: Option<Pressure>,
}

/// What a system of this inside volume holds if its charge is too little for saturation at its
/// temperature; none if it is enough.
///
/// # Example
/// R-134a at 20 °C, 1 kg in 0.1 m³: saturated vapour of 27.78 kg/m³ would be 2.778 kg
pub fn thin_charge(
    refrigerant: &Refrigerant,
    temperature: ThermodynamicTemperature,
    charge: Mass,
    volume: Volume,
) -> Option<ThinCharge> {
    let temperature_k = temperature.get::<kelvin>();
    let volume_m3 = volume.get::<cubic_meter>();
    let saturation = refrigerant.saturation_at_dew_temperature(temperature_k).ok()?;
    let saturated_kg = saturation.vapor_density_kg_m3 * volume_m3;
    let charge_kg = charge.get::<kilogram>();
    (charge_kg < (1.0 - ROUNDED_RATIO) * saturated_kg).then(|| ThinCharge {
        saturated: Mass::new::<kilogram>(saturated_kg),
        pressure: gas_pressure_pa(refrigerant, temperature_k, charge_kg / volume_m3, saturation.pressure_pa)
            .map(Pressure::new::<pascal>),
    })
}

/// Where gas of this temperature has this density, below its dew pressure.
fn gas_pressure_pa(
    refrigerant: &Refrigerant,
    temperature_k: f64,
    density_kg_m3: f64,
    dew_pa: f64,
) -> Option<f64> {
    let excess = |pressure_pa: f64| -> Result<f64, FluidError> {
        Ok(refrigerant.state_pt(pressure_pa, temperature_k)?.density_kg_m3 - density_kg_m3)
    };
    let (low_pa, high_pa) = (refrigerant.lowest_pressure_pa() * (1.0 + 1e-9), dew_pa * (1.0 - 1e-6));
    let (low, high) = (excess(low_pa).ok()?, excess(high_pa).ok()?);
    let root = find_root(excess, (low_pa, low), (high_pa, high), Tolerance::relative(1e-9)).ok()?;
    Some(root.x)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of_r134a(charge_kg: f64, volume_m3: f64) -> Option<ThinCharge> {
        let refrigerant = Refrigerant::load("R-134a").unwrap();
        let temperature = ThermodynamicTemperature::new::<kelvin>(293.15);
        let volume = Volume::new::<cubic_meter>(volume_m3);
        thin_charge(&refrigerant, temperature, Mass::new::<kilogram>(charge_kg), volume)
    }

    #[test]
    fn saturated_vapour_is_the_least_that_is_enough() {
        assert_eq!(of_r134a(2.8, 0.1), None);
        let thin = of_r134a(1.0, 0.1).unwrap();
        assert!((thin.saturated.get::<kilogram>() - 2.778).abs() < 0.005, "{thin:?}");
    }

    /// 0.5 kg/m³ of 102.03 g/mol at 20 °C: 0.5/0.10203 · 8.3145 · 293.15 = 11,944 Pa as an ideal gas; gas this
    /// thin stands less than half a per cent below it.
    #[test]
    fn thin_gas_is_nearly_ideal() {
        let pressure_pa = of_r134a(0.5, 1.0).unwrap().pressure.unwrap().get::<pascal>();
        assert!((0.995..1.0).contains(&(pressure_pa / 11_944.0)), "{pressure_pa}");
    }

    /// 1 mg in a cubic metre: 0.02 Pa, far below any table.
    #[test]
    fn next_to_nothing_has_no_pressure() {
        assert_eq!(of_r134a(1e-6, 1.0).unwrap().pressure, None);
    }
}
