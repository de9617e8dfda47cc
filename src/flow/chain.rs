//! Elements one after another, marched for a given mass flow, and their largest flow.

use super::element::{Choke, Element, ElementFlow, FlowInput, Method, Outcome};
use super::error::FlowError;
use super::feed::Feed;
use super::medium::{Medium, Point};
use crate::numerics::{RootError, Tolerance, find_root};

/// Elements in order behind a feed.
pub(super) struct Chain<'a, M: Medium> {
    pub medium: &'a M,
    pub method: Method,
    pub feed: Feed<'a, M>,
    pub elements: Vec<Element>,
}

/// What came of a march.
pub(super) enum March {
    /// The flow passes all elements and leaves in this state at rest.
    Through { outlet: Point, flows: Vec<ElementFlow> },
    /// It is too much for one of them.
    Stuck { stage: Stage, choke: Choke, flows: Vec<ElementFlow> },
}

/// A place where a flow can choke.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Stage {
    /// Both branches of the feed.
    Feed,
    /// An element by its index.
    Element(usize),
}

impl Stage {
    /// The first element after it.
    pub fn next(self) -> usize {
        match self {
            Self::Feed => 0,
            Self::Element(index) => index + 1,
        }
    }
}

/// The largest flow of a path, and the highest outlet pressure that still draws it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LargestFlow {
    /// The plateau.
    pub mass_flow_kg_s: f64,
    /// Outlet pressure where the plateau begins.
    pub outlet_pressure_pa: f64,
    pub(super) stage: Stage,
}

/// A search for the largest flow from both sides.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlowBracket {
    /// It passes; zero where none is known.
    low: f64,
    /// It is too much.
    high: f64,
    /// Share by which the next step leaves the better known end.
    stride: f64,
}

/// First stride of a search; a stage's own largest flow is known nearly as well from one march.
const FIRST_STRIDE: f64 = 2e-3;

impl FlowBracket {
    /// A search below a flow that may be too much.
    pub fn below(high_kg_s: f64) -> Self {
        Self { low: 0.0, high: high_kg_s, stride: FIRST_STRIDE }
    }

    /// Between two flows so close together that the stage that chokes at the upper one is most
    /// likely the one that chokes first.
    pub fn is_close(&self) -> bool {
        self.high - self.low < 0.02 * self.high
    }

    /// `flow` passes: the next one to try, a little higher.
    pub fn passes(&mut self, flow: f64) -> f64 {
        self.low = flow;
        let next = flow * (1.0 + self.stride);
        self.stride *= 8.0;
        next.min(0.5 * (self.low + self.high))
    }

    /// `flow` is too much by `room`: the next one to try. What the stage that chokes would pass
    /// from the inlet that too much leaves it is less than it passes.
    pub fn chokes(&mut self, flow: f64, room: f64) -> f64 {
        self.high = flow;
        let next = flow * (room.clamp(-8.0, 0.0) - self.stride).exp();
        if next > self.low {
            self.stride *= if self.low > 0.0 { 4.0 } else { 2.0 };
            return next;
        }
        0.5 * (self.low + self.high)
    }
}

/// The plateau is found to this share of the flow.
const PLATEAU_TOLERANCE: f64 = 2e-8;
/// First step back where the plateau found is still a hair too much.
const BACK_OFF: f64 = 1e-7;

