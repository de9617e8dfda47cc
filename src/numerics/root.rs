//! A bracketed root of one unknown by Chandrupatla's method.
//!
//! Inverse quadratic interpolation where it can be trusted and bisection where it cannot, so a
//! smooth function costs four to eight evaluations and a step or a kink still converges. The
//! function may fail; its error is handed on.
//!
//! Source: T. R. Chandrupatla, "A new hybrid quadratic/bisection algorithm for finding the zero
//! of a nonlinear function without using derivatives", Advances in Engineering Software 28
//! (1997) 145–149.

/// When a root is good enough: the bracket is narrower than `absolute + relative·|x|`, or the
/// function's size is at most `residual`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tolerance {
    /// Width of the bracket in the unknown's own unit.
    pub absolute: f64,
    /// Width of the bracket as a share of the unknown.
    pub relative: f64,
    /// Size of the function that counts as zero.
    pub residual: f64,
}

impl Tolerance {
    /// Only the bracket's relative width decides.
    pub fn relative(relative: f64) -> Self {
        Self { absolute: 0.0, relative, residual: 0.0 }
    }
}

/// A root and the bracket that is left around it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Root {
    /// The end of the last bracket with the smaller residual.
    pub x: f64,
    /// The function there.
    pub residual: f64,
    /// The other end of the last bracket. It may be far away where the residual was small enough.
    pub other_side: f64,
    /// The residual, not the bracket's width, ended the search.
    pub by_residual: bool,
}

impl Root {
    /// The lower end of what is left: the root itself where its residual counts as zero.
    pub fn lower(&self) -> f64 {
        if self.by_residual { self.x } else { self.x.min(self.other_side) }
    }

    /// The upper end of what is left: the root itself where its residual counts as zero.
    pub fn upper(&self) -> f64 {
        if self.by_residual { self.x } else { self.x.max(self.other_side) }
    }
}

/// Why no root was found.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum RootError<E> {
    /// The function has the same sign at both ends.
    #[error("no change of sign between {low} and {high}")]
    NotBracketed {
        /// One end.
        low: f64,
        /// The other end.
        high: f64,
    },
    /// The function itself failed.
    #[error(transparent)]
    Function(#[from] E),
}

/// An end of a bracket: the unknown and the function there.
type End = (f64, f64);

const MAX_STEPS: usize = 120;

/// Finds a root between two ends whose function values are already known.
///
/// # Errors
/// - [`RootError::NotBracketed`] if the values have the same sign, or one is not a number;
/// - [`RootError::Function`] as soon as the function fails.
pub fn find_root<E>(
    mut function: impl FnMut(f64) -> Result<f64, E>,
    first: End,
    second: End,
    tolerance: Tolerance,
) -> Result<Root, RootError<E>> {
    let ((mut x1, mut f1), (mut x2, mut f2)) = (first, second);
    if f1 == 0.0 {
        return Ok(exact(x1));
    }
    if f2 == 0.0 {
        return Ok(exact(x2));
    }
    let opposite = f1.is_sign_positive() != f2.is_sign_positive() && f1.is_finite() && f2.is_finite();
    if !opposite {
        return Err(RootError::NotBracketed { low: x1.min(x2), high: x1.max(x2) });
    }
    // The first guess is the secant, kept off the ends: the functions here are close to straight.
    let mut t = (f1 / (f1 - f2)).clamp(0.02, 0.98);
    for _ in 0..MAX_STEPS {
        let x = x1 + t * (x2 - x1);
        let f = function(x)?;
        let (x3, f3);
        if f.is_sign_positive() == f1.is_sign_positive() {
            (x3, f3) = (x1, f1);
        } else {
            (x3, f3) = (x2, f2);
            (x2, f2) = (x1, f1);
        }
        (x1, f1) = (x, f);
        let best = if f1.abs() < f2.abs() { (x1, f1, x2) } else { (x2, f2, x1) };
        let width = (x2 - x1).abs();
        let enough = tolerance.absolute + tolerance.relative * best.0.abs();
        if best.1.abs() <= tolerance.residual || width <= enough.max(4.0 * f64::EPSILON * best.0.abs()) {
            let by_residual = best.1.abs() <= tolerance.residual;
            return Ok(Root { x: best.0, residual: best.1, other_side: best.2, by_residual });
        }
        t = next_fraction((x1, f1), (x2, f2), (x3, f3), (0.5 * enough / width).min(0.5));
    }
    let best = if f1.abs() < f2.abs() { (x1, f1, x2) } else { (x2, f2, x1) };
    Ok(Root { x: best.0, residual: best.1, other_side: best.2, by_residual: false })
}

fn exact(x: f64) -> Root {
    Root { x, residual: 0.0, other_side: x, by_residual: true }
}

/// Where in the bracket to look next: inverse quadratic interpolation if Chandrupatla's criterion
/// trusts it, otherwise the middle.
fn next_fraction(a: End, b: End, c: End, margin: f64) -> f64 {
    let xi = (a.0 - b.0) / (c.0 - b.0);
    let phi = (a.1 - b.1) / (c.1 - b.1);
    let trusted = phi * phi < xi && (1.0 - phi).powi(2) < 1.0 - xi;
    if !trusted {
        return 0.5;
    }
    let t = a.1 / (b.1 - a.1) * c.1 / (b.1 - c.1)
        + (c.0 - a.0) / (b.0 - a.0) * a.1 / (c.1 - a.1) * b.1 / (c.1 - b.1);
    t.clamp(margin, 1.0 - margin)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::convert::Infallible;

    fn check(function: impl Fn(f64) -> f64, low: f64, high: f64, expected: f64) -> usize {
        let mut calls = 0;
        let root = find_root::<Infallible>(
            |x| {
                calls += 1;
                Ok(function(x))
            },
            (low, function(low)),
            (high, function(high)),
            Tolerance::relative(1e-12),
        )
        .unwrap();
        assert!((root.x - expected).abs() < 1e-10 * expected.abs(), "{root:?}");
        calls
    }

    #[test]
    fn roots_known_in_closed_form() {
        assert!(check(|x| x * x - 2.0, 0.0, 3.0, 2f64.sqrt()) < 12);
        check(|x| x.exp() - 5.0, -3.0, 9.0, 5f64.ln());
        check(|x| (x - 1.0).powi(9), 0.0, 3.5, 1.0 + 1e-12);
    }

    #[test]
    fn a_step_is_found_as_well_as_a_slope() {
        check(|x| if x < 0.7 { -3.0 } else { 1e6 }, 0.0, 1.0, 0.7);
    }

    #[test]
    fn no_change_of_sign_and_not_a_number_are_said() {
        let same = find_root::<Infallible>(Ok, (1.0, 1.0), (2.0, 2.0), Tolerance::relative(1e-9));
        assert!(matches!(same, Err(RootError::NotBracketed { .. })));
        let nan = find_root::<Infallible>(Ok, (1.0, f64::NAN), (2.0, 2.0), Tolerance::relative(1e-9));
        assert!(matches!(nan, Err(RootError::NotBracketed { .. })));
    }
}
