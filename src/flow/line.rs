//! A path on its source: how much arrives at which pressure, and where the pressure is lost.

use super::bracket::{FlowBracket, TooMuch};
use super::chain::{Chain, LargestFlow, March, Stage};
use super::element::{ElementFlow, Method};
use super::error::FlowError;
use super::feed::Feed;
use super::join::Join;
use super::medium::{Medium, Point};
use super::path::{Path, PathPart};
use crate::numerics::{RootError, Tolerance, find_root};

/// A path ready to be asked.
pub struct Line<'a, M: Medium> {
    chain: Chain<'a, M>,
    /// Element counts of the parts after the branches meet.
    shared: Vec<usize>,
    /// Element counts of each branch's own parts.
    own: Option<[Vec<usize>; 2]>,
}

/// What each part of the path does with the flow, in the path's order.
#[derive(Debug, Clone, PartialEq)]
pub struct Profile {
    /// The first branch's parts and the shared ones.
    pub parts: Vec<PartFlow>,
    /// The second branch.
    pub second: Option<BranchFlow>,
    /// Total enthalpy at the end.
    pub outlet_enthalpy_j_kg: f64,
}

/// The second branch and the split.
#[derive(Debug, Clone, PartialEq)]
pub struct BranchFlow {
    /// Its parts.
    pub parts: Vec<PartFlow>,
    /// Its share of the flow.
    pub mass_flow_kg_s: f64,
    /// The first branch's share.
    pub first_mass_flow_kg_s: f64,
}

/// A flow through one part: its elements in order. A part without elements has none.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PartFlow {
    /// What each element does.
    pub elements: Vec<ElementFlow>,
}

/// The flow at the end of the path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Arrival {
    /// It arrives in this state at rest.
    Arrives(Point),
    /// The path cannot pass so much.
    TooMuch(TooMuch),
}

impl<'a, M: Medium> Line<'a, M> {
    /// Puts a path on its source.
    ///
    /// - `first`, `second`: the state at rest at each branch's port
    ///
    /// # Errors
    /// One of two branches has no element.
    pub fn new(
        medium: &'a M,
        method: Method,
        path: &Path,
        first: Point,
        second: Point,
    ) -> Result<Self, FlowError> {
        let chain = |point: Point, parts: &[PathPart]| Chain {
            medium,
            method,
            feed: Feed::Port(point),
            elements: parts.iter().flat_map(|part| part.elements.iter().copied()).collect(),
        };
        let counts = |parts: &[PathPart]| parts.iter().map(|part| part.elements.len()).collect::<Vec<_>>();
        let Some(branch) = &path.second else {
            return Ok(Self { chain: chain(first, &path.parts), shared: counts(&path.parts), own: None });
        };
        let (own, shared) = path.parts.split_at(branch.joins_before);
        let join = Join::new([chain(first, own), chain(second, &branch.parts)])?;
        let mut trunk = chain(first, shared);
        trunk.feed = Feed::Joined(Box::new(join));
        Ok(Self { chain: trunk, shared: counts(shared), own: Some([counts(own), counts(&branch.parts)]) })
    }

    /// Pressure of the source.
    pub fn source_pressure_pa(&self) -> f64 {
        self.chain.feed.pressure_pa()
    }

    /// The state at the end of the path with this flow.
    ///
    /// # Errors
    /// The refrigerant's range was left.
    pub fn arrival(&self, mass_flow_kg_s: f64) -> Result<Arrival, FlowError> {
        Ok(self.arrived(&self.chain.march(mass_flow_kg_s)?))
    }

    /// The same, sooner where the flow is far too much: then how branches split it is not followed to the
    /// last digit.
    ///
    /// # Errors
    /// The refrigerant's range was left.
    pub fn arrival_unless_far(&self, mass_flow_kg_s: f64) -> Result<Arrival, FlowError> {
        Ok(self.arrived(&self.chain.march_unless_far(mass_flow_kg_s)?))
    }

    fn arrived(&self, march: &March) -> Arrival {
        match march {
            March::Through { outlet, .. } => Arrival::Arrives(*outlet),
            March::Stuck { stage, choke, .. } => Arrival::TooMuch(self.chain.too_much(*stage, choke)),
        }
    }

