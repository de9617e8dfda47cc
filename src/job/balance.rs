//! Where the path's curve meets the machine's.
//!
//! The unknown is the mass flow. The path says at which pressure a flow arrives; the machine says
//! how much it draws from that pressure against the discharge that this flow needs. The difference
//! falls steadily with the flow, so there is one crossing. On the path's plateau the crossing is
//! found in pressure instead: the machine pulls its inlet down until it draws just the plateau.

use uom::si::f64::Ratio;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::kelvin;

use super::discharge::{Discharge, DischargeSide};
use super::error::JobError;
use super::setup::{Port, Setup, Source};
use crate::flow::{Arrival, Element, FlowBracket, LargestFlow, Line, Medium, Path, PathPart, Point, TooMuch};
use crate::fluid::Refrigerant;
use crate::machine::{MachineError, Suction};
use crate::numerics::{RootError, Tolerance, find_root};

/// Path and machine of a setup at one speed.
pub(super) struct Balance<'a> {
    pub setup: &'a Setup,
    pub line: Line<'a, Refrigerant>,
    pub discharge: DischargeSide<'a>,
    pub source: Point,
    pub speed_ratio: f64,
    /// Machines that draw through the one path, each with its own throttle and discharge.
    pub sharing: f64,
}

/// The crossing.
#[derive(Debug, Clone, Copy)]
pub(super) struct Crossing {
    pub mass_flow_kg_s: f64,
    pub suction: Suction,
    pub discharge: Discharge,
    /// The plateau that limits the flow, if one does.
    pub largest: Option<LargestFlow>,
}

/// What came of a flow.
enum Meeting {
    /// The machine would draw so much more than arrives.
    Excess(f64),
    /// The path cannot pass it.
    TooMuch(TooMuch),
}

/// Where the search for the crossing may go on. Ends are pairs of flow and excess.
enum Closed {
    /// Between two flows that pass.
    Crossing { low: (f64, f64), high: (f64, f64) },
    /// At the plateau.
    Plateau { low: (f64, f64), bracket: FlowBracket },
}

/// A machine that draws so much more than flows is at no crossing.
const STEP_RATIO: f64 = 1e-4;
/// One that draws so much less is at none either; by less, the inlet is known better by what arrives.
const SHORT_RATIO: f64 = 1e-3;
/// So much more at least is tried where a flow arrives and is not enough.
const RAISED_RATIO: f64 = 1e-3;
/// A machine that draws less than this share of the flow draws nothing.
const LEAST_DRAWN_RATIO: f64 = 1e-9;
/// Less than this, 30 mg a year, is no flow: what is lifted stands where the machine draws nothing from it.
const NO_FLOW_BELOW_KG_S: f64 = 1e-12;
/// The crossing is found to this share of the flow.
const FLOW_TOLERANCE: f64 = 1e-7;

impl<'a> Balance<'a> {
    pub fn new(setup: &'a Setup) -> Result<Self, JobError> {
        let first = port_state(setup, setup.source.first)?;
        let second = port_state(setup, setup.source.second)?;
        let sharing = setup.machines.on_one_path();
        let path = with_throttles(setup, &setup.path, sharing)?;
        let line = Line::new(&*setup.refrigerant, setup.method, &path, first, second)?;
        let discharge = DischargeSide::new(setup)?;
        Ok(Self { setup, line, discharge, source: first, speed_ratio: 1.0, sharing: f64::from(sharing) })
    }

    /// Finds the crossing.
    pub fn cross(&self) -> Result<Crossing, JobError> {
        let open = self.drawn(self.source, 0.0)?;
        if open.0 <= 0.0 {
            return Err(self.draws_nothing(self.source.pressure_pa, &open.1, &open.2));
        }
        let (low, bracket) = match self.close_in(open.0)? {
            Closed::Crossing { low, high } => return self.between(self.on_the_curve(low, high)?, high),
            Closed::Plateau { low, bracket } => (low, bracket),
        };
        let Some(largest) = self.line.largest_flow_within(bracket)? else {
            return Err(JobError::BelowTable { floor_pa: self.setup.refrigerant.lowest_pressure_pa() });
        };
        let plateau = largest.mass_flow_kg_s;
        let enthalpy = self.line.outlet_enthalpy_j_kg(plateau)?;
        let arriving = self.setup.refrigerant.point(largest.outlet_pressure_pa, enthalpy)?;
        let excess = self.would_draw(arriving, plateau)? - plateau;
        if excess < 0.0 { self.between(low, (plateau, excess)) } else { self.on_plateau(largest, enthalpy) }
    }

