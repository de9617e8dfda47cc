//! Ordinary differential equations by an adaptive embedded Runge–Kutta pair with dense output.
//!
//! Dormand–Prince 5(4), six evaluations a step, and its fourth-order continuous extension, in
//! which events are sought by [`crate::numerics::find_root`]. Sums that the equations keep
//! (mass in all vessels) are kept to rounding, since every stage is a linear combination.
//!
//! A crate was looked for first: diffsol finds events but is a large implicit solver whose
//! interface changes often; ode_solvers has no events and brings nalgebra; others are new or
//! quiet. The systems here are small and, between events, smooth and hardly stiff.
//!
//! Sources: J. R. Dormand, P. J. Prince, "A family of embedded Runge–Kutta formulae", J. Comp.
//! Appl. Math. 6 (1980) 19–26; dense output and step control after E. Hairer, S. P. Nørsett,
//! G. Wanner, *Solving Ordinary Differential Equations I*, 2nd ed., II.4–II.6 (coefficients from
//! memory; the tests show their order).

/// One accepted step and the curve within it.
#[derive(Debug, Clone, PartialEq)]
pub struct Step<const N: usize> {
    /// Where it begins.
    pub start_s: f64,
    /// How long it is.
    pub length_s: f64,
    curve: [[f64; N]; 5],
    end: [f64; N],
}

impl<const N: usize> Step<N> {
    /// Where it ends.
    pub fn end_s(&self) -> f64 {
        self.start_s + self.length_s
    }

    /// The state at its end.
    pub fn end(&self) -> [f64; N] {
        self.end
    }

    /// The state at a share (0 to 1) of the step.
    pub fn at(&self, share: f64) -> [f64; N] {
        if share >= 1.0 {
            return self.end;
        }
        let [c0, c1, c2, c3, c4] = &self.curve;
        let rest = 1.0 - share;
        std::array::from_fn(|i| c0[i] + share * (c1[i] + rest * (c2[i] + share * (c3[i] + rest * c4[i]))))
    }
}

/// Why a step could not be taken.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum OdeError<E> {
    /// The step became too small for the time it stands at.
    #[error("the step shrank to nothing at {time_s} s")]
    StepTooSmall {
        /// Time reached.
        time_s: f64,
    },
    /// The equations have no answer even a hair further on.
    #[error(transparent)]
    Function(#[from] E),
}

/// A state on its way through time.
#[derive(Debug, Clone, PartialEq)]
pub struct Integrator<const N: usize> {
    time_s: f64,
    state: [f64; N],
    slope: Option<[f64; N]>,
    next_s: f64,
    tolerance: f64,
    scale: [f64; N],
}

/// No step is shorter than this.
const SHORTEST_S: f64 = 1e-7;

impl<const N: usize> Integrator<N> {
    /// Starts at a state.
    ///
    /// - `first_s`: length of the first step tried
    /// - `tolerance`: error allowed in a step, as a share of `scale + |state|`
    /// - `scale`: the size of each component that matters
    pub fn new(time_s: f64, state: [f64; N], first_s: f64, tolerance: f64, scale: [f64; N]) -> Self {
        Self { time_s, state, slope: None, next_s: first_s, tolerance, scale }
    }

    /// Time reached.
    pub fn time_s(&self) -> f64 {
        self.time_s
    }

    /// State reached.
    pub fn state(&self) -> &[f64; N] {
        &self.state
    }

    /// Length of the step that would be tried next.
    pub fn next_s(&self) -> f64 {
        self.next_s
    }

