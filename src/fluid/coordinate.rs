//! The coordinate of the tables.
//!
//! `theta = cbrt(1 - 1/(1 - ln(p/pc)/7))`, which is `cbrt(L/(7 + L))` with `L = -ln(p/pc)`, makes saturated densities nearly straight up to the
//! critical region, so that few nodes suffice. A position counts 0 at the lowest pressure of a
//! table and 1 at the highest.

use super::bent::Bent;
use crate::numerics::cube_root;

const STRETCH: f64 = 7.0;

/// Maps pressure to position and back for one table.
#[derive(Debug, Clone)]
pub(crate) struct Coordinate {
    critical_pressure_pa: f64,
    inverse_critical_pressure: f64,
    low_theta: f64,
    span_theta: f64,
    inverse_span: f64,
}

impl Coordinate {
    pub(crate) fn new(critical_pressure_pa: f64, low_pressure_pa: f64, high_pressure_pa: f64) -> Self {
        let low_theta = theta(low_pressure_pa / critical_pressure_pa);
        let span_theta = theta(high_pressure_pa / critical_pressure_pa) - low_theta;
        Self {
            critical_pressure_pa,
            inverse_critical_pressure: 1.0 / critical_pressure_pa,
            low_theta,
            span_theta,
            inverse_span: 1.0 / span_theta,
        }
    }

    /// Position of a pressure that lies in the table's range.
    pub(crate) fn position(&self, pressure_pa: f64) -> f64 {
        (theta(pressure_pa * self.inverse_critical_pressure) - self.low_theta) * self.inverse_span
    }

    /// The inverse of `position`.
    pub(crate) fn pressure_pa(&self, position: f64) -> f64 {
        let theta = self.low_theta + position * self.span_theta;
        let cube = theta * theta * theta;
        self.critical_pressure_pa * (-STRETCH * cube / (1.0 - cube)).exp()
    }

    /// The inverse of `position` with its derivatives.
    pub(crate) fn bent_pressure_pa(&self, position: f64) -> Bent {
        let cube = Bent::cube(self.low_theta + position * self.span_theta);
        // -c/(1 - c) is 1 + 1/(c - 1).
        let exponent = ((cube - 1.0).inverse() + 1.0) * STRETCH;
        exponent.exp().stretched(self.span_theta) * self.critical_pressure_pa
    }
}

fn theta(reduced_pressure: f64) -> f64 {
    let depth = -reduced_pressure.ln();
    cube_root(depth / (STRETCH + depth))
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
            let (at, step) = (c.position(pressure_pa), 1e-5);
            let bent = c.bent_pressure_pa(at);
            let chord = (c.pressure_pa(at + step) - c.pressure_pa(at - step)) / (2.0 * step);
            assert!((bent.value / pressure_pa - 1.0).abs() < 1e-12);
            assert!((bent.slope / chord - 1.0).abs() < 1e-7, "{bent:?} {chord}");
        }
        assert!(c.position(2.5e3).abs() < 1e-15 && (c.position(4.5e6) - 1.0).abs() < 1e-15);
    }
}
