//! Complex numbers for alternating quantities: volts, amps and ohms as root-mean-square phasors.
//! Only what the room needs; sinusoidal steady state, no harmonics.

use std::ops::{Add, Div, Mul, Sub};

/// A complex number; real part in phase, imaginary part leading by 90°.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Phasor {
    pub re: f64,
    pub im: f64,
}

impl Phasor {
    pub const ZERO: Self = Self::new(0.0, 0.0);

    pub const fn new(re: f64, im: f64) -> Self {
        Self { re, im }
    }

    pub const fn real(re: f64) -> Self {
        Self::new(re, 0.0)
    }

    /// Magnitude and the cosine of a lagging angle (an inductive impedance, or `S = P + jQ`).
    pub fn lagging(magnitude: f64, power_factor_ratio: f64) -> Self {
        let reactive = (1.0 - power_factor_ratio * power_factor_ratio).max(0.0).sqrt();
        Self::new(magnitude * power_factor_ratio, magnitude * reactive)
    }

    pub fn magnitude(self) -> f64 {
        self.re.hypot(self.im)
    }

    pub fn squared(self) -> f64 {
        self.re * self.re + self.im * self.im
    }

    pub fn conjugate(self) -> Self {
        Self::new(self.re, -self.im)
    }

    /// Cosine of the angle, the power factor of an impedance.
    pub fn cosine(self) -> f64 {
        let magnitude = self.magnitude();
        if magnitude > 0.0 { self.re / magnitude } else { 1.0 }
    }
}

impl Add for Phasor {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::new(self.re + other.re, self.im + other.im)
    }
}

impl Sub for Phasor {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::new(self.re - other.re, self.im - other.im)
    }
}

impl Mul for Phasor {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        Self::new(self.re * other.re - self.im * other.im, self.re * other.im + self.im * other.re)
    }
}

impl Mul<f64> for Phasor {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self::new(self.re * factor, self.im * factor)
    }
}

impl Div for Phasor {
    type Output = Self;
    fn div(self, other: Self) -> Self {
        let top = self * other.conjugate();
        let scale = other.squared();
        Self::new(top.re / scale, top.im / scale)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_three_four_five_triangle() {
        let z = Phasor::lagging(5.0, 0.6);
        assert!((z.im - 4.0).abs() < 1e-12 && (z.magnitude() - 5.0).abs() < 1e-12);
        assert!((z.cosine() - 0.6).abs() < 1e-12);
        // (3 + 4j) / (1 + 2j) = (11 − 2j) / 5, by hand.
        let q = Phasor::new(3.0, 4.0) / Phasor::new(1.0, 2.0);
        assert!((q.re - 2.2).abs() < 1e-12 && (q.im + 0.4).abs() < 1e-12);
    }
}
