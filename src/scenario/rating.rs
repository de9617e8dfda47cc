//! From a rating card as printed to the tests that physics simulates, and what the card leaves
//! unknown.

use super::document::Document;
use super::resolve::{KitSetup, resolve};
use crate::fluid::{FluidError, Refrigerant};
use crate::kit::{Door, Fault, RatedRate, RatingCard, RatingConditions, TestMethod};
use crate::machine::rating::{Averaging, RatedTest, TestKind};
use crate::units::{Measure, Typed};
use std::f64::consts::FRAC_PI_4;
use uom::si::area::square_meter;
use uom::si::f64::{Area, Pressure, ThermalConductance, ThermodynamicTemperature, VolumeRate};

/// Source temperature of AHRI 740's vapour, liquid and push-pull tests: 24 °C.
const RATING_K: f64 = 297.15;
/// Source and cylinder temperature of its high-temperature vapour test: 40 °C.
const HIGH_TEMPERATURE_K: f64 = 313.15;
/// The refrigerant that ratings are quoted for where nothing else is said. Common practice, no
/// source.
const USUAL_REFRIGERANT: &str = "R-22";

/// A condition that the card does not say, and of which rating.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Unknown {
    /// Which rating.
    pub of: TestKind,
    /// What is not said: "refrigerant", "source temperature", "ambient", "test method",
    /// "certification".
    pub what: &'static str,
}

/// A card ready to be read.
#[derive(Debug, Clone)]
pub struct CardSetup {
    /// The card in words.
    pub name: Option<String>,
    /// Its ratings, each with the conditions it says or is taken to have.
    pub tests: Vec<RatedTest>,
    /// Which of them are certified.
    pub certified: Vec<TestKind>,
    /// What was taken for granted.
    pub unknown: Vec<Unknown>,
    /// The lowest pressure the machine is rated for.
    pub final_vacuum: Option<Pressure>,
    /// Displacement as printed.
    pub displacement: Option<VolumeRate>,
    /// Conductance of the condenser as the card has it.
    pub condenser: Option<ThermalConductance>,
    /// Hole of the inlet port.
    pub port: Option<Area>,
    /// The document's kits; machine, motor and method of the first one that uses the document's machine.
    pub kits: Vec<KitSetup>,
    /// Index into `kits` of the template.
    pub template: usize,
    /// The other card.
    pub against: Option<Box<CardSetup>>,
}

impl CardSetup {
    /// The kit whose machine gives what the card does not.
    pub fn template(&self) -> Option<&KitSetup> {
        self.kits.get(self.template)
    }
}

pub(super) fn check(document: &Document, door: &mut Door<'_>) {
    if let Some(card) = &document.rating_card {
        card.check(&mut door.at("rating_card"));
    }
}

/// The document's card, or every fault of the document.
///
/// # Errors
/// As [`resolve`]; a document without a card; a refrigerant that is not known or has no saturation
/// at the card's temperatures.
pub fn card_of(document: &Document) -> Result<CardSetup, Vec<Fault>> {
    let kits = resolve(document)?;
    let mut faults = Vec::new();
    let mut door = Door::new(&mut faults);
    let Some(card) = &document.rating_card else {
        door.fault(
            "rating_card",
            "there is none; give one, as rating_card: (vapour: (rate: \"0.3 lb/min\"))",
        );
        return Err(faults);
    };
    let template = document.kits.iter().position(|kit| kit.machine.is_none()).unwrap_or(0);
    let setup = setup_of(document, card, kits, template, &mut door.at("rating_card"));
    match setup {
        Some(setup) if faults.is_empty() => Ok(setup),
        _ => Err(faults),
    }
}

