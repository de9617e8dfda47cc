//! Slopes of the cubic spline through equally spaced values ("not-a-knot" ends).

/// Slope per node spacing at every node.
///
/// The cubic spline with continuous second derivative whose first two, and last two, pieces are
/// one cubic each. Reproduces any cubic polynomial exactly. Fewer than four values: straight
/// differences.
///
/// # Source
/// C. de Boor, A Practical Guide to Splines (1978), chapter IV; for equal spacing the inner rows are
/// `d[i-1] + 4 d[i] + d[i+1] = 3 (y[i+1] - y[i-1])`, the first `d[0] + 2 d[1] = (-5 y[0] + 4 y[1] + y[2])/2`.
pub(crate) fn slopes(y: &[f64]) -> Vec<f64> {
    let n = y.len();
    if n < 4 {
        return short_slopes(y);
    }
    let mut right = vec![0.0; n];
    for i in 1..n - 1 {
        right[i] = 3.0 * (y[i + 1] - y[i - 1]);
    }
    right[0] = (-5.0 * y[0] + 4.0 * y[1] + y[2]) / 2.0;
    right[n - 1] = (5.0 * y[n - 1] - 4.0 * y[n - 2] - y[n - 3]) / 2.0;
    // Thomas elimination; rows are (0, 1, 2), (1, 4, 1) ..., (2, 1, 0).
    let mut upper = vec![0.0; n];
    upper[0] = 2.0;
    for i in 1..n {
        let (below, diagonal, above) = if i == n - 1 { (2.0, 1.0, 0.0) } else { (1.0, 4.0, 1.0) };
        let pivot = diagonal - below * upper[i - 1];
        upper[i] = above / pivot;
        right[i] = (right[i] - below * right[i - 1]) / pivot;
    }
    for i in (0..n - 1).rev() {
        right[i] -= upper[i] * right[i + 1];
    }
    right
}

fn short_slopes(y: &[f64]) -> Vec<f64> {
    let n = y.len();
    (0..n)
        .map(|i| {
            let (a, b) = (i.saturating_sub(1), (i + 1).min(n - 1));
            if b > a { (y[b] - y[a]) / (b - a) as f64 } else { 0.0 }
        })
        .collect()
}

/// Weights of `[left value, right value, left slope, right slope]` at `x` in 0..=1 (cubic Hermite).
pub(crate) fn hermite_weights(x: f64) -> [f64; 4] {
    let (x2, x3) = (x * x, x * x * x);
    let right = 3.0 * x2 - 2.0 * x3;
    [1.0 - right, right, x3 - 2.0 * x2 + x, x3 - x2]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cubic_is_reproduced() {
        let f = |x: f64| 1.0 - 2.0 * x + 0.5 * x * x + 0.25 * x * x * x;
        let slope = |x: f64| -2.0 + x + 0.75 * x * x;
        let y: Vec<f64> = (0..7).map(|i| f(i as f64)).collect();
        for (i, d) in slopes(&y).iter().enumerate() {
            assert!((d - slope(i as f64)).abs() < 1e-10, "node {i}: {d}");
        }
    }

    #[test]
    fn few_values_are_joined_by_straight_lines() {
        assert_eq!(slopes(&[1.0, 3.0]), vec![2.0, 2.0]);
        assert_eq!(slopes(&[1.0]), vec![0.0]);
        assert_eq!(slopes(&[0.0, 1.0, 4.0]), vec![1.0, 2.0, 3.0]);
    }
}
