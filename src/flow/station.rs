//! The flow at one pressure inside a tube.

use super::element::FlowInput;
use super::friction::friction_gradient_pa_m;
use super::medium::Medium;
use super::tube::Tube;
use crate::fluid::FluidError;

/// Standard gravity, m/s² (CGPM 1901).
pub(super) const GRAVITY_M_S2: f64 = 9.80665;

/// The flow at one pressure inside the tube.
#[derive(Debug, Clone, Copy)]
pub(super) struct Station {
    pub pressure_pa: f64,
    pub volume_m3_kg: f64,
    /// Up to 0 nothing has boiled yet, from 1 on nothing is left to boil.
    pub quality: f64,
    /// `ρ φ`: density times frictional gradient.
    pub friction: f64,
    /// The same with the weight of what is lifted or falls, `ρ φ + ρ² g sinθ`.
    pub drag: f64,
}

/// Static state and drag at a pressure, from the total enthalpy.
pub(super) fn station<M: Medium>(
    tube: &Tube,
    input: &FlowInput<'_, M>,
    pressure_pa: f64,
    volume_guess: f64,
) -> Result<Station, FluidError> {
    let flux = input.mass_flow_kg_s / tube.area_m2();
    let isobar = input.medium.isobar(pressure_pa)?;
    let total = input.inlet.enthalpy_j_kg;
    let half = 0.5 * flux * flux;
    let at = |volume: f64| input.medium.by_enthalpy(&isobar, total - half * volume * volume);
    let mut volume = volume_guess;
    let mut point = at(volume)?;
    let mut last: Option<(f64, f64)> = None;
    for _ in 0..12 {
        let miss = point.specific_volume_m3_kg - volume;
        if miss.abs() <= 1e-9 * volume {
            break;
        }
        // Steffensen's slope from the last two guesses; a plain step the first time.
        let next = match last {
            Some((v, m)) if (miss - m).abs() > 1e-3 * (volume - v).abs() => {
                volume - miss * (volume - v) / (miss - m)
            }
            _ => point.specific_volume_m3_kg,
        };
        last = Some((volume, miss));
        volume = next.clamp(0.5 * volume, 2.0 * volume);
        point = at(volume)?;
    }
    let phases = input.medium.phases(&isobar, &point);
    let gradient =
        friction_gradient_pa_m(input.method.two_phase_friction, flux, tube.bore, point.vapor_ratio, &phases);
    let volume_m3_kg = point.specific_volume_m3_kg;
    let friction = gradient / volume_m3_kg;
    let lift = GRAVITY_M_S2 * (tube.rise_m / tube.length_m) / volume_m3_kg.powi(2);
    Ok(Station { pressure_pa, volume_m3_kg, quality: point.quality, friction, drag: friction + lift })
}
