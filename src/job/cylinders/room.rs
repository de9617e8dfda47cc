//! One cylinder on the day: what it may still take, the weight to stop at, and what forbids its use.

use uom::si::f64::{Mass, MassDensity, MassRate, Pressure, Time};
use uom::si::mass::kilogram;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::mass_rate::kilogram_per_second;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::time::second;
use uom::si::volume::cubic_meter;

use super::date::YearMonth;
use super::filling::{FillLimits, FillRuleKind, FillingTable, NoLimit, fill_limits};
use super::finding::{FillNote, FillStop};
use super::hydrostatic::{LiquidFull, inside_volume, liquid_full_temperature};
use super::stock::{Holds, StockCylinder};
use crate::fluid::{FluidError, Refrigerant};
use crate::job::strength::saturation_gauge;
use crate::units::GaugePressure;
use crate::units::factors::{POUND_KG, PSI_PA};

/// How long a person takes to see the weight and close the valves, in s. Common practice, no
/// source.
pub const SIPHON_TIME_S: f64 = 30.0;
/// A cylinder's pressure at 55 °C may be this multiple of its service pressure. 49 CFR 173.301a,
/// from memory.
const HOT_OVER_SERVICE_RATIO: f64 = 1.25;
/// Saturation pressures of two property sources may differ by this share.
const PRESSURE_DOUBT_RATIO: f64 = 0.01;
/// Masses nearer than this are one.
const SAME_MASS_KG: f64 = 1e-9;

/// What the day brings: nothing here is asked of a clock.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RecoveryDay {
    /// When the job is done.
    pub date: Option<YearMonth>,
    /// Air around, for gauge pressures.
    pub ambient_pressure: Pressure,
    /// Kept free for what siphons over after the machine stops: push-pull only.
    pub siphon_allowance: Mass,
}

/// What one cylinder may take today.
#[derive(Debug, Clone, PartialEq)]
pub struct CylinderAnswer {
    /// Its name.
    pub name: String,
    /// Every rule.
    pub limits: FillLimits,
    /// The lowest limit, net, and the rule that sets it.
    pub lowest: Option<(FillRuleKind, Mass)>,
    /// What it may still take: zero under a stop.
    pub remaining: Mass,
    /// What one like it takes when empty.
    pub empty_room: Mass,
    /// Weight on the scale at which it holds its limit: tare and net limit.
    pub limit_gross: Option<Mass>,
    /// Weight on the scale at which to stop: less what may siphon over afterwards.
    pub stop_gross: Option<Mass>,
    /// Temperature at which liquid fills it when it holds its limit.
    pub liquid_full: Option<Result<LiquidFull, FluidError>>,
    /// Saturation pressure at the table's hot temperature, absolute.
    pub hot_pressure: Option<Pressure>,
    /// Why it may not be filled; empty if it may.
    pub stops: Vec<FillStop>,
    /// What should be known.
    pub notes: Vec<FillNote>,
}

/// Mass kept free for what siphons over after the machine stops: `ṁ · t + m_line`.
///
/// # Source
/// Common practice, no source: stop short by what flows while a person reacts, and by what the
/// liquid line holds.
/// # Example
/// 20 lb/min for 30 s and 1 lb in the line: 11 lb
pub fn siphon_allowance(liquid_rate: MassRate, reaction: Time, line_contents: Mass) -> Mass {
    let kg =
        liquid_rate.get::<kilogram_per_second>() * reaction.get::<second>() + line_contents.get::<kilogram>();
    // `max` also refuses what is not a number.
    Mass::new::<kilogram>(kg.max(0.0))
}

/// What one cylinder may take today, and why not more.
pub fn cylinder_answer(
    refrigerant: &Refrigerant,
    cylinder: &StockCylinder,
    table: &FillingTable,
    day: &RecoveryDay,
) -> CylinderAnswer {
    let limits = fill_limits(refrigerant, cylinder, table);
    let lowest = limits.lowest().map(|(rule, net)| (rule.kind, net));
    let stops = stops(refrigerant, cylinder, table, day, &limits);
    let room_kg = lowest.map_or(0.0, |(_, net)| (net - cylinder.contents).get::<kilogram>().max(0.0));
    let allowance_kg = day.siphon_allowance.get::<kilogram>().max(0.0);
    let remaining_kg = if stops.is_empty() { (room_kg - allowance_kg).max(0.0) } else { 0.0 };
    let notes = notes(refrigerant, cylinder, table, day, stops.is_empty().then_some(room_kg));
    let gross = |net: Mass| cylinder.tare.map(|tare| tare + net);
    CylinderAnswer {
        name: cylinder.name.clone(),
        lowest,
        remaining: Mass::new::<kilogram>(remaining_kg),
        empty_room: lowest.map_or(Mass::default(), |(_, net)| {
            Mass::new::<kilogram>((net.get::<kilogram>() - allowance_kg).max(0.0))
        }),
        limit_gross: lowest.and_then(|(_, net)| gross(net)),
        stop_gross: lowest
            .filter(|_| stops.is_empty())
            .and_then(|_| gross(cylinder.contents + Mass::new::<kilogram>(remaining_kg))),
        liquid_full: lowest
            .and_then(|(_, net)| Some(liquid_full_temperature(refrigerant, mean(cylinder, net)?))),
        hot_pressure: refrigerant.bubble_pressure(table.hot_temperature).ok(),
        limits,
        stops,
        notes,
    }
}