impl<M: Medium> Chain<'_, M> {
    /// Marches a flow from the feed to the end.
    pub fn march(&self, mass_flow_kg_s: f64) -> Result<March, FlowError> {
        match self.feed.at(self.medium, mass_flow_kg_s)? {
            Ok(inlet) => self.march_from(0, inlet, mass_flow_kg_s),
            Err(choke) => Ok(March::Stuck { stage: Stage::Feed, choke, flows: Vec::new() }),
        }
    }

    /// Marches a flow from one element's mouth to the end.
    pub fn march_from(&self, first: usize, inlet: Point, mass_flow_kg_s: f64) -> Result<March, FlowError> {
        let mut inlet = inlet;
        let mut flows = Vec::with_capacity(self.elements.len() - first);
        for (index, element) in self.elements.iter().enumerate().skip(first) {
            match element.pass(&self.input(inlet, mass_flow_kg_s))? {
                Outcome::Passes(flow) => {
                    inlet = self.medium.point(flow.outlet_pressure_pa, inlet.enthalpy_j_kg)?;
                    flows.push(flow);
                }
                Outcome::Choked(choke) => {
                    return Ok(March::Stuck { stage: Stage::Element(index), choke, flows });
                }
            }
        }
        Ok(March::Through { outlet: inlet, flows })
    }

    fn input(&self, inlet: Point, mass_flow_kg_s: f64) -> FlowInput<'_, M> {
        FlowInput { medium: self.medium, method: self.method, mass_flow_kg_s, inlet }
    }

    /// How far a flow is from the largest that one stage passes; what is too much for an earlier
    /// stage is too much.
    fn room(&self, stage: Stage, mass_flow_kg_s: f64) -> Result<f64, FlowError> {
        let mut inlet = match self.feed.at(self.medium, mass_flow_kg_s)? {
            Ok(inlet) => inlet,
            Err(choke) => return Ok(choke.room),
        };
        let Stage::Element(last) = stage else {
            return Ok(self.feed.room(mass_flow_kg_s));
        };
        for element in &self.elements[..last] {
            match element.pass(&self.input(inlet, mass_flow_kg_s))? {
                Outcome::Passes(flow) => {
                    inlet = self.medium.point(flow.outlet_pressure_pa, inlet.enthalpy_j_kg)?;
                }
                Outcome::Choked(choke) => return Ok(choke.room),
            }
        }
        Ok(self.elements[last].room(&self.input(inlet, mass_flow_kg_s))?.room)
    }

    /// The largest flow, if it is less than `up_to_kg_s`.
    pub fn largest_flow(&self, up_to_kg_s: f64) -> Result<Option<LargestFlow>, FlowError> {
        self.largest_flow_within(FlowBracket::below(up_to_kg_s))
    }

    /// The largest flow, if it is less than the bracket's upper end.
    ///
    /// Marches close in on it first, for a long chain chokes later and later as the flow falls;
    /// only the stage that chokes at last is searched to the last digit.
    pub fn largest_flow_within(&self, bracket: FlowBracket) -> Result<Option<LargestFlow>, FlowError> {
        let mut bracket = bracket;
        let up_to = bracket.high;
        let mut next = up_to;
        let mut found = None;
        let mut back_off = BACK_OFF;
        for _ in 0..2 * self.elements.len() + 60 {
            match (self.march(next)?, found) {
                (March::Through { .. }, _) if next >= up_to => return Ok(None),
                (March::Through { outlet, .. }, Some(stage)) => {
                    let outlet_pressure_pa = outlet.pressure_pa;
                    return Ok(Some(LargestFlow { mass_flow_kg_s: next, outlet_pressure_pa, stage }));
                }
                (March::Through { .. }, None) => next = bracket.passes(next),
                // The march and the search for its end differ in the last digits: step aside.
                (March::Stuck { stage, .. }, Some(same)) if same == stage => {
                    next *= 1.0 - back_off;
                    back_off *= 4.0;
                }
                (March::Stuck { stage, choke, .. }, _) => {
                    let guess = bracket.chokes(next, choke.room);
                    if found.is_some() || bracket.is_close() {
                        next = self.plateau_of(stage, &bracket, choke.room)?;
                        found = Some(stage);
                    } else {
                        next = guess;
                    }
                }
            }
        }
        Ok(None)
    }

    /// The flow at which one stage just chokes. The answer lies on the side that passes.
    fn plateau_of(&self, stage: Stage, bracket: &FlowBracket, room: f64) -> Result<f64, FlowError> {
        let high = (bracket.high.ln(), room.min(-1e-12));
        // What this stage would pass from the inlet that too much leaves it is less than it passes.
        let guess = high.0 + high.1.clamp(-8.0, -1e-6);
        let mut low = if bracket.low > 0.0 { guess.max(bracket.low.ln()) } else { guess };
        let mut low_room = self.room(stage, low.exp())?;
        for _ in 0..60 {
            if low_room > 0.0 {
                break;
            }
            low += (1.2 * low_room).clamp(-4.0, -1e-6);
            low_room = self.room(stage, low.exp())?;
        }
        let root = find_root(
            |log_flow| self.room(stage, log_flow.exp()),
            high,
            (low, low_room),
            Tolerance { absolute: PLATEAU_TOLERANCE, relative: 0.0, residual: 1e-9 },
        );
        match root {
            Ok(root) => Ok((root.lower() - PLATEAU_TOLERANCE).exp()),
            Err(RootError::NotBracketed { low, .. }) => Ok(low.exp()),
            Err(RootError::Function(error)) => Err(error),
        }
    }

    /// The pressure at the end while nothing flows: the feed's, but for what rises and falls.
    pub fn rest_pressure_pa(&self) -> Result<f64, FlowError> {
        Ok(match self.march(0.0)? {
            March::Through { outlet, .. } => outlet.pressure_pa,
            March::Stuck { .. } => self.feed.pressure_pa(),
        })
    }

    /// The flow that leaves at this pressure, at most the largest; nothing from the pressure at
    /// rest upwards.
    pub fn flow_at(&self, outlet_pa: f64, rest_pa: f64, largest: &LargestFlow) -> Result<f64, FlowError> {
        if outlet_pa <= largest.outlet_pressure_pa {
            return Ok(largest.mass_flow_kg_s);
        }
        if outlet_pa >= rest_pa {
            return Ok(0.0);
        }
        let excess = |flow: f64| -> Result<f64, FlowError> {
            Ok(match self.march(flow)? {
                March::Through { outlet, .. } => outlet.pressure_pa - outlet_pa,
                March::Stuck { .. } => -outlet_pa,
            })
        };
        let ends =
            ((0.0, rest_pa - outlet_pa), (largest.mass_flow_kg_s, largest.outlet_pressure_pa - outlet_pa));
        let tolerance = Tolerance { absolute: 0.0, relative: 1e-9, residual: 1e-9 * outlet_pa };
        match find_root(excess, ends.0, ends.1, tolerance) {
            Ok(root) => Ok(root.x),
            Err(RootError::NotBracketed { .. }) => Ok(largest.mass_flow_kg_s),
            Err(RootError::Function(error)) => Err(error),
        }
    }
}
