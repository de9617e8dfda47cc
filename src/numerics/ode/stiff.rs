//! The implicit step: a Rosenbrock method that stays stable however stiff the equations are.
//!
//! Source: E. Hairer, G. Wanner, *Solving Ordinary Differential Equations II (Stiff and
//! Differential-Algebraic Problems)*, 2nd ed., IV.7: six stages, fourth order with an embedded third
//! order, L-stable and stiffly accurate; the curve within a step is of third order (not at hand,
//! coefficients from memory; the tests show orders and stability). Equations without explicit time.

use nalgebra::{DMatrix, DVector};

use super::{HELD_BACK, Integrator, Step, Trial, along};

/// The share of a step that each stage takes implicitly.
const SHARE: f64 = 0.25;
/// How much of each earlier stage a stage begins with.
const AHEAD: [&[f64]; 6] = [
    &[],
    &[1.544],
    &[0.946_678_528_081_582_6, 0.255_701_169_898_328_4],
    &[3.314_825_187_068_521, 2.896_124_015_972_201, 0.998_641_913_997_781_7],
    &[1.221_224_509_226_641, 6.019_134_481_288_629, 12.537_083_329_320_87, -0.687_886_036_105_895],
    &[1.221_224_509_226_641, 6.019_134_481_288_629, 12.537_083_329_320_87, -0.687_886_036_105_895, 1.0],
];
/// How much of each earlier stage, by the length of the step, adds to a stage's slope.
const PULL: [&[f64]; 6] = [
    &[],
    &[-5.6688],
    &[-2.430_093_356_833_875, -0.206_359_915_709_191_5],
    &[-0.107_352_905_815_137_5, -9.594_562_251_023_355, -20.470_286_148_096_16],
    &[7.496_443_313_967_647, -10.246_804_314_643_52, -33.999_903_528_199_05, 11.708_908_932_061_6],
    &[
        8.083_246_795_921_522,
        -7.981_132_988_064_893,
        -31.521_594_328_743_71,
        16.319_305_431_231_36,
        -6.058_818_238_834_054,
    ],
];
/// What bends and twists the curve within a step, of the first five stages.
const BEND: [f64; 5] = [
    10.126_235_083_445_86,
    -7.487_995_877_610_167,
    -34.800_918_615_557_47,
    -7.992_771_707_568_823,
    1.025_137_723_295_662,
];
const TWIST: [f64; 5] = [
    -0.676_280_339_280_125_3,
    6.087_714_651_680_015,
    16.430_843_208_924_78,
    24.767_225_114_183_86,
    -6.594_389_125_716_872,
];

/// A component is varied to both sides by this share of its size to see what that changes: a flow that goes
/// with the root of a small difference of pressure bends too much for one side alone.
const VARIED: f64 = 1e-5;

impl<const N: usize> Integrator<N> {
    /// How each slope (row) changes with each component (column), by central differences, or by one side where
    /// the equations have no answer on the other; none where they have none on either.
    pub(super) fn rows<E>(
        &self,
        rhs: &mut impl FnMut(f64, &[f64; N]) -> Result<[f64; N], E>,
        slope: &[f64; N],
    ) -> Option<DMatrix<f64>> {
        let mut rows = DMatrix::zeros(N, N);
        for column in 0..N {
            let size = VARIED * (self.scale[column] + self.state[column].abs());
            let mut beside = |aside: f64| {
                let mut state = self.state;
                state[column] += aside;
                Some((aside, rhs(self.time_s, &state).ok()?))
            };
            let ((high, above), (low, below)) = match (beside(size), beside(-size)) {
                (Some(above), Some(below)) => (above, below),
                (Some(only), None) | (None, Some(only)) => (only, (0.0, *slope)),
                (None, None) => return None,
            };
            for row in 0..N {
                rows[(row, column)] = (above[row] - below[row]) / (high - low);
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
        let (t, y) = (self.time_s, &self.state);
        let factors = (DMatrix::identity(N, N) / (SHARE * h) - rows).lu();
        let mut stages: [[f64; N]; 6] = [[0.0; N]; 6];
        for stage in 0..6 {
            let slope = match stage {
                0 => f0,
                _ => rhs(t, &sum(y, 1.0, AHEAD[stage], &stages))?,
            };
            let right = sum(&slope, 1.0 / h, PULL[stage], &stages);
            // Without an answer the step counts as infinitely wrong.
            let solution = factors.solve(&DVector::from_row_slice(&right));
            stages[stage] = solution.map_or([f64::NAN; N], |k| std::array::from_fn(|i| k[i]));
        }
        let end = along(&sum(y, 1.0, AHEAD[5], &stages), 1.0, &[(1.0, &stages[5])]);
        let slope = rhs(t + h, &end)?;
        let none = [0.0; N];
        let bends = [sum(&none, 1.0, &BEND, &stages), sum(&none, 1.0, &TWIST, &stages)];
        Ok(Trial {
            step: Step::bent(t, h, [y, &end], bends),
            slope,
            error: self.norm(|i| stages[5][i], &end),
            order: 0.25,
            held_back: HELD_BACK,
        })
    }
}

/// What earlier stages add to a state or a slope.
fn sum<const N: usize>(start: &[f64; N], scale: f64, weights: &[f64], stages: &[[f64; N]; 6]) -> [f64; N] {
    std::array::from_fn(|i| start[i] + scale * weights.iter().zip(stages).map(|(w, k)| w * k[i]).sum::<f64>())
}

#[cfg(test)]
mod tests {
    use super::*;
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
            assert!(x < 2.0 / lambda + 1e-4, "{lambda}: {x}");
            assert!(y < 2.0 / lambda + 1e-4, "{lambda}: {y}");
            assert!(steps < 1000, "{lambda}: {steps} steps");
        }
    }

