//! Refrigerant that fills a known volume: its state at one pressure, and the pressure at which it
//! has a wanted energy or temperature.
//!
//! Liquid and vapour are in equilibrium, the composition of a blend as charged. A volume too small
//! for the liquid is said by `vapor_volume_ratio = 0`: the tables know no compressed liquid.

use crate::fluid::{FluidError, Refrigerant, Saturation, State};
use crate::job::JobError;
use crate::numerics::{RootError, Tolerance, Warm, find_root};

/// What fills a vessel. Pressures absolute.
#[derive(Debug, Clone, Copy)]
pub(super) struct Filling {
    pub pressure_pa: f64,
    pub temperature_k: f64,
    /// Of the whole.
    pub energy_j_kg: f64,
    /// Share of the mass that is vapour.
    pub vapor_ratio: f64,
    /// By enthalpy, unclamped: above 1 superheated.
    pub quality: f64,
    /// Share of the volume that is vapour; zero where liquid fills everything.
    pub vapor_volume_ratio: f64,
    pub saturation: Saturation,
}

/// The filling of a specific volume at a pressure.
pub(super) fn at_volume(
    refrigerant: &Refrigerant,
    pressure_pa: f64,
    volume_m3_kg: f64,
) -> Result<Filling, FluidError> {
    let at = refrigerant.saturation_at_pressure(pressure_pa)?;
    let (liquid, vapor) = (1.0 / at.liquid_density_kg_m3, 1.0 / at.vapor_density_kg_m3);
    if volume_m3_kg <= liquid {
        // Liquid-full: the saturated liquid's energy goes on rising with the pressure.
        let state = refrigerant.state_ph_at(&at, at.liquid_enthalpy_j_kg)?;
        return Ok(filled(&state, at, 0.0));
    }
    let state = if volume_m3_kg <= vapor {
        wet(refrigerant, &at, volume_m3_kg, (volume_m3_kg - liquid) / (vapor - liquid))?
    } else {
        dry(refrigerant, &at, volume_m3_kg)?
    };
    let vapor_ratio = state.vapor_mass_fraction();
    let vapor_volume_ratio = 1.0 - (1.0 - vapor_ratio) * liquid / volume_m3_kg;
    Ok(filled(&state, at, vapor_volume_ratio.max(1e-12)))
}

fn filled(state: &State, saturation: Saturation, vapor_volume_ratio: f64) -> Filling {
    Filling {
        pressure_pa: state.pressure_pa,
        temperature_k: state.temperature_k,
        energy_j_kg: state.internal_energy_j_kg(),
        vapor_ratio: state.vapor_mass_fraction(),
        quality: state.quality,
        vapor_volume_ratio,
        saturation,
    }
}

/// Between bubble and dew. Volume is straight in quality for a pure refrigerant, nearly so else.
fn wet(
    refrigerant: &Refrigerant,
    at: &Saturation,
    volume_m3_kg: f64,
    straight: f64,
) -> Result<State, FluidError> {
    let state_at = |quality: f64| {
        refrigerant.state_ph_at(at, at.liquid_enthalpy_j_kg + quality.clamp(0.0, 1.0) * at.latent_heat_j_kg())
    };
    let span = 1.0 / at.vapor_density_kg_m3 - 1.0 / at.liquid_density_kg_m3;
    let mut quality = straight;
    let mut state = state_at(quality)?;
    for _ in 0..30 {
        let miss = (volume_m3_kg - state.specific_volume_m3_kg()) / span;
        if miss.abs() < 1e-12 {
            break;
        }
        quality = (quality + miss).clamp(0.0, 1.0);
        state = state_at(quality)?;
    }
    Ok(state)
}

/// Superheated: by secants in enthalpy from the dew point, where `v` grows about as `T` does.
fn dry(refrigerant: &Refrigerant, at: &Saturation, volume_m3_kg: f64) -> Result<State, FluidError> {
    let dew = at.vapor_enthalpy_j_kg;
    let hot = at.hot_enthalpy_j_kg;
    let hottest = refrigerant.state_ph_at(at, hot)?;
    if volume_m3_kg >= hottest.specific_volume_m3_kg() {
        return Ok(hottest);
    }
    let mut low = (dew, 1.0 / at.vapor_density_kg_m3);
    let mut high = (hot, hottest.specific_volume_m3_kg());
    let mut slope = (high.1 - low.1) / (high.0 - low.0);
    let mut state = refrigerant.state_ph_at(at, low.0 + (volume_m3_kg - low.1) / slope)?;
    for _ in 0..40 {
        let here = (state.enthalpy_j_kg, state.specific_volume_m3_kg());
        let miss = volume_m3_kg - here.1;
        if miss.abs() < 1e-12 * volume_m3_kg {
            break;
        }
        // The secant to the nearer known side; the answer stays between both.
        let other = if miss > 0.0 { &mut low } else { &mut high };
        slope = (here.1 - other.1) / (here.0 - other.0);
        *other = here;
        let next = here.0 + miss / slope;
        let next = if next > low.0 && next < high.0 { next } else { 0.5 * (low.0 + high.0) };
        state = refrigerant.state_ph_at(at, next)?;
    }
    Ok(state)
}

/// The pressure moves by no more than this logarithm between two trials.
const STRIDE: f64 = 0.7;

/// The filling at which a rising function of it is zero.
///
/// - `excess`: what the filling has too much, in J/kg or K
/// - `enough`: size of it that counts as zero
pub(super) fn find_filling(
    refrigerant: &Refrigerant,
    volume_m3_kg: f64,
    excess: impl Fn(&Filling) -> f64,
    enough: f64,
    warm: &mut Option<Warm>,
) -> Result<Filling, JobError> {
    let at = |log_pa: f64| at_volume(refrigerant, log_pa.exp(), volume_m3_kg);
    let trial = |log_pa: f64| at(log_pa).ok().map(|filling| (excess(&filling), filling));
    if let Some((filling, end)) = warm.and_then(|start| start.root(trial, enough, STRIDE)) {
        *warm = Some(end);
        return Ok(filling);
    }
    let low = (refrigerant.lowest_pressure_pa() * (1.0 + 1e-12)).ln();
    let high = (refrigerant.highest_pressure_pa() * (1.0 - 1e-12)).ln();
    let (at_low, at_high) = (excess(&at(low)?), excess(&at(high)?));
    if at_low > 0.0 {
        return Err(JobError::BelowTable { floor_pa: refrigerant.lowest_pressure_pa() });
    }
    if !(at_high >= 0.0) {
        return Err(JobError::VesselAboveTable { ceiling_pa: refrigerant.highest_pressure_pa() });
    }
    let tolerance = Tolerance { absolute: 1e-13, relative: 0.0, residual: enough };
    let root =
        find_root(|x| at(x).map(|filling| excess(&filling)), (low, at_low), (high, at_high), tolerance);
    let log_pa = match root {
        Ok(root) => root.x,
        Err(RootError::Function(error)) => return Err(error.into()),
        Err(RootError::NotBracketed { .. }) => return Err(JobError::BelowTable { floor_pa: low.exp() }),
    };
    let filling = at(log_pa)?;
    let aside = at((log_pa + 1e-5).min(high))?;
    *warm = Some(Warm { x: log_pa, slope: (excess(&aside) - excess(&filling)) / 1e-5 });
    Ok(filling)
}
