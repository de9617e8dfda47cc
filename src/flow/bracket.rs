//! A search for a largest flow by trials that pass and trials that are too much.

/// A search for the largest flow from both sides.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlowBracket {
    /// It passes; zero where none is known.
    pub(super) low: f64,
    /// It is too much.
    pub(super) high: f64,
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
pub(super) const OWN_SLOPE: f64 = -1.0;
/// Behind other parts the inlet falls with the flow as well: about so much, until two flows tell.
const USUAL_SLOPE: f64 = -2.5;
/// Slopes that two flows may tell.
const SLOPES: std::ops::RangeInclusive<f64> = -12.0..=OWN_SLOPE;
/// Beside an estimate that is known nearly as well as the largest flow itself.
const ASIDE: f64 = 2e-3;
/// A bracket narrower than this share of the flow is narrow.
const NARROW: f64 = 0.1;
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
