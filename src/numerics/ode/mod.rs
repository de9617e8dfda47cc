//! Ordinary differential equations by adaptive steps with a curve within each.
//!
//! Steps are explicit ([`explicit`], fifth order) until the equations prove stiff, then implicit
//! ([`stiff`], fourth order). Events are sought in the curve by [`crate::numerics::find_root`]. Sums that
//! the equations keep (mass in all vessels) are kept to rounding by both.
//!
//! A crate was looked for first: diffsol finds events but is a large implicit solver whose
//! interface changes often; ode_solvers has no events; others are new or quiet. The systems here are
//! small and, between events, smooth; few are stiff.

mod explicit;
mod stiff;

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
    /// A step from its ends, the slopes there, and what bends the curve beyond a cubic.
    fn new(
        start_s: f64,
        length_s: f64,
        ends: [&[f64; N]; 2],
        slopes: [&[f64; N]; 2],
        rest: [f64; N],
    ) -> Self {
        let [y, end] = ends;
        let rise: [f64; N] = std::array::from_fn(|i| end[i] - y[i]);
        let bend: [f64; N] = std::array::from_fn(|i| length_s * slopes[0][i] - rise[i]);
        let twist = std::array::from_fn(|i| rise[i] - length_s * slopes[1][i] - bend[i]);
        Self { start_s, length_s, curve: [*y, rise, bend, twist, rest], end: *end }
    }

    /// A step from its ends and what bends and twists the curve between them.
    fn bent(start_s: f64, length_s: f64, ends: [&[f64; N]; 2], bends: [[f64; N]; 2]) -> Self {
        let [y, end] = ends;
        let rise = std::array::from_fn(|i| end[i] - y[i]);
        let [bend, twist] = bends;
        Self { start_s, length_s, curve: [*y, rise, bend, twist, [0.0; N]], end: *end }
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
    /// How often stability held steps back, less how often it did not.
    held_back: u32,
}

/// A step tried.
struct Trial<const N: usize> {
    step: Step<N>,
    /// At its end.
    slope: [f64; N],
    /// As a share of what is allowed.
    error: f64,
    /// The exponent with which the error follows the length.
    order: f64,
    /// How likely stability rather than the error bounds its length, up to [`HELD_BACK`].
    held_back: u32,
}

/// No step is shorter than this.
const SHORTEST_S: f64 = 1e-7;
/// What a step counts whose length stability surely bounds.
const HELD_BACK: u32 = 3;
/// So much of that, less the same for each step that was free: the equations are stiff.
const STIFF: u32 = 180;

impl<const N: usize> Integrator<N> {
    /// Starts at a state.
    ///
    /// - `first_s`: length of the first step tried
    /// - `tolerance`: error allowed in a step, as a share of `scale + |state|`
    /// - `scale`: the size of each component that matters
    pub fn new(time_s: f64, state: [f64; N], first_s: f64, tolerance: f64, scale: [f64; N]) -> Self {
        Self { time_s, state, slope: None, next_s: first_s, tolerance, scale, held_back: 0 }
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
        let rows = if self.held_back < STIFF { None } else { self.rows(&mut rhs, &k1) };
        let shortest_s = SHORTEST_S.max(1e-13 * self.time_s.abs());
        let mut rejected = false;
        loop {
            let rest_s = until_s - self.time_s;
            // A last step that leaves a sliver takes it along.
            let h = if self.next_s > 0.99 * rest_s { rest_s } else { self.next_s };
            let trial = match &rows {
                None => self.explicit(&mut rhs, k1, h),
                Some(rows) => self.implicit(&mut rhs, rows, k1, h),
            };
            match trial {
                Ok(trial) if trial.error <= 1.0 => {
                    let grow = if rejected { 1.0 } else { 5.0 };
                    let factor = (0.9 * trial.error.max(1e-8).powf(-trial.order)).clamp(0.2, grow);
                    self.next_s = if h < self.next_s { self.next_s.max(h * factor) } else { h * factor };
                    self.accept(&trial, if h == rest_s { until_s } else { self.time_s + h });
                    return Ok(trial.step);
                }
                Ok(trial) => {
                    if h <= shortest_s {
                        return Err(OdeError::StepTooSmall { time_s: self.time_s });
                    }
                    let factor = match trial.error.is_finite() {
                        true => (0.9 * trial.error.powf(-trial.order)).clamp(0.1, 0.9),
                        false => 0.1,
                    };
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

    fn accept(&mut self, trial: &Trial<N>, time_s: f64) {
        self.time_s = time_s;
        self.state = trial.step.end;
        self.slope = Some(trial.slope);
        // Once stiff, a stretch stays so.
        if self.held_back < STIFF {
            let free = if trial.held_back == 0 { HELD_BACK } else { 0 };
            self.held_back = (self.held_back + trial.held_back).saturating_sub(free);
        }
    }

    /// The length of a change, each component as a share of what matters of it.
    fn norm(&self, change: impl Fn(usize) -> f64, end: &[f64; N]) -> f64 {
        let size = |i: usize| self.tolerance * (self.scale[i] + self.state[i].abs().max(end[i].abs()));
        let sum: f64 = (0..N).map(|i| (change(i) / size(i)).powi(2)).sum();
        (sum / N as f64).sqrt()
    }
}

fn along<const N: usize>(y: &[f64; N], h: f64, terms: &[(f64, &[f64; N])]) -> [f64; N] {
    std::array::from_fn(|i| y[i] + h * terms.iter().map(|(weight, k)| weight * k[i]).sum::<f64>())
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
