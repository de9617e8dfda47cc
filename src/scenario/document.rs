//! The document: one job, what is tried on it, nothing computed.

use super::log::SiteLog;
use super::readings::Readings;
use crate::fluid::Refrigerant;
use crate::kit::{
    Cord, Cylinder, Door, Fault, FillingChoice, JobPlan, Kit, Machine, Method, OwnRules, Part, Port,
    PriceList, RatingCard, Supply, Target, TypedDate, is_false,
};
use crate::units::factors::{STANDARD_ATMOSPHERE_PA, STANDARD_GRAVITY_M_S2};
use crate::units::{Measure, Typed};
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;
use uom::si::f64::{
    HeatCapacity, Length, Mass, Pressure, Ratio, ThermalConductance, ThermodynamicTemperature, Volume,
};

/// The version of the file this program reads and writes.
pub const VERSION: u32 = 1;

/// The system that is being recovered from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Source {
    /// Temperature of what is in it; it is saturated.
    pub temperature: Typed<ThermodynamicTemperature>,
    /// What the connection draws.
    #[serde(default)]
    pub port: Port,
    /// Vapour's share of the mass where one connection draws both.
    #[serde(default, skip_serializing_if = "Option::is_none", alias = "vapor_share")]
    pub vapour_share: Option<Typed<Ratio>>,
    /// Inside volume of the system.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub volume: Option<Typed<Volume>>,
    /// Refrigerant in it at the start.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub charge: Option<Typed<Mass>>,
    /// Heat capacity of the metal that cools with the refrigerant; none if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub metal_heat_capacity: Option<Typed<HeatCapacity>>,
    /// Heat conductance from the air around; none if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub heat_gain: Option<Typed<ThermalConductance>>,
    /// Its contents are held at their temperature, whatever leaves.
    #[serde(default, skip_serializing_if = "is_false")]
    pub isothermal: bool,
    /// Share of the charge that no connection reaches as liquid.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub unreachable: Option<Typed<Ratio>>,
    /// Share of the charge dissolved in oil, which boils out late.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub dissolved: Option<Typed<Ratio>>,
    /// It has a connection below the liquid's level.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub liquid_port: Option<bool>,
    /// Inside volume of its receiver.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub receiver_volume: Option<Typed<Volume>>,
    /// It has a reversing valve, as heat pumps do.
    #[serde(default, skip_serializing_if = "is_false")]
    pub reversing_valve: bool,
    /// It has a suction accumulator.
    #[serde(default, skip_serializing_if = "is_false")]
    pub accumulator: bool,
    /// Its compressor motor burned out: acid and debris come with the refrigerant.
    #[serde(default, skip_serializing_if = "is_false")]
    pub burnout: bool,
}

/// The air around.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Ambient {
    /// Its temperature.
    pub temperature: Typed<ThermodynamicTemperature>,
    /// Its absolute pressure; by the altitude if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pressure: Option<Typed<Pressure>>,
    /// Height above the sea; sea level if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub altitude: Option<Typed<Length>>,
}

impl Ambient {
    /// The absolute pressure of the air: as given, or that of the standard atmosphere.
    pub fn absolute_pressure(&self) -> Pressure {
        match (&self.pressure, &self.altitude) {
            (Some(pressure), _) => pressure.value(),
            (None, Some(altitude)) => standard_atmosphere(altitude.value()),
            (None, None) => Pressure::from_si(STANDARD_ATMOSPHERE_PA),
        }
    }
}

/// Pressure of the standard atmosphere at a height above the sea:
/// `p = p0 · (1 − L·h/T0)^(g/(L·R))`.
///
/// # Valid
/// −5 to 11 km, the troposphere.
/// # Source
/// ICAO standard atmosphere (ISO 2533:1975): T0 = 288.15 K, L = 6.5 K/km, R = 287.05287 J/(kg K).
/// # Example
/// 1524 m (5000 ft): 101325 · (1 − 9.906/288.15)^5.25588 = 84 307 Pa
pub fn standard_atmosphere(height: Length) -> Pressure {
    const SEA_LEVEL_K: f64 = 288.15;
    const LAPSE_K_M: f64 = 0.0065;
    const GAS_CONSTANT_J_KG_K: f64 = 287.05287;
    let exponent = STANDARD_GRAVITY_M_S2 / (LAPSE_K_M * GAS_CONSTANT_J_KG_K);
    let ratio = (1.0 - LAPSE_K_M * height.si() / SEA_LEVEL_K).max(0.0);
    Pressure::from_si(STANDARD_ATMOSPHERE_PA * ratio.powf(exponent))
}