    fn draws_nothing(&self, system_pa: f64, suction: &Suction, discharge: &Discharge) -> JobError {
        let compressor = &self.setup.machine.compressor;
        let ultimate_pa = compressor.ultimate_suction_pa(suction.exponent, discharge.pressure_pa);
        JobError::DrawsNothing { system_pa, discharge_pa: discharge.pressure_pa, ultimate_pa }
    }

    /// Flows on both sides of the crossing if the path passes one that is more than the machine
    /// draws, else the neighbourhood of the plateau. The plateau itself costs many marches and is not
    /// needed where the crossing lies clearly below it.
    ///
    /// - `open_kg_s`: what the machine would draw at the port
    fn close_in(&self, open_kg_s: f64) -> Result<Closed, JobError> {
        let (mut low, mut next) = ((0.0, open_kg_s), open_kg_s);
        let (mut bracket, first) = loop {
            match self.meets(next)? {
                Meeting::Excess(excess) if excess <= 0.0 => {
                    return Ok(Closed::Crossing { low, high: (next, excess) });
                }
                // A hose that falls brings more pressure than the port has.
                Meeting::Excess(excess) => {
                    low = (next, excess);
                    next += excess.max(RAISED_RATIO * next);
                }
                Meeting::TooMuch(too_much) => {
                    let mut bracket = FlowBracket::below(next);
                    let first = bracket.chokes(next, too_much);
                    break (bracket, first);
                }
            }
        };
        next = first;
        for _ in 0..60 {
            let wants_more = low.0 > 0.0 && low.0 + low.1 > bracket.too_much_kg_s();
            if bracket.is_narrow() || (wants_more && bracket.is_close()) {
                break;
            }
            match self.meets_unless_far(next)? {
                Meeting::Excess(excess) if excess <= 0.0 => {
                    return Ok(Closed::Crossing { low, high: (next, excess) });
                }
                Meeting::Excess(excess) => {
                    low = (next, excess);
                    // More flow lowers the inlet's pressure, so the crossing is below what the
                    // machine draws now.
                    next = bracket.passes(next).min(next + excess);
                }
                Meeting::TooMuch(too_much) => next = bracket.chokes(next, too_much),
            }
        }
        Ok(Closed::Plateau { low, bracket })
    }

    /// A lower end that lies on the curve. What the machine would draw at the first port does not, where
    /// the ports hold different phases: but it draws the more, the less flows, so never less at the
    /// crossing than at a flow above it.
    fn on_the_curve(&self, low: (f64, f64), high: (f64, f64)) -> Result<(f64, f64), JobError> {
        let drawn_kg_s = high.0 + high.1;
        let source = &self.setup.source;
        let holds_both = self.setup.path.second.is_some() && source.first != source.second;
        if low.0 > 0.0 || !holds_both || !(drawn_kg_s > 0.0) {
            return Ok(low);
        }
        Ok(match self.meets(drawn_kg_s)? {
            Meeting::Excess(excess) if excess > 0.0 => (drawn_kg_s, excess),
            _ => low,
        })
    }

