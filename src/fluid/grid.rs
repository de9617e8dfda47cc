//! Four properties on a grid (position, second coordinate), both running 0..=1: bicubic.

use super::bent::Bent;
use super::cubic::{Cubic, solve};
use super::spline::{hermite_weights, slopes};

/// Properties stored side by side.
pub(crate) const PROPERTIES: usize = 4;

type Values = [f64; PROPERTIES];

/// One node: value, slope along position, slope along the second coordinate, and both.
type Node = [Values; 4];

/// A tensor-product cubic spline.
#[derive(Debug, Clone)]
pub(crate) struct Grid {
    columns: usize,
    row_scale: f64,
    column_scale: f64,
    nodes: Vec<Node>,
}

impl Grid {
    /// From rows at equally spaced positions, each with `columns` nodes; at least two of each.
    pub(crate) fn new(rows: usize, columns: usize, values: &[Values]) -> Self {
        let mut nodes: Vec<Node> =
            values.iter().map(|v| [*v, [0.0; PROPERTIES], [0.0; PROPERTIES], [0.0; PROPERTIES]]).collect();
        let column_nodes = |j: usize| (0..rows).map(move |i| i * columns + j).collect::<Vec<_>>();
        let row_nodes = |i: usize| (i * columns..(i + 1) * columns).collect::<Vec<_>>();
        for property in 0..PROPERTIES {
            (0..columns).for_each(|j| differentiate(&mut nodes, &column_nodes(j), property, 0, 1));
            (0..rows).for_each(|i| differentiate(&mut nodes, &row_nodes(i), property, 0, 2));
            (0..rows).for_each(|i| differentiate(&mut nodes, &row_nodes(i), property, 1, 3));
        }
        Self { columns, row_scale: (rows - 1) as f64, column_scale: (columns - 1) as f64, nodes }
    }

    /// The four properties at a position and second coordinate.
    pub(crate) fn values(&self, position: f64, second: f64) -> Values {
        let (i, x) = split(position * self.row_scale, self.row_scale);
        let (j, y) = split(second * self.column_scale, self.column_scale);
        let (wx, wy) = (hermite_weights(x), hermite_weights(y));
        let first = i * self.columns + j;
        let mut sum = [0.0; PROPERTIES];
        for (right, down) in [(0, 0), (0, 1), (1, 0), (1, 1)] {
            let node = &self.nodes[first + right * self.columns + down];
            let weights = [
                wx[right] * wy[down],
                wx[right + 2] * wy[down],
                wx[right] * wy[down + 2],
                wx[right + 2] * wy[down + 2],
            ];
            for k in 0..PROPERTIES {
                sum[k] += weights[0] * node[0][k]
                    + weights[1] * node[1][k]
                    + weights[2] * node[2][k]
                    + weights[3] * node[3][k];
            }
        }
        sum
    }
}

/// A step of this share leaves less than 1e-11 of the second coordinate.
const SHORT_RATIO: f64 = 2e-3;

/// One property along the second coordinate at a fixed position: what an inverse walks on.
pub(crate) struct Line<'a> {
    grid: &'a Grid,
    first: usize,
    weights: [f64; 4],
    property: usize,
}

impl Grid {
    /// The line of one property at a position.
    pub(crate) fn line(&self, position: f64, property: usize) -> Line<'_> {
        let (i, x) = split(position * self.row_scale, self.row_scale);
        Line { grid: self, first: i * self.columns, weights: hermite_weights(x), property }
    }
}

impl Line<'_> {
    /// Finds the second coordinate in 0..=1 where `miss` vanishes, from a good `guess`.
    ///
    /// `miss(second, property)` returns what is there less what is wanted, with its derivatives
    /// along the second coordinate.
    pub(crate) fn solve(&self, guess: f64, miss: impl Fn(f64, Bent) -> Bent) -> f64 {
        let scale = self.grid.column_scale;
        let mut column = usize::MAX;
        let mut cubic = Cubic([0.0; 4]);
        // The second coordinate is a square root: what is short is short against itself.
        solve(guess, SHORT_RATIO * guess, |second| {
            let (j, y) = split(second * scale, scale);
            if j != column {
                (column, cubic) = (j, Cubic::hermite(self.node(j), self.node(j + 1)));
            }
            miss(second, cubic.bent(y, scale))
        })
    }

    /// Value and slope along the second coordinate at column `j` of this line.
    fn node(&self, j: usize) -> (f64, f64) {
        let (low, high) =
            (&self.grid.nodes[self.first + j], &self.grid.nodes[self.first + self.grid.columns + j]);
        let (w, k) = (&self.weights, self.property);
        let value = w[0] * low[0][k] + w[1] * high[0][k] + w[2] * low[1][k] + w[3] * high[1][k];
        let slope = w[0] * low[2][k] + w[1] * high[2][k] + w[2] * low[3][k] + w[3] * high[3][k];
        (value, slope)
    }
}

/// Cell index and place within the cell. The cast saturates, so a rounding below zero is cell zero.
fn split(along: f64, cells: f64) -> (usize, f64) {
    let index = (along as u32).min(cells as u32 - 1);
    (index as usize, along - f64::from(index))
}

/// Writes into slot `to` the spline slopes of slot `from` along a line of nodes.
fn differentiate(nodes: &mut [Node], line: &[usize], property: usize, from: usize, to: usize) {
    let values: Vec<f64> = line.iter().map(|&n| nodes[n][from][property]).collect();
    for (&n, slope) in line.iter().zip(slopes(&values)) {
        nodes[n][to][property] = slope;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bicubic_surface_is_reproduced() {
        let f = |x: f64, y: f64| [1.0 + x * x * x * y, x - y * y * y, x * y, 2.0];
        let values: Vec<Values> =
            (0..5).flat_map(|i| (0..6).map(move |j| f(i as f64 / 4.0, j as f64 / 5.0))).collect();
        let grid = Grid::new(5, 6, &values);
        for (x, y) in [(0.0, 0.0), (0.13, 0.71), (0.5, 0.99), (1.0, 1.0), (0.999, 0.01)] {
            for (got, expected) in grid.values(x, y).iter().zip(f(x, y)) {
                assert!((got - expected).abs() < 1e-12, "at {x}, {y}: {got} {expected}");
            }
        }
    }
}