/// One job as a person described it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Document {
    /// Version of the file.
    #[serde(rename = "narrows")]
    pub version: u32,
    /// In a few words.
    pub title: String,
    /// Where it is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<String>,
    /// When: a cylinder's test is judged by it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub date: Option<TypedDate>,
    /// Designation of the refrigerant, as R-410A.
    pub refrigerant: String,
    /// The system.
    pub source: Source,
    /// The charge is known to this share of itself, up and down.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub charge_band: Option<Typed<Ratio>>,
    /// The air around.
    pub ambient: Ambient,
    /// The machine.
    pub machine: Machine,
    /// The cylinder in use.
    pub cylinder: Cylinder,
    /// The cylinders that wait, in the order in which they are filled.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub cylinders: Vec<Cylinder>,
    /// What differs from the filling rules.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub filling: Option<FillingChoice>,
    /// Parts from the machine to the cylinder.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub discharge: Vec<Part>,
    /// How flow is computed.
    #[serde(default)]
    pub method: Method,
    /// Where the power comes from.
    pub supply: Supply,
    /// How the job is done.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub job: Option<JobPlan>,
    /// How far it has to go.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub target: Option<Target>,
    /// Rules of one's own instead of the built-in ones.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rules: Option<OwnRules>,
    /// What work and changes cost.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub prices: Option<PriceList>,
    /// The kits that are compared.
    pub kits: Vec<Kit>,
    /// A machine's printed ratings, to be read.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rating_card: Option<RatingCard>,
    /// What was read on the gauges of a slow job.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub readings: Option<Readings>,
    /// The site log.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub log: Option<SiteLog>,
    /// In words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub notes: Option<String>,
}

impl Document {
    /// The kit of this name.
    pub fn kit(&self, name: &str) -> Option<&Kit> {
        self.kits.iter().find(|kit| kit.name == name)
    }

    /// The cords that feed a kit: its own, or the supply's.
    pub fn cords_of<'d>(&'d self, kit: &'d Kit) -> &'d [Cord] {
        kit.cords.as_ref().unwrap_or(&self.supply.cords)
    }

    /// The shortest of A, B, … Z, A2, … that no kit has.
    pub fn free_kit_name(&self) -> String {
        (1..)
            .flat_map(|round: u32| ('A'..='Z').map(move |letter| (letter, round)))
            .map(|(letter, round)| if round == 1 { letter.to_string() } else { format!("{letter}{round}") })
            .find(|name| self.kit(name).is_none())
            .unwrap_or_default()
    }
}

/// Every fault of the document's own fields, in the order of the fields.
///
/// What only the refrigerant's tables can tell (a source above its critical point), resolving
/// tells.
pub fn check(document: &Document) -> Vec<Fault> {
    let mut faults = Vec::new();
    let mut door = Door::new(&mut faults);
    if document.version != VERSION {
        door.fault("narrows", format!("version {}; this one writes {VERSION}", document.version));
    }
    if document.refrigerant.trim().is_empty() {
        door.fault("refrigerant", "is empty; say its designation, as R-410A");
    } else if let Err(error) = Refrigerant::load(&document.refrigerant) {
        door.fault("refrigerant", error.to_string());
    }
    check_source(&document.source, &mut door.at("source"));
    check_ambient(&document.ambient, &mut door.at("ambient"));
    document.machine.check(&mut door.at("machine"));
    check_job(document, &mut door);
    for (index, part) in document.discharge.iter().enumerate() {
        part.check(&mut door.at("discharge").at(index));
    }
    document.supply.check(&mut door.at("supply"));
    if let Some(prices) = &document.prices {
        prices.check(&mut door.at("prices"));
    }
    check_kits(&document.kits, &mut door.at("kits"));
    super::rating::check(document, &mut door);
    super::readings::check(document, &mut door);
    super::log::check(document, &mut door);
    faults
}

