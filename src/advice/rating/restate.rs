//! A fitted machine on the document's own job: its refrigerant, its temperature, its kits.

use uom::si::f64::{MassRate, ThermodynamicTemperature};

use super::anchor;
use crate::job::{JobError, Port, solve};
use crate::machine::rating::{Averaging, Fit, RatedTest, RatingError, TestKind, simulate};
use crate::scenario::{CardSetup, KitSetup};

/// Ratings restated.
#[derive(Debug, Clone)]
pub struct Restated {
    /// With what.
    pub refrigerant: &'static str,
    /// From this temperature.
    pub source: ThermodynamicTemperature,
    /// What the vapour test would give with it.
    pub vapour: Result<MassRate, RatingError>,
    /// What the machine draws at the start of that test.
    pub vapour_start: Result<MassRate, RatingError>,
    /// What the liquid test would give with it.
    pub liquid: Result<MassRate, RatingError>,
    /// The document's kits with the fitted machine.
    pub kits: Vec<RestatedKit>,
}

/// One kit.
#[derive(Debug, Clone)]
pub struct RestatedKit {
    /// Its name.
    pub name: String,
    /// Its rate with the fitted machine.
    pub rate: Result<MassRate, JobError>,
}

pub(super) fn restated(card: &CardSetup, template: &KitSetup, fitted: &Fit) -> Option<Restated> {
    let base = anchor(card, fitted).or_else(|| card.tests.first())?;
    let setup = &template.setup;
    let test = |kind, averaging| RatedTest {
        kind,
        refrigerant: setup.refrigerant.clone(),
        source: setup.source.temperature,
        ambient: setup.ambient.temperature,
        final_vacuum: card.final_vacuum,
        averaging,
        rated: base.rated,
    };
    let vapour = |averaging| simulate(&fitted.machine, setup.method, &test(TestKind::Vapour, averaging));
    Some(Restated {
        refrigerant: setup.refrigerant.designation(),
        source: setup.source.temperature,
        vapour: vapour(Averaging::WholeTest),
        vapour_start: vapour(Averaging::Start),
        liquid: simulate(&fitted.for_liquid, setup.method, &test(TestKind::Liquid, Averaging::WholeTest)),
        kits: card.kits.iter().map(|kit| restated_kit(kit, fitted)).collect(),
    })
}

fn restated_kit(kit: &KitSetup, fitted: &Fit) -> RestatedKit {
    let mut setup = kit.setup.clone();
    let machine = if setup.source.first == Port::Vapor { &fitted.machine } else { &fitted.for_liquid };
    setup.machine.compressor = machine.compressor;
    setup.machine.inlet_throttle = machine.inlet_throttle;
    RestatedKit { name: kit.name.clone(), rate: solve(&setup).point.map(|point| point.mass_flow) }
}
