//! Questions about cylinders, evacuation levels, ratings and the air.

use std::sync::Arc;

use serde::Deserialize;
use uom::si::area::square_meter;
use uom::si::f64::{Length, Mass, MassDensity, MassRate, Pressure, ThermodynamicTemperature, VolumeRate};
use uom::si::length::meter;
use uom::si::mass::pound;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::mass_rate::kilogram_per_second;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::{degree_celsius, degree_fahrenheit};
use uom::si::volume_rate::cubic_foot_per_minute;

use super::flow::{EQUILIBRIUM, share};
use super::question::Ask;
use super::words;
use crate::flow::Element;
use crate::fluid::Refrigerant;
use crate::job::{
    FillRuleKind, LevelAsk, LiquidFull, MachineMade, StockCylinder, fill_limits, hot_fill_ratio,
    liquid_full_temperature, net_by_specific_gravity, required_level, specific_gravity,
};
use crate::kit::{Kit, dialect};
use crate::machine::rating::{Averaging, RatedTest, TestKind, simulate};
use crate::machine::{Compressor, Condenser, Exponent, RecoveryMachine};
use crate::presets::{built_in_rules, built_in_scenario};
use crate::scenario::{read, resolve, set, standard_atmosphere};
use crate::units::GaugePressure;
use crate::units::factors::{KV_PER_CV, PSI_PA, STANDARD_ATMOSPHERE_PA};

fn load(name: &str) -> Result<Arc<Refrigerant>, String> {
    Refrigerant::load(name).map_err(words)
}

fn celsius(value: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<degree_celsius>(value)
}

/// Liquid's density relative to water, at 25 °C.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SpecificGravity {
    refrigerant: String,
}

impl Ask for SpecificGravity {
    fn what(&self) -> String {
        format!("{}, specific gravity at 25 °C", self.refrigerant)
    }

    fn unit(&self) -> &'static str {
        ""
    }

    fn answer(&self) -> Result<f64, String> {
        specific_gravity(&*load(&self.refrigerant)?).map(|gravity| gravity.get::<ratio>()).map_err(words)
    }
}

/// Liquid's share of a cylinder that was filled cold and warms up.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct HotFill {
    refrigerant: String,
    share: f64,
    cold: f64,
    hot: f64,
}

impl Ask for HotFill {
    fn what(&self) -> String {
        let Self { refrigerant, share, cold, hot } = self;
        format!("{refrigerant}, {:.0} % liquid at {cold} °C, share at {hot} °C", 100.0 * share)
    }

    fn unit(&self) -> &'static str {
        ""
    }

    fn answer(&self) -> Result<f64, String> {
        let refrigerant = load(&self.refrigerant)?;
        hot_fill_ratio(&refrigerant, share(self.share), celsius(self.cold), celsius(self.hot))
            .map(|hot| hot.get::<ratio>())
            .map_err(words)
    }
}

/// Where a cylinder filled to a share at a temperature is full of liquid.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct LiquidFullAt {
    refrigerant: String,
    share: f64,
    cold: f64,
}

impl Ask for LiquidFullAt {
    fn what(&self) -> String {
        let Self { refrigerant, share, cold } = self;
        format!("{refrigerant}, {:.0} % liquid at {cold} °C, liquid-full at", 100.0 * share)
    }

    fn unit(&self) -> &'static str {
        "°C"
    }

    fn answer(&self) -> Result<f64, String> {
        let refrigerant = load(&self.refrigerant)?;
        let cold = refrigerant.saturation_at_bubble_temperature(self.cold + 273.15).map_err(words)?;
        let mean = MassDensity::new::<kilogram_per_cubic_meter>(self.share * cold.liquid_density_kg_m3);
        match liquid_full_temperature(&refrigerant, mean).map_err(words)? {
            LiquidFull::At(temperature) | LiquidFull::About(temperature) => {
                Ok(temperature.get::<degree_celsius>())
            }
            LiquidFull::NotUpTo(_) | LiquidFull::Already(_) => Err("beyond the table".to_owned()),
        }
    }
}

/// Net filling by a given specific gravity.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct NetFill {
    water_capacity_lb: f64,
    share: f64,
    specific_gravity: f64,
    #[serde(default)]
    tare_lb: f64,
}

impl Ask for NetFill {
    fn what(&self) -> String {
        let Self { water_capacity_lb, share, specific_gravity, tare_lb } = self;
        format!(
            "WC {water_capacity_lb} lb, {share} filled, SG {specific_gravity}, tare {tare_lb} lb, on the scale"
        )
    }

    fn unit(&self) -> &'static str {
        "lb"
    }

    fn answer(&self) -> Result<f64, String> {
        let capacity = Mass::new::<pound>(self.water_capacity_lb);
        let net = net_by_specific_gravity(capacity, share(self.share), share(self.specific_gravity));
        Ok(net.get::<pound>() + self.tare_lb)
    }
}

#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Rule {
    WaterCapacity,
    SpecificGravity,
    FillingDensity,
}

/// What one filling rule lets into a cylinder of 480 psig service pressure.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FilledTo {
    refrigerant: String,
    water_capacity_lb: f64,
    rule: Rule,
}

impl Ask for FilledTo {
    fn what(&self) -> String {
        let rule = match self.rule {
            Rule::WaterCapacity => "80 % of water capacity",
            Rule::SpecificGravity => "80 % times specific gravity",
            Rule::FillingDensity => "filling density",
        };
        format!("{}, WC {} lb, net by {rule}", self.refrigerant, self.water_capacity_lb)
    }