    /// The crossing below a flow at which the machine draws less than arrives.
    ///
    /// Squares of pressures fall by the square of the flow, and what a machine draws goes with its inlet's
    /// pressure: over the flow's square the difference of the squares is nearly straight.
    fn between(&self, low: (f64, f64), high: (f64, f64)) -> Result<Crossing, JobError> {
        let squares = |flow: f64, excess: f64| match excess.abs() <= FLOW_TOLERANCE * flow {
            true => 0.0,
            false => excess * (2.0 * flow + excess),
        };
        let difference = |square: f64| -> Result<f64, JobError> {
            let flow = square.sqrt();
            Ok(match self.meets(flow)? {
                Meeting::Excess(excess) => squares(flow, excess),
                Meeting::TooMuch(_) => -square,
            })
        };
        let end = |(flow, excess): (f64, f64)| (flow * flow, squares(flow, excess));
        let tolerance = Tolerance::relative(2.0 * FLOW_TOLERANCE);
        let (flow, below, above) = match find_root(difference, end(low), end(high), tolerance) {
            Ok(root) => (root.x.sqrt(), root.lower().sqrt(), root.upper().sqrt()),
            Err(RootError::NotBracketed { .. }) => (high.0, high.0, high.0),
            Err(RootError::Function(error)) => return Err(error),
        };
        let arriving = match self.line.arrival(flow)? {
            Arrival::Arrives(point) => point,
            Arrival::TooMuch(_) => self.source,
        };
        let (drawn, mut suction, mut discharge) = self.drawn(arriving, flow)?;
        if flow < NO_FLOW_BELOW_KG_S {
            return Err(self.draws_nothing(arriving.pressure_pa, &suction, &discharge));
        }
        let is_off = drawn > flow * (1.0 + STEP_RATIO) || drawn < flow * (1.0 - SHORT_RATIO);
        if is_off
            && below < above
            && let (Arrival::Arrives(higher), Arrival::Arrives(lower)) =
                (self.line.arrival(below)?, self.line.arrival(above)?)
        {
            (suction, discharge) = self.on_step((below, higher), (above, lower))?;
        }
        Ok(Crossing { mass_flow_kg_s: flow, suction, discharge, largest: None })
    }

    /// No crossing but a step: a hair more flow, and the machine draws clearly less than that. Either it
    /// cannot be condensed, or it arrives at a lower pressure, and the inlet settles between the two.
    fn on_step(&self, here: (f64, Point), above: (f64, Point)) -> Result<(Suction, Discharge), JobError> {
        let (_, _, too_much) = self.drawn(above.1, above.0)?;
        let (flow, arriving) = here;
        match self.settles(flow, arriving.enthalpy_j_kg, arriving.pressure_pa, above.1.pressure_pa)? {
            Some(settled) => Ok(settled),
            None => Err(cannot_condense(&self.drawn(arriving, flow)?.2, &too_much)),
        }
    }

    /// The machine draws all that the path passes: its inlet falls until it draws no more than that.
    fn on_plateau(&self, largest: LargestFlow, enthalpy: f64) -> Result<Crossing, JobError> {
        let flow = largest.mass_flow_kg_s;
        let floor_pa = self.setup.refrigerant.lowest_pressure_pa();
        match self.settles(flow, enthalpy, largest.outlet_pressure_pa, floor_pa * 1.000_001)? {
            Some((suction, discharge)) => {
                Ok(Crossing { mass_flow_kg_s: flow, suction, discharge, largest: Some(largest) })
            }
            None => Err(JobError::BelowTable { floor_pa }),
        }
    }

    /// The inlet at which the machine draws this flow, between a pressure at which it would draw more
    /// and one at which it should draw less; none if it does not.
    fn settles(
        &self,
        flow: f64,
        enthalpy: f64,
        high_pa: f64,
        low_pa: f64,
    ) -> Result<Option<(Suction, Discharge)>, JobError> {
        let refrigerant = &*self.setup.refrigerant;
        let excess = |log_pa: f64| -> Result<f64, JobError> {
            let point = refrigerant.point(log_pa.exp(), enthalpy)?;
            Ok((self.would_draw(point, flow)? / flow).max(LEAST_DRAWN_RATIO).ln())
        };
        let (high, floor) = (high_pa.ln(), low_pa.ln());
        let at_high = excess(high)?.max(1e-12);
        // It draws by volume: what it draws falls at least as fast as the pressure.
        let near = (high - 1.01 * at_high - 1e-6).max(floor);
        let mut low = (near, excess(near)?);
        if low.1 > 0.0 {
            low = (floor, excess(floor)?);
        }
        let tolerance = Tolerance { absolute: 1e-9, relative: 0.0, residual: FLOW_TOLERANCE };
        let root = match find_root(excess, (high, at_high), low, tolerance) {
            Ok(root) => root,
            Err(RootError::NotBracketed { .. }) => return Ok(None),
            Err(RootError::Function(error)) => return Err(error),
        };
        let at = |log_pa: f64| self.drawn(refrigerant.point(log_pa.exp(), enthalpy)?, flow);
        let (drawn, suction, discharge) = at(root.x)?;
        if drawn > flow * (1.0 + STEP_RATIO) {
            // A step here too: just below, nothing can be condensed any more.
            return Err(cannot_condense(&discharge, &at(root.other_side)?.2));
        }
        Ok(Some((suction, discharge)))
    }