    /// The largest flow, if it is less than `up_to_kg_s`.
    ///
    /// # Errors
    /// The refrigerant's range was left.
    pub fn largest_flow(&self, up_to_kg_s: f64) -> Result<Option<LargestFlow>, FlowError> {
        self.chain.largest_flow(up_to_kg_s)
    }

    /// The largest flow, if it is less than the upper end of a search that has begun.
    ///
    /// # Errors
    /// The refrigerant's range was left.
    pub fn largest_flow_within(&self, bracket: FlowBracket) -> Result<Option<LargestFlow>, FlowError> {
        self.chain.largest_flow_within(bracket)
    }

    /// Total enthalpy of what leaves with this flow.
    ///
    /// # Errors
    /// The refrigerant's range was left.
    pub fn outlet_enthalpy_j_kg(&self, mass_flow_kg_s: f64) -> Result<f64, FlowError> {
        self.chain.feed.enthalpy_j_kg(self.chain.medium, mass_flow_kg_s)
    }

    /// Every part's pressures for a flow that ends at `end_pa`; none where it ends wherever it arrives.
    ///
    /// Up to the first choked element the flow alone decides; after it the pressures hang from the
    /// end, and the pressure that chokes drop in the throat.
    ///
    /// # Errors
    /// The refrigerant's range was left.
    pub fn profile(
        &self,
        mass_flow_kg_s: f64,
        end_pa: Option<f64>,
        largest: Option<&LargestFlow>,
    ) -> Result<Profile, FlowError> {
        let choked = largest.filter(|l| mass_flow_kg_s >= l.mass_flow_kg_s * (1.0 - 1e-7)).map(|l| l.stage);
        let flows = settled(&self.chain, mass_flow_kg_s, end_pa, choked)?;
        let outlet_enthalpy_j_kg = self.outlet_enthalpy_j_kg(mass_flow_kg_s)?;
        let mut parts = group(&flows, &self.shared);
        let mut second = None;
        if let (Feed::Joined(join), Some([first_counts, second_counts])) = (&self.chain.feed, &self.own) {
            let meeting_pa = flows.first().map(|flow| flow.inlet_pressure_pa).or(end_pa);
            let meeting = match join.meeting(mass_flow_kg_s)? {
                Some(meeting) => meeting,
                None => join.fullest()?,
            };
            let split = meeting.split_kg_s;
            let own = |i: usize| {
                settled(
                    join.chains()[i],
                    split[i],
                    meeting_pa,
                    meeting.plateaus[i].map(|plateau| plateau.stage),
                )
            };
            let (first_flows, second_flows) = (own(0)?, own(1)?);
            let mut all = group(&first_flows, first_counts);
            all.append(&mut parts);
            parts = all;
            second = Some(BranchFlow {
                parts: group(&second_flows, second_counts),
                mass_flow_kg_s: split[1],
                first_mass_flow_kg_s: split[0],
            });
        }
        Ok(Profile { parts, second, outlet_enthalpy_j_kg })
    }
}

/// Hands the elements' flows back to their parts.
fn group(flows: &[ElementFlow], counts: &[usize]) -> Vec<PartFlow> {
    let mut rest = flows;
    counts
        .iter()
        .map(|&count| {
            let (mine, others) = rest.split_at(count.min(rest.len()));
            rest = others;
            PartFlow { elements: mine.to_vec() }
        })
        .collect()
}

