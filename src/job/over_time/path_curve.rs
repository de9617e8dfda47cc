//! One path on one source: outlet pressure against flow, as samples of a scaled curve.

use crate::job::JobError;
use crate::numerics::{RootError, Tolerance, find_root};

/// Samples of a curve, the ends included.
pub(super) const SAMPLES: usize = 10;
/// The curve at one source state, scaled.
#[derive(Debug, Clone, Copy)]
pub(super) struct Curve {
    pub log_largest: f64,
    pub pressure_ratio: [f64; SAMPLES],
    pub second_ratio: [f64; SAMPLES],
}

impl Curve {
    /// The start of a sum.
    pub const ZERO: Self =
        Self { log_largest: 0.0, pressure_ratio: [0.0; SAMPLES], second_ratio: [0.0; SAMPLES] };
}

/// A path on one source state.
#[derive(Debug, Clone, Copy)]
pub(super) struct PathCurve {
    /// The source's pressure, less what its liquid is pressed.
    pub base_pa: f64,
    pub largest_kg_s: f64,
    pub enthalpies: [f64; 2],
    pub is_open: bool,
    pub curve: Curve,
}

impl PathCurve {
    /// Flow at a place from 0 (none) to 1 (the largest).
    pub fn flow_kg_s(&self, place: f64) -> f64 {
        self.largest_kg_s * share_of(place)
    }

    /// Nothing stands between the ports and the end.
    pub fn is_open(&self) -> bool {
        self.is_open
    }

    /// Outlet pressure at a place on the curve.
    pub fn outlet_pa(&self, place: f64) -> f64 {
        self.base_pa * hermite(&self.curve.pressure_ratio, place)
    }

    /// The second port's share of the flow.
    pub fn second_ratio(&self, place: f64) -> f64 {
        hermite(&self.curve.second_ratio, place).clamp(0.0, 1.0)
    }

    /// Enthalpy of what arrives.
    pub fn enthalpy_j_kg(&self, place: f64) -> f64 {
        let share = self.second_ratio(place);
        (1.0 - share) * self.enthalpies[0] + share * self.enthalpies[1]
    }

    /// The flow into a place at this pressure; none against a higher pressure.
    pub fn flow_into(&self, end_pa: f64) -> f64 {
        if self.is_open || end_pa >= self.outlet_pa(0.0) {
            return 0.0;
        }
        let at_choke = self.outlet_pa(1.0) - end_pa;
        if at_choke >= 0.0 {
            return self.largest_kg_s;
        }
        let excess = |place: f64| Ok::<_, JobError>(self.outlet_pa(place) - end_pa);
        let ends = ((0.0, self.outlet_pa(0.0) - end_pa), (1.0, at_choke));
        let tolerance = Tolerance { absolute: 1e-9, relative: 0.0, residual: 1e-9 * end_pa };
        match find_root(excess, ends.0, ends.1, tolerance) {
            Ok(root) => self.flow_kg_s(root.x),
            Err(RootError::NotBracketed { .. } | RootError::Function(_)) => self.largest_kg_s,
        }
    }
}

/// Cubic through even samples with the slopes of the parabola through three neighbours.
fn hermite(samples: &[f64; SAMPLES], place: f64) -> f64 {
    let along = place.clamp(0.0, 1.0) * (SAMPLES - 1) as f64;
    let index = (along as usize).min(SAMPLES - 2);
    let x = along - index as f64;
    let slope = |i: usize| {
        if i == 0 {
            -1.5 * samples[0] + 2.0 * samples[1] - 0.5 * samples[2]
        } else if i == SAMPLES - 1 {
            1.5 * samples[i] - 2.0 * samples[i - 1] + 0.5 * samples[i - 2]
        } else {
            0.5 * (samples[i + 1] - samples[i - 1])
        }
    };
    let (y0, y1, d0, d1) = (samples[index], samples[index + 1], slope(index), slope(index + 1));
    let bend = 3.0 * (y1 - y0) - 2.0 * d0 - d1;
    let twist = 2.0 * (y0 - y1) + d0 + d1;
    ((twist * x + bend) * x + d0) * x + y0
}

/// Share of the largest flow at a place on the curve.
pub(super) fn share_of(place: f64) -> f64 {
    place * (2.0 - place)
}

/// Adds a share of a curve to a sum.
pub(super) fn add(sum: &mut Curve, curve: &Curve, weight: f64) {
    sum.log_largest += weight * curve.log_largest;
    for index in 0..SAMPLES {
        sum.pressure_ratio[index] += weight * curve.pressure_ratio[index];
        sum.second_ratio[index] += weight * curve.second_ratio[index];
    }
}

/// Straight between two curves; their largest flows squared where that is straighter.
pub(super) fn between(near: &Curve, far: &Curve, share: f64, squared: bool) -> Curve {
    let mut mixed = Curve::ZERO;
    add(&mut mixed, near, 1.0 - share);
    add(&mut mixed, far, share);
    if squared {
        let square = |curve: &Curve| (2.0 * curve.log_largest).exp();
        mixed.log_largest = 0.5 * ((1.0 - share) * square(near) + share * square(far)).ln();
    }
    mixed
}
