//! An ideal nozzle: the pressure in the throat for a mass flux.
//!
//! Steady, one-dimensional, no friction, from rest: `G = √(2 w)/v` with `w = ∫ v dp` along the
//! expansion. Flow chokes at the throat's maximum mass flux, where `G² (−dv/dp) = 1`: that is
//! sought in [`critical`]. What the fluid does on the way (equilibrium, delayed flashing, ideal gas) is the [`Expansion`]'s.

use super::critical::{SLOPE_STEP, critical};
use crate::fluid::FluidError;
use crate::numerics::{RootError, Tolerance, find_root};

/// What the fluid is after expanding from rest to some pressure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Expanded {
    /// Specific volume there.
    pub specific_volume_m3_kg: f64,
    /// Kinetic energy gained: `∫ v dp` from there up to the start.
    pub work_j_kg: f64,
}

impl Expanded {
    /// Mass flux of the jet, `√(2 w)/v`.
    pub fn mass_flux_kg_m2s(&self) -> f64 {
        (2.0 * self.work_j_kg.max(0.0)).sqrt() / self.specific_volume_m3_kg
    }
}

/// A way for a fluid to expand from rest.
pub trait Expansion {
    /// Pressure at rest.
    fn start_pressure_pa(&self) -> f64;
    /// Lowest pressure the expansion can be followed to.
    fn floor_pressure_pa(&self) -> f64;
    /// The fluid at a lower pressure.
    ///
    /// # Errors
    /// The fluid's range was left.
    fn at(&self, pressure_pa: f64) -> Result<Expanded, FluidError>;
    /// Specific volume at rest.
    ///
    /// # Errors
    /// The fluid's range was left.
    fn start_volume_m3_kg(&self) -> Result<f64, FluidError> {
        Ok(self.at(self.start_pressure_pa())?.specific_volume_m3_kg)
    }
}

/// The choked throat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Critical {
    /// Pressure in the throat.
    pub pressure_pa: f64,
    /// The largest mass flux.
    pub mass_flux_kg_m2s: f64,
}

/// What a nozzle does with a mass flux.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Throat {
    /// It passes, with this pressure in the throat.
    Passes {
        /// Pressure in the throat.
        pressure_pa: f64,
    },
    /// It is more than the nozzle can pass.
    Choked(Critical),
}

/// Over a smaller share than this, rounding spoils a slope.
const LEAST_SLOPE_STEP: f64 = 1e-6;

/// The pressure in the throat at which the nozzle passes `mass_flux_kg_m2s`.
///
/// Solves `w(p) = G² v²/2` by Newton's method from the start pressure downward. Work falls with
/// pressure as `−v`; the slope of `ln v` over `ln p` comes from the last two places, between which
/// it hardly changes, and is zero at first. The left side less the right is concave in the pressure drop, so the steps
/// close in from one side and never pass a root that exists; when they would, the throat is choked
/// and the critical state is returned.
///
/// # Errors
/// The fluid's range was left.
pub fn throat(expansion: &impl Expansion, mass_flux_kg_m2s: f64) -> Result<Throat, FluidError> {
    let start = expansion.start_pressure_pa();
    let floor = expansion.floor_pressure_pa() / (1.0 - 2.0 * SLOPE_STEP);
    let flux_squared = mass_flux_kg_m2s * mass_flux_kg_m2s;
    let mut pressure = start;
    let mut volume = expansion.start_volume_m3_kg()?;
    let mut work = 0.0;
    // v ∝ p^-exponent.
    let mut exponent = 0.0;
    for _ in 0..12 {
        let residual = work - 0.5 * flux_squared * volume * volume;
        // How fast the residual rises as the pressure drops.
        let slope = volume * (1.0 - flux_squared * volume * exponent / pressure);
        let drop = -residual / slope;
        if !(slope > 0.05 * volume) || pressure - drop < floor {
            break;
        }
        let next = (pressure - drop).min(start);
        if drop.abs() <= 1e-9 * start {
            return Ok(Throat::Passes { pressure_pa: next });
        }
        let here = expansion.at(next)?;
        let ratio = next / pressure;
        if (ratio - 1.0).abs() > LEAST_SLOPE_STEP {
            exponent = -(here.specific_volume_m3_kg / volume).ln() / ratio.ln();
        }
        (pressure, volume, work) = (next, here.specific_volume_m3_kg, here.work_j_kg);
    }
    let here = Expanded { specific_volume_m3_kg: volume, work_j_kg: work };
    near_choke(expansion, mass_flux_kg_m2s, (pressure, here.mass_flux_kg_m2s()))
}

