//! Entropy of boiling liquid that agrees with its enthalpy: `dh = T ds + v dp` along the bubble line.
//!
//! Splines through both columns are each good to 1e-7, but the work of liquid is far less than that of its
//! enthalpy near vacuum, and there the difference of the two was off by half of it and more. So entropy is
//! integrated from the other columns, upward from the table's lowest pressure.

use super::coordinate::Coordinate;
use super::curve::{BUBBLE_TEMPERATURE, Curve, LANES, LIQUID_DENSITY, LIQUID_ENTHALPY, LIQUID_ENTROPY};

/// Cells for each one of the file: the integral is no cubic.
const FINER: usize = 8;

/// The same columns in finer cells, with the integrated entropy.
pub(crate) fn with_integrated_entropy(curve: &Curve, coordinate: &Coordinate) -> Curve {
    let count = FINER * curve.cells();
    let step = 1.0 / count as f64;
    let position = |index: usize| index as f64 * step;
    let mut rows: Vec<[f64; LANES]> = (0..=count).map(|index| curve.row(position(index))).collect();
    for index in 0..count {
        let slope = |along: f64| entropy_slope(curve, coordinate, position(index) + along * step);
        // Simpson's rule.
        let rise = step / 6.0 * (slope(0.0) + 4.0 * slope(0.5) + slope(1.0));
        rows[index + 1][LIQUID_ENTROPY] = rows[index][LIQUID_ENTROPY] + rise;
    }
    Curve::new(&rows)
}

/// `ds = (dh − v dp)/T` per unit position.
fn entropy_slope(curve: &Curve, coordinate: &Coordinate, position: f64) -> f64 {
    let [enthalpy] = curve.bent([LIQUID_ENTHALPY], position).map(|column| column.slope);
    let pressure = coordinate.bent_pressure_pa(position).slope;
    let [density, temperature] =
        [LIQUID_DENSITY, BUBBLE_TEMPERATURE].map(|column| curve.value(column, position));
    (enthalpy - pressure / density) / temperature
}