fn mean(cylinder: &StockCylinder, net: Mass) -> Option<MassDensity> {
    let volume_m3 = inside_volume(cylinder.water_capacity?).get::<cubic_meter>();
    Some(MassDensity::new::<kilogram_per_cubic_meter>(net.get::<kilogram>() / volume_m3))
}

fn stops(
    refrigerant: &Refrigerant,
    cylinder: &StockCylinder,
    table: &FillingTable,
    day: &RecoveryDay,
    limits: &FillLimits,
) -> Vec<FillStop> {
    let name = || cylinder.name.clone();
    let mut stops = Vec::new();
    if cylinder.disposable {
        stops.push(FillStop::Disposable { cylinder: name() });
    }
    if cylinder.damaged {
        stops.push(FillStop::Damaged { cylinder: name() });
    }
    stops.extend(date_stop(cylinder, table, day));
    if let Holds::Other(holds) = &cylinder.holds {
        stops.push(FillStop::OtherRefrigerant {
            cylinder: name(),
            holds: holds.clone(),
            refrigerant: refrigerant.designation(),
        });
    }
    stops.extend(service_stop(refrigerant, cylinder, day));
    let density = limits.rule(FillRuleKind::FillingDensity).map(|rule| &rule.limit);
    if let Some(Err(why @ NoLimit::TooWeak { .. })) = density {
        stops.push(FillStop::TooWeak { cylinder: name(), why: why.clone() });
    }
    match limits.lowest() {
        // Nobody who only compares hoses has to know it: a note says what is missing.
        None if cylinder.water_capacity.is_none() => {}
        None => stops.push(FillStop::NoLimit { cylinder: name(), why: why_no_limit(limits) }),
        Some((_, net)) => {
            let over_kg = (cylinder.contents - net).get::<kilogram>();
            if over_kg > SAME_MASS_KG {
                stops.push(FillStop::OverLimit { cylinder: name(), over_lb: over_kg / POUND_KG });
            }
        }
    }
    stops
}

/// The reason of the hot rule, or else of the first.
fn why_no_limit(limits: &FillLimits) -> NoLimit {
    let hot = limits.rule(FillRuleKind::HotLiquid).and_then(|rule| rule.limit.clone().err());
    hot.unwrap_or(NoLimit::NotMarked)
}

fn date_stop(cylinder: &StockCylinder, table: &FillingTable, day: &RecoveryDay) -> Option<FillStop> {
    let (tested, date) = (cylinder.test_date?, day.date?);
    let (name, until) = (cylinder.name.clone(), tested.plus_years(table.retest_years));
    if tested > date {
        Some(FillStop::TestedLater { cylinder: name, tested, date })
    } else if date > until {
        Some(FillStop::OutOfDate { cylinder: name, tested, until, date })
    } else {
        None
    }
}

fn service_stop(refrigerant: &Refrigerant, cylinder: &StockCylinder, day: &RecoveryDay) -> Option<FillStop> {
    let service = cylinder.service_pressure?;
    let saturation = saturation_gauge(refrigerant, cylinder.temperature, day.ambient_pressure)?;
    (saturation > service).then(|| FillStop::AboveServicePressure {
        cylinder: cylinder.name.clone(),
        service_psig: psig(service),
        refrigerant: refrigerant.designation(),
        saturation_psig: psig(saturation),
    })
}

fn psig(pressure: GaugePressure) -> f64 {
    pressure.above_ambient_pa() / PSI_PA
}

/// `room_kg` is what is left below the limit, where nothing stops the filling.
fn notes(
    refrigerant: &Refrigerant,
    cylinder: &StockCylinder,
    table: &FillingTable,
    day: &RecoveryDay,
    room_kg: Option<f64>,
) -> Vec<FillNote> {
    let name = || cylinder.name.clone();
    let designation = refrigerant.designation();
    let mut notes = Vec::new();
    if cylinder.water_capacity.is_none() {
        notes.push(FillNote::NoWaterCapacity { cylinder: name() });
    } else if room_kg.is_some_and(|room_kg| room_kg <= SAME_MASS_KG) {
        notes.push(FillNote::Full { cylinder: name() });
    }
    if cylinder.contents.get::<kilogram>() > 0.0 && cylinder.holds == Holds::Unsaid {
        notes.push(FillNote::ContentsUnsaid { cylinder: name(), refrigerant: designation });
    }
    if cylinder.tare.is_none() {
        notes.push(FillNote::NoTare { cylinder: name() });
    }
    match (cylinder.test_date, day.date) {
        (None, _) => notes.push(FillNote::TestUnsaid { cylinder: name() }),
        (Some(tested), None) => {
            let until = tested.plus_years(table.retest_years);
            notes.push(FillNote::DateUnsaid { cylinder: name(), tested, until });
        }
        (Some(_), Some(_)) => {}
    }
    let hot = saturation_gauge(refrigerant, table.hot_temperature, day.ambient_pressure);
    if let (Some(service_psig), Some(hot_psig)) = (cylinder.service_pressure.map(psig), hot.map(psig))
        && hot_psig > (1.0 + PRESSURE_DOUBT_RATIO) * HOT_OVER_SERVICE_RATIO * service_psig
    {
        notes.push(FillNote::WeakWhenHot {
            cylinder: name(),
            refrigerant: designation,
            hot_c: table.hot_temperature.get::<kelvin>() - 273.15,
            hot_psig,
            service_psig,
        });
    }
    notes
}
