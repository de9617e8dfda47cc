//! A cubic on one cell, and the inverse that all tables walk by.

use super::bent::Bent;

/// `c[0] + c[1] x + c[2] x² + c[3] x³` with `x` in 0..=1.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Cubic(pub(crate) [f64; 4]);

impl Cubic {
    /// From (value, slope) at 0 and at 1 (Hermite).
    pub(crate) fn hermite((y0, d0): (f64, f64), (y1, d1): (f64, f64)) -> Self {
        Self([y0, d0, 3.0 * (y1 - y0) - 2.0 * d0 - d1, 2.0 * (y0 - y1) + d0 + d1])
    }

    #[inline]
    pub(crate) fn value(&self, x: f64) -> f64 {
        let [c0, c1, c2, c3] = self.0;
        ((c3 * x + c2) * x + c1) * x + c0
    }

    /// The value and its derivatives where one cell is `1/scale` wide.
    #[inline]
    pub(crate) fn bent(&self, x: f64, scale: f64) -> Bent {
        let [_, c1, c2, c3] = self.0;
        Bent {
            value: self.value(x),
            slope: ((3.0 * c3 * x + 2.0 * c2) * x + c1) * scale,
            curvature: (6.0 * c3 * x + 2.0 * c2) * (scale * scale),
            third: 6.0 * c3 * (scale * scale * scale),
        }
    }
}

/// Where in 0..=1 a smooth function vanishes, from a good `guess`.
///
/// Its series `f + f′ d + f″ d²/2 + f‴ d³/6` is turned round: with `u = f/f′`, `a = f″/(2 f′)` and
/// `b = f‴/(6 f′)`, `d = −u (1 + u (a + u (2 a² − b)))`.
///
/// - `short`: a step after which the next would be of the order of its fourth power, and is not taken
pub(crate) fn solve(guess: f64, short: f64, mut function: impl FnMut(f64) -> Bent) -> f64 {
    let mut x = guess.clamp(0.0, 1.0);
    for _ in 0..12 {
        let here = function(x);
        if here.value == 0.0 {
            break;
        }
        let inverse = 1.0 / here.slope;
        let u = here.value * inverse;
        let (a, b) = (0.5 * here.curvature * inverse, (1.0 / 6.0) * here.third * inverse);
        // Far from the root the series means nothing, and Newton's step is halved or made half as long again.
        let bend = (u * (a + u * (2.0 * a * a - b))).clamp(-0.5, 0.5);
        let next = (x - u * (1.0 + bend)).clamp(0.0, 1.0);
        let step = (next - x).abs();
        x = next;
        if step <= short {
            break;
        }
    }
    x
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cubic_has_its_derivatives() {
        // 1 + 2x + 3x² + 4x³ at 0.5 with cells of a half: 3.25, (2 + 3 + 3) 2, (6 + 12) 4, 24 times 8.
        let here = Cubic([1.0, 2.0, 3.0, 4.0]).bent(0.5, 2.0);
        assert_eq!((here.value, here.slope, here.curvature, here.third), (3.25, 16.0, 72.0, 192.0));
        let hermite = Cubic::hermite((1.0, 2.0), (10.0, 20.0));
        assert_eq!(hermite.0, [1.0, 2.0, 3.0, 4.0]);
    }

    #[test]
    fn one_step_from_a_near_guess_finds_a_square_root() {
        let mut calls = 0;
        let root = solve(0.7068, 1e-3, |x| {
            calls += 1;
            Bent { value: x * x - 0.5, slope: 2.0 * x, curvature: 2.0, third: 0.0 }
        });
        assert_eq!(calls, 1);
        assert!((root - 0.5_f64.sqrt()).abs() < 1e-12, "{root}");
    }

    #[test]
    fn a_far_guess_stays_inside() {
        let cube =
            |x: f64| Bent { value: x * x * x - 1e-3, slope: 3.0 * x * x, curvature: 6.0 * x, third: 6.0 };
        for guess in [1.0, 0.5, 0.02] {
            let root = solve(guess, 1e-4, cube);
            assert!((root - 0.1).abs() < 1e-12, "from {guess}: {root}");
        }
    }
}
