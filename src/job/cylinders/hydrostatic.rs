//! How full a closed cylinder becomes as it warms: liquid share, pressure, and the temperature at
//! which liquid fills it.
//!
//! Liquid is saturated liquid at its temperature; beyond "liquid-full" no pressure is given, for it
//! rises by several bar a kelvin. A blend's pressure between bubble and dew point is drawn straight
//! over its vapour share; both ends are exact.

use uom::si::f64::{Mass, MassDensity, Pressure, Ratio, ThermodynamicTemperature, Volume};
use uom::si::mass::kilogram;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::volume::cubic_meter;

use crate::fluid::{FluidError, Refrigerant};
use crate::numerics::{RootError, Tolerance, find_root};

/// Water at 25 °C, to which specific gravities at 77 °F are referred. IAPWS-95: 997.047 kg/m³.
pub const WATER_AT_25_C_KG_M3: f64 = 997.047;
/// Water at 60 °F (15.56 °C), by which water capacities are stamped. From memory of water tables:
/// 999.10 kg/m³ at 15 °C and 998.94 at 16 °C.
pub const WATER_AT_60_F_KG_M3: f64 = 999.01;
/// 25 °C (77 °F).
pub(super) const SPECIFIC_GRAVITY_K: f64 = 298.15;

/// Inside volume of a cylinder by its water capacity.
///
/// # Source
/// 49 CFR 173.304a refers filling densities to water at 60 °F (from memory). The stretch of the
/// cylinder and the buoyancy of air are neglected.
/// # Example
/// 239 lb = 108.41 kg: 0.10852 m³
pub fn inside_volume(water_capacity: Mass) -> Volume {
    Volume::new::<cubic_meter>(water_capacity.get::<kilogram>() / WATER_AT_60_F_KG_M3)
}

/// Specific gravity of saturated liquid at 25 °C, relative to water at 25 °C.
///
/// # Errors
/// No saturated liquid in the table at 25 °C.
/// # Example
/// 1190.65 / 997.047 = 1.1942
pub fn specific_gravity(refrigerant: &Refrigerant) -> Result<Ratio, FluidError> {
    let liquid = refrigerant.saturation_at_bubble_temperature(SPECIFIC_GRAVITY_K)?;
    Ok(Ratio::new::<ratio>(liquid.liquid_density_kg_m3 / WATER_AT_25_C_KG_M3))
}

/// Share of the cylinder that liquid takes at `hot` when it took `share` at `cold`, all of the
/// contents counted as liquid: `share · ρ_l(cold) / ρ_l(hot)`. Above 1 it is over-full.
///
/// # Errors
/// No saturated liquid in the table at one of the temperatures.
/// # Example
/// R-22, 80 % at 25 °C: 0.8 · 1190.65 / 1057.2 = 0.901 at 55 °C
pub fn hot_fill_ratio(
    refrigerant: &Refrigerant,
    share: Ratio,
    cold: ThermodynamicTemperature,
    hot: ThermodynamicTemperature,
) -> Result<Ratio, FluidError> {
    let density = |at: ThermodynamicTemperature| {
        refrigerant.saturation_at_bubble_temperature(at.get::<kelvin>()).map(|s| s.liquid_density_kg_m3)
    };
    Ok(share * (density(cold)? / density(hot)?))
}

/// Where liquid fills a closed cylinder.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LiquidFull {
    /// At this temperature.
    At(ThermodynamicTemperature),
    /// About at this temperature, a little beyond the property table.
    About(ThermodynamicTemperature),
    /// Not up to this temperature, where the property table ends.
    NotUpTo(ThermodynamicTemperature),
    /// Already at this temperature, where the property table begins.
    Already(ThermodynamicTemperature),
}

/// The temperature at which liquid fills a closed cylinder: its saturated liquid is then as dense
/// as the contents are on average (mass over inside volume).
///
/// # Source
/// The published check of filling rules uses this definition.
/// # Errors
/// The density is not a positive number.
pub fn liquid_full_temperature(
    refrigerant: &Refrigerant,
    mean_density: MassDensity,
) -> Result<LiquidFull, FluidError> {
    let mean_kg_m3 = mean_density.get::<kilogram_per_cubic_meter>();
    if !(mean_kg_m3 > 0.0 && mean_kg_m3.is_finite()) {
        return Err(not_a_density(refrigerant));
    }
    let room = |temperature_k: f64| {
        refrigerant
            .saturation_at_bubble_temperature(temperature_k)
            .map(|s| s.liquid_density_kg_m3 - mean_kg_m3)
    };
    let (low_k, high_k) =
        (refrigerant.lowest_temperature_k(), refrigerant.highest_saturation_temperature_k());
    let (at_low, at_high) = (room(low_k)?, room(high_k)?);
    if at_high > 0.0 {
        if let Some(beyond_k) = beyond_table(refrigerant, mean_kg_m3)? {
            return Ok(LiquidFull::About(ThermodynamicTemperature::new::<kelvin>(beyond_k)));
        }
        return Ok(LiquidFull::NotUpTo(ThermodynamicTemperature::new::<kelvin>(high_k)));
    }
    if at_low <= 0.0 {
        return Ok(LiquidFull::Already(ThermodynamicTemperature::new::<kelvin>(low_k)));
    }
    let root = find_root(room, (low_k, at_low), (high_k, at_high), Tolerance::relative(1e-9));
    match root {
        Ok(root) => Ok(LiquidFull::At(ThermodynamicTemperature::new::<kelvin>(root.x))),
        Err(RootError::Function(error)) => Err(error),
        Err(RootError::NotBracketed { .. }) => Err(not_a_density(refrigerant)),
    }
}

