//! A value with its first three derivatives, and what arithmetic does to them.
//!
//! All of it is to be inlined: an inverse look-up is a handful of these, and a call costs as much as one.

use std::ops::{Add, Mul, Sub};

/// A value with its first three derivatives along one coordinate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Bent {
    pub(crate) value: f64,
    pub(crate) slope: f64,
    pub(crate) curvature: f64,
    pub(crate) third: f64,
}

impl Bent {
    /// `x³` along `x`.
    #[inline]
    pub(crate) fn cube(x: f64) -> Self {
        Self { value: x * x * x, slope: 3.0 * x * x, curvature: 6.0 * x, third: 6.0 }
    }

    /// `x²` along `x`.
    #[inline]
    pub(crate) fn square(x: f64) -> Self {
        Self { value: x * x, slope: 2.0 * x, curvature: 2.0, third: 0.0 }
    }

    /// The same along a coordinate that runs `rate` times as slowly.
    #[inline]
    pub(crate) fn stretched(self, rate: f64) -> Self {
        Self {
            slope: self.slope * rate,
            curvature: self.curvature * (rate * rate),
            third: self.third * (rate * rate * rate),
            ..self
        }
    }

    /// `1/self`.
    #[inline]
    pub(crate) fn inverse(self) -> Self {
        let value = 1.0 / self.value;
        // From the derivatives of `self · inverse = 1`.
        let slope = -value * value * self.slope;
        let curvature = -value * (2.0 * self.slope * slope + self.curvature * value);
        let third = -value * (3.0 * (self.slope * curvature + self.curvature * slope) + self.third * value);
        Self { value, slope, curvature, third }
    }

    /// `e^self`.
    #[inline]
    pub(crate) fn exp(self) -> Self {
        let value = self.value.exp();
        let square = self.slope * self.slope;
        Self {
            value,
            slope: value * self.slope,
            curvature: value * (self.curvature + square),
            third: value * (self.third + self.slope * (3.0 * self.curvature + square)),
        }
    }
}

impl Sub<f64> for Bent {
    type Output = Self;

    #[inline]
    fn sub(self, constant: f64) -> Self {
        Self { value: self.value - constant, ..self }
    }
}

impl Mul<f64> for Bent {
    type Output = Self;

    #[inline]
    fn mul(self, constant: f64) -> Self {
        Self {
            value: self.value * constant,
            slope: self.slope * constant,
            curvature: self.curvature * constant,
            third: self.third * constant,
        }
    }
}

impl Add<f64> for Bent {
    type Output = Self;

    #[inline]
    fn add(self, constant: f64) -> Self {
        self - -constant
    }
}

impl Add for Bent {
    type Output = Self;

    #[inline]
    fn add(self, other: Self) -> Self {
        Self {
            value: self.value + other.value,
            slope: self.slope + other.slope,
            curvature: self.curvature + other.curvature,
            third: self.third + other.third,
        }
    }
}

impl Mul for Bent {
    type Output = Self;

    #[inline]
    fn mul(self, other: Self) -> Self {
        Self {
            value: self.value * other.value,
            slope: self.slope * other.value + self.value * other.slope,
            curvature: self.curvature * other.value
                + 2.0 * self.slope * other.slope
                + self.value * other.curvature,
            third: self.third * other.value
                + 3.0 * (self.curvature * other.slope + self.slope * other.curvature)
                + self.value * other.third,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn near(got: Bent, expected: [f64; 4]) {
        let got = [got.value, got.slope, got.curvature, got.third];
        for (got, expected) in got.iter().zip(expected) {
            assert!((got - expected).abs() <= 1e-13 * expected.abs().max(1.0), "{got} {expected}");
        }
    }

    /// At x = 2: x³ is 8, 12, 12, 6; 1/x is 1/2, -1/4, 1/4, -3/8; e^(3x) is e⁶ times 1, 3, 9, 27.
    #[test]
    fn derivatives_of_school() {
        let x = Bent { value: 2.0, slope: 1.0, curvature: 0.0, third: 0.0 };
        assert_eq!((x * x * x, x * x), (Bent::cube(2.0), Bent::square(2.0)));
        near(x * x * x, [8.0, 12.0, 12.0, 6.0]);
        near(x.inverse(), [0.5, -0.25, 0.25, -0.375]);
        near((x * x).inverse() * x * x, [1.0, 0.0, 0.0, 0.0]);
        let e6 = 6.0_f64.exp();
        near((x * 3.0).exp(), [e6, 3.0 * e6, 9.0 * e6, 27.0 * e6]);
        near(((x - 5.0) * -2.0).exp().stretched(0.5), [e6, -e6, e6, -e6]);
        let e4 = 4.0_f64.exp();
        near((x * x).exp() + x, [e4 + 2.0, 4.0 * e4 + 1.0, 18.0 * e4, 88.0 * e4]);
    }
}