fn setup_of(
    document: &Document,
    card: &RatingCard,
    kits: Vec<KitSetup>,
    template: usize,
    door: &mut Door<'_>,
) -> Option<CardSetup> {
    let ambient = document.ambient.absolute_pressure();
    let final_vacuum = card.final_vacuum.as_ref().map(|typed| typed.absolute(ambient));
    if final_vacuum.is_some_and(|pressure| pressure.si() < 0.0) {
        door.fault("final_vacuum", "lies below absolute vacuum in this air; expected 0 to 30 inHg vac");
    }
    let mut setup = CardSetup {
        name: card.name.clone(),
        tests: Vec::new(),
        certified: Vec::new(),
        unknown: Vec::new(),
        final_vacuum,
        displacement: card.displacement.as_ref().map(Typed::value),
        condenser: card.condenser_conductance.as_ref().map(Typed::value),
        port: card.port_bore.as_ref().map(|bore| Area::new::<square_meter>(FRAC_PI_4 * bore.si().powi(2))),
        kits,
        template,
        against: None,
    };
    for (field, rated) in card.rates() {
        let kind = kind_of(field);
        let conditions = rated.conditions.clone().unwrap_or_default().or(&card.conditions);
        setup.note_unknown(kind, &conditions);
        let test = test_of(kind, rated, &conditions, final_vacuum, document);
        setup.tests.push(door.keep(field, test)?);
    }
    if let Some(other) = &card.against {
        let kits = setup.kits.clone();
        let other = setup_of(document, other, kits, template, &mut door.at("against"))?;
        setup.against = Some(Box::new(other));
    }
    Some(setup)
}

fn kind_of(field: &str) -> TestKind {
    match field {
        "liquid" => TestKind::Liquid,
        "push_pull" => TestKind::PushPull,
        "high_temperature_vapour" => TestKind::HighTemperatureVapour,
        _ => TestKind::Vapour,
    }
}

impl CardSetup {
    fn note_unknown(&mut self, of: TestKind, conditions: &RatingConditions) {
        // The method says the source's temperature, and that of air and cylinder.
        let by_method = conditions.test_method == Some(TestMethod::Ahri740);
        let missing = [
            (conditions.refrigerant.is_none(), "refrigerant"),
            (conditions.source_temperature.is_none() && !by_method, "source temperature"),
            (conditions.ambient.is_none(), "ambient"),
            (conditions.test_method.is_none(), "test method"),
            (conditions.certified.is_none(), "certification"),
        ];
        self.unknown.extend(missing.iter().filter(|(is, _)| *is).map(|(_, what)| Unknown { of, what }));
        if conditions.certified == Some(true) {
            self.certified.push(of);
        }
    }
}

fn test_of(
    kind: TestKind,
    rated: &RatedRate,
    conditions: &RatingConditions,
    final_vacuum: Option<Pressure>,
    document: &Document,
) -> Result<RatedTest, FluidError> {
    let refrigerant = Refrigerant::load(conditions.refrigerant.as_deref().unwrap_or(USUAL_REFRIGERANT))?;
    let usual_k = if kind == TestKind::HighTemperatureVapour { HIGH_TEMPERATURE_K } else { RATING_K };
    let kelvin = |k: f64| ThermodynamicTemperature::from_si(k);
    // A card's own temperature is that of its ordinary tests, not of the one at 40 °C.
    let own = rated.conditions.as_ref().and_then(|own| own.source_temperature.as_ref());
    let source = match (own, &conditions.source_temperature) {
        (Some(own), _) => own.value(),
        (None, Some(card)) if kind != TestKind::HighTemperatureVapour => card.value(),
        _ => kelvin(usual_k),
    };
    let ambient = conditions.ambient.as_ref().map_or(document.ambient.temperature.value(), Typed::value);
    refrigerant.bubble_pressure(source)?;
    refrigerant.bubble_pressure(ambient)?;
    Ok(RatedTest {
        kind,
        refrigerant,
        source,
        ambient,
        final_vacuum,
        averaging: match conditions.test_method {
            Some(TestMethod::StartingRate) => Averaging::Start,
            Some(TestMethod::Ahri740) | None => Averaging::WholeTest,
        },
        rated: rated.rate.value(),
    })
}
