//! The flow at which one part just chokes, from one that is too much.

use super::bracket::FlowBracket;
use super::error::FlowError;
use crate::numerics::{RootError, Tolerance, find_root};

/// Where a plateau is sought, as a place that grows from zero while the flow falls.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Below {
    /// Below any flow: by its logarithm.
    Flow,
    /// Below an earlier part's plateau, where that part's outlet pressure falls with the root of what the
    /// flow is short of it: by that root.
    Plateau,
}

impl Below {
    fn flow(self, from: f64, place: f64) -> f64 {
        match self {
            Self::Flow => from * (-place).exp(),
            Self::Plateau => from * (1.0 - place * place),
        }
    }

    fn place(self, from: f64, flow: f64) -> f64 {
        match self {
            Self::Flow => (from / flow).ln(),
            Self::Plateau => (1.0 - flow / from).max(0.0).sqrt(),
        }
    }

    /// A first place, by what was too much and by how much.
    fn guess(self, bracket: &FlowBracket, room: f64) -> f64 {
        match self {
            Self::Flow => bracket.about().map_or(1.0, |about| about.clamp(1e-6, 8.0)),
            Self::Plateau => -room.clamp(-0.7, -1e-4),
        }
    }

    /// How wide a share of the flow is.
    fn width(self, place: f64, share: f64) -> f64 {
        match self {
            Self::Flow => share,
            Self::Plateau => 0.5 * share / place,
        }
    }
}

/// The plateau is found to this share of the flow.
const TOLERANCE: f64 = 2e-8;
/// So little room is none: the flow's logarithm is then off by no more than that.
const RESIDUAL: f64 = 0.5 * TOLERANCE;
/// How often a flow that has no answer is brought nearer to the one that is too much.
const HALVINGS: usize = 8;
const ROUNDS: usize = 60;

/// The flow at which a part just chokes. The answer lies on the side that passes.
///
/// - `bracket`: its upper end is too much for the part
/// - `room_of`: the part's room at a flow
pub(super) fn plateau(
    below: Below,
    bracket: &FlowBracket,
    room_of: impl Fn(f64) -> Result<f64, FlowError>,
) -> Result<f64, FlowError> {
    let from = bracket.high;
    let flow_at = |place: f64| below.flow(from, place);
    let room_at = |place: f64| room_of(flow_at(place));
    // A little flow may rise above the table where a hose falls: then less of a step must do.
    let towards = |near: f64, place: f64| -> Result<(f64, f64), FlowError> {
        let mut place = place;
        for _ in 0..HALVINGS {
            if let Ok(room) = room_at(place) {
                return Ok((place, room));
            }
            place = 0.5 * (near + place);
        }
        Ok((place, room_at(place)?))
    };
    let room = bracket.told().map_or(-1.0, |told| told.room);
    let mut near = (0.0, room.min(-1e-12));
    let mut place = below.guess(bracket, room);
    if bracket.low > 0.0 {
        place = place.min(below.place(from, bracket.low));
    }
    let mut far = towards(near.0, place)?;
    for _ in 0..ROUNDS {
        if far.1 > -RESIDUAL {
            break;
        }
        near = far;
        let lower = flow_at(far.0) * (1.2 * far.1).clamp(-4.0, -1e-6).exp();
        far = towards(near.0, below.place(from, lower))?;
    }
    if far.1.abs() <= RESIDUAL {
        return Ok(flow_at(far.0) * (1.0 - TOLERANCE));
    }
    let tolerance = Tolerance { absolute: below.width(far.0, TOLERANCE), relative: 0.0, residual: RESIDUAL };
    match find_root(room_at, near, far, tolerance) {
        Ok(root) => Ok(flow_at(root.upper()) * (1.0 - TOLERANCE)),
        Err(RootError::NotBracketed { high, .. }) => Ok(flow_at(high)),
        Err(RootError::Function(error)) => Err(error),
    }
}

#[cfg(test)]
mod tests {
    use super::super::bracket::TooMuch;
    use super::super::chain::Stage;
    use super::*;

    fn found(below: Below, high: f64, room_of: impl Fn(f64) -> Result<f64, FlowError>) -> f64 {
        let mut bracket = FlowBracket::below(high);
        let room = room_of(high).unwrap();
        bracket.chokes(high, TooMuch { room, inlet_ratio: 0.9, stage: Stage::Element(1) });
        plateau(below, &bracket, room_of).unwrap()
    }

    /// Closed forms: a room of `ln(1/m)` has its plateau at 1; `√(1 − m) − 0.1` at 0.99, below the first
    /// part's plateau of 1.
    #[test]
    fn plateaus_with_closed_forms() {
        let own = found(Below::Flow, 3.0, |flow| Ok(-flow.ln()));
        assert!((1.0 - 1e-7..=1.0).contains(&own), "{own}");
        let behind = found(Below::Plateau, 1.0, |flow| Ok((1.0 - flow).max(0.0).sqrt() - 0.1));
        assert!((0.99 - 1e-7..=0.99).contains(&behind), "{behind}");
    }

    #[test]
    fn where_little_flow_has_no_answer_a_shorter_step_finds_the_plateau() {
        let table = |flow: f64| match flow < 0.9 {
            true => Err(FlowError::out_of_range("pressure", 1.0, "less")),
            false => Ok(-3.0 * flow.ln()),
        };
        let flow = found(Below::Flow, 3.0, table);
        assert!((1.0 - 1e-7..=1.0).contains(&flow), "{flow}");
    }
}
