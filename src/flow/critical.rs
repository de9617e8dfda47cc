//! Where an ideal nozzle chokes: the largest mass flux and the pressure it has in the throat.
//!
//! Sought from the ω-method's guess by Newton's method on the Mach number, then within a bracket; where liquid
//! only begins to flash in the throat, the peak of the flux itself.

use super::nozzle::{Critical, Expanded, Expansion};
use crate::fluid::FluidError;
use crate::numerics::{RootError, Tolerance, find_root};

/// Share of the pressure over which slopes are taken.
pub(super) const SLOPE_STEP: f64 = 2e-4;

/// Mach number squared less one, from `2 w (−dv/dp)/v²`; its zero is the choked throat.
fn supersonic_excess(expansion: &impl Expansion, pressure_pa: f64) -> Result<(f64, Expanded), FluidError> {
    let here = expansion.at(pressure_pa)?;
    let below = expansion.at(pressure_pa * (1.0 - SLOPE_STEP))?;
    let slope = (below.specific_volume_m3_kg - here.specific_volume_m3_kg) / (SLOPE_STEP * pressure_pa);
    let excess = 2.0 * here.work_j_kg * slope / here.specific_volume_m3_kg.powi(2) - 1.0;
    Ok((excess, here))
}

/// Where the Mach number's square is this close to one the mass flux is its maximum to 1e-10.
const SONIC: f64 = 1e-5;
/// Share of the start pressure over which the ω-method's ω is taken.
const OMEGA_STEP: f64 = 0.02;

/// The throat's maximum mass flux and the pressure it has there.
///
/// # Errors
/// The fluid's range was left.
/// # Example
/// Ideal gas, k = 1.289: `p*/p0 = (2/(k+1))^(k/(k−1))` = 0.54772.
pub fn critical(expansion: &impl Expansion) -> Result<Critical, FluidError> {
    let start = expansion.start_pressure_pa();
    let floor = expansion.floor_pressure_pa() / (1.0 - 2.0 * SLOPE_STEP);
    let mut high = (start * (1.0 - 1e-9), -1.0);
    if floor >= high.0 {
        return Ok(Critical { pressure_pa: start, mass_flux_kg_m2s: 0.0 });
    }
    let mut low = None;
    let mut pressure = omega_choke_pa(expansion)?.clamp(floor, high.0);
    let mut before: Option<(f64, f64)> = None;
    for _ in 0..6 {
        let (excess, here) = supersonic_excess(expansion, pressure)?;
        if excess.abs() <= SONIC {
            return peak(expansion, pressure, here);
        }
        if excess > 0.0 {
            low = Some((pressure, excess))
        } else {
            high = (pressure, excess)
        }
        let place = (pressure.ln(), (1.0 + excess).ln());
        let slope = match before {
            Some(other) => (place.1 - other.1) / (place.0 - other.0),
            None => mach_slope(pressure, excess, &here),
        };
        before = Some(place);
        let next = pressure * (-place.1 / slope).exp();
        if !(next > low.map_or(floor, |low| low.0) && next < high.0) {
            break;
        }
        pressure = next;
    }
    let low = match low {
        Some(low) => low,
        None => {
            let low = bracket_below(expansion, start, floor)?;
            let (excess, here) = supersonic_excess(expansion, low)?;
            if excess <= 0.0 {
                // Not choked even at the lowest pressure that the fluid can be followed to.
                return Ok(Critical { pressure_pa: low, mass_flux_kg_m2s: here.mass_flux_kg_m2s() });
            }
            (low, excess)
        }
    };
    let tolerance = Tolerance { absolute: 1e-7 * start, relative: 0.0, residual: SONIC };
    let excess = |p| supersonic_excess(expansion, p).map(|(excess, _)| excess);
    let pressure_pa = match find_root(excess, high, low, tolerance) {
        Ok(root) => root.x,
        Err(RootError::NotBracketed { .. }) => low.0,
        Err(RootError::Function(error)) => return Err(error),
    };
    peak(expansion, pressure_pa, expansion.at(pressure_pa)?)
}

/// A throat that has grown by less than this share of its volume at rest is still liquid.
const LIQUID_GROWTH: f64 = 0.01;
/// The golden section, `(√5 − 1)/2`.
const GOLDEN: f64 = 0.618_033_988_749_894_8;

