//! The implicit step: a Rosenbrock pair that stays stable however stiff the equations are.
//!
//! Source: L. F. Shampine, M. W. Reichelt, SIAM J. Sci. Comput. 18 (1997) 1–22, section 3 (not at hand,
//! coefficients from memory; the tests show order and stability). Second order with a
//! third-order error estimate, L-stable, and second order also where the derivatives are not exact.
//! Equations without explicit time.

use nalgebra::{DMatrix, DVector};

use super::{HELD_BACK, Integrator, Step, Trial, along};

/// A component is varied by this share of its size to see what that changes.
const VARIED: f64 = 1e-5;

impl<const N: usize> Integrator<N> {
    /// How each slope (row) changes with each component (column); none where the equations have no
    /// answer beside the state.
    pub(super) fn rows<E>(
        &self,
        rhs: &mut impl FnMut(f64, &[f64; N]) -> Result<[f64; N], E>,
        slope: &[f64; N],
    ) -> Option<DMatrix<f64>> {
        let mut rows = DMatrix::zeros(N, N);
        for column in 0..N {
            let size = VARIED * (self.scale[column] + self.state[column].abs());
            let (aside, varied) = [size, -size].into_iter().find_map(|aside| {
                let mut state = self.state;
                state[column] += aside;
                Some((aside, rhs(self.time_s, &state).ok()?))
            })?;
            for row in 0..N {
                rows[(row, column)] = (varied[row] - slope[row]) / aside;
            }
        }
        Some(rows)
    }

    pub(super) fn implicit<E>(
        &self,
        rhs: &mut impl FnMut(f64, &[f64; N]) -> Result<[f64; N], E>,
        rows: &DMatrix<f64>,
        f0: [f64; N],
        h: f64,
    ) -> Result<Trial<N>, E> {
        let share = 1.0 / (2.0 + 2f64.sqrt());
        let weight = 6.0 + 2f64.sqrt();
        let (t, y) = (self.time_s, &self.state);
        let factors = (DMatrix::identity(N, N) - rows * (h * share)).lu();
        // Without an answer the step counts as infinitely wrong.
        let solved = |right: [f64; N]| -> [f64; N] {
            let solution = factors.solve(&DVector::from_row_slice(&right));
            solution.map_or([f64::NAN; N], |k| std::array::from_fn(|i| k[i]))
        };
        let k1 = solved(f0);
        let f1 = rhs(t + 0.5 * h, &along(y, h, &[(0.5, &k1)]))?;
        let apart = solved(std::array::from_fn(|i| f1[i] - k1[i]));
        let k2 = std::array::from_fn(|i| apart[i] + k1[i]);
        let end = along(y, h, &[(1.0, &k2)]);
        let f2 = rhs(t + h, &end)?;
        let k3 = solved(std::array::from_fn(|i| f2[i] - weight * (k2[i] - f1[i]) - 2.0 * (k1[i] - f0[i])));
        let error_of = |i: usize| h / 6.0 * (k1[i] - 2.0 * k2[i] + k3[i]);
        Ok(Trial {
            step: Step::new(t, h, [y, &end], [&f0, &f2], [0.0; N]),
            slope: f2,
            error: self.norm(error_of, &end),
            order: 1.0 / 3.0,
            held_back: HELD_BACK,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::super::Integrator;
    use std::convert::Infallible;

    /// A fast component on a slow one, and what leaves the two: `x' = −λ (x − cos z)`, `y' = −0.1 x`,
    /// `z' = 1`; soon x follows cos z to 1/λ, and y falls as its integral.
    fn run(lambda: f64, tolerance: f64) -> (f64, f64, usize) {
        let rhs = |_: f64, y: &[f64; 3]| -> Result<[f64; 3], Infallible> {
            Ok([-lambda * (y[0] - y[2].cos()), -0.1 * y[0], 1.0])
        };
        let mut walk = Integrator::new(0.0, [1.0, 0.0, 0.0], 1e-3, tolerance, [1.0; 3]);
        let mut steps = 0;
        while walk.time_s() < 50.0 {
            walk.step(rhs, 50.0).unwrap();
            steps += 1;
        }
        let [x, y, _] = *walk.state();
        ((x - 50f64.cos()).abs(), (y + 0.1 * 50f64.sin()).abs(), steps)
    }

    /// Closed form for large λ: x = cos t + O(1/λ), y = −0.1 sin t + O(1/λ). Explicit steps would
    /// need λ · 50 / 3.3 of them: 15,000 for the first, 15 million for the last.
    #[test]
    fn however_stiff_the_steps_follow_what_is_slow() {
        for lambda in [1e3, 1e5, 1e6] {
            let (x, y, steps) = run(lambda, 1e-5);
            assert!(x < 2.0 / lambda + 1e-3, "{lambda}: {x}");
            assert!(y < 2.0 / lambda + 1e-3, "{lambda}: {y}");
            assert!(steps < 5000, "{lambda}: {steps} steps");
        }
    }

    /// A thousandth of the error takes 1000^(1/3) = 10 times the steps at the estimate's third order,
    /// 1000^(1/2) = 32 where stiffness takes one order away.
    #[test]
    fn a_tighter_tolerance_is_met_with_steps_as_its_order_says() {
        let (rough, fine) = (run(1e6, 1e-4), run(1e6, 1e-7));
        assert!(fine.0 < 0.05 * rough.0.max(1e-4), "{} after {}", fine.0, rough.0);
        let ratio = (fine.2 as f64 - 60.0) / (rough.2 as f64 - 60.0);
        assert!((8.0..36.0).contains(&ratio), "{ratio}");
    }

    #[test]
    fn sums_are_kept_to_rounding() {
        let rhs = |_: f64, y: &[f64; 2]| -> Result<[f64; 2], Infallible> {
            let flow = 1e5 * (y[0] - 2.0 * y[1]);
            Ok([-flow, flow])
        };
        let mut walk = Integrator::new(0.0, [5.0, 1.0], 1e-3, 1e-6, [1.0; 2]);
        while walk.time_s() < 100.0 {
            walk.step(rhs, 100.0).unwrap();
        }
        assert!((walk.state()[0] + walk.state()[1] - 6.0).abs() < 1e-11, "{:?}", walk.state());
        assert!((walk.state()[0] - 4.0).abs() < 1e-6, "{:?}", walk.state());
    }
}
