//! How a real fluid expands through a short restriction: in equilibrium, or with flashing delayed.
//!
//! Equilibrium (HEM): both phases share temperature and velocity all the way; the expansion is the
//! table's isentrope. Delayed (HNE-DS): only a share `N` of the vapour that equilibrium asks for
//! has formed in the throat, so a short hole passes more liquid than equilibrium says.

use super::critical::omega_choke_ratio;
use super::medium::{Medium, Point};
use super::nozzle::{Expanded, Expansion};
use crate::fluid::FluidError;

/// How liquid turns to vapour in a short restriction.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Flashing {
    /// Homogeneous equilibrium.
    Equilibrium,
    /// Homogeneous non-equilibrium of ISO 4126-10, the default for short restrictions.
    #[default]
    Delayed,
}

/// Exponent of the boiling-delay coefficient for orifices, control valves and short nozzles.
/// ISO 4126-10; from memory, the standard was not at hand.
const SHORT_RESTRICTION_EXPONENT: f64 = 0.6;

/// `ω` is the slope between the boiling pressure and this share of it.
const OMEGA_STEP: f64 = 0.98;

/// Of less vapour than this the mixture's volume tells no density: rounding would.
const LITTLE_VAPOR: f64 = 1e-4;
/// Heat that makes a little vapour of boiling liquid, under a thousandth of any latent heat.
const FIRST_VAPOR_J_KG: f64 = 50.0;

/// So close to rest, as a share of the pressure, a difference of enthalpies is mostly rounding (4e-8 Pa of liquid),
/// and `v` is straight but for 1e-8 of it.
const CLOSE_TO_REST: f64 = 1e-6;

/// An expansion of a [`Medium`] from rest.
pub struct FluidExpansion<'a, M: Medium> {
    medium: &'a M,
    start: Point,
    delay: Option<Delay>,
}

/// The share of equilibrium flashing, and the frozen mixture it is mixed with.
struct Delay {
    boiling_ratio: f64,
    vapor_ratio: f64,
    liquid_volume_m3_kg: f64,
    vapor_volume_m3_kg: f64,
}

impl<'a, M: Medium> FluidExpansion<'a, M> {
    /// Prepares the expansion from a state at rest.
    ///
    /// # Errors
    /// The fluid's range was left.
    pub fn new(medium: &'a M, start: Point, flashing: Flashing) -> Result<Self, FluidError> {
        let delay = match flashing {
            Flashing::Delayed if start.quality < 1.0 => delay(medium, &start)?,
            _ => None,
        };
        Ok(Self { medium, start, delay })
    }

    fn delayed(&self, equilibrium: Expanded, pressure_pa: f64) -> Expanded {
        match &self.delay {
            None => equilibrium,
            Some(delay) => delay.mix(equilibrium, self.start.pressure_pa, pressure_pa),
        }
    }
}

impl<M: Medium> Expansion for FluidExpansion<'_, M> {
    fn start_pressure_pa(&self) -> f64 {
        self.start.pressure_pa
    }

    fn floor_pressure_pa(&self) -> f64 {
        self.medium.lowest_pressure_pa()
    }

    fn start_volume_m3_kg(&self) -> Result<f64, FluidError> {
        let equilibrium =
            Expanded { specific_volume_m3_kg: self.start.specific_volume_m3_kg, work_j_kg: 0.0 };
        Ok(self.delayed(equilibrium, self.start.pressure_pa).specific_volume_m3_kg)
    }

    fn at(&self, pressure_pa: f64) -> Result<Expanded, FluidError> {
        let isobar = self.medium.isobar(pressure_pa)?;
        let point = self.medium.by_entropy(&isobar, self.start.entropy_j_kg_k)?;
        let specific_volume_m3_kg = point.specific_volume_m3_kg;
        let drop_pa = self.start.pressure_pa - pressure_pa;
        let work_j_kg = match drop_pa < CLOSE_TO_REST * self.start.pressure_pa {
            true => 0.5 * (self.start.specific_volume_m3_kg + specific_volume_m3_kg) * drop_pa,
            false => self.start.enthalpy_j_kg - point.enthalpy_j_kg,
        };
        Ok(self.delayed(Expanded { specific_volume_m3_kg, work_j_kg }, pressure_pa))
    }
}