/// The largest mass flux near a sonic place. Liquid chokes on the kink where it begins to flash, and
/// a slope taken across the kink misses it by the width of its step; there the peak itself is sought.
fn peak(expansion: &impl Expansion, sonic_pa: f64, sonic: Expanded) -> Result<Critical, FluidError> {
    let grown = sonic.specific_volume_m3_kg / expansion.start_volume_m3_kg()? - 1.0;
    if grown > LIQUID_GROWTH {
        return Ok(Critical { pressure_pa: sonic_pa, mass_flux_kg_m2s: sonic.mass_flux_kg_m2s() });
    }
    let flux = |pressure_pa: f64| Ok(expansion.at(pressure_pa)?.mass_flux_kg_m2s());
    let mut low_pa = (sonic_pa * (1.0 - 2.0 * SLOPE_STEP)).max(expansion.floor_pressure_pa());
    let mut high_pa = (sonic_pa * (1.0 + 2.0 * SLOPE_STEP)).min(expansion.start_pressure_pa());
    let mut inner_pa = [high_pa - GOLDEN * (high_pa - low_pa), low_pa + GOLDEN * (high_pa - low_pa)];
    let mut inner = [flux(inner_pa[0])?, flux(inner_pa[1])?];
    while high_pa - low_pa > 1e-10 * sonic_pa {
        if inner[0] > inner[1] {
            (high_pa, inner_pa[1], inner[1]) = (inner_pa[1], inner_pa[0], inner[0]);
            inner_pa[0] = high_pa - GOLDEN * (high_pa - low_pa);
            inner[0] = flux(inner_pa[0])?;
        } else {
            (low_pa, inner_pa[0], inner[0]) = (inner_pa[0], inner_pa[1], inner[1]);
            inner_pa[1] = low_pa + GOLDEN * (high_pa - low_pa);
            inner[1] = flux(inner_pa[1])?;
        }
    }
    let best = usize::from(inner[1] > inner[0]);
    Ok(Critical { pressure_pa: inner_pa[best], mass_flux_kg_m2s: inner[best] })
}

/// How the logarithm of the Mach number's square `2 w n/(p v)` changes with `ln p`, where
/// `v ∝ p^-n` and `dw = −v dp`.
fn mach_slope(pressure: f64, excess: f64, here: &Expanded) -> f64 {
    let flow_work = pressure * here.specific_volume_m3_kg / here.work_j_kg;
    let exponent = 0.5 * (1.0 + excess) * flow_work;
    exponent - 1.0 - flow_work
}

/// About where the throat chokes: the ω-method with `v/v0 = ω (p0/p − 1) + 1` over a first step.
fn omega_choke_pa(expansion: &impl Expansion) -> Result<f64, FluidError> {
    let start = expansion.start_pressure_pa();
    let lower = start * (1.0 - OMEGA_STEP);
    if lower <= expansion.floor_pressure_pa() {
        return Ok(start);
    }
    let grown = expansion.at(lower)?.specific_volume_m3_kg / expansion.start_volume_m3_kg()?;
    let omega = (grown - 1.0) * (1.0 - OMEGA_STEP) / OMEGA_STEP;
    Ok(start * omega_choke_ratio(omega.max(0.1)))
}

/// Leung's explicit critical pressure ratio of the ω-method.
///
/// # Source
/// The closed fit of J. C. Leung used by API 520 Annex C; from memory.
pub(super) fn omega_choke_ratio(omega: f64) -> f64 {
    let base = 1.0 + (1.0446 - 0.009_343_1 * omega.sqrt()) * omega.powf(-0.56261);
    base.powf(-0.70356 + 0.014_685 * omega.ln()).clamp(0.05, 0.99)
}

/// A pressure below the choked one: most fluids choke above 0.45 of the start pressure.
fn bracket_below(expansion: &impl Expansion, start: f64, floor: f64) -> Result<f64, FluidError> {
    for share in [0.45, 0.2, 0.05] {
        let pressure = share * start;
        if pressure <= floor {
            break;
        }
        if supersonic_excess(expansion, pressure)?.0 > 0.0 {
            return Ok(pressure);
        }
    }
    Ok(floor)
}