fn check_source(source: &Source, door: &mut Door<'_>) {
    door.range("temperature", &source.temperature, 110.0..=430.0, "−262 to 314 degF (−163 to 157 degC)");
    door.optional("vapour_share", source.vapour_share.as_ref(), 0.0..=1.0, "a share of 0 to 1");
    door.optional(
        "volume",
        source.volume.as_ref(),
        1e-6..=1e4,
        "0.00004 to 350000 ft3 (0.001 L to 10000 m3)",
    );
    door.optional("charge", source.charge.as_ref(), 1e-4..=1e6, "0.0003 to 2200000 lb (0.1 g to 1000 t)");
    door.optional("metal_heat_capacity", source.metal_heat_capacity.as_ref(), 0.0..=1e9, "0 to 1e6 kJ/K");
    door.optional("heat_gain", source.heat_gain.as_ref(), 0.0..=1e6, "0 to 1000 kW/K");
    door.optional("unreachable", source.unreachable.as_ref(), 0.0..=1.0, "a share of 0 to 1");
    door.optional("dissolved", source.dissolved.as_ref(), 0.0..=1.0, "a share of 0 to 1");
    door.optional(
        "receiver_volume",
        source.receiver_volume.as_ref(),
        1e-6..=1e4,
        "0.00004 to 350000 ft3 (0.001 L to 10000 m3)",
    );
}

/// Cylinders, plan, target and rules.
fn check_job(document: &Document, door: &mut Door<'_>) {
    door.optional("charge_band", document.charge_band.as_ref(), 0.0..=0.9, "0 to 90 %");
    document.cylinder.check(&mut door.at("cylinder"));
    if let Some(count) = document.cylinder.count.filter(|count| *count != 1) {
        door.fault("cylinder.count", format!("{count} in use at once; put those that wait under cylinders"));
    }
    for (index, cylinder) in document.cylinders.iter().enumerate() {
        cylinder.check(&mut door.at("cylinders").at(index));
    }
    if let Some(filling) = &document.filling {
        filling.check(&mut door.at("filling"));
    }
    if let Some(job) = &document.job {
        job.check(&mut door.at("job"));
    }
    if let Some(target) = &document.target {
        target.check(&mut door.at("target"));
    }
    if let Some(rules) = &document.rules {
        rules.check(&mut door.at("rules"));
    }
}

fn check_ambient(ambient: &Ambient, door: &mut Door<'_>) {
    door.range("temperature", &ambient.temperature, 200.0..=350.0, "−100 to 170 degF (−73 to 77 degC)");
    door.optional("pressure", ambient.pressure.as_ref(), 3e4..=1.2e5, "4.4 to 17.4 psia (30 to 120 kPa)");
    door.optional("altitude", ambient.altitude.as_ref(), -1e3..=9e3, "−3300 to 29500 ft (−1 to 9 km)");
    if let (Some(pressure), Some(altitude)) = (&ambient.pressure, &ambient.altitude) {
        door.fault(
            "altitude",
            format!("{altitude} and a pressure of {pressure} are both given; set one of them to none"),
        );
    }
}

fn check_kits(kits: &[Kit], door: &mut Door<'_>) {
    if kits.is_empty() {
        door.fault("", "there is no kit; expected at least one");
    }
    let mut names = BTreeSet::new();
    for (index, kit) in kits.iter().enumerate() {
        let name = kit.name.as_str();
        let is_word =
            !name.is_empty() && !name.contains(['.', '[', ']', ' ', '=']) && name.parse::<usize>().is_err();
        if !is_word {
            door.at(index)
                .fault("name", format!("{name:?} is no name for a kit; say a letter or a word, as A"));
        } else if !names.insert(name) {
            door.at(index).fault("name", format!("two kits are called {name}; give each a name of its own"));
        }
        if is_word {
            kit.check(&mut door.at(name));
        } else {
            kit.check(&mut door.at(index));
        }
    }
}
