//! What displacement allows in push-pull: the volume balance of the cylinder.
//!
//! Liquid that arrives takes the room of vapour that the machine draws away, and where the
//! cylinder is colder than the source part of it flashes and takes displacement too:
//! `ṁ ((1 − x)/ρ_l + x/ρ_v) = η_v V̇`. What the liquid line passes is another limit, and no rating
//! test says what line was used.

use super::bench::Bench;
use super::error::RatingError;
use crate::fluid::FluidError;

/// The balance at two cylinder temperatures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PushPull {
    /// Cylinder [`COLDER_K`] below the source: what drawing vapour from it brings about.
    pub likely_kg_s: f64,
    /// Cylinder as warm as the source: no flash, the most that displacement allows.
    pub most_kg_s: f64,
    /// Share of the liquid that flashes in the likely case.
    pub flash_ratio: f64,
}

/// How far the cylinder is taken to lie below the source. Common practice, no source: drawing
/// vapour cools it by a few degrees.
pub const COLDER_K: f64 = 5.0;

/// Push-pull from saturated liquid at this temperature, machine and vapour loop without loss.
///
/// # Errors
/// The temperature is outside the refrigerant's range.
/// # Example
/// R-22, 24 °C into 19 °C: `x = 0.0323`, and the balance asks 2.00 times the displacement of the
/// case without flash (CoolProp).
pub fn push_pull(bench: &Bench<'_>, source_k: f64) -> Result<PushPull, RatingError> {
    let (likely_kg_s, flash_ratio) = balance(bench, source_k, source_k - COLDER_K)?;
    let (most_kg_s, _) = balance(bench, source_k, source_k)?;
    Ok(PushPull { likely_kg_s, most_kg_s, flash_ratio })
}

/// Rate and flash where the cylinder stands at `cylinder_k`.
fn balance(bench: &Bench<'_>, source_k: f64, cylinder_k: f64) -> Result<(f64, f64), RatingError> {
    let refrigerant = bench.refrigerant();
    let source = refrigerant.saturation_at_bubble_temperature(source_k)?;
    let cylinder = refrigerant.saturation_at_bubble_temperature(cylinder_k)?;
    let flash = (source.liquid_enthalpy_j_kg - cylinder.liquid_enthalpy_j_kg) / cylinder.latent_heat_j_kg();
    let volume_m3_kg = (1.0 - flash) / cylinder.liquid_density_kg_m3 + flash / cylinder.vapor_density_kg_m3;
    // Suction at the cylinder, discharge into the source's vapour side.
    let drawn_m3_s = drawn_volume_m3_s(bench, &cylinder, source.pressure_pa)?;
    Ok((drawn_m3_s / volume_m3_kg, flash))
}

fn drawn_volume_m3_s(
    bench: &Bench<'_>,
    cylinder: &crate::fluid::Saturation,
    discharge_pa: f64,
) -> Result<f64, FluidError> {
    let point =
        crate::flow::Medium::point(bench.refrigerant(), cylinder.pressure_pa, cylinder.vapor_enthalpy_j_kg)?;
    let compressor = bench.compressor();
    let suction = compressor.suction(bench.refrigerant(), point)?;
    let discharge_pa = discharge_pa.max(cylinder.pressure_pa);
    Ok(compressor.mass_flow_kg_s(&suction, discharge_pa, 1.0) * suction.point.specific_volume_m3_kg)
}
