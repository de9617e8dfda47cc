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
    /// What the last flow that was too much told.
    told: Option<Told>,
}

/// Where a flow that is too much puts the largest one.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Told {
    log_flow: f64,
    room: f64,
    /// How the room changes with the logarithm of the flow.
    slope: f64,
}

/// A part's own room falls by as much as the flow's logarithm rises.
const OWN_SLOPE: f64 = -1.0;
/// Behind other parts the inlet falls with the flow as well: about so much, until two flows tell.
const USUAL_SLOPE: f64 = -2.5;
/// So much at least, behind any part that matters.
const GENTLE_SLOPE: f64 = -1.5;
/// Slopes that two flows may tell.
const SLOPES: std::ops::RangeInclusive<f64> = -12.0..=OWN_SLOPE;
/// Beside an estimate that is known nearly as well as the largest flow itself.
const ASIDE: f64 = 2e-3;
/// A bracket narrower than this share of the flow is narrow.
const NARROW: f64 = 0.1;
/// A part whose room behind an earlier plateau is no less than this passes just less than that part.
const JUST_LESS: f64 = 0.5;
/// This close, the part that is told of is most likely the one that chokes first.
const CLOSE: f64 = 0.05;

impl FlowBracket {
    /// A search below a flow that may be too much.
    pub fn below(high_kg_s: f64) -> Self {
        Self { low: 0.0, high: high_kg_s, told: None }
    }

    /// Between two flows so close together that the part that chokes at the upper one is most
    /// likely the one that chokes first.
    pub fn is_narrow(&self) -> bool {
        self.high - self.low < NARROW * self.high
    }

    /// The last flow that was too much was so by little: the same, though none that passes is near.
    pub fn is_close(&self) -> bool {
        self.is_narrow() || self.told.is_some_and(|told| told.room > -CLOSE)
    }

    /// The lowest flow known to be too much.
    pub fn too_much_kg_s(&self) -> f64 {
        self.high
    }

    /// `flow` passes: the next one to try, a little higher.
    pub fn passes(&mut self, flow: f64) -> f64 {
        self.low = flow;
        self.next(1.0 + ASIDE)
    }

    /// `flow` is too much by `room`: the next one to try.
    ///
    /// - `is_own`: the part that chokes has the same inlet whatever the flow
    pub fn chokes(&mut self, flow: f64, room: f64, is_own: bool) -> f64 {
        self.high = flow;
        let log_flow = flow.ln();
        let slope = match self.told {
            _ if is_own => OWN_SLOPE,
            Some(last) => Some((room - last.room) / (log_flow - last.log_flow))
                .filter(|slope| SLOPES.contains(slope))
                .unwrap_or(USUAL_SLOPE),
            None => USUAL_SLOPE,
        };
        self.told = Some(Told { log_flow, room: room.clamp(-20.0, 0.0), slope });
        self.next(1.0 - ASIDE)
    }

    /// What the last choke told where that is news, else halfway.
    fn next(&self, beside: f64) -> f64 {
        let halfway = if self.low > 0.0 { (self.low * self.high).sqrt() } else { 0.25 * self.high };
        let Some(told) = self.told else { return halfway };
        let is_own = told.slope == OWN_SLOPE;
        let share = if is_own || self.low == 0.0 { beside } else { 1.0 };
        let aside = if is_own { 0.5 * ASIDE } else { 5.0 * ASIDE };
        let estimate = share * (told.log_flow - told.room / told.slope).exp();
        let is_news = estimate > self.low * (1.0 + aside) && estimate < self.high;
        if is_news { estimate } else { halfway }
    }
}

/// The plateau is found to this share of the flow.
const PLATEAU_TOLERANCE: f64 = 2e-8;
/// So little room is none: the flow's logarithm is then off by no more than that.
const PLATEAU_RESIDUAL: f64 = 0.5 * PLATEAU_TOLERANCE;
/// First step back where the plateau found is still a hair too much.
const BACK_OFF: f64 = 1e-7;