/// How far the curve of liquid density is drawn on beyond the table, K.
const BEYOND_TABLE_K: f64 = 10.0;
/// Only where the table ends below this share of the critical temperature: nearer, it bends away.
const FAR_FROM_CRITICAL_RATIO: f64 = 0.9;

/// Where a parabola through the table's last 10 K of liquid density falls to `mean_kg_m3`, within
/// the next 10 K.
fn beyond_table(refrigerant: &Refrigerant, mean_kg_m3: f64) -> Result<Option<f64>, FluidError> {
    let end_k = refrigerant.highest_saturation_temperature_k();
    if end_k > FAR_FROM_CRITICAL_RATIO * refrigerant.critical_temperature_k() {
        return Ok(None);
    }
    let step_k = 0.5 * BEYOND_TABLE_K;
    let density = |temperature_k: f64| {
        refrigerant.saturation_at_bubble_temperature(temperature_k).map(|s| s.liquid_density_kg_m3)
    };
    let (last, middle, first) = (density(end_k)?, density(end_k - step_k)?, density(end_k - 2.0 * step_k)?);
    // Newton's backward differences, in steps from the table's end.
    let (fall, bend) = (last - middle, last - 2.0 * middle + first);
    let room = |temperature_k: f64| -> Result<f64, FluidError> {
        let steps = (temperature_k - end_k) / step_k;
        Ok(last + steps * fall + 0.5 * steps * (steps + 1.0) * bend - mean_kg_m3)
    };
    let far_k = end_k + BEYOND_TABLE_K;
    let ends = ((end_k, room(end_k)?), (far_k, room(far_k)?));
    Ok(find_root(room, ends.0, ends.1, Tolerance::relative(1e-9)).ok().map(|root| root.x))
}

/// What a closed cylinder holds at one temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Contents {
    /// Nothing.
    Empty,
    /// Vapour alone.
    Vapor {
        /// Absolute pressure.
        pressure: Pressure,
    },
    /// Liquid with vapour above it.
    LiquidAndVapor {
        /// Share of the inside volume that liquid takes.
        liquid: Ratio,
        /// Absolute pressure.
        pressure: Pressure,
    },
    /// No room for vapour: the pressure is whatever the shell or its relief device allows.
    LiquidFull,
}

impl Contents {
    /// Share of the inside volume that liquid takes.
    pub fn liquid(&self) -> Ratio {
        match self {
            Self::Empty | Self::Vapor { .. } => Ratio::new::<ratio>(0.0),
            Self::LiquidAndVapor { liquid, .. } => *liquid,
            Self::LiquidFull => Ratio::new::<ratio>(1.0),
        }
    }

    /// Absolute pressure; none if empty or liquid-full.
    pub fn pressure(&self) -> Option<Pressure> {
        match self {
            Self::Vapor { pressure } | Self::LiquidAndVapor { pressure, .. } => Some(*pressure),
            Self::Empty | Self::LiquidFull => None,
        }
    }
}

