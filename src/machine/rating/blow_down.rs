//! The vapour test: a closed vessel of saturated vapour pumped down at constant temperature.
//!
//! `t = V ∫ dρ/ṁ(ρ)`: the rate, mass over time, is `(ρ0 − ρ1)/∫ dρ/ṁ`, whatever the vessel's
//! size. The integrand is taken over `ln ρ`, in which `ρ/ṁ` hardly bends.

use super::bench::{Bench, Draw};
use super::error::RatingError;
use crate::flow::{Medium, Point};
use crate::numerics::{RootError, Tolerance, find_root};

/// What came of a vapour test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BlowDown {
    /// Mass over time, as printed on a card.
    pub average_kg_s: f64,
    /// What the machine draws at the start.
    pub start: Draw,
    /// Pressure at the start.
    pub start_pa: f64,
    /// Pressure at the end.
    pub end_pa: f64,
    /// Shaft work over the whole test, per mass moved.
    pub work_j_kg: f64,
    /// Heat rejected over the whole test, per mass moved.
    pub heat_j_kg: f64,
}

/// The test ends at this share of the starting pressure.
const END_RATIO: f64 = 0.1;
/// … but not above this.
const END_CEILING_PA: f64 = 100e3;
/// The test starts from what boils at this pressure where that is warmer than asked.
const START_FLOOR_PA: f64 = 100e3;

/// Panels of three Gauss points each.
const PANELS: usize = 6;
/// Abscissae and weights of the three-point Gauss-Legendre rule on −1 to 1.
/// Closed form: `0, ±√(3/5)`, weights `8/9, 5/9`.
const GAUSS: [(f64, f64); 3] =
    [(-0.774_596_669_241_483_4, 5.0 / 9.0), (0.0, 8.0 / 9.0), (0.774_596_669_241_483_4, 5.0 / 9.0)];

/// Runs the vapour test from saturated vapour at a temperature.
///
/// - `final_vacuum_pa`: pressure below which the machine is not rated; the test ends there
///
/// # Errors
/// [`RatingError::Stalls`] if the machine draws nothing before the end; [`RatingError::NoSpan`] if
/// the end is not below the start; else as [`Bench::draw`].
/// # Source
/// AHRI 740-2016, 7.4.1.2 (40 CFR 82 Subpart F App. B3): from the higher of 24 °C and boiling at
/// 100 kPa, down to 10 % of the initial pressure but not below the final vacuum nor above 100 kPa.
/// # Example
/// Constant volume rate: `(1 − ρ1/ρ0)/ln(ρ0/ρ1)` of the starting rate; R-22 from 24 °C 0.37.
pub fn blow_down(
    bench: &Bench<'_>,
    temperature_k: f64,
    final_vacuum_pa: Option<f64>,
) -> Result<BlowDown, RatingError> {
    let refrigerant = bench.refrigerant();
    let boiling_k = refrigerant.saturation_at_pressure(START_FLOOR_PA)?.dew_temperature_k;
    let temperature_k = temperature_k.max(boiling_k);
    let saturation = refrigerant.saturation_at_dew_temperature(temperature_k)?;
    let start_pa = saturation.pressure_pa;
    let end_pa = (END_RATIO * start_pa).min(END_CEILING_PA).max(final_vacuum_pa.unwrap_or(0.0));
    if !(end_pa < start_pa) {
        return Err(RatingError::NoSpan { start_pa, end_pa });
    }
    let start_point = refrigerant.point(start_pa, saturation.vapor_enthalpy_j_kg)?;
    let start = bench.draw(start_point)?;
    let end = isothermal(bench, temperature_k, end_pa)?;
    if bench.draw(end)?.mass_flow_kg_s <= 0.0 || start.mass_flow_kg_s <= 0.0 {
        let stalled_pa = if start.mass_flow_kg_s <= 0.0 { start_pa } else { end_pa };
        return Err(RatingError::Stalls { end_pa, stalled_pa });
    }
    let (high, low) = (saturation.vapor_density_kg_m3.ln(), -end.specific_volume_m3_kg.ln());
    let half = 0.5 * (high - low) / PANELS as f64;
    let (mut time, mut work, mut heat) = (0.0, 0.0, 0.0);
    for panel in 0..PANELS {
        let middle = low + (2 * panel + 1) as f64 * half;
        for (abscissa, weight) in GAUSS {
            let density = (middle + abscissa * half).exp();
            let point = at_density(bench, temperature_k, density, (end_pa, start_pa))?;
            let draw = bench.draw(point)?;
            if draw.mass_flow_kg_s <= 0.0 {
                return Err(RatingError::Stalls { end_pa, stalled_pa: point.pressure_pa });
            }
            // Mass per vessel volume that leaves in this stretch, and how long it takes.
            let mass = weight * half * density;
            time += mass / draw.mass_flow_kg_s;
            work += mass * draw.work_j_kg;
            heat += mass * draw.heat_w / draw.mass_flow_kg_s;
        }
    }
    let mass = high.exp() - low.exp();
    Ok(BlowDown {
        average_kg_s: mass / time,
        start,
        start_pa,
        end_pa,
        work_j_kg: work / mass,
        heat_j_kg: heat / mass,
    })
}

fn isothermal(bench: &Bench<'_>, temperature_k: f64, pressure_pa: f64) -> Result<Point, RatingError> {
    Ok(Point::from(bench.refrigerant().state_pt(pressure_pa, temperature_k)?))
}

/// The state of this density on the isotherm.
fn at_density(
    bench: &Bench<'_>,
    temperature_k: f64,
    density_kg_m3: f64,
    (low_pa, high_pa): (f64, f64),
) -> Result<Point, RatingError> {
    // Saturated vapour itself lies on the edge of the table's superheated side.
    let high_pa = high_pa * (1.0 - 1e-9);
    let excess = |log_pa: f64| -> Result<f64, RatingError> {
        let point = isothermal(bench, temperature_k, log_pa.exp())?;
        Ok(-(point.specific_volume_m3_kg * density_kg_m3).ln())
    };
    let ends = ((low_pa.ln(), excess(low_pa.ln())?), (high_pa.ln(), excess(high_pa.ln())?));
    let tolerance = Tolerance { absolute: 1e-11, relative: 0.0, residual: 1e-10 };
    let log_pa = match find_root(excess, ends.0, ends.1, tolerance) {
        Ok(root) => root.x,
        Err(RootError::NotBracketed { .. }) if ends.0.1 > 0.0 => ends.0.0,
        Err(RootError::NotBracketed { .. }) => ends.1.0,
        Err(RootError::Function(error)) => return Err(error),
    };
    isothermal(bench, temperature_k, log_pa.exp())
}
