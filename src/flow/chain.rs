//! Elements one after another, marched for a given mass flow, and their largest flow.

use super::bracket::{FlowBracket, TooMuch};
use super::element::{Choke, Element, ElementFlow, FlowInput, Method, Outcome};
use super::error::FlowError;
use super::feed::Feed;
use super::medium::{Medium, Point};
use super::plateau::{Below, plateau};

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

/// First step back where the plateau found is still a hair too much.
const BACK_OFF: f64 = 1e-7;
/// A flow that is too much by this is so however roughly it splits.
const FAR: f64 = 0.1;
/// A part whose room behind an earlier plateau is no less than this passes just less than that part.
const JUST_LESS: f64 = 0.5;

impl<M: Medium> Chain<'_, M> {
    /// Marches a flow from the feed to the end.
    pub fn march(&self, mass_flow_kg_s: f64) -> Result<March, FlowError> {
        match self.feed.at(self.medium, mass_flow_kg_s)? {
            Ok(inlet) => self.march_from(0, inlet, mass_flow_kg_s),
            Err(choke) => Ok(March::Stuck { stage: Stage::Feed, choke, flows: Vec::new() }),
        }
    }

    /// The same, but a flow that is far too much is told so before it is known exactly how it splits.
    pub fn march_unless_far(&self, mass_flow_kg_s: f64) -> Result<March, FlowError> {
        if let Feed::Joined(join) = &self.feed
            && let Some(meeting) = join.rough_meeting(mass_flow_kg_s)?
        {
            let rough = self.march_from(0, join.mixed(self.medium, &meeting)?, mass_flow_kg_s)?;
            if matches!(&rough, March::Stuck { choke, .. } if choke.room < -FAR) {
                return Ok(rough);
            }
        }
        self.march(mass_flow_kg_s)
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
    fn is_own(&self, stage: Stage) -> bool {
        match (stage, &self.feed) {
            (Stage::Feed, _) | (Stage::Element(0), Feed::Port(_)) => true,
            (Stage::Element(_), _) => false,
        }
    }

    /// The largest flow of this stage follows from any flow that is too much for it; a hose tells it only from
    /// nearby, and so does what stands behind something else.
    pub fn tells(&self, stage: Stage) -> bool {
        match stage {
            Stage::Feed => true,
            Stage::Element(index) => {
                self.is_own(stage) && matches!(self.elements.get(index), Some(Element::Restriction(_)))
            }
        }
    }

    fn input(&self, inlet: Point, mass_flow_kg_s: f64) -> FlowInput<'_, M> {
        FlowInput { medium: self.medium, method: self.method, mass_flow_kg_s, inlet }
    }

    /// How far a flow is from the largest that one stage passes; what is too much for an earlier
    /// stage is too much.
    fn room(&self, stage: Stage, mass_flow_kg_s: f64) -> Result<f64, FlowError> {
        let Stage::Element(last) = stage else {
            return self.feed.room(mass_flow_kg_s);
        };
        let mut inlet = match self.feed.at(self.medium, mass_flow_kg_s)? {
            Ok(inlet) => inlet,
            Err(choke) => return Ok(choke.room),
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
        let (mut next, mut found) = match bracket.told() {
            Some(told) => self.closer(&bracket, told, None)?,
            None => (up_to, None),
        };
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
                    if let Some(told) = bracket.told().filter(|_| bracket.is_narrow()) {
                        next = self.plateau_of(told.stage, &bracket, Below::Flow)?;
                        found = Some(told.stage);
                    }
                }
                // The march and the search for its end differ in the last digits: step aside.
                (March::Stuck { stage, .. }, Some(same)) if same == stage => {
                    next *= 1.0 - back_off;
                    back_off *= 4.0;
                }
                (March::Stuck { stage, choke, .. }, before) => {
                    let told = self.too_much(stage, &choke);
                    bracket.chokes(next, told);
                    (next, found) = self.closer(&bracket, told, before)?;
                }
            }
        }
        Ok(None)
    }

    /// The plateau of the stage that chokes at the bracket's upper end, with that stage, where it is likely
    /// to be the one that chokes first; else only a flow nearer to the largest.
    ///
    /// - `before`: the stage whose plateau that upper end is
    fn closer(
        &self,
        bracket: &FlowBracket,
        told: TooMuch,
        before: Option<Stage>,
    ) -> Result<(f64, Option<Stage>), FlowError> {
        let is_just_less = before.is_some() && told.room > -JUST_LESS;
        if !(self.tells(told.stage) || is_just_less || bracket.is_close()) {
            return Ok((bracket.after_choke(), None));
        }
        let below = if before.is_some() { Below::Plateau } else { Below::Flow };
        Ok((self.plateau_of(told.stage, bracket, below)?, Some(told.stage)))
    }

    /// What a choke tells of the largest flow.
    pub fn too_much(&self, stage: Stage, choke: &Choke) -> TooMuch {
        let inlet_ratio = match self.is_own(stage) {
            true => 1.0,
            false => (choke.flow.inlet_pressure_pa / self.feed.pressure_pa()).min(1.0),
        };
        TooMuch { room: choke.room, inlet_ratio, stage }
    }

    /// The flow at which one stage just chokes.
    fn plateau_of(&self, stage: Stage, bracket: &FlowBracket, below: Below) -> Result<f64, FlowError> {
        plateau(below, bracket, |flow| self.room(stage, flow))
    }
}