/// The slow road close to the maximum: find the maximum, then the root above it.
///
/// - `above`: a pressure above the root and the mass flux there
fn near_choke(
    expansion: &impl Expansion,
    mass_flux_kg_m2s: f64,
    above: (f64, f64),
) -> Result<Throat, FluidError> {
    let critical = critical(expansion)?;
    let short = critical.mass_flux_kg_m2s - mass_flux_kg_m2s;
    if !(short > 0.0) {
        return Ok(Throat::Choked(critical));
    }
    let start = expansion.start_pressure_pa();
    let is_above = above.0 > critical.pressure_pa && above.1 < mass_flux_kg_m2s;
    let top = if is_above { above } else { (start, 0.0) };
    // The flux falls from its maximum with the square of the distance, so over that it is straight.
    let span = top.0 - critical.pressure_pa;
    let place = |share: f64| critical.pressure_pa + span * share.max(0.0).sqrt();
    let root = find_root(
        |share| expansion.at(place(share)).map(|e| e.mass_flux_kg_m2s() - mass_flux_kg_m2s),
        (1.0, top.1 - mass_flux_kg_m2s),
        (0.0, short),
        Tolerance { absolute: 1e-14, relative: 1e-9, residual: 1e-10 * mass_flux_kg_m2s },
    );
    match root {
        Ok(root) => Ok(Throat::Passes { pressure_pa: place(root.x) }),
        Err(RootError::NotBracketed { .. }) => Ok(Throat::Choked(critical)),
        Err(RootError::Function(error)) => Err(error),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Closed-form expansions.
    enum Closed {
        /// Ideal gas, `p v^k` constant.
        Gas { p0: f64, v0: f64, k: f64 },
        /// `v/v0 = ω (p0/p − 1) + 1`.
        Omega { p0: f64, v0: f64, omega: f64 },
        /// Liquid of constant volume down to `ps`, then boiling as `v/v0 = ω (ps/p − 1) + 1`.
        Liquid { p0: f64, v0: f64, ps: f64, omega: f64 },
    }

    impl Expansion for Closed {
        fn start_pressure_pa(&self) -> f64 {
            match self {
                Self::Gas { p0, .. } | Self::Omega { p0, .. } | Self::Liquid { p0, .. } => *p0,
            }
        }
        fn floor_pressure_pa(&self) -> f64 {
            1.0
        }
        fn at(&self, p: f64) -> Result<Expanded, FluidError> {
            Ok(match *self {
                Self::Gas { p0, v0, k } => Expanded {
                    specific_volume_m3_kg: v0 * (p0 / p).powf(1.0 / k),
                    work_j_kg: k / (k - 1.0) * p0 * v0 * (1.0 - (p / p0).powf((k - 1.0) / k)),
                },
                Self::Omega { p0, v0, omega } => Expanded {
                    specific_volume_m3_kg: v0 * (omega * (p0 / p - 1.0) + 1.0),
                    work_j_kg: v0 * (omega * p0 * (p0 / p).ln() + (1.0 - omega) * (p0 - p)),
                },
                Self::Liquid { p0, v0, ps, omega } => {
                    let boiling = p.min(ps);
                    Expanded {
                        specific_volume_m3_kg: v0 * (omega * (ps / boiling - 1.0) + 1.0),
                        work_j_kg: v0 * (p0 - p + omega * (ps * (ps / boiling).ln() - (ps - boiling))),
                    }
                }
            })
        }
    }

    #[track_caller]
    fn within(got: f64, expected: f64, ratio: f64) {
        assert!((got / expected - 1.0).abs() <= ratio, "got {got}, expected {expected}");
    }

    /// Closed form, printed for k 1.289 at 1.4 MPa by fluids 1.3.1 (`P_critical_flow`): 766812.9 Pa.
    #[test]
    fn an_ideal_gas_chokes_at_the_printed_pressure() {
        let gas = Closed::Gas { p0: 1.4e6, v0: 0.05, k: 1.289 };
        within(critical(&gas).unwrap().pressure_pa, 766_812.9, 1e-3);
    }

    /// API 520 gas examples (fluids 1.3.1 `API520_A_g` docstring): 24270 kg/h at 348 K, Z 0.9,
    /// M 51, k 1.11, 670 kPa, Kd 0.975: 3699 mm² choked; 4248 mm² to 532 kPa.
    #[test]
    fn api_520_gas_areas() {
        let v0 = 0.9 * 8.314_462_6 * 348.0 / 0.051 / 670e3;
        let gas = Closed::Gas { p0: 670e3, v0, k: 1.11 };
        let mass_flow = 24270.0 / 3600.0;
        within(mass_flow / 0.975 / critical(&gas).unwrap().mass_flux_kg_m2s, 3699e-6, 2e-3);
        let flux = gas.at(532e3).unwrap().mass_flux_kg_m2s();
        within(mass_flow / 0.975 / flux, 4248.36e-6, 1e-3);
        let Throat::Passes { pressure_pa } = throat(&gas, flux).unwrap() else { panic!("choked") };
        within(pressure_pa, 532e3, 1e-6);
    }

    /// API 520 Annex C two-phase example (polykin 0.8.0 docstring): 216560 kg/h, 5.564 bar,
    /// v1 0.01945, ω 1.48072, Kd 0.85: p_cf 3.6517 bar, area 24534.7 mm².
    #[test]
    fn api_520_two_phase_area() {
        let mixture = Closed::Omega { p0: 5.564e5, v0: 0.01945, omega: 1.48072 };
        let choke = critical(&mixture).unwrap();
        within(choke.pressure_pa, 3.6517e5, 0.01);
        within(216_560.0 / 3600.0 / 0.85 / choke.mass_flux_kg_m2s, 24534.7e-6, 0.01);
    }

    /// API 520 subcooled example (polykin 0.8.0 docstring): 378.5 L/min, 20.733 to 7.419 bar
    /// saturation, 511.3 kg/m³, ω 8.5169, Kd 0.65, high subcooling: 134.53 mm².
    #[test]
    fn api_520_subcooled_area() {
        let liquid = Closed::Liquid { p0: 20.733e5, v0: 1.0 / 511.3, ps: 7.419e5, omega: 8.5169 };
        let choke = critical(&liquid).unwrap();
        within(choke.pressure_pa, 7.419e5, 1e-3);
        within(378.5e-3 / 60.0 * 511.3 / 0.65 / choke.mass_flux_kg_m2s, 134.53e-6, 0.01);
    }

    /// Liquid pressed by little above its boiling pressure chokes on the kink: `G = √(2 (p0 − ps)/v0)`.
    #[test]
    fn liquid_pressed_by_little_chokes_where_it_begins_to_boil() {
        for pressed in [0.2, 0.03, 0.005] {
            let ps = 1.4e5;
            let liquid = Closed::Liquid { p0: ps * (1.0 + pressed), v0: 7e-4, ps, omega: 300.0 };
            let choke = critical(&liquid).unwrap();
            within(choke.pressure_pa, ps, 1e-8);
            within(choke.mass_flux_kg_m2s, (2.0 * ps * pressed / 7e-4).sqrt(), 1e-7);
        }
    }

    #[test]
    fn more_than_the_maximum_is_choked_and_less_is_not() {
        let gas = Closed::Gas { p0: 1e6, v0: 0.02, k: 1.1 };
        let largest = critical(&gas).unwrap().mass_flux_kg_m2s;
        assert!(matches!(throat(&gas, 1.0001 * largest), Ok(Throat::Choked(_))));
        assert!(matches!(throat(&gas, 0.9999 * largest), Ok(Throat::Passes { .. })));
        let Ok(Throat::Passes { pressure_pa }) = throat(&gas, 0.0) else { panic!("choked") };
        within(pressure_pa, 1e6, 1e-12);
    }
}
