//! Reads a rating card: the machine that would pass it, what it lacks, what it would do elsewhere.
//!
//! A figure that looks too good "needs evidence"; no card is called false.

mod band;
mod compare;
mod hint;
mod restate;

pub use band::{DisplacementBand, Widening};
pub use compare::{CardComparison, compare_cards};
pub use hint::RatioHint;
pub use restate::{Restated, RestatedKit};

use uom::si::f64::{MassRate, Pressure};
use uom::si::pressure::pascal;
use uom::si::thermodynamic_temperature::kelvin;

use crate::machine::rating::{
    Averaging, Bench, Ceiling, CeilingLimits, Fit, FitInput, RatedTest, RatingError, TestKind, ceilings, fit,
    push_pull, simulate,
};
use crate::scenario::{CardSetup, KitSetup, Unknown};

/// What a card says once it is read.
#[derive(Debug, Clone)]
pub struct RatingReading {
    /// The card in words.
    pub name: Option<String>,
    /// The machine that would pass it, or why there is none.
    pub fit: Result<Fit, RatingError>,
    /// What that machine draws at the start of the vapour test.
    pub starting_rate: Option<MassRate>,
    /// How well the displacement is known from the card.
    pub band: Option<DisplacementBand>,
    /// Four ceilings over each rating.
    pub ceilings: Vec<Ceiling>,
    /// Ratios between ratings.
    pub hints: Vec<RatioHint>,
    /// Push-pull as the volume balance predicts it.
    pub push_pull: Option<PushPullReading>,
    /// Final vacuum as the clearance predicts it.
    pub final_vacuum: Option<VacuumReading>,
    /// The same machine on the document's own job.
    pub restated: Option<Restated>,
    /// What the card does not say.
    pub unknown: Vec<Unknown>,
    /// Beside the other card, rating by rating.
    pub comparisons: Vec<CardComparison>,
}

/// A push-pull rating and what displacement allows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PushPullReading {
    /// As printed; none where the card has no such rating.
    pub rated: Option<MassRate>,
    /// Cylinder 5 K below the source.
    pub likely: MassRate,
    /// Cylinder as warm as the source.
    pub most: MassRate,
}

/// A final vacuum and what the clearance allows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VacuumReading {
    /// As printed, absolute; none where the card does not say.
    pub rated: Option<Pressure>,
    /// Where the template's clearance leaves no volumetric efficiency.
    pub reached: Pressure,
}

/// Reads a card.
pub fn read_rating(card: &CardSetup) -> RatingReading {
    let mut reading = RatingReading {
        name: card.name.clone(),
        fit: Err(RatingError::NothingToFit),
        starting_rate: None,
        band: None,
        ceilings: Vec::new(),
        hints: hint::hints(&card.tests),
        push_pull: None,
        final_vacuum: None,
        restated: None,
        unknown: card.unknown.clone(),
        comparisons: card.against.as_deref().map(|other| compare_cards(card, other)).unwrap_or_default(),
    };
    let Some(template) = card.template() else { return reading };
    let input =
        FitInput { template: &template.setup.machine, method: template.setup.method, tests: &card.tests };
    reading.fit = fit(&input);
    let Ok(fitted) = &reading.fit else { return reading };
    reading.starting_rate = starting_rate(card, template, fitted);
    reading.band = band::displacement_band(card, &input, fitted);
    reading.ceilings = all_ceilings(card, template, fitted);
    reading.push_pull = push_pull_reading(card, template, fitted);
    reading.final_vacuum = vacuum_reading(card, template, fitted);
    reading.restated = restate::restated(card, template, fitted);
    reading
}

/// The rating that the displacement was fitted to.
fn anchor<'a>(card: &'a CardSetup, fitted: &Fit) -> Option<&'a RatedTest> {
    let kind = fitted.displacement_from?;
    card.tests.iter().find(|test| test.kind == kind)
}

fn starting_rate(card: &CardSetup, template: &KitSetup, fitted: &Fit) -> Option<MassRate> {
    let start = RatedTest { averaging: Averaging::Start, ..anchor(card, fitted)?.clone() };
    simulate(&fitted.machine, template.setup.method, &start).ok()
}

fn all_ceilings(card: &CardSetup, template: &KitSetup, fitted: &Fit) -> Vec<Ceiling> {
    let mut all = Vec::new();
    for test in &card.tests {
        let limits = CeilingLimits {
            machine: if test.kind == TestKind::Liquid { &fitted.for_liquid } else { &fitted.machine },
            method: template.setup.method,
            // As printed, else as the document has it: what is fitted to a rating is no ceiling over it.
            displacement: card.displacement.or(Some(template.setup.machine.compressor.displacement())),
            motor: Some(template.setup.motor.rated_shaft_power()),
            condenser: card.condenser,
            port: card.port,
        };
        if let Ok(ceilings) = ceilings(&limits, test) {
            all.extend(ceilings);
        }
    }
    all
}

fn push_pull_reading(card: &CardSetup, template: &KitSetup, fitted: &Fit) -> Option<PushPullReading> {
    let rated = card.tests.iter().find(|test| test.kind == TestKind::PushPull);
    let test = rated.or_else(|| card.tests.first())?;
    let setup = &template.setup;
    let bench =
        Bench::new(&test.refrigerant, &fitted.machine, setup.method, test.ambient, test.ambient).ok()?;
    let balance = push_pull(&bench, test.source.get::<kelvin>()).ok()?;
    let rate = MassRate::new::<uom::si::mass_rate::kilogram_per_second>;
    Some(PushPullReading {
        rated: rated.map(|test| test.rated),
        likely: rate(balance.likely_kg_s),
        most: rate(balance.most_kg_s),
    })
}

fn vacuum_reading(card: &CardSetup, template: &KitSetup, fitted: &Fit) -> Option<VacuumReading> {
    let test = anchor(card, fitted).or_else(|| card.tests.first())?;
    let setup = &template.setup;
    let bench =
        Bench::new(&test.refrigerant, &fitted.machine, setup.method, test.ambient, test.ambient).ok()?;
    let saturation = test.refrigerant.saturation_at_dew_temperature(test.source.get::<kelvin>()).ok()?;
    let point = crate::flow::Medium::point(
        &*test.refrigerant,
        saturation.pressure_pa,
        saturation.vapor_enthalpy_j_kg,
    );
    let suction = bench.compressor().suction(&*test.refrigerant, point.ok()?).ok()?;
    let reached = bench.compressor().ultimate_suction_pa(suction.exponent, bench.cylinder_pa());
    Some(VacuumReading { rated: card.final_vacuum, reached: Pressure::new::<pascal>(reached) })
}
