//! One of two branches that meet: what it was seen to pass, and its plateau once that is known.

use std::cell::{Cell, OnceCell};

use super::chain::{Chain, LargestFlow, March};
use super::error::FlowError;
use super::medium::Medium;
use super::seen::Seen;

/// One of the two, with its plateau once it is known.
pub(super) struct Branch<'a, M: Medium> {
    pub chain: Chain<'a, M>,
    /// The pressure at its end while nothing flows: the port's, but for what rises and falls.
    pub rest_pa: f64,
    pub seen: Seen,
    too_much: Cell<Option<TooMuch>>,
    largest: OnceCell<LargestFlow>,
}

/// The least flow that was seen to be too much for a branch.
#[derive(Debug, Clone, Copy)]
struct TooMuch {
    flow_kg_s: f64,
    /// The largest one by what its choke told.
    told_kg_s: f64,
    /// No more than this passes.
    bound_kg_s: f64,
}

/// Where the search for a plateau begins that no flow has met yet.
pub(super) const FIRST_FLOW_KG_S: f64 = 1e-3;
/// As good as no flow.
const TRICKLE_KG_S: f64 = 1e-9;
/// A branch this close to its plateau stands on it.
pub(super) const ON_PLATEAU: f64 = 1e-7;
/// Below a branch's own choke by so little a flow surely passes.
pub(super) const HAIR: f64 = 1e-8;
/// Shares add up to the whole but for rounding.
const ROUNDING: f64 = 1e-12;

impl<'a, M: Medium> Branch<'a, M> {
    pub fn new(chain: Chain<'a, M>) -> Result<Self, FlowError> {
        let rest_pa = match chain.march(0.0)? {
            March::Through { outlet, .. } => outlet.pressure_pa,
            March::Stuck { .. } => chain.feed.pressure_pa(),
        };
        let seen = Seen::at_rest(rest_pa);
        Ok(Self { chain, rest_pa, seen, too_much: Cell::new(None), largest: OnceCell::new() })
    }

    pub fn start_pa(&self) -> f64 {
        self.chain.feed.pressure_pa()
    }

    /// The pressure at which a flow arrives; none where it is too much.
    pub fn arrives_pa(&self, flow_kg_s: f64) -> Result<Option<f64>, FlowError> {
        if flow_kg_s == 0.0 {
            return Ok(Some(self.rest_pa));
        }
        if let Some(largest) = self.largest.get() {
            if flow_kg_s > largest.mass_flow_kg_s * (1.0 + ROUNDING) {
                return Ok(None);
            }
            if self.is_full(flow_kg_s) {
                return Ok(Some(largest.outlet_pressure_pa));
            }
        }
        Ok(match self.chain.march(flow_kg_s)? {
            March::Through { outlet, .. } => {
                self.seen.arrives(flow_kg_s, outlet.pressure_pa);
                Some(outlet.pressure_pa)
            }
            March::Stuck { choke, stage, .. } => {
                let told_kg_s = flow_kg_s * choke.room.exp();
                let bound_kg_s = if self.chain.tells(stage) { told_kg_s } else { flow_kg_s };
                let before = self.too_much.get().filter(|before| before.flow_kg_s <= flow_kg_s);
                self.too_much.set(before.or(Some(TooMuch { flow_kg_s, told_kg_s, bound_kg_s })));
                self.largest.get().map(|largest| largest.outlet_pressure_pa)
            }
        })
    }

    /// The plateau, or what a flow that was too much told of it.
    pub fn told_kg_s(&self) -> f64 {
        self.known(|too_much| too_much.told_kg_s)
    }

    /// No more than this passes.
    pub fn bound_kg_s(&self) -> f64 {
        self.known(|too_much| too_much.bound_kg_s)
    }

    /// The plateau, or what is known of it; infinite where no flow was too much yet.
    fn known(&self, told: fn(TooMuch) -> f64) -> f64 {
        match self.largest.get() {
            Some(largest) => largest.mass_flow_kg_s,
            None => self.too_much.get().map_or(f64::INFINITY, told),
        }
    }

    pub fn is_full(&self, flow_kg_s: f64) -> bool {
        self.largest.get().is_some_and(|l| flow_kg_s >= l.mass_flow_kg_s * (1.0 - ROUNDING))
    }

    pub fn plateau_at(&self, flow_kg_s: f64) -> Option<LargestFlow> {
        self.largest.get().filter(|l| flow_kg_s >= l.mass_flow_kg_s * (1.0 - ON_PLATEAU)).copied()
    }

    /// The plateau, where it is known already.
    pub fn known_largest(&self) -> Option<&LargestFlow> {
        self.largest.get()
    }

    /// The plateau, sought below what was too much, else below a flow and, where that passes, above it.
    pub fn largest(&self, up_to_kg_s: f64) -> Result<LargestFlow, FlowError> {
        if let Some(largest) = self.largest.get() {
            return Ok(*largest);
        }
        let mut up_to = self.too_much.get().map_or(up_to_kg_s, |too_much| too_much.flow_kg_s);
        for _ in 0..50 {
            if let Some(largest) = self.chain.largest_flow(up_to)? {
                self.seen.arrives(largest.mass_flow_kg_s, largest.outlet_pressure_pa);
                return Ok(*self.largest.get_or_init(|| largest));
            }
            up_to *= 4.0;
        }
        // No flow is too much for a branch that falls; none is little enough for one that lifts too high.
        match self.chain.march(TRICKLE_KG_S)? {
            March::Stuck { .. } => {
                Err(FlowError::NothingPasses { floor_pa: self.chain.medium.lowest_pressure_pa() })
            }
            March::Through { .. } => {
                let expected = "a branch that limits the flow";
                Err(FlowError::out_of_range("largest flow of a branch (kg/s)", up_to, expected))
            }
        }
    }

    /// How the pressure of arrival falls with the flow: as seen, or straight from rest in the squares.
    pub fn slope(&self, flow_kg_s: f64, pressure_pa: f64) -> f64 {
        if flow_kg_s == 0.0 {
            return 0.0;
        }
        let straight = || (pressure_pa.powi(2) - self.rest_pa.powi(2)) / (flow_kg_s * pressure_pa);
        self.seen.about(flow_kg_s).map_or_else(straight, |(_, slope)| slope)
    }
}
