//! The saturation columns of a table, each a cubic spline over position, and their inverse.

use super::bent::Bent;
use super::cubic::{Cubic, solve};
use super::spline::slopes;

/// Columns of the saturation section, in the order of the file.
pub(crate) const COLUMNS: usize = 11;
pub(crate) const BUBBLE_TEMPERATURE: usize = 0;
pub(crate) const DEW_TEMPERATURE: usize = 1;
pub(crate) const LIQUID_DENSITY: usize = 2;
pub(crate) const VAPOR_COMPRESSIBILITY: usize = 3;
pub(crate) const LIQUID_ENTHALPY: usize = 4;
pub(crate) const VAPOR_ENTHALPY: usize = 5;
pub(crate) const LIQUID_ENTROPY: usize = 6;
pub(crate) const VAPOR_ENTROPY: usize = 7;
pub(crate) const LN_LIQUID_VISCOSITY: usize = 8;
pub(crate) const LN_VAPOR_VISCOSITY: usize = 9;
pub(crate) const HOT_ENTHALPY: usize = 10;
/// Not in the file: entropy on the hottest isotherm, from the vapour grid.
pub(crate) const HOT_ENTROPY: usize = 11;

/// Columns with the derived one.
pub(crate) const LANES: usize = 12;

/// Polynomial coefficients of one cell, all columns side by side.
type Cell = [[f64; LANES]; 4];

/// All saturation columns over positions 0..=1.
#[derive(Debug, Clone)]
pub(crate) struct Curve {
    cells: Vec<Cell>,
    scale: f64,
}

impl Curve {
    /// From equally spaced rows, lowest pressure first; at least two rows.
    pub(crate) fn new(rows: &[[f64; LANES]]) -> Self {
        let count = rows.len().saturating_sub(1);
        let mut cells = vec![[[0.0; LANES]; 4]; count];
        for column in 0..LANES {
            let values: Vec<f64> = rows.iter().map(|row| row[column]).collect();
            let slopes = slopes(&values);
            for (i, cell) in cells.iter_mut().enumerate() {
                let (y0, y1, d0, d1) = (values[i], values[i + 1], slopes[i], slopes[i + 1]);
                let cubic = Cubic::hermite((y0, d0), (y1, d1));
                (0..4).for_each(|power| cell[power][column] = cubic.0[power]);
            }
        }
        Self { scale: count as f64, cells }
    }

    /// How many cells there are from the lowest to the highest pressure.
    pub(crate) fn cells(&self) -> usize {
        self.cells.len()
    }

    fn cell(&self, position: f64) -> (&Cell, f64) {
        let along = position * self.scale;
        // The cast saturates: a rounding below zero is cell zero.
        let index = (along as u32).min(self.cells.len() as u32 - 1);
        (&self.cells[index as usize], along - f64::from(index))
    }

    /// Every column at a position.
    pub(crate) fn row(&self, position: f64) -> [f64; LANES] {
        let ([c0, c1, c2, c3], x) = self.cell(position);
        std::array::from_fn(|k| ((c3[k] * x + c2[k]) * x + c1[k]) * x + c0[k])
    }

    /// One column at a position.
    pub(crate) fn value(&self, column: usize, position: f64) -> f64 {
        let (cell, x) = self.cell(position);
        cubic(cell, column).value(x)
    }

    /// Some columns at a position, with their derivatives per unit position.
    #[inline]
    pub(crate) fn bent<const N: usize>(&self, columns: [usize; N], position: f64) -> [Bent; N] {
        let (cell, x) = self.cell(position);
        columns.map(|column| cubic(cell, column).bent(x, self.scale))
    }
}

/// One column's polynomial in a cell.
fn cubic([c0, c1, c2, c3]: &Cell, column: usize) -> Cubic {
    Cubic([c0[column], c1[column], c2[column], c3[column]])
}

/// Positions at equally spaced values of one rising column: a first guess for its inverse.
#[derive(Debug, Clone)]
pub(crate) struct Inverse {
    column: usize,
    pub(crate) low: f64,
    pub(crate) high: f64,
    positions: Vec<f64>,
}

/// Enough that a guess is within 1e-4 of the range, and one step leaves an error near rounding.
const GUESSES: usize = 512;

/// A step in position that leaves less than 1e-10 of it.
pub(crate) const SHORT: f64 = 1e-3;

impl Inverse {
    pub(crate) fn new(curve: &Curve, column: usize) -> Self {
        let (low, high) = (curve.value(column, 0.0), curve.value(column, 1.0));
        let positions = (0..=GUESSES)
            .map(|i| bisect(curve, column, low + (high - low) * i as f64 / GUESSES as f64))
            .collect();
        Self { column, low, high, positions }
    }

    /// A position whose value is within a few ten-thousandths of the column's range of `value`.
    pub(crate) fn guess(&self, value: f64) -> f64 {
        let along = ((value - self.low) / (self.high - self.low) * GUESSES as f64).clamp(0.0, GUESSES as f64);
        let index = (along as u32 as usize).min(GUESSES - 1);
        let (left, right) = (self.positions[index], self.positions[index + 1]);
        left + (right - left) * (along - index as f64)
    }

    /// The position where the column has this value (`low..=high`).
    pub(crate) fn position(&self, curve: &Curve, value: f64) -> f64 {
        solve(self.guess(value), SHORT, |position| {
            let [here] = curve.bent([self.column], position);
            here - value
        })
    }
}

fn bisect(curve: &Curve, column: usize, value: f64) -> f64 {
    let (mut low, mut high) = (0.0, 1.0);
    // To 6e-8: these are guesses.
    for _ in 0..24 {
        let middle = 0.5 * (low + high);
        if curve.value(column, middle) < value {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}
