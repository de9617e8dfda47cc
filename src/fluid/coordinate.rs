//! The coordinate of the tables.
//!
//! `theta = cbrt(1 - 1/(1 - ln(p/pc)/7))` makes saturated densities nearly straight up to the
//! critical region, so that few nodes suffice. A position counts 0 at the lowest pressure of a
//! table and 1 at the highest.

use crate::numerics::cube_root;

const STRETCH: f64 = 7.0;

/// Maps pressure to position and back for one table.
#[derive(Debug, Clone)]
pub(crate) struct Coordinate {
    critical_pressure_pa: f64,
    low_theta: f64,
    span_theta: f64,
}

impl Coordinate {
    pub(crate) fn new(critical_pressure_pa: f64, low_pressure_pa: f64, high_pressure_pa: f64) -> Self {
        let low_theta = theta(low_pressure_pa / critical_pressure_pa);
        let span_theta = theta(high_pressure_pa / critical_pressure_pa) - low_theta;
        Self { critical_pressure_pa, low_theta, span_theta }
    }

    /// Position of a pressure that lies in the table's range.
    pub(crate) fn position(&self, pressure_pa: f64) -> f64 {
        (theta(pressure_pa / self.critical_pressure_pa) - self.low_theta) / self.span_theta
    }

    /// The inverse of `position`.
    pub(crate) fn pressure_pa(&self, position: f64) -> f64 {
        let theta = self.low_theta + position * self.span_theta;
        let exponent = STRETCH * (1.0 - 1.0 / (1.0 - theta.powi(3)));
        self.critical_pressure_pa * exponent.exp()
    }
}

fn theta(reduced_pressure: f64) -> f64 {
    cube_root(1.0 - 1.0 / (1.0 - reduced_pressure.ln() / STRETCH))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hand_worked_theta() {
        // ln(e^-7)/7 = -1, so 1 - 1/2 = 0.5 and theta = cbrt(0.5) = 0.793 700 526.
        assert!((theta((-7.0_f64).exp()) - 0.793_700_526).abs() < 1e-9);
        assert_eq!(theta(1.0), 0.0);
    }

    #[test]
    fn position_and_pressure_are_inverse() {
        let c = Coordinate::new(4.9e6, 2.5e3, 4.5e6);
        for pressure_pa in [2.5e3, 1e4, 1e5, 1e6, 4.5e6] {
            let back = c.pressure_pa(c.position(pressure_pa));
            assert!((back / pressure_pa - 1.0).abs() < 1e-12, "{back}");
        }
        assert!(c.position(2.5e3).abs() < 1e-15 && (c.position(4.5e6) - 1.0).abs() < 1e-15);
    }
}