    /// Takes one step, not beyond `until_s`. Where the equations fail within a step, a shorter one
    /// is tried.
    ///
    /// # Errors
    /// [`OdeError::Function`] where even the shortest step fails, [`OdeError::StepTooSmall`] where
    /// it is not exact enough.
    pub fn step<E>(
        &mut self,
        mut rhs: impl FnMut(f64, &[f64; N]) -> Result<[f64; N], E>,
        until_s: f64,
    ) -> Result<Step<N>, OdeError<E>> {
        let k1 = match self.slope {
            Some(slope) => slope,
            None => rhs(self.time_s, &self.state)?,
        };
        let shortest_s = SHORTEST_S.max(1e-13 * self.time_s.abs());
        let mut rejected = false;
        loop {
            let rest_s = until_s - self.time_s;
            // A last step that leaves a sliver takes it along.
            let h = if self.next_s > 0.99 * rest_s { rest_s } else { self.next_s };
            match self.attempt(&mut rhs, k1, h) {
                Ok((step, slope, error)) if error <= 1.0 => {
                    let grow = if rejected { 1.0 } else { 5.0 };
                    let factor = (0.9 * error.max(1e-8).powf(-0.2)).clamp(0.2, grow);
                    self.next_s = if h < self.next_s { self.next_s.max(h * factor) } else { h * factor };
                    self.time_s = if h == rest_s { until_s } else { self.time_s + h };
                    self.state = step.end;
                    self.slope = Some(slope);
                    return Ok(step);
                }
                Ok((_, _, error)) => {
                    if h <= shortest_s {
                        return Err(OdeError::StepTooSmall { time_s: self.time_s });
                    }
                    let factor =
                        if error.is_finite() { (0.9 * error.powf(-0.2)).clamp(0.1, 0.9) } else { 0.1 };
                    self.next_s = (h * factor).max(shortest_s);
                }
                Err(error) => {
                    if h <= shortest_s {
                        return Err(error.into());
                    }
                    self.next_s = (0.25 * h).max(shortest_s);
                }
            }
            rejected = true;
        }
    }

    fn attempt<E>(
        &self,
        rhs: &mut impl FnMut(f64, &[f64; N]) -> Result<[f64; N], E>,
        k1: [f64; N],
        h: f64,
    ) -> Result<(Step<N>, [f64; N], f64), E> {
        let (t, y) = (self.time_s, &self.state);
        let k2 = rhs(t + h / 5.0, &along(y, h, &[(1.0 / 5.0, &k1)]))?;
        let k3 = rhs(t + 0.3 * h, &along(y, h, &[(3.0 / 40.0, &k1), (9.0 / 40.0, &k2)]))?;
        let k4 =
            rhs(t + 0.8 * h, &along(y, h, &[(44.0 / 45.0, &k1), (-56.0 / 15.0, &k2), (32.0 / 9.0, &k3)]))?;
        let fifth = [
            (19372.0 / 6561.0, &k1),
            (-25360.0 / 2187.0, &k2),
            (64448.0 / 6561.0, &k3),
            (-212.0 / 729.0, &k4),
        ];
        let k5 = rhs(t + 8.0 / 9.0 * h, &along(y, h, &fifth))?;
        let sixth = [
            (9017.0 / 3168.0, &k1),
            (-355.0 / 33.0, &k2),
            (46732.0 / 5247.0, &k3),
            (49.0 / 176.0, &k4),
            (-5103.0 / 18656.0, &k5),
        ];
        let k6 = rhs(t + h, &along(y, h, &sixth))?;
        let last = [
            (35.0 / 384.0, &k1),
            (500.0 / 1113.0, &k3),
            (125.0 / 192.0, &k4),
            (-2187.0 / 6784.0, &k5),
            (11.0 / 84.0, &k6),
        ];
        let end = along(y, h, &last);
        let k7 = rhs(t + h, &end)?;
        let error_of = |i: usize| {
            h * (71.0 / 57600.0 * k1[i] - 71.0 / 16695.0 * k3[i] + 71.0 / 1920.0 * k4[i]
                - 17253.0 / 339200.0 * k5[i]
                + 22.0 / 525.0 * k6[i]
                - k7[i] / 40.0)
        };
        let sum: f64 = (0..N)
            .map(|i| {
                let size = self.tolerance * (self.scale[i] + y[i].abs().max(end[i].abs()));
                (error_of(i) / size).powi(2)
            })
            .sum();
        let error = (sum / N as f64).sqrt();
        let curve = dense(y, &end, h, [&k1, &k3, &k4, &k5, &k6, &k7]);
        Ok((Step { start_s: t, length_s: h, curve, end }, k7, error))
    }
}

fn along<const N: usize>(y: &[f64; N], h: f64, terms: &[(f64, &[f64; N])]) -> [f64; N] {
    std::array::from_fn(|i| y[i] + h * terms.iter().map(|(weight, k)| weight * k[i]).sum::<f64>())
}