/// What a closed cylinder with this mean density of contents holds at a temperature.
///
/// # Valid
/// Where the table has saturation, and superheated vapour above it. Air in the cylinder is
/// neglected.
/// # Errors
/// Outside the table, or a density that is negative or not a number.
pub fn contents_at(
    refrigerant: &Refrigerant,
    mean_density: MassDensity,
    temperature: ThermodynamicTemperature,
) -> Result<Contents, FluidError> {
    let (mean_kg_m3, temperature_k) =
        (mean_density.get::<kilogram_per_cubic_meter>(), temperature.get::<kelvin>());
    if !(mean_kg_m3 >= 0.0 && mean_kg_m3.is_finite()) {
        return Err(not_a_density(refrigerant));
    }
    if mean_kg_m3 == 0.0 {
        return Ok(Contents::Empty);
    }
    let liquid = refrigerant.saturation_at_bubble_temperature(temperature_k);
    let vapor = refrigerant.saturation_at_dew_temperature(temperature_k);
    match (&liquid, &vapor) {
        (Ok(liquid), _) if mean_kg_m3 >= liquid.liquid_density_kg_m3 => Ok(Contents::LiquidFull),
        (Ok(liquid), Ok(vapor)) if mean_kg_m3 > vapor.vapor_density_kg_m3 => {
            let (liquid_kg_m3, vapor_kg_m3) = (liquid.liquid_density_kg_m3, vapor.vapor_density_kg_m3);
            let share = (mean_kg_m3 - vapor_kg_m3) / (liquid_kg_m3 - vapor_kg_m3);
            let quality = (1.0 - share) * vapor_kg_m3 / mean_kg_m3;
            let pressure_pa = liquid.pressure_pa + quality * (vapor.pressure_pa - liquid.pressure_pa);
            Ok(Contents::LiquidAndVapor {
                liquid: Ratio::new::<ratio>(share),
                pressure: Pressure::new::<pascal>(pressure_pa),
            })
        }
        (_, Ok(vapor)) => vapor_pressure(
            refrigerant,
            mean_kg_m3,
            temperature_k,
            (vapor.pressure_pa, vapor.vapor_density_kg_m3),
        ),
        (_, Err(error)) => {
            // Hotter than the table's saturation: vapour, as long as it is thin enough for the table.
            let top_pa = refrigerant.highest_pressure_pa();
            let top = refrigerant.state_pt(top_pa, temperature_k).map_err(|_| error.clone())?;
            if top.density_kg_m3 < mean_kg_m3 {
                return Err(error.clone());
            }
            vapor_pressure(refrigerant, mean_kg_m3, temperature_k, (top_pa, top.density_kg_m3))
        }
    }
}

/// Pressure of vapour that is thinner than at `top` (pressure and density). Below the table it is
/// proportional to density, as a gas that thin is ideal.
fn vapor_pressure(
    refrigerant: &Refrigerant,
    mean_kg_m3: f64,
    temperature_k: f64,
    (top_pa, top_kg_m3): (f64, f64),
) -> Result<Contents, FluidError> {
    let floor_pa = refrigerant.lowest_pressure_pa().min(top_pa);
    let density = |pressure_pa: f64| {
        if pressure_pa >= top_pa * (1.0 - 1e-12) {
            return Ok(top_kg_m3);
        }
        refrigerant.state_pt(pressure_pa, temperature_k).map(|state| state.density_kg_m3)
    };
    let floor_kg_m3 = density(floor_pa)?;
    if mean_kg_m3 <= floor_kg_m3 {
        let pressure = Pressure::new::<pascal>(floor_pa * mean_kg_m3 / floor_kg_m3);
        return Ok(Contents::Vapor { pressure });
    }
    let root = find_root(
        |pressure_pa| density(pressure_pa).map(|kg_m3| kg_m3 - mean_kg_m3),
        (floor_pa, floor_kg_m3 - mean_kg_m3),
        (top_pa, top_kg_m3 - mean_kg_m3),
        Tolerance::relative(1e-9),
    );
    match root {
        Ok(root) => Ok(Contents::Vapor { pressure: Pressure::new::<pascal>(root.x) }),
        Err(RootError::Function(error)) => Err(error),
        Err(RootError::NotBracketed { .. }) => Err(not_a_density(refrigerant)),
    }
}

/// One point of the picture of a warming cylinder.
#[derive(Debug, Clone, PartialEq)]
pub struct FillPoint {
    /// Temperature.
    pub temperature: ThermodynamicTemperature,
    /// What the cylinder holds there, or why that is not known.
    pub contents: Result<Contents, FluidError>,
}

/// Liquid share and pressure at `points` evenly spaced temperatures (at least 2, at most 1000).
pub fn fill_curve(
    refrigerant: &Refrigerant,
    mean_density: MassDensity,
    (from, to): (ThermodynamicTemperature, ThermodynamicTemperature),
    points: usize,
) -> Vec<FillPoint> {
    let points = points.clamp(2, 1000);
    let (from_k, to_k) = (from.get::<kelvin>(), to.get::<kelvin>());
    (0..points)
        .map(|index| {
            let share = index as f64 / (points - 1) as f64;
            let temperature = ThermodynamicTemperature::new::<kelvin>(from_k + share * (to_k - from_k));
            FillPoint { temperature, contents: contents_at(refrigerant, mean_density, temperature) }
        })
        .collect()
}

fn not_a_density(refrigerant: &Refrigerant) -> FluidError {
    FluidError::NotANumber {
        refrigerant: refrigerant.designation(),
        quantity: "mean density of the contents",
    }
}