impl Delay {
    /// `v = v_frozen + N (v_equilibrium − v_frozen)`; the work is its integral over pressure. The
    /// vapour that was there at the start expands as `p v = constant`, the liquid not at all.
    fn mix(&self, equilibrium: Expanded, start_pa: f64, pressure_pa: f64) -> Expanded {
        let n = self.boiling_ratio;
        let x = self.vapor_ratio;
        let liquid = (1.0 - x) * self.liquid_volume_m3_kg;
        let vapor = x * self.vapor_volume_m3_kg;
        let frozen_volume = liquid + vapor * start_pa / pressure_pa;
        let frozen_work =
            liquid * (start_pa - pressure_pa) + vapor * start_pa * (start_pa / pressure_pa).ln();
        Expanded {
            specific_volume_m3_kg: frozen_volume + n * (equilibrium.specific_volume_m3_kg - frozen_volume),
            work_j_kg: frozen_work + n * (equilibrium.work_j_kg - frozen_work),
        }
    }
}

/// The boiling-delay coefficient
/// `N = (x0 + ω_flash/… ln(1/η_c))^a`, written with the flashing term of the ω-method
/// `c_p T p (Δv/Δh)² = ω_l`: `N = (x0 + ω_l v_l/Δv · ln(1/η_c))^(3/5)`, at most 1.
///
/// `η_c` is the critical pressure ratio in equilibrium (`N = 1`). Liquid above its saturation
/// pressure starts to boil at that pressure, so `N` is taken there.
///
/// # Source
/// ISO 4126-10 and R. Diener, J. Schmidt, "Sizing of throttling device for gas/liquid two-phase
/// flow", Process Safety Progress 23 (2004) 335–344; from memory.
fn delay<M: Medium>(medium: &M, start: &Point) -> Result<Option<Delay>, FluidError> {
    let boiling_pa = if start.quality < 0.0 { boiling_pressure(medium, start)? } else { start.pressure_pa };
    let lower_pa = OMEGA_STEP * boiling_pa;
    if lower_pa < medium.lowest_pressure_pa() {
        return Ok(None);
    }
    let isobar = medium.isobar(boiling_pa)?;
    let boiling = medium.by_entropy(&isobar, start.entropy_j_kg_k)?;
    // The vapour that is there, or the first that forms: a blend's is not the dew line's.
    let wet = match boiling.vapor_ratio > LITTLE_VAPOR {
        true => boiling,
        false => medium.by_enthalpy(&isobar, boiling.enthalpy_j_kg + FIRST_VAPOR_J_KG)?,
    };
    let phases = medium.phases(&isobar, &Point { quality: 0.5, ..wet });
    let liquid_volume = 1.0 / phases.liquid_density_kg_m3;
    let vapor_volume = 1.0 / phases.vapor_density_kg_m3;
    let vapor_ratio = boiling.vapor_ratio;
    // ω in equilibrium from the table itself: v/v0 = ω (p0/p − 1) + 1 over the first step down.
    let lower = medium.by_entropy(&medium.isobar(lower_pa)?, start.entropy_j_kg_k)?;
    let mixed_volume = vapor_ratio * vapor_volume + (1.0 - vapor_ratio) * liquid_volume;
    let omega = ((lower.specific_volume_m3_kg / mixed_volume - 1.0) / (1.0 / OMEGA_STEP - 1.0)).max(0.1);
    let vapor_part = vapor_ratio * vapor_volume / mixed_volume;
    // The flashing part of ω is `c_p T p (Δv/Δh)²/v0`; `N` wants `c_p T p Δv/Δh²`.
    let flashing_part = (omega - vapor_part).max(0.0) * mixed_volume / (vapor_volume - liquid_volume);
    let base = vapor_ratio + flashing_part * (1.0 / omega_choke_ratio(omega)).ln();
    let boiling_ratio = base.clamp(0.0, 1.0).powf(SHORT_RESTRICTION_EXPONENT);
    Ok(Some(Delay {
        boiling_ratio,
        vapor_ratio,
        liquid_volume_m3_kg: if start.quality < 0.0 { start.specific_volume_m3_kg } else { liquid_volume },
        vapor_volume_m3_kg: vapor_volume,
    }))
}

/// The pressure at which liquid on this isentrope starts to boil.
fn boiling_pressure<M: Medium>(medium: &M, start: &Point) -> Result<f64, FluidError> {
    let excess =
        |p: f64| medium.by_entropy(&medium.isobar(p)?, start.entropy_j_kg_k).map(|point| point.quality);
    let floor = medium.lowest_pressure_pa();
    let at_floor = excess(floor)?;
    if at_floor <= 0.0 {
        return Ok(floor);
    }
    use crate::numerics::{RootError, Tolerance, find_root};
    let ends = ((start.pressure_pa, start.quality), (floor, at_floor));
    match find_root(excess, ends.0, ends.1, Tolerance::relative(1e-6)) {
        Ok(root) => Ok(root.lower()),
        Err(RootError::NotBracketed { .. }) => Ok(start.pressure_pa),
        Err(RootError::Function(error)) => Err(error),
    }
}