/// Coefficients of the continuous extension (Hairer's CONTD5).
fn dense<const N: usize>(y: &[f64; N], end: &[f64; N], h: f64, k: [&[f64; N]; 6]) -> [[f64; N]; 5] {
    const WEIGHTS: [f64; 6] = [
        -12_715_105_075.0 / 11_282_082_432.0,
        87_487_479_700.0 / 32_700_410_799.0,
        -10_690_763_975.0 / 1_880_347_072.0,
        701_980_252_875.0 / 199_316_789_632.0,
        -1_453_857_185.0 / 822_651_844.0,
        69_997_945.0 / 29_380_423.0,
    ];
    let rise: [f64; N] = std::array::from_fn(|i| end[i] - y[i]);
    let bend: [f64; N] = std::array::from_fn(|i| h * k[0][i] - rise[i]);
    let twist = std::array::from_fn(|i| rise[i] - h * k[5][i] - bend[i]);
    let rest = std::array::from_fn(|i| h * WEIGHTS.iter().zip(k).map(|(w, k)| w * k[i]).sum::<f64>());
    [*y, rise, bend, twist, rest]
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::convert::Infallible;

    type Outcome = Result<[f64; 2], Infallible>;

    /// `x'' = −x`: a circle.
    fn circle(_: f64, y: &[f64; 2]) -> Outcome {
        Ok([y[1], -y[0]])
    }

    fn run(tolerance: f64) -> (f64, f64, usize) {
        let mut walk = Integrator::new(0.0, [0.0, 1.0], 0.01, tolerance, [1.0, 1.0]);
        let (mut inside, mut count) = (0.0_f64, 0);
        while walk.time_s() < 10.0 {
            let step = walk.step(circle, 10.0).unwrap();
            for share in [0.13, 0.5, 0.9] {
                let t = step.start_s + share * step.length_s;
                inside = inside.max((step.at(share)[0] - t.sin()).abs());
            }
            count += 1;
        }
        ((walk.state()[0] - 10f64.sin()).abs(), inside, count)
    }

    #[test]
    fn the_circle_closes_and_the_inside_of_steps_is_as_good_as_their_ends() {
        let (end, inside, _) = run(1e-8);
        assert!(end < 1e-6, "{end}");
        assert!(inside < 1e-6, "{inside}");
    }

    /// An error a thousand times smaller costs 1000^(1/5) ≈ 4 times the steps at fifth order.
    #[test]
    fn the_order_is_five() {
        let (rough, fine) = (run(1e-6).2 as f64, run(1e-9).2 as f64);
        let ratio = fine / rough;
        assert!((3.0..5.0).contains(&ratio), "{ratio}");
    }

    #[test]
    fn sums_are_kept_to_rounding() {
        let decay = |_: f64, y: &[f64; 2]| -> Outcome { Ok([-0.3 * y[0] * y[0], 0.3 * y[0] * y[0]]) };
        let mut walk = Integrator::new(0.0, [5.0, 1.0], 1.0, 1e-4, [1.0, 1.0]);
        while walk.time_s() < 100.0 {
            walk.step(decay, 100.0).unwrap();
        }
        assert!((walk.state()[0] + walk.state()[1] - 6.0).abs() < 1e-13);
        let exact = 1.0 / (0.2 + 30.0);
        assert!((walk.state()[0] - exact).abs() < 1e-4, "{}", walk.state()[0]);
    }

    #[test]
    fn a_wall_in_the_equations_is_reached_and_said() {
        #[derive(Debug, PartialEq)]
        struct Wall;
        let fall = |_: f64, y: &[f64; 1]| if y[0] < 0.0 { Err(Wall) } else { Ok([-1.0]) };
        let mut walk = Integrator::new(0.0, [1.0], 0.1, 1e-6, [1.0]);
        let end = loop {
            match walk.step(fall, 50.0) {
                Ok(_) => {}
                Err(error) => break error,
            }
        };
        assert_eq!(end, OdeError::Function(Wall));
        assert!((walk.time_s() - 1.0).abs() < 1e-5, "{}", walk.time_s());
    }
}
