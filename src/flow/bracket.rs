//! A search for a largest flow by trials that pass and trials that are too much.

use super::chain::Stage;

/// A flow that is too much for a part of the path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TooMuch {
    /// `ln(largest flow/flow)` of that part from the inlet it has now, negative. A later part may pass
    /// still less.
    pub room: f64,
    /// The pressure at its inlet over the source's: 1 where that does not depend on the flow.
    pub(super) inlet_ratio: f64,
    pub(super) stage: Stage,
}

impl TooMuch {
    /// Its inlet does not depend on the flow, so that the room is all there is to know.
    pub(super) fn is_own(&self) -> bool {
        self.inlet_ratio == 1.0
    }

    /// About `ln(largest flow/flow)` with the inlet that the largest flow has.
    ///
    /// Squares of pressures fall by the square of the flow, `p² = p0² − k m²`, and what a part passes goes
    /// with its inlet's pressure: with `q = p/p0` and `e = e^room` now,
    /// `(largest/flow)² = e²/(q² + e² (1 − q²))`. Exact for a gas but for its compressibility and what
    /// friction changes with the flow.
    fn about(&self) -> f64 {
        let room = self.room.clamp(-20.0, 0.0);
        let (q2, e2) = (self.inlet_ratio.powi(2), (2.0 * room).exp());
        room - 0.5 * (q2 + e2 * (1.0 - q2)).ln()
    }
}

/// A search for the largest flow from both sides.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlowBracket {
    /// It passes; zero where none is known.
    pub(super) low: f64,
    /// It is too much.
    pub(super) high: f64,
    /// What the last flow that was too much told.
    told: Option<Told>,
    /// So much more than a flow that passes is tried next.
    stride: f64,
}

/// Where a flow that is too much puts the largest one.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Told {
    too_much: TooMuch,
    log_flow: f64,
    /// The logarithm of the largest flow by this one alone.
    log_largest: f64,
    /// The same by this one and the one before.
    log_estimate: f64,
}

/// How what one flow puts as the largest changes with that flow: slopes that two flows may tell.
const SLOPES: (f64, f64) = (-4.0, 0.7);
/// What a choke tells is seldom further off than this.
const FIRST_STRIDE: f64 = 0.04;
/// Beside an estimate that is known nearly as well as the largest flow itself.
const ASIDE: f64 = 2e-3;
/// A bracket narrower than this share of the flow is narrow.
const NARROW: f64 = 0.1;
/// This close, the part that is told of is most likely the one that chokes first.
const CLOSE: f64 = 0.05;

impl FlowBracket {
    /// A search below a flow that may be too much.
    pub fn below(high_kg_s: f64) -> Self {
        Self { low: 0.0, high: high_kg_s, told: None, stride: FIRST_STRIDE }
    }

    /// Between two flows so close together that the part that chokes at the upper one is most
    /// likely the one that chokes first.
    pub fn is_narrow(&self) -> bool {
        self.high - self.low < NARROW * self.high
    }

    /// The last flow that was too much was so by little: the same, though none that passes is near.
    pub fn is_close(&self) -> bool {
        self.is_narrow() || self.about().is_some_and(|about| about < CLOSE)
    }

    /// The lowest flow known to be too much.
    pub fn too_much_kg_s(&self) -> f64 {
        self.high
    }

    /// What that flow is too much for, once one was tried.
    pub(super) fn told(&self) -> Option<TooMuch> {
        self.told.map(|told| told.too_much)
    }

    /// About how far below the upper end the largest flow lies, as the logarithm of the two.
    pub(super) fn about(&self) -> Option<f64> {
        self.told.map(|told| told.log_flow - told.log_estimate)
    }

    /// `flow` passes: the next one to try, a little higher.
    pub fn passes(&mut self, flow: f64) -> f64 {
        self.low = flow;
        let stride = self.stride;
        self.stride *= 3.0;
        self.news(1.0 + ASIDE).unwrap_or_else(|| self.halfway().min((1.0 + stride) * flow))
    }

    /// `flow` is too much: the next one to try.
    pub fn chokes(&mut self, flow: f64, too_much: TooMuch) -> f64 {
        self.high = flow;
        let log_flow = flow.ln();
        let log_largest = log_flow + too_much.about();
        let same = self.told.filter(|last| last.too_much.stage == too_much.stage);
        let log_estimate = match same {
            Some(last) if !too_much.is_own() => {
                let slope = (log_largest - last.log_largest) / (log_flow - last.log_flow);
                let slope = if slope.is_nan() { 0.0 } else { slope.clamp(SLOPES.0, SLOPES.1) };
                // Where a flow puts the largest at itself.
                (log_largest - slope * log_flow) / (1.0 - slope)
            }
            _ => log_largest,
        };
        self.told = Some(Told { too_much, log_flow, log_largest, log_estimate });
        self.after_choke()
    }

    /// What `chokes` told to try next.
    pub(super) fn after_choke(&self) -> f64 {
        self.news(1.0 - ASIDE).unwrap_or_else(|| self.halfway())
    }

    fn halfway(&self) -> f64 {
        if self.low > 0.0 { (self.low * self.high).sqrt() } else { 0.25 * self.high }
    }

    /// What the last choke told, where that is between the ends.
    fn news(&self, beside: f64) -> Option<f64> {
        let told = self.told?;
        let is_own = told.too_much.is_own();
        let share = if is_own || self.low == 0.0 { beside } else { 1.0 };
        let aside = if is_own { 0.5 * ASIDE } else { 5.0 * ASIDE };
        let estimate = share * told.log_estimate.exp();
        (estimate > self.low * (1.0 + aside) && estimate < self.high).then_some(estimate)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A gas through friction and a choked hole, `m = C p` with `p² = p0² − k m²`: the largest flow is
    /// `C p0/√(1 + C² k)`, and any flow that is too much tells it.
    #[test]
    fn a_choke_behind_friction_tells_the_largest_flow_at_once() {
        let (c, k, p0) = (2e-8, 3e15, 1e6_f64);
        let largest = c * p0 / (1.0 + c * c * k).sqrt();
        for flow in [1.05 * largest, 1.3 * largest] {
            let inlet = (p0 * p0 - k * flow * flow).sqrt();
            let room = (c * inlet / flow).ln();
            let too_much = TooMuch { room, inlet_ratio: inlet / p0, stage: Stage::Element(1) };
            let mut bracket = FlowBracket::below(flow);
            let next = bracket.chokes(flow, too_much);
            assert!((next / largest - (1.0 - ASIDE)).abs() < 1e-12, "{next} {largest}");
            assert!((bracket.about().unwrap() - (flow / largest).ln()).abs() < 1e-12);
        }
    }

    /// Two flows tell what one alone does not: here the largest is 1, and each flow puts it too low.
    #[test]
    fn two_flows_correct_each_other() {
        let told = |flow: f64| TooMuch {
            room: -1.5 * flow.ln(),
            inlet_ratio: 1.0 - 1e-12,
            stage: Stage::Element(1),
        };
        let mut bracket = FlowBracket::below(2.0);
        let next = bracket.chokes(2.0, told(2.0));
        assert!((next - 2.0 * 2.0_f64.powf(-1.5) * (1.0 - ASIDE)).abs() < 1e-9, "{next}");
        let next = bracket.chokes(1.5, told(1.5));
        assert!((next - (1.0 - ASIDE)).abs() < 1e-9, "{next}");
    }
}
