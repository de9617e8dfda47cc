//! A machine on a test bench: drawing from a state at rest through nothing but its own inlet.
//!
//! The discharge is the higher of the condenser's saturation pressure and the cylinder's. The
//! crossing of inlet throttle and compressor is found in the mass flow, and on the throttle's
//! plateau in the suction pressure.

use uom::si::f64::ThermodynamicTemperature;
use uom::si::thermodynamic_temperature::kelvin;

use super::error::RatingError;
use crate::flow::{Arrival, Element, LargestFlow, Line, Medium, Method, Path, PathPart, Point};
use crate::fluid::Refrigerant;
use crate::machine::{Compressor, RecoveryMachine, Suction};
use crate::numerics::{RootError, Tolerance, find_root};

/// A machine, what it draws, and the cylinder that it fills.
#[derive(Debug, Clone, Copy)]
pub struct Bench<'a> {
    refrigerant: &'a Refrigerant,
    machine: &'a RecoveryMachine,
    method: Method,
    ambient: ThermodynamicTemperature,
    cylinder_pa: f64,
}

/// What a machine draws.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Draw {
    /// Mass drawn a second.
    pub mass_flow_kg_s: f64,
    /// State in the suction chamber.
    pub suction: Suction,
    /// Discharge pressure.
    pub discharge_pa: f64,
    /// Shaft work per mass.
    pub work_j_kg: f64,
    /// Heat that the condenser rejects.
    pub heat_w: f64,
    /// The inlet passes no more.
    pub throttle_choked: bool,
}

/// A crossing is found to this share of the flow.
const FLOW_TOLERANCE: f64 = 1e-8;

impl<'a> Bench<'a> {
    /// - `ambient`: air at the condenser
    /// - `cylinder`: temperature of the cylinder, which holds saturated refrigerant
    ///
    /// # Errors
    /// The cylinder's temperature is outside the refrigerant's range.
    pub fn new(
        refrigerant: &'a Refrigerant,
        machine: &'a RecoveryMachine,
        method: Method,
        ambient: ThermodynamicTemperature,
        cylinder: ThermodynamicTemperature,
    ) -> Result<Self, RatingError> {
        let cylinder_pa = refrigerant.bubble_pressure_pa(cylinder.get::<kelvin>())?;
        Ok(Self { refrigerant, machine, method, ambient, cylinder_pa })
    }