    /// What flows in is let out through a hole, `x' = a − b √x`, and nothing comes back: the pull ends at a
    /// kink. Closed form: it settles at `x = (a/b)²`, with `1/λ = 2a/b²`. Explicit steps swing about that and
    /// never see their bound, which is 5000 · 200 / 3.3 = 300,000 of them.
    #[test]
    fn a_pull_that_ends_at_a_kink_is_stiff_too() {
        for settles_at in [1e-5, 1e-4, 1e-3] {
            let (a, b) = (1.0, 1.0 / f64::sqrt(settles_at));
            let rhs = |_: f64, y: &[f64; 2]| -> Result<[f64; 2], Infallible> {
                let out = b * y[0].max(0.0).sqrt();
                Ok([a - out, out])
            };
            let mut walk = Integrator::new(0.0, [1.0, 0.0], 1e-3, 1e-5, [1.0; 2]);
            let mut steps = 0;
            while walk.time_s() < 200.0 {
                walk.step(rhs, 200.0).unwrap();
                steps += 1;
            }
            let [x, out] = *walk.state();
            assert!((x - settles_at).abs() < 2e-5, "{settles_at}: {x}");
            assert!((x + out - 201.0).abs() < 1e-9, "{settles_at}: {x} and {out}");
            assert!(steps < 1500, "{settles_at}: {steps} steps");
        }
    }

    /// A thousandth of the error takes 1000^(1/4) = 5.6 times the steps at the estimate's fourth order,
    /// 1000^(1/3) = 10 where stiffness takes one order away.
    #[test]
    fn a_tighter_tolerance_is_met_with_steps_as_its_order_says() {
        let (rough, fine) = (run(1e6, 1e-5), run(1e6, 1e-8));
        assert!(fine.0 < 0.05 * rough.0.max(1e-5), "{} after {}", fine.0, rough.0);
        let ratio = (fine.2 as f64 - 60.0) / (rough.2 as f64 - 60.0);
        assert!((4.0..12.0).contains(&ratio), "{ratio}: {} and {}", rough.2, fine.2);
    }

    /// Logistic growth and what it feeds: `x' = x (1 − x)`, `z' = x z`, with closed forms.
    fn growth(_: f64, y: &[f64; 2]) -> Result<[f64; 2], Infallible> {
        Ok([y[0] * (1.0 - y[0]), y[0] * y[1]])
    }

    /// How far one step of this length leads from the closed forms, at its end and in its curve.
    fn one_step(h: f64) -> [f64; 2] {
        let start = [0.2, 1.0];
        let walk = Integrator::new(0.0, start, h, 1e-6, [1.0; 2]);
        let slope = growth(0.0, &start).unwrap();
        let rows = DMatrix::from_row_slice(2, 2, &[1.0 - 2.0 * start[0], 0.0, start[1], start[0]]);
        let step = walk.implicit(&mut growth, &rows, slope, h).unwrap().step;
        [1.0, 0.4].map(|share| {
            let grown = 0.8 + 0.2 * (share * h).exp();
            let [x, z] = step.at(share);
            (x - 0.2 * (share * h).exp() / grown).abs() + (z - grown).abs()
        })
    }

    /// The error of one step goes with one power more than its order: 2⁵ for half the length at the end,
    /// 2⁴ within.
    #[test]
    fn the_end_is_of_fourth_order_and_the_curve_of_third() {
        let (whole, half) = (one_step(0.1), one_step(0.05));
        let [end, within] = [0, 1].map(|i| whole[i] / half[i]);
        assert!((25.0..42.0).contains(&end), "{end}: {whole:?}, {half:?}");
        assert!((12.0..21.0).contains(&within), "{within}: {whole:?}, {half:?}");
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
