//! Two branches that meet at one pressure, and how a flow splits between them.
//!
//! The unknown is the first branch's share: more of it lowers the pressure at which that branch
//! arrives and raises the other's, so their difference has one zero. Each look costs a march of
//! each branch. Flows are asked for one after another, so a search starts where what was seen of both
//! branches says that they meet. A branch's plateau is sought only where a search runs into it and the
//! answer may stand on it.

use std::cell::Cell;

use super::branch::{Branch, FIRST_FLOW_KG_S, HAIR, ON_PLATEAU};
use super::chain::{Chain, LargestFlow};
use super::error::FlowError;
use super::feed::Feed;
use super::medium::{Medium, Point};
use crate::numerics::{RootError, Tolerance, find_root};

/// Two branches that meet.
pub(super) struct Join<'a, M: Medium> {
    branches: [Branch<'a, M>; 2],
    last: Cell<Option<Meeting>>,
    /// The last one, be it rough.
    latest: Cell<Option<Meeting>>,
}

/// Where and how the branches meet.
#[derive(Debug, Clone, Copy)]
pub(super) struct Meeting {
    /// Of both branches together.
    pub mass_flow_kg_s: f64,
    /// The pressure where they meet.
    pub pressure_pa: f64,
    /// Each branch's flow.
    pub split_kg_s: [f64; 2],
    /// The plateau of a branch that stands on it.
    pub plateaus: [Option<LargestFlow>; 2],
}

/// What is asked: how a flow splits, to a share of itself.
#[derive(Debug, Clone, Copy)]
struct Asked {
    total_kg_s: f64,
    tolerance: f64,
}

/// What a split comes to.
enum Look {
    /// The branches meet.
    Meets(Meeting),
    /// They do not.
    Misses(Miss),
    /// Both together cannot pass so much.
    TooMuch,
}

/// A split at which the branches arrive at different pressures.
#[derive(Debug, Clone, Copy)]
struct Miss {
    first_kg_s: f64,
    first_pa: f64,
    /// The first branch's pressure less the second's.
    excess_pa: f64,
    /// How the excess changes with the first branch's flow, nearly; negative.
    slope: f64,
}

impl Miss {
    fn second_pa(&self) -> f64 {
        self.first_pa - self.excess_pa
    }
}

/// The branches meet where the split is right to this share of the flow, which is set right by the slopes.
const MEETING_TOLERANCE: f64 = 1e-7;
/// A rough split is right to this share of the flow, before it is set right by the slopes.
const ROUGH_TOLERANCE: f64 = 0.02;
/// A flow within this share of the last one splits as that did.
const SAME: f64 = 2e-9;
/// Rounds in which what was seen of both branches is brought together.
const TOLD_ROUNDS: usize = 8;
/// So much of what a branch told is tried before its plateau is sought.
const SHORT_OF: f64 = 0.98;
/// So many looks follow the slopes, before two that miss to either side bracket the split.
const NEWTON_LOOKS: usize = 4;
/// Looks before the search leaps instead of closing in.
const PATIENCE: usize = 6;