    /// The refrigerant.
    pub fn refrigerant(&self) -> &'a Refrigerant {
        self.refrigerant
    }

    /// The compressor.
    pub fn compressor(&self) -> &'a Compressor {
        &self.machine.compressor
    }

    /// Pressure in the cylinder.
    pub fn cylinder_pa(&self) -> f64 {
        self.cylinder_pa
    }

    /// What the machine draws from a state at rest before its inlet; zero flow where it draws
    /// nothing.
    ///
    /// # Errors
    /// A state outside the refrigerant's range, or a condenser that cannot reject the heat.
    pub fn draw(&self, source: Point) -> Result<Draw, RatingError> {
        let open = self.at(source, 0.0)?;
        if open.mass_flow_kg_s <= 0.0 {
            return Ok(open);
        }
        let Some(throttle) = self.machine.inlet_throttle else {
            return self.settle(open.mass_flow_kg_s, |flow| Ok(Some(self.at(source, flow)?)));
        };
        let path = Path::series(vec![PathPart { elements: vec![Element::Restriction(throttle)] }]);
        let line = Line::new(self.refrigerant, self.method, &path, source, source)?;
        let behind = |flow: f64| -> Result<Option<Draw>, RatingError> {
            match line.arrival(flow)? {
                Arrival::Arrives(point) => Ok(Some(self.at(point, flow)?)),
                Arrival::TooMuch(_) => Ok(None),
            }
        };
        match line.largest_flow(open.mass_flow_kg_s)? {
            Some(largest) => match behind(largest.mass_flow_kg_s)? {
                Some(draw) if draw.mass_flow_kg_s < largest.mass_flow_kg_s => {
                    self.settle(largest.mass_flow_kg_s, behind)
                }
                _ => self.on_plateau(source, &largest),
            },
            None => self.settle(open.mass_flow_kg_s, behind),
        }
    }

    /// The flow below `high` at which the machine draws what arrives.
    fn settle(
        &self,
        high: f64,
        behind: impl Fn(f64) -> Result<Option<Draw>, RatingError>,
    ) -> Result<Draw, RatingError> {
        let excess = |flow: f64| -> Result<f64, RatingError> {
            Ok(behind(flow)?.map_or(-high, |draw| draw.mass_flow_kg_s - flow))
        };
        let tolerance =
            Tolerance { absolute: 0.0, relative: FLOW_TOLERANCE, residual: FLOW_TOLERANCE * high };
        let at_high = excess(high)?;
        let flow = if at_high >= 0.0 {
            high
        } else {
            match find_root(excess, (0.0, high), (high, at_high), tolerance) {
                Ok(root) => root.x,
                Err(RootError::NotBracketed { .. }) => high,
                Err(RootError::Function(error)) => return Err(error),
            }
        };
        match behind(flow)? {
            Some(draw) => Ok(Draw { mass_flow_kg_s: flow, ..draw }),
            None => Ok(Draw { mass_flow_kg_s: flow, ..self.at_nothing()? }),
        }
    }

    /// The inlet passes no more: the suction falls until the machine draws no more than that.
    fn on_plateau(&self, source: Point, largest: &LargestFlow) -> Result<Draw, RatingError> {
        let flow = largest.mass_flow_kg_s;
        let at = |log_pa: f64| -> Result<Draw, RatingError> {
            self.at(self.refrigerant.point(log_pa.exp(), source.enthalpy_j_kg)?, flow)
        };
        let excess =
            |log_pa: f64| -> Result<f64, RatingError> { Ok(at(log_pa)?.mass_flow_kg_s / flow - 1.0) };
        let high = largest.outlet_pressure_pa.ln();
        let low = (self.refrigerant.lowest_pressure_pa() * 1.000_001).ln();
        let tolerance = Tolerance { absolute: 1e-10, relative: 0.0, residual: FLOW_TOLERANCE };
        let ends = ((high, excess(high)?.max(1e-12)), (low, excess(low)?));
        let log_pa = match find_root(excess, ends.0, ends.1, tolerance) {
            Ok(root) => root.x,
            Err(RootError::NotBracketed { .. }) => low,
            Err(RootError::Function(error)) => return Err(error),
        };
        Ok(Draw { mass_flow_kg_s: flow, throttle_choked: true, ..at(log_pa)? })
    }

    /// What the compressor draws from a suction state, against the discharge that a flow needs.
    fn at(&self, point: Point, mass_flow_kg_s: f64) -> Result<Draw, RatingError> {
        let compressor = &self.machine.compressor;
        let suction = compressor.suction(self.refrigerant, point)?;
        let work = |pressure_pa: f64| compressor.shaft_work_j_kg(&suction, pressure_pa.max(self.cylinder_pa));
        let heat = |pressure_pa: f64, liquid_j_kg: f64| {
            mass_flow_kg_s * (point.enthalpy_j_kg + work(pressure_pa) - liquid_j_kg)
        };
        let condensed = self.machine.condenser.condense(self.refrigerant, self.ambient, heat)?;
        let discharge_pa = condensed.pressure_pa.max(self.cylinder_pa);
        Ok(Draw {
            mass_flow_kg_s: compressor.mass_flow_kg_s(&suction, discharge_pa, 1.0),
            suction,
            discharge_pa,
            work_j_kg: work(discharge_pa),
            heat_w: heat(discharge_pa, condensed.liquid_enthalpy_j_kg),
            throttle_choked: false,
        })
    }

    /// The compressor on saturated vapour of the cylinder: a state that always exists.
    fn at_nothing(&self) -> Result<Draw, RatingError> {
        let saturation = self.refrigerant.saturation_at_pressure(self.cylinder_pa)?;
        self.at(self.refrigerant.point(self.cylinder_pa, saturation.vapor_enthalpy_j_kg)?, 0.0)
    }
}
