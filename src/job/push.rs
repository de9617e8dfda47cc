//! The pressure that pushes a flow of condensed liquid through the discharge path.

use super::discharge::DischargeSide;
use super::error::JobError;
use crate::flow::{Arrival, Medium};
use crate::numerics::{RootError, Tolerance, find_root};

/// One flow of condensed liquid through the discharge path.
pub(super) struct Push<'a> {
    pub side: &'a DischargeSide<'a>,
    pub enthalpy: f64,
    pub mass_flow_kg_s: f64,
}

/// What comes of it at one pressure.
enum Pushed {
    /// It arrives with so much more than the cylinder's pressure.
    Arrives { spare_pa: f64 },
    /// The path cannot pass it: `ln(largest/flow)`, negative.
    TooMuch { room: f64 },
}

/// A pressure is found to this share of itself.
const PRESSURE_TOLERANCE: f64 = 1e-6;
/// A pressure that opens a path is sought in steps no longer than this share of it.
const LONGEST_STEP_RATIO: f64 = 0.6;

impl Push<'_> {
    /// The lowest pressure, at least `wanted_pa`, at which it arrives with the cylinder's or more.
    pub fn at_least_pa(&self, wanted_pa: f64) -> Result<f64, JobError> {
        match self.at(wanted_pa)? {
            Pushed::Arrives { spare_pa } if spare_pa >= 0.0 => Ok(wanted_pa),
            Pushed::Arrives { spare_pa } => self.arriving_pa((wanted_pa, spare_pa)),
            Pushed::TooMuch { room } => self.opening_pa((wanted_pa, room)),
        }
    }

    fn at(&self, pressure_pa: f64) -> Result<Pushed, JobError> {
        let start = self.side.refrigerant().point(pressure_pa, self.enthalpy)?;
        Ok(match self.side.line(start)?.arrival(self.mass_flow_kg_s)? {
            Arrival::Arrives(end) => Pushed::Arrives { spare_pa: end.pressure_pa - self.side.cylinder_pa() },
            Arrival::TooMuch(too_much) => Pushed::TooMuch { room: too_much.room },
        })
    }

    /// The same as one number where it is known to pass: too little, where it does not after all.
    fn spare_pa(&self, pressure_pa: f64) -> Result<f64, JobError> {
        Ok(match self.at(pressure_pa)? {
            Pushed::Arrives { spare_pa } => spare_pa,
            Pushed::TooMuch { .. } => -self.side.cylinder_pa(),
        })
    }

    fn limit_pa(&self) -> f64 {
        self.side.refrigerant().highest_pressure_pa() * (1.0 - 1e-9)
    }

    fn blocked(&self) -> JobError {
        JobError::DischargeBlocked { mass_flow_kg_s: self.mass_flow_kg_s, limit_pa: self.limit_pa() }
    }

    /// The pressure at which it arrives with the cylinder's, above one at which it arrives with less.
    fn arriving_pa(&self, low: (f64, f64)) -> Result<f64, JobError> {
        let limit_pa = self.limit_pa();
        let residual_pa = 1e-8 * self.side.cylinder_pa();
        // The loss hardly depends on the pressure, that of a liquid not at all: the shortfall once more
        // is nearly enough.
        let mut high_pa = (low.0 - low.1).min(limit_pa);
        let mut at_high = self.spare_pa(high_pa)?;
        if at_high.abs() <= residual_pa {
            return Ok(high_pa);
        }
        if at_high < 0.0 {
            high_pa = (high_pa - 0.2 * low.1).min(limit_pa);
            at_high = self.spare_pa(high_pa)?;
        }
        while at_high < 0.0 && high_pa < limit_pa {
            high_pa = (1.6 * high_pa).min(limit_pa);
            at_high = self.spare_pa(high_pa)?;
        }
        let tolerance = Tolerance { absolute: 0.0, relative: PRESSURE_TOLERANCE, residual: residual_pa };
        match find_root(|pressure_pa| self.spare_pa(pressure_pa), low, (high_pa, at_high), tolerance) {
            Ok(root) => Ok(root.x),
            Err(RootError::NotBracketed { .. }) => Err(self.blocked()),
            Err(RootError::Function(error)) => Err(error),
        }
    }

    /// The pressure at which it arrives, above one at which it is too much for the path.
    ///
    /// The room rises ever more slowly with the pressure, so secants climb to where it ends and stop
    /// short of it: a least step goes over the edge, and longer ones where it was not there. What just
    /// passes may arrive with pressure to spare or with too little.
    fn opening_pa(&self, low: (f64, f64)) -> Result<f64, JobError> {
        let limit_pa = self.limit_pa();
        let mut low = low;
        let mut high_pa = f64::INFINITY;
        let mut least_ratio = 0.5 * PRESSURE_TOLERANCE;
        let mut next_pa = (low.0 + self.side.cylinder_pa()).min(limit_pa);
        loop {
            let mut step_pa = 0.5 * (next_pa - low.0);
            match self.at(next_pa)? {
                Pushed::Arrives { spare_pa } if spare_pa < 0.0 => {
                    return self.arriving_pa((next_pa, spare_pa));
                }
                Pushed::Arrives { .. } => high_pa = next_pa,
                Pushed::TooMuch { .. } if next_pa >= limit_pa => return Err(self.blocked()),
                Pushed::TooMuch { room } => {
                    let secant_pa = -room * (next_pa - low.0) / (room - low.1);
                    step_pa = if secant_pa > 0.0 { secant_pa } else { f64::INFINITY };
                    if step_pa <= least_ratio * next_pa {
                        step_pa = least_ratio * next_pa;
                        least_ratio *= 2.0;
                    }
                    step_pa = step_pa.min(LONGEST_STEP_RATIO * next_pa);
                    low = (next_pa, room);
                }
            }
            if high_pa - low.0 <= PRESSURE_TOLERANCE * low.0 {
                return Ok(high_pa);
            }
            let stepped_pa = (low.0 + step_pa).min(limit_pa);
            next_pa = if stepped_pa < high_pa { stepped_pa } else { 0.5 * (low.0 + high_pa) };
        }
    }
}