    /// What the machine would draw more than arrives, where the path can pass so much.
    fn meets(&self, mass_flow_kg_s: f64) -> Result<Meeting, JobError> {
        self.meeting(self.line.arrival(mass_flow_kg_s)?, mass_flow_kg_s)
    }

    /// The same, sooner where the path cannot pass nearly so much.
    fn meets_unless_far(&self, mass_flow_kg_s: f64) -> Result<Meeting, JobError> {
        self.meeting(self.line.arrival_unless_far(mass_flow_kg_s)?, mass_flow_kg_s)
    }

    fn meeting(&self, arrival: Arrival, mass_flow_kg_s: f64) -> Result<Meeting, JobError> {
        Ok(match arrival {
            Arrival::Arrives(point) => {
                Meeting::Excess(self.would_draw(point, mass_flow_kg_s)? - mass_flow_kg_s)
            }
            Arrival::TooMuch(too_much) => Meeting::TooMuch(too_much),
        })
    }

    /// What the machine would draw at a flow that is only tried: nothing where it could not be
    /// condensed, since no discharge pressure would be high enough.
    fn would_draw(&self, point: Point, mass_flow_kg_s: f64) -> Result<f64, JobError> {
        match self.drawn(point, mass_flow_kg_s) {
            Ok((drawn, ..)) => Ok(drawn),
            Err(JobError::Machine(MachineError::CannotCondense { .. })) => Ok(0.0),
            Err(error) => Err(error),
        }
    }

    /// What the machines draw from a state, against the discharge that their shares of a flow need.
    pub fn drawn(&self, point: Point, mass_flow_kg_s: f64) -> Result<(f64, Suction, Discharge), JobError> {
        let compressor = &self.setup.machine.compressor;
        let suction = compressor.suction(&*self.setup.refrigerant, point)?;
        let discharge = self.discharge.at(&suction, mass_flow_kg_s / self.sharing)?;
        let drawn = compressor.mass_flow_kg_s(&suction, discharge.pressure_pa, self.speed_ratio);
        Ok((self.sharing * drawn, suction, discharge))
    }
}

/// The condenser's balance jumps from one state to a far one, and the machine draws too much at the one
/// and too little at the other.
fn cannot_condense(here: &Discharge, beyond: &Discharge) -> JobError {
    JobError::Machine(MachineError::CannotCondense {
        heat_w: beyond.heat_w,
        at_limit_w: here.heat_w,
        limit_k: here.condensing_k,
    })
}

/// A path to so many machines, their own inlet throttles side by side as its last part.
pub(super) fn with_throttles(setup: &Setup, path: &Path, machines: u32) -> Result<Path, JobError> {
    let mut path = path.clone();
    if let Some(throttle) = setup.machine.inlet_throttle {
        let throttles = throttle.with_open_ratio(Ratio::new::<ratio>(f64::from(machines)))?;
        path.parts.push(PathPart { elements: vec![Element::Restriction(throttles)] });
    }
    Ok(path)
}

/// The state at rest at a port: liquid at its bubble point, vapour at its dew point.
fn port_state(setup: &Setup, port: Port) -> Result<Point, JobError> {
    let Source { temperature, .. } = setup.source;
    let refrigerant = &*setup.refrigerant;
    let temperature_k = temperature.get::<kelvin>();
    let pressure_pa = match port {
        Port::Vapor => refrigerant.dew_pressure_pa(temperature_k)?,
        Port::Liquid | Port::Mixed { .. } => refrigerant.bubble_pressure_pa(temperature_k)?,
    };
    let saturation = refrigerant.saturation_at_pressure(pressure_pa)?;
    let enthalpy = match port {
        Port::Liquid => saturation.liquid_enthalpy_j_kg,
        Port::Vapor => saturation.vapor_enthalpy_j_kg,
        Port::Mixed { vapor_ratio } => {
            saturation.liquid_enthalpy_j_kg + vapor_ratio.value * saturation.latent_heat_j_kg()
        }
    };
    Ok(Medium::point(refrigerant, pressure_pa, enthalpy)?)
}
