//! How warm a conductor runs, from the ambient, its current and how the cord lies.
//!
//! `T = T_ambient + R_th I² r(T)` with one thermal resistance per length, fixed by the ampacity
//! table: at its ampacity in 30 °C air the conductor just reaches the rated temperature. As `r`
//! is a straight line in `T`, the balance has a closed form. A coil on a reel counts as a bundle
//! of 10 to 20 current-carrying conductors, which NEC 310.15(C)(1) derates to 50 % (from
//! memory): four times the thermal resistance. Steady state; sun on the cord is neglected.

use super::ampacity::{AMPACITY_AMBIENT_C, Installation, ampacity_a, rated_temperature_c};
use super::conductor::{Conductor, ResistanceLine};

/// How a cord lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lay {
    /// Rolled out.
    Straight,
    /// Coiled, or left on its reel.
    Coiled,
}

/// Above this no cord lasts; the resistance is taken there and a note says so.
pub(crate) const HIGHEST_CONDUCTOR_C: f64 = 150.0;

/// Ratio of ampacity that a coiled cord keeps.
pub(crate) const COILED_AMPACITY_RATIO: f64 = 0.5;

/// What the temperature of one conductor depends on, prepared once for repeated use.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Warming {
    line: ResistanceLine,
    /// Kelvin per ampere squared and ohm per metre.
    thermal: f64,
    ambient_c: f64,
}

impl Warming {
    pub fn new(conductor: &Conductor, installation: Installation, lay: Lay, ambient_c: f64) -> Self {
        let line = conductor.line();
        let rated_c = rated_temperature_c(conductor.gauge, installation);
        let ampacity_a = ampacity_a(conductor, installation);
        let straight = (rated_c - AMPACITY_AMBIENT_C) / (ampacity_a * ampacity_a * line.at(rated_c));
        let thermal = match lay {
            Lay::Straight => straight,
            Lay::Coiled => straight / (COILED_AMPACITY_RATIO * COILED_AMPACITY_RATIO),
        };
        Self { line, thermal, ambient_c }
    }

    /// Conductor temperature at a current, capped at [`HIGHEST_CONDUCTOR_C`].
    pub fn temperature_c(&self, current_a: f64) -> f64 {
        let strength = self.thermal * current_a * current_a;
        let runaway = 1.0 - strength * self.line.ohm_m * self.line.per_k;
        if runaway <= 0.0 {
            return HIGHEST_CONDUCTOR_C;
        }
        let rise_k = strength * self.line.at(self.ambient_c) / runaway;
        (self.ambient_c + rise_k).min(HIGHEST_CONDUCTOR_C)
    }

    pub fn resistance_ohm_m(&self, temperature_c: f64) -> f64 {
        self.line.at(temperature_c)
    }
}

#[cfg(test)]
mod tests {
    use super::super::gauge::{Awg, Gauge};
    use super::*;

    fn cord(lay: Lay, ambient_c: f64) -> Warming {
        let conductor = Conductor::stranded_copper(Gauge::Awg(Awg::new(16).unwrap()));
        Warming::new(&conductor, Installation::Cord, lay, ambient_c)
    }

    #[test]
    fn ampacity_just_reaches_the_rated_temperature() {
        // NEC 400.5(A): 13 A on 16 AWG at 30 °C; cords are rated 60 °C.
        assert!((cord(Lay::Straight, 30.0).temperature_c(13.0) - 60.0).abs() < 1e-9);
        // Half of that when coiled, by the derating that defines the model.
        assert!((cord(Lay::Coiled, 30.0).temperature_c(6.5) - 60.0).abs() < 1e-9);
    }

    #[test]
    fn no_current_means_ambient_and_a_short_circuit_stays_finite() {
        assert_eq!(cord(Lay::Straight, 24.0).temperature_c(0.0), 24.0);
        assert_eq!(cord(Lay::Coiled, 24.0).temperature_c(1e6), HIGHEST_CONDUCTOR_C);
    }
}