impl<'a, M: Medium> Join<'a, M> {
    /// Joins two branches.
    ///
    /// # Errors
    /// A branch without an element.
    pub fn new(chains: [Chain<'a, M>; 2]) -> Result<Self, FlowError> {
        if chains.iter().any(|chain| chain.elements.is_empty()) {
            return Err(FlowError::out_of_range("elements of a branch", 0.0, "at least one"));
        }
        let [first, second] = chains;
        let branches = [Branch::new(first)?, Branch::new(second)?];
        Ok(Self { branches, last: Cell::new(None), latest: Cell::new(None) })
    }

    /// The higher of the ports' pressures.
    pub fn start_pa(&self) -> f64 {
        self.branches[0].start_pa().max(self.branches[1].start_pa())
    }

    /// Quality at the first port.
    pub fn start_quality(&self) -> f64 {
        match &self.branches[0].chain.feed {
            Feed::Port(point) => point.quality,
            Feed::Joined(_) => 0.0,
        }
    }

    /// The highest pressure at which both branches may stand on their plateaus, as far as those are known.
    pub fn told_pa(&self) -> f64 {
        let known = self.branches.iter().filter_map(|branch| branch.known_largest());
        known.fold(self.start_pa(), |lowest, largest| lowest.min(largest.outlet_pressure_pa))
    }

    /// `ln(largest flow/flow)` of a flow that was too much, as its march told it: exact where both plateaus
    /// are known.
    pub fn told_room(&self, mass_flow_kg_s: f64) -> f64 {
        (self.told_kg_s() / mass_flow_kg_s).ln().min(-ON_PLATEAU)
    }

    /// The largest flow, as far as it is told; infinite where nothing was too much yet.
    fn told_kg_s(&self) -> f64 {
        self.branches.iter().map(Branch::told_kg_s).sum()
    }

    /// No more than this passes.
    fn bound_kg_s(&self) -> f64 {
        self.branches.iter().map(Branch::bound_kg_s).sum()
    }

    /// The branches, for their profiles.
    pub fn chains(&self) -> [&Chain<'a, M>; 2] {
        [&self.branches[0].chain, &self.branches[1].chain]
    }

    /// Both branches on their plateaus, at the highest pressure at which both are.
    pub fn fullest(&self) -> Result<Meeting, FlowError> {
        let largest =
            [self.branches[0].largest(FIRST_FLOW_KG_S)?, self.branches[1].largest(FIRST_FLOW_KG_S)?];
        Ok(Meeting {
            mass_flow_kg_s: largest[0].mass_flow_kg_s + largest[1].mass_flow_kg_s,
            pressure_pa: largest[0].outlet_pressure_pa.min(largest[1].outlet_pressure_pa),
            split_kg_s: largest.map(|l| l.mass_flow_kg_s),
            plateaus: largest.map(Some),
        })
    }

    /// The mixture where the branches meet.
    pub fn mixed(&self, medium: &M, meeting: &Meeting) -> Result<Point, FlowError> {
        let [a, b] = meeting.split_kg_s;
        let enthalpy = |i: usize| match &self.branches[i].chain.feed {
            Feed::Port(point) => point.enthalpy_j_kg,
            Feed::Joined(_) => 0.0,
        };
        let share = if a + b > 0.0 { a / (a + b) } else { 0.5 };
        Ok(medium.point(meeting.pressure_pa, share * enthalpy(0) + (1.0 - share) * enthalpy(1))?)
    }

    /// How a flow splits; none where it is more than both branches pass.
    pub fn meeting(&self, mass_flow_kg_s: f64) -> Result<Option<Meeting>, FlowError> {
        let is_same = |last: &Meeting| (last.mass_flow_kg_s - mass_flow_kg_s).abs() <= SAME * mass_flow_kg_s;
        if let Some(last) = self.last.get().filter(is_same) {
            return Ok(Some(last));
        }
        let found = self.search(Asked { total_kg_s: mass_flow_kg_s, tolerance: MEETING_TOLERANCE })?;
        if found.is_some() {
            self.last.set(found);
            self.latest.set(found);
        }
        Ok(found)
    }

    /// Roughly how a flow splits; none where it is more than both branches pass.
    pub fn rough_meeting(&self, mass_flow_kg_s: f64) -> Result<Option<Meeting>, FlowError> {
        let found = self.search(Asked { total_kg_s: mass_flow_kg_s, tolerance: ROUGH_TOLERANCE })?;
        self.latest.set(found.or(self.latest.get()));
        Ok(found)
    }

    /// Newton's steps until two splits lie on both sides, then the root between them.
    fn search(&self, asked: Asked) -> Result<Option<Meeting>, FlowError> {
        let total_kg_s = asked.total_kg_s;
        if total_kg_s == 0.0 {
            let rest_pa = self.branches[0].rest_pa.max(self.branches[1].rest_pa);
            return Ok(Some(self.met(0.0, 0.0, rest_pa)));
        }
        let mut first_kg_s = self.guess(total_kg_s);
        let mut before: Option<Miss> = None;
        for looks in 0..60 {
            let miss = match self.look(first_kg_s, asked)? {
                Look::TooMuch => return Ok(None),
                Look::Meets(meeting) => return Ok(Some(meeting)),
                Look::Misses(miss) => miss,
            };
            let apart = |other: &Miss| (other.excess_pa > 0.0) != (miss.excess_pa > 0.0);
            if let Some(other) = before.filter(|other| looks >= NEWTON_LOOKS && apart(other)) {
                return self.between(other, miss, asked);
            }
            let leap = if looks < PATIENCE { 1.0 } else { 4.0 };
            let next = miss.first_kg_s - leap * miss.excess_pa / miss.slope;
            first_kg_s = if next.is_nan() { 0.5 * total_kg_s } else { next.clamp(0.0, total_kg_s) };
            before = Some(miss);
        }
        Ok(before.map(|miss| self.met(total_kg_s, miss.first_kg_s, miss.first_pa)))
    }

    /// The split between two that miss to either side.
    fn between(&self, one: Miss, other: Miss, asked: Asked) -> Result<Option<Meeting>, FlowError> {
        let total_kg_s = asked.total_kg_s;
        let mut sides = if one.excess_pa > 0.0 { [one, other] } else { [other, one] };
        let mut found = None;
        let ends = [one, other].map(|miss| (miss.first_kg_s, miss.excess_pa));
        let tolerance = Tolerance { absolute: 1e-10 * total_kg_s, relative: 0.0, residual: 0.0 };
        let excess = |first_kg_s: f64| -> Result<f64, FlowError> {
            match self.look(first_kg_s, asked)? {
                Look::Misses(miss) => {
                    sides[usize::from(miss.excess_pa <= 0.0)] = miss;
                    Ok(miss.excess_pa)
                }
                Look::Meets(meeting) => {
                    found = Some(meeting);
                    Ok(0.0)
                }
                Look::TooMuch => Ok(0.0),
            }
        };
        match find_root(excess, ends[0], ends[1], tolerance) {
            Ok(_) | Err(RootError::NotBracketed { .. }) => {
                Ok(found.or_else(|| Some(self.met_between(total_kg_s, &sides))))
            }
            Err(RootError::Function(error)) => Err(error),
        }
    }

    /// The meeting between two splits a hair apart. Where one branch falls off so steeply that its
    /// pressure still differs between them, the other one's is the meeting's.
    fn met_between(&self, total_kg_s: f64, sides: &[Miss; 2]) -> Meeting {
        let apart = |pressure_pa: fn(&Miss) -> f64| (pressure_pa(&sides[0]) - pressure_pa(&sides[1])).abs();
        let nearest = if sides[0].excess_pa.abs() < sides[1].excess_pa.abs() { &sides[0] } else { &sides[1] };
        let is_first_flatter = apart(|miss| miss.first_pa) < apart(Miss::second_pa);
        let pressure_pa = if is_first_flatter { nearest.first_pa } else { nearest.second_pa() };
        self.met(total_kg_s, nearest.first_kg_s, pressure_pa)
    }

    /// The first branch's flow to begin with: what was seen of both branches tells, else the last share,
    /// or what is left of a plateau.
    fn guess(&self, total_kg_s: f64) -> f64 {
        let Some(last) = self.latest.get() else {
            // All that the first can pass: if the rest is too much for the second, the whole is.
            let bound_kg_s = self.branches[0].bound_kg_s() * (1.0 - HAIR);
            let first_kg_s = if bound_kg_s < total_kg_s { bound_kg_s } else { 0.5 * total_kg_s };
            return self.told(first_kg_s, total_kg_s).unwrap_or(first_kg_s);
        };
        let [first, second] = last.split_kg_s;
        let share = if first + second > 0.0 { first / (first + second) } else { 0.5 };
        self.told(share * total_kg_s, total_kg_s).unwrap_or_else(|| match last.plateaus {
            [Some(_), _] => first.min(total_kg_s),
            [None, Some(_)] => (total_kg_s - second).max(0.0),
            [None, None] => share * total_kg_s,
        })
    }

    /// Where both branches, below their plateaus, may arrive at one pressure by what was seen of them.
    fn told(&self, first_kg_s: f64, total_kg_s: f64) -> Option<f64> {
        let [first, second] = &self.branches;
        let mut at = first_kg_s;
        for _ in 0..TOLD_ROUNDS {
            let (one, other) = (first.seen.about(at)?, second.seen.about(total_kg_s - at)?);
            let next = at - (one.0 - other.0) / (one.1 + other.1);
            if !(next > 0.0 && next < total_kg_s) {
                return None;
            }
            let moved = (next - at).abs();
            at = next;
            if moved < 0.1 * MEETING_TOLERANCE * total_kg_s {
                break;
            }
        }
        (!first.is_full(at) && !second.is_full(total_kg_s - at)).then_some(at)
    }

    /// Marches both branches. One that cannot pass its share is set on its plateau instead.
    fn look(&self, first_kg_s: f64, asked: Asked) -> Result<Look, FlowError> {
        let total_kg_s = asked.total_kg_s;
        let split = [first_kg_s, total_kg_s - first_kg_s];
        let [first, second] = &self.branches;
        let (first_pa, second_pa) = match (first.arrives_pa(split[0])?, second.arrives_pa(split[1])?) {
            (Some(first_pa), Some(second_pa)) => (first_pa, second_pa),
            (None, None) => return Ok(Look::TooMuch),
            _ if self.bound_kg_s() < total_kg_s * (1.0 + 2.0 * HAIR) => return Ok(Look::TooMuch),
            (None, Some(_)) => return self.look_below(0, asked, split[0]),
            (Some(_), None) => return self.look_below(1, asked, split[1]),
        };
        Ok(self.judge(asked, split, [first_pa, second_pa]))
    }

    /// One branch cannot pass its share. A little short of what it told, it may turn out to have too much
    /// still: then its plateau is nothing to the answer.
    fn look_below(&self, stuck: usize, asked: Asked, flow_kg_s: f64) -> Result<Look, FlowError> {
        let total_kg_s = asked.total_kg_s;
        let branch = &self.branches[stuck];
        let first_kg_s = |own_kg_s: f64| if stuck == 0 { own_kg_s } else { total_kg_s - own_kg_s };
        let short_kg_s = SHORT_OF * branch.told_kg_s();
        if branch.known_largest().is_none() && short_kg_s < total_kg_s {
            let split = [first_kg_s(short_kg_s), total_kg_s - first_kg_s(short_kg_s)];
            let [first, second] = &self.branches;
            if let (Some(one_pa), Some(other_pa)) =
                (first.arrives_pa(split[0])?, second.arrives_pa(split[1])?)
                && (one_pa < other_pa) == (stuck == 0)
            {
                return Ok(self.judge(asked, split, [one_pa, other_pa]));
            }
        }
        let plateau_kg_s = branch.largest(flow_kg_s)?.mass_flow_kg_s;
        self.look_from_plateau(first_kg_s(plateau_kg_s), asked)
    }

    fn look_from_plateau(&self, first_kg_s: f64, asked: Asked) -> Result<Look, FlowError> {
        let split = [first_kg_s, asked.total_kg_s - first_kg_s];
        let [first, second] = &self.branches;
        Ok(match (first.arrives_pa(split[0])?, second.arrives_pa(split[1])?) {
            (Some(first_pa), Some(second_pa)) => self.judge(asked, split, [first_pa, second_pa]),
            _ => Look::TooMuch,
        })
    }

    /// Whether two arrivals are a meeting. A branch on its plateau, or one that passes nothing,
    /// need not arrive at the other's pressure.
    fn judge(&self, asked: Asked, split: [f64; 2], arrives_pa: [f64; 2]) -> Look {
        let total = asked.total_kg_s;
        let [first, second] = &self.branches;
        let excess_pa = arrives_pa[0] - arrives_pa[1];
        let first_gives_all = first.is_full(split[0]) || split[1] == 0.0;
        let second_gives_all = second.is_full(split[1]) || split[0] == 0.0;
        if excess_pa >= 0.0 && first_gives_all {
            let meeting_pa = if split[1] == 0.0 { arrives_pa[0] } else { arrives_pa[1] };
            return Look::Meets(self.met(total, split[0], meeting_pa));
        }
        if excess_pa <= 0.0 && second_gives_all {
            let meeting_pa = if split[0] == 0.0 { arrives_pa[1] } else { arrives_pa[0] };
            return Look::Meets(self.met(total, split[0], meeting_pa));
        }
        let first_slope = first.slope(split[0], arrives_pa[0]);
        let slope = first_slope + second.slope(split[1], arrives_pa[1]);
        // The rest is as good as straight.
        let aside = if excess_pa == 0.0 { 0.0 } else { -excess_pa / slope };
        let is_near = excess_pa.abs() <= asked.tolerance * total * slope.abs();
        if is_near && (0.0..=total).contains(&(split[0] + aside)) {
            return Look::Meets(self.met(total, split[0] + aside, arrives_pa[0] + first_slope * aside));
        }
        Look::Misses(Miss { first_kg_s: split[0], first_pa: arrives_pa[0], excess_pa, slope })
    }

    fn met(&self, mass_flow_kg_s: f64, first_kg_s: f64, pressure_pa: f64) -> Meeting {
        let split_kg_s = [first_kg_s, mass_flow_kg_s - first_kg_s];
        let plateau = |i: usize| self.branches[i].plateau_at(split_kg_s[i]);
        Meeting { mass_flow_kg_s, pressure_pa, split_kg_s, plateaus: [plateau(0), plateau(1)] }
    }
}
