//! Flows whose pressure of arrival is known, and what they tell of flows between and beside them.
//!
//! The square of the pressure falls nearly straight with the square of the flow, so a parabola through
//! the three nearest tells much. Only starts and slopes of searches come from here, never an answer.

use std::cell::RefCell;

/// What a branch was seen to do: squares of flow (kg/s) and pressure (Pa).
#[derive(Debug)]
pub(super) struct Seen {
    squares: RefCell<Vec<[f64; 2]>>,
}

/// Points closer together than this share tell nothing of the curve between them.
const APART: f64 = 1e-9;
/// So many are kept: the oldest goes.
const KEPT: usize = 12;

impl Seen {
    /// Starts with the pressure at rest.
    pub fn at_rest(rest_pa: f64) -> Self {
        Self { squares: RefCell::new(vec![[0.0, rest_pa * rest_pa]]) }
    }

    /// Keeps a flow that arrives.
    pub fn arrives(&self, flow_kg_s: f64, pressure_pa: f64) {
        let flow = flow_kg_s * flow_kg_s;
        let mut squares = self.squares.borrow_mut();
        squares.retain(|[other, _]| (other - flow).abs() > APART * flow);
        if squares.len() == KEPT {
            squares.remove(0);
        }
        squares.push([flow, pressure_pa * pressure_pa]);
    }

    /// The pressure at which a flow may arrive, and how it falls with it; none where nothing can be told.
    pub fn about(&self, flow_kg_s: f64) -> Option<(f64, f64)> {
        let flow = flow_kg_s * flow_kg_s;
        let [one, two, three] = self.nearest(flow);
        let (one, two) = (one?, two?);
        let straight = |a: [f64; 2], b: [f64; 2]| (a[1] - b[1]) / (a[0] - b[0]);
        let mut slope = straight(one, two);
        let mut square = one[1] + slope * (flow - one[0]);
        if let Some(three) = three {
            let bend = (straight(two, three) - slope) / (three[0] - one[0]);
            square += bend * (flow - one[0]) * (flow - two[0]);
            slope += bend * (2.0 * flow - one[0] - two[0]);
        }
        let pressure_pa = square.sqrt();
        (square > 0.0 && slope <= 0.0).then(|| (pressure_pa, slope * flow_kg_s / pressure_pa))
    }

    /// The three nearest to a square of a flow, the nearest first.
    fn nearest(&self, flow: f64) -> [Option<[f64; 2]>; 3] {
        let aside = |square: &[f64; 2]| (square[0] - flow).abs();
        let mut nearest: [Option<[f64; 2]>; 3] = [None; 3];
        for square in self.squares.borrow().iter() {
            let mut next = *square;
            for place in &mut nearest {
                match place {
                    Some(nearer) if aside(nearer) <= aside(&next) => {}
                    Some(farther) => std::mem::swap(farther, &mut next),
                    None => {
                        *place = Some(next);
                        break;
                    }
                }
            }
        }
        nearest
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// `p² = 4 − m²`, and the same bent a little: between three points a parabola is exact.
    #[test]
    fn what_is_straight_or_a_parabola_in_the_squares_is_told_exactly() {
        let seen = Seen::at_rest(2.0);
        assert_eq!(seen.about(0.5), None);
        for bend in [0.0, 0.1_f64] {
            let square = |m: f64| 4.0 - m.powi(2) - bend * m.powi(4);
            for m in [0.4, 0.9] {
                seen.arrives(m, square(m).sqrt());
            }
            let (pressure, slope) = seen.about(0.7).unwrap();
            assert!((pressure - square(0.7).sqrt()).abs() < 1e-12, "{pressure}");
            let exact = (-2.0 * 0.7 - 4.0 * bend * 0.7_f64.powi(3)) / (2.0 * pressure);
            assert!((slope - exact).abs() < 1e-12, "{slope} {exact}");
        }
        assert_eq!(seen.about(5.0), None, "below any pressure");
    }
}