    fn unit(&self) -> &'static str {
        "lb"
    }

    fn answer(&self) -> Result<f64, String> {
        let kind = match self.rule {
            Rule::WaterCapacity => FillRuleKind::WaterCapacity,
            Rule::SpecificGravity => FillRuleKind::SpecificGravity,
            Rule::FillingDensity => FillRuleKind::FillingDensity,
        };
        let capacity = Mass::new::<pound>(self.water_capacity_lb);
        let cylinder = StockCylinder {
            service_pressure: Some(GaugePressure::from_pa(480.0 * PSI_PA)),
            ..StockCylinder::empty("it", capacity, celsius(24.0))
        };
        let air = Pressure::new::<pascal>(STANDARD_ATMOSPHERE_PA);
        let table = built_in_rules().map_err(words)?.filling.table(&Default::default(), air);
        let limits = fill_limits(&*load(&self.refrigerant)?, &cylinder, &table);
        let limit = limits.rule(kind).ok_or("no such rule")?.limit.clone();
        limit.map(|limit| limit.get::<pound>()).map_err(words)
    }
}

/// The evacuation level of an appliance, absolute.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Level {
    refrigerant: String,
    charge_lb: f64,
    /// The machine was made since the table's date.
    since: bool,
}

impl Ask for Level {
    fn what(&self) -> String {
        let made = if self.since { "newer" } else { "older" };
        format!("{}, charge {} lb, {made} machine, level", self.refrigerant, self.charge_lb)
    }

    fn unit(&self) -> &'static str {
        "kPa"
    }

    fn answer(&self) -> Result<f64, String> {
        let charge = Mass::new::<pound>(self.charge_lb);
        let ask = LevelAsk {
            machine_made: Some(if self.since { MachineMade::Since } else { MachineMade::Before }),
            full_charge: Some((charge, charge)),
            ..LevelAsk::default()
        };
        let table = built_in_rules().map_err(words)?.levels.table();
        let air = Pressure::new::<pascal>(STANDARD_ATMOSPHERE_PA);
        let level = required_level(&*load(&self.refrigerant)?, &ask, &table, air, None).map_err(words)?;
        Ok(level.absolute.get::<pascal>() / 1e3)
    }
}

/// Average over starting rate of the vapour test, for a displacement without losses.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct AverageRate {
    refrigerant: String,
}

impl AverageRate {
    fn rate(&self, averaging: Averaging) -> Result<f64, String> {
        let displacement = VolumeRate::new::<cubic_foot_per_minute>(0.42);
        let compressor =
            Compressor::new(displacement, share(0.0), share(1.0), Exponent::Given(1.1), share(1.0));
        let machine = RecoveryMachine {
            compressor: compressor.map_err(words)?,
            inlet_throttle: None,
            condenser: Condenser::FixedTemperature(ThermodynamicTemperature::new::<degree_fahrenheit>(100.0)),
            cut_out: None,
            takes_liquid: true,
        };
        let test = RatedTest {
            kind: TestKind::Vapour,
            refrigerant: load(&self.refrigerant)?,
            source: celsius(24.0),
            ambient: celsius(24.0),
            final_vacuum: None,
            averaging,
            rated: MassRate::new::<kilogram_per_second>(0.002),
        };
        simulate(&machine, EQUILIBRIUM, &test).map(|rate| rate.get::<kilogram_per_second>()).map_err(words)
    }
}

impl Ask for AverageRate {
    fn what(&self) -> String {
        format!("{}, vapour test from 24 °C, average over starting rate", self.refrigerant)
    }

    fn unit(&self) -> &'static str {
        ""
    }

    fn answer(&self) -> Result<f64, String> {
        Ok(self.rate(Averaging::WholeTest)? / self.rate(Averaging::Start)?)
    }
}

/// Flow coefficient of a filter-drier rated one ton: saturated liquid at 86 °F, vapour at 5 °F,
/// 1 psi.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RatedTon {
    refrigerant: String,
}

impl Ask for RatedTon {
    fn what(&self) -> String {
        format!("{}, filter-drier rated one ton", self.refrigerant)
    }

    fn unit(&self) -> &'static str {
        "Cv"
    }

    fn answer(&self) -> Result<f64, String> {
        let text = built_in_scenario("reference-kits").ok_or("the reference scenario is missing")?;
        let mut document = read(text).map_err(words)?;
        set(&mut document, "refrigerant", &self.refrigerant).map_err(words)?;
        let drier = dialect().from_str("FilterDrier(rated_capacity: \"1 ton\")").map_err(words)?;
        document.kits = vec![Kit::new("A", vec![drier])];
        let setups = resolve(&document).map_err(|faults| format!("{faults:?}"))?;
        let part = setups.first().and_then(|setup| setup.setup.path.parts.first()).ok_or("no part")?;
        let Some(Element::Restriction(drier)) = part.elements.first() else {
            return Err("no restriction".to_owned());
        };
        // Kv by its definition: A = Kv/3600 · √(1000/(2·10⁵)).
        let kv = 3600.0 * drier.effective_area().get::<square_meter>() / (1000.0_f64 / 2e5).sqrt();
        Ok(kv / KV_PER_CV)
    }
}

/// Pressure of the standard atmosphere.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct AirPressure {
    meters: f64,
}

impl Ask for AirPressure {
    fn what(&self) -> String {
        format!("standard atmosphere at {} m", self.meters)
    }

    fn unit(&self) -> &'static str {
        "kPa"
    }

    fn answer(&self) -> Result<f64, String> {
        Ok(standard_atmosphere(Length::new::<meter>(self.meters)).get::<pascal>() / 1e3)
    }
}
