//! A recovery cylinder as it stands on the truck: what is stamped on it and what is in it.

use uom::si::f64::{Mass, ThermodynamicTemperature};

use super::date::YearMonth;
use crate::units::GaugePressure;

/// What a cylinder holds already.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum Holds {
    /// Nobody said.
    #[default]
    Unsaid,
    /// The refrigerant of this job.
    Same,
    /// Something else, in the owner's words.
    Other(String),
}

/// One cylinder of the stock.
#[derive(Debug, Clone, PartialEq)]
pub struct StockCylinder {
    /// What its owner calls it.
    pub name: String,
    /// Mass of water it holds, as stamped (WC).
    pub water_capacity: Option<Mass>,
    /// Empty mass, as stamped (TW).
    pub tare: Option<Mass>,
    /// Mass of what is in it.
    pub contents: Mass,
    /// What that is.
    pub holds: Holds,
    /// Net filling limit marked on it.
    pub marking_limit: Option<Mass>,
    /// Service pressure, as stamped.
    pub service_pressure: Option<GaugePressure>,
    /// When it was last tested.
    pub test_date: Option<YearMonth>,
    /// Made to be filled once.
    pub disposable: bool,
    /// Dented, corroded, or its valve is faulty.
    pub damaged: bool,
    /// Temperature of what is in it.
    pub temperature: ThermodynamicTemperature,
    /// What it stands in.
    pub place: CylinderPlace,
}

/// What warms a cylinder from outside.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct CylinderPlace {
    /// The sun shines on it.
    pub in_sun: bool,
    /// Temperature of what surrounds it, where that is not the air: a water bath.
    pub surroundings: Option<ThermodynamicTemperature>,
}

impl StockCylinder {
    /// An empty, sound cylinder of which only the water capacity is known.
    pub fn empty(name: &str, water_capacity: Mass, temperature: ThermodynamicTemperature) -> Self {
        Self {
            name: name.to_owned(),
            water_capacity: Some(water_capacity),
            tare: None,
            contents: Mass::default(),
            holds: Holds::Unsaid,
            marking_limit: None,
            service_pressure: None,
            test_date: None,
            disposable: false,
            damaged: false,
            temperature,
            place: CylinderPlace::default(),
        }
    }
}