/// Where a plateau is sought, as a place that grows from zero while the flow falls.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Below {
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

    /// A first place, by how much too little the room is.
    fn guess(self, room: f64, is_own: bool) -> f64 {
        let slope = if is_own { OWN_SLOPE } else { GENTLE_SLOPE };
        match self {
            // A part alone passes less by its room; behind others its inlet rises as the flow falls.
            Self::Flow => room.clamp(-8.0, -1e-6) / slope,
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
                Outcome::Passes { flow, outlet } => {
                    inlet = outlet;
                    flows.push(flow);
                }
                Outcome::Choked(choke) => {
                    return Ok(March::Stuck { stage: Stage::Element(index), choke, flows });
                }
            }
        }
        Ok(March::Through { outlet: inlet, flows })
    }

    /// The inlet of this stage does not depend on the flow.
    pub fn is_own(&self, stage: Stage) -> bool {
        match (stage, &self.feed) {
            (Stage::Feed, _) | (Stage::Element(0), Feed::Port(_)) => true,
            (Stage::Element(_), _) => false,
        }
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
            return self.feed.room(mass_flow_kg_s);
        };
        for element in &self.elements[..last] {
            match element.pass(&self.input(inlet, mass_flow_kg_s))? {
                Outcome::Passes { outlet, .. } => inlet = outlet,
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
        let (mut found, mut told) = (None, None);
        let mut back_off = BACK_OFF;
        for _ in 0..2 * self.elements.len() + 60 {
            match (self.march(next)?, found) {
                (March::Through { .. }, _) if next >= up_to => return Ok(None),
                (March::Through { outlet, .. }, Some(stage)) => {
                    let outlet_pressure_pa = outlet.pressure_pa;
                    return Ok(Some(LargestFlow { mass_flow_kg_s: next, outlet_pressure_pa, stage }));
                }
                (March::Through { .. }, None) => {
                    next = bracket.passes(next);
                    if let Some((stage, room)) = told.filter(|_| bracket.is_narrow()) {
                        next = self.plateau_of(stage, &bracket, room, Below::Flow)?;
                        found = Some(stage);
                    }
                }
                // The march and the search for its end differ in the last digits: step aside.
                (March::Stuck { stage, .. }, Some(same)) if same == stage => {
                    next *= 1.0 - back_off;
                    back_off *= 4.0;
                }
                (March::Stuck { stage, choke, .. }, before) => {
                    let is_own = self.is_own(stage);
                    let is_just_less = before.is_some() && choke.room > -JUST_LESS;
                    next = bracket.chokes(next, choke.room, is_own);
                    told = Some((stage, choke.room));
                    found = (is_own || is_just_less || bracket.is_close()).then_some(stage);
                    if found.is_some() {
                        let below = if before.is_some() { Below::Plateau } else { Below::Flow };
                        next = self.plateau_of(stage, &bracket, choke.room, below)?;
                    }
                }
            }
        }
        Ok(None)
    }

    /// The flow at which one stage just chokes. The answer lies on the side that passes.
    fn plateau_of(
        &self,
        stage: Stage,
        bracket: &FlowBracket,
        room: f64,
        below: Below,
    ) -> Result<f64, FlowError> {
        let flow_at = |place: f64| below.flow(bracket.high, place);
        let place_of = |flow: f64| below.place(bracket.high, flow);
        let room_at = |place: f64| self.room(stage, flow_at(place));
        let mut near = (0.0, room.min(-1e-12));
        let mut place = below.guess(near.1, self.is_own(stage));
        if bracket.low > 0.0 {
            place = place.min(place_of(bracket.low));
        }
        let mut far = (place, room_at(place)?);
        for _ in 0..60 {
            if far.1 > -PLATEAU_RESIDUAL {
                break;
            }
            near = far;
            let place = place_of(flow_at(far.0) * (1.2 * far.1).clamp(-4.0, -1e-6).exp());
            far = (place, room_at(place)?);
        }
        if far.1.abs() <= PLATEAU_RESIDUAL {
            return Ok(flow_at(far.0) * (1.0 - PLATEAU_TOLERANCE));
        }
        let tolerance = Tolerance {
            absolute: below.width(far.0, PLATEAU_TOLERANCE),
            relative: 0.0,
            residual: PLATEAU_RESIDUAL,
        };
        match find_root(room_at, near, far, tolerance) {
            Ok(root) => Ok(flow_at(root.upper()) * (1.0 - PLATEAU_TOLERANCE)),
            Err(RootError::NotBracketed { high, .. }) => Ok(flow_at(high)),
            Err(RootError::Function(error)) => Err(error),
        }
    }
}