/// The flows of a chain whose end stands at `end_pa`, with the stage that chokes if one does.
fn settled<M: Medium>(
    chain: &Chain<'_, M>,
    mass_flow_kg_s: f64,
    end_pa: Option<f64>,
    choked: Option<Stage>,
) -> Result<Vec<ElementFlow>, FlowError> {
    // A hair less than the plateau passes everywhere, so the march shows the pressures at the choke.
    let marched_flow = if choked.is_some() { mass_flow_kg_s * (1.0 - 1e-9) } else { mass_flow_kg_s };
    let mut flows = match chain.march(marched_flow)? {
        March::Through { flows, .. } => flows,
        March::Stuck { mut flows, choke, .. } => {
            flows.push(choke.flow);
            flows
        }
    };
    let ends_at = |flow: &mut ElementFlow, pressure_pa: f64| -> Result<(), FlowError> {
        let enthalpy = chain.feed.enthalpy_j_kg(chain.medium, mass_flow_kg_s)?;
        flow.outlet_pressure_pa = pressure_pa;
        flow.outlet_quality = chain.medium.point(pressure_pa, enthalpy)?.quality;
        Ok(())
    };
    let (Some(mut stage), Some(end_pa)) = (choked, end_pa) else {
        // Where a hair more flow arrives at a clearly lower pressure, the end stands between the two.
        if let (Some(last), Some(end_pa)) = (flows.last_mut(), end_pa)
            && last.outlet_pressure_pa != end_pa
        {
            ends_at(last, end_pa)?;
        }
        return Ok(flows);
    };
    loop {
        let next = stage.next();
        flows.truncate(next);
        if let Stage::Element(index) = stage {
            flows[index].choked = true;
        }
        let (tail, inlet_pa, again) = free_tail(chain, next, &flows, mass_flow_kg_s, end_pa)?;
        if let Stage::Element(index) = stage {
            ends_at(&mut flows[index], inlet_pa)?;
        }
        flows.extend(tail);
        match again {
            Some(later) => stage = later,
            None => return Ok(flows),
        }
    }
}

/// The elements after a choke: their inlet pressure is whatever brings them to `end_pa`. If one of
/// them chokes before that, its stage is named and the search goes on behind it.
fn free_tail<M: Medium>(
    chain: &Chain<'_, M>,
    first: usize,
    before: &[ElementFlow],
    mass_flow_kg_s: f64,
    end_pa: f64,
) -> Result<(Vec<ElementFlow>, f64, Option<Stage>), FlowError> {
    if first >= chain.elements.len() {
        return Ok((Vec::new(), end_pa, None));
    }
    let enthalpy = chain.feed.enthalpy_j_kg(chain.medium, mass_flow_kg_s)?;
    let top_pa = match before.last() {
        Some(flow) => flow.outlet_pressure_pa,
        None => match chain.feed.at(chain.medium, mass_flow_kg_s)? {
            Ok(point) => point.pressure_pa,
            Err(choke) => choke.flow.outlet_pressure_pa,
        },
    };
    let march = |inlet_pa: f64| -> Result<March, FlowError> {
        let inlet = chain.medium.point(inlet_pa, enthalpy)?;
        chain.march_from(first, inlet, mass_flow_kg_s)
    };
    let excess = |inlet_pa: f64| -> Result<f64, FlowError> {
        Ok(match march(inlet_pa)? {
            March::Through { outlet, .. } => outlet.pressure_pa - end_pa,
            March::Stuck { choke, .. } => -end_pa * (1.0 - choke.room),
        })
    };
    let tolerance = Tolerance { absolute: 0.0, relative: 1e-9, residual: 1e-8 * end_pa };
    // A hose that falls may gain pressure: then its inlet stands below the end.
    let mut low = (end_pa, excess(end_pa)?);
    while low.1 > 0.0 && 0.7 * low.0 > chain.medium.lowest_pressure_pa() {
        low = (0.7 * low.0, excess(0.7 * low.0)?);
    }
    let root = find_root(excess, low, (top_pa, excess(top_pa)?), tolerance);
    let (inlet_pa, below_pa) = match root {
        Ok(root) => (root.upper(), root.lower()),
        Err(RootError::NotBracketed { .. }) => (top_pa, end_pa),
        Err(RootError::Function(error)) => return Err(error),
    };
    match march(inlet_pa)? {
        March::Through { outlet, flows } => {
            let misses = outlet.pressure_pa - end_pa > 1e-5 * end_pa;
            let again = match (misses, march(below_pa)?) {
                (true, March::Stuck { stage, .. }) => Some(stage),
                _ => None,
            };
            Ok((flows, inlet_pa, again))
        }
        March::Stuck { stage, choke, mut flows } => {
            flows.push(choke.flow);
            Ok((flows, inlet_pa, Some(stage)))
        }
    }
}
