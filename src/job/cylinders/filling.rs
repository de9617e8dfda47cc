//! How much a cylinder may take: every rule beside the others, the lowest wins.
//!
//! All rules limit the mass, never a float's level: a level that is right in a cold cylinder is
//! too high in a warm one. The numbers come from a dated table that its user can replace.

use uom::si::f64::{Mass, Ratio, ThermodynamicTemperature, Time};
use uom::si::mass::kilogram;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::volume::cubic_meter;

use super::hydrostatic::{inside_volume, specific_gravity};
use super::stock::StockCylinder;
use crate::fluid::{FluidError, Refrigerant};
use crate::units::factors::PSI_PA;
use crate::units::{GaugePressure, both_scales};

/// The filling rules of one place, dated.
#[derive(Debug, Clone, PartialEq)]
pub struct FillingTable {
    /// What it is called.
    pub title: String,
    /// Which text it was copied from, and when.
    pub edition: String,
    /// Where each rule comes from.
    pub sources: FillingSources,
    /// Share of the water capacity, or of the volume, that may be filled: 0.8.
    pub fill: Ratio,
    /// Liquid may not fill the cylinder up to this temperature: 55 °C.
    pub hot_temperature: ThermodynamicTemperature,
    /// Share of the volume kept free at that temperature.
    pub hot_margin: Ratio,
    /// Filling densities of named refrigerants.
    pub densities: Vec<FillingDensity>,
    /// A test is good for this many years.
    pub retest_years: u16,
    /// How long liquid may go on siphoning after the machine stops.
    pub siphon_time: Time,
}

/// Where each rule comes from, for people.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FillingSources {
    /// Of the share of the water capacity.
    pub water_capacity: String,
    /// Of the share by specific gravity.
    pub specific_gravity: String,
    /// Of the room kept when hot.
    pub hot_liquid: String,
    /// Of the filling densities.
    pub filling_density: String,
    /// Of the interval between tests.
    pub retest: String,
}

/// Filling density of a named refrigerant.
#[derive(Debug, Clone, PartialEq)]
pub struct FillingDensity {
    /// Designation, as R-22.
    pub refrigerant: String,
    /// Mass of contents over water capacity.
    pub density: Ratio,
    /// Only for cylinders of at least this service pressure.
    pub least_service_pressure: Option<GaugePressure>,
}

/// The kinds of rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum FillRuleKind {
    /// A share of the water capacity.
    WaterCapacity,
    /// A share of the water capacity times the specific gravity at 25 °C.
    SpecificGravity,
    /// Not liquid-full when hot, with a margin.
    HotLiquid,
    /// A filling density set by regulation.
    FillingDensity,
    /// What is marked on the cylinder.
    Marking,
}

impl FillRuleKind {
    /// The word that programs read.
    pub fn tag(self) -> &'static str {
        match self {
            Self::WaterCapacity => "water_capacity",
            Self::SpecificGravity => "specific_gravity",
            Self::HotLiquid => "hot_liquid",
            Self::FillingDensity => "filling_density",
            Self::Marking => "marking",
        }
    }
}

/// Why a rule gives no limit.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum NoLimit {
    /// The cylinder does not say what it holds.
    #[error("the cylinder's water capacity is not known; read the stamp WC")]
    NoWaterCapacity,
    /// A capacity, share or temperature that is no number.
    #[error("{quantity} is {value}; expected a number above zero")]
    NotPositive {
        /// What it is.
        quantity: &'static str,
        /// As given, in SI units.
        value: f64,
    },
    /// The liquid phase ends below the temperature of the rule.
    #[error(
        "{refrigerant} has no liquid at {}, beyond its critical {}: a rule by liquid volume says nothing, go by its \
         filling density",
        both_scales(*hot_c), both_scales(*critical_c)
    )]
    NoLiquid {
        /// Designation.
        refrigerant: &'static str,
        /// The temperature of the rule, °C.
        hot_c: f64,
        /// Critical temperature, °C.
        critical_c: f64,
    },
    /// The table does not name this refrigerant.
    #[error("the table gives no filling density for {refrigerant}")]
    NotNamed {
        /// Designation.
        refrigerant: &'static str,
    },
    /// The table wants a stronger cylinder.
    #[error(
        "{refrigerant} wants a cylinder of at least {least_psig:.0} psig service pressure; this one has \
         {has_psig:.0} psig"
    )]
    TooWeak {
        /// Designation.
        refrigerant: &'static str,
        /// Service pressure that the table asks for, psig.
        least_psig: f64,
        /// The cylinder's, psig.
        has_psig: f64,
    },
    /// Nothing is marked.
    #[error("no limit is marked on it")]
    NotMarked,
    /// Outside the property table.
    #[error(transparent)]
    Fluid(#[from] FluidError),
}

/// One rule's answer.
#[derive(Debug, Clone, PartialEq)]
pub struct FillRule {
    /// Its kind.
    pub kind: FillRuleKind,
    /// In words.
    pub name: String,
    /// Where it comes from.
    pub source: String,
    /// Net mass it allows, or why it says nothing.
    pub limit: Result<Mass, NoLimit>,
}

/// All rules for one cylinder and refrigerant.
#[derive(Debug, Clone, PartialEq)]
pub struct FillLimits {
    /// Always all five, in the same order.
    pub rules: Vec<FillRule>,
}

impl FillLimits {
    /// The rule with the lowest limit, and the limit. None where no rule gives one, and none where
    /// the room for hot liquid could not be worked out: the others alone do not guard against it.
    pub fn lowest(&self) -> Option<(&FillRule, Mass)> {
        let is_unguarded = self.rules.iter().any(|rule| {
            rule.kind == FillRuleKind::HotLiquid
                && matches!(rule.limit, Err(NoLimit::Fluid(_) | NoLimit::NotPositive { .. }))
        });
        if is_unguarded {
            return None;
        }
        let limits = self.rules.iter().filter_map(|rule| Some((rule, rule.limit.as_ref().ok().copied()?)));
        limits.min_by(|a, b| a.1.get::<kilogram>().total_cmp(&b.1.get::<kilogram>()))
    }

    /// The answer of one kind of rule.
    pub fn rule(&self, kind: FillRuleKind) -> Option<&FillRule> {
        self.rules.iter().find(|rule| rule.kind == kind)
    }
}

/// Every rule's limit for one cylinder.
///
/// With WC the water capacity, f the share (0.8), SG the specific gravity at 25 °C, V the inside
/// volume, m the margin and d the filling density:
/// `f·WC`, `f·WC·SG`, `(1 − m)·V·ρ_l(hot)`, `d·WC`, and what is marked.
///
/// # Valid
/// Where the refrigerant is liquid at the hot temperature. Otherwise the first three say so and
/// the filling density or the marking stands alone.
/// # Source
/// The table's own. The share by specific gravity is AHRI Guideline K's, the hot one 49 CFR
/// 173.304(b), the densities 49 CFR 173.304a Table 1.
/// # Example
/// WC 1000 lb, SG 1.197: 957.6 lb by specific gravity, 800 lb by water capacity.
pub fn fill_limits(refrigerant: &Refrigerant, cylinder: &StockCylinder, table: &FillingTable) -> FillLimits {
    let capacity = checked_capacity(cylinder);
    let share = positive("the share to be filled", table.fill.get::<ratio>()).map(Ratio::new::<ratio>);
    let liquid = has_liquid_when_hot(refrigerant, table);
    let of_capacity = |factor: Result<f64, NoLimit>| -> Result<Mass, NoLimit> {
        Ok(Mass::new::<kilogram>(capacity.clone()?.get::<kilogram>() * factor?))
    };
    let sources = &table.sources;
    let percent = 100.0 * table.fill.get::<ratio>();
    let hot_c = table.hot_temperature.get::<kelvin>() - 273.15;
    let rule = |kind, name, source: &str, limit| FillRule { kind, name, source: source.to_owned(), limit };
    let rules = vec![
        rule(
            FillRuleKind::WaterCapacity,
            format!("{percent:.0} % of the water capacity"),
            &sources.water_capacity,
            liquid.clone().and_then(|()| of_capacity(share.clone().map(|share| share.get::<ratio>()))),
        ),
        rule(
            FillRuleKind::SpecificGravity,
            format!("{percent:.0} % of the water capacity times the specific gravity at 77 °F (25 °C)"),
            &sources.specific_gravity,
            liquid.clone().and_then(|()| {
                Ok(net_by_specific_gravity(capacity.clone()?, share?, specific_gravity(refrigerant)?))
            }),
        ),
        rule(
            FillRuleKind::HotLiquid,
            format!(
                "not liquid-full at {}, {:.0} % kept free",
                both_scales(hot_c),
                100.0 * table.hot_margin.get::<ratio>()
            ),
            &sources.hot_liquid,
            liquid.clone().and_then(|()| hot_limit(refrigerant, &capacity, table)),
        ),
        rule(
            FillRuleKind::FillingDensity,
            "filling density of the regulation".to_owned(),
            &sources.filling_density,
            of_capacity(filling_density(refrigerant, cylinder, table)),
        ),
        rule(
            FillRuleKind::Marking,
            "marked on the cylinder".to_owned(),
            "the cylinder's own marking",
            marking(cylinder),
        ),
    ];
    FillLimits { rules }
}

/// Net mass by specific gravity: `f · WC · SG`.
///
/// # Source
/// AHRI Guideline K (2004), as quoted in the trade press.
/// # Example
/// 0.8 · 1000 lb · 1.197 = 957.6 lb; with a tare of 380 lb, 1337.6 lb on the scale.
pub fn net_by_specific_gravity(water_capacity: Mass, fill: Ratio, specific_gravity: Ratio) -> Mass {
    water_capacity * fill * specific_gravity
}

fn positive(quantity: &'static str, value: f64) -> Result<f64, NoLimit> {
    if value > 0.0 && value.is_finite() { Ok(value) } else { Err(NoLimit::NotPositive { quantity, value }) }
}

fn checked_capacity(cylinder: &StockCylinder) -> Result<Mass, NoLimit> {
    let capacity = cylinder.water_capacity.ok_or(NoLimit::NoWaterCapacity)?;
    positive("the water capacity", capacity.get::<kilogram>())?;
    Ok(capacity)
}

fn marking(cylinder: &StockCylinder) -> Result<Mass, NoLimit> {
    let marked = cylinder.marking_limit.ok_or(NoLimit::NotMarked)?;
    positive("the marked limit", marked.get::<kilogram>())?;
    Ok(marked)
}

fn has_liquid_when_hot(refrigerant: &Refrigerant, table: &FillingTable) -> Result<(), NoLimit> {
    let hot_k = positive("the hot temperature", table.hot_temperature.get::<kelvin>())?;
    if refrigerant.critical_temperature_k() > hot_k {
        return Ok(());
    }
    Err(NoLimit::NoLiquid {
        refrigerant: refrigerant.designation(),
        hot_c: hot_k - 273.15,
        critical_c: refrigerant.critical_temperature_k() - 273.15,
    })
}

fn hot_limit(
    refrigerant: &Refrigerant,
    capacity: &Result<Mass, NoLimit>,
    table: &FillingTable,
) -> Result<Mass, NoLimit> {
    let volume_m3 = inside_volume(capacity.clone()?).get::<cubic_meter>();
    let filled = positive("the share filled when hot", 1.0 - table.hot_margin.get::<ratio>())?;
    let liquid = refrigerant.saturation_at_bubble_temperature(table.hot_temperature.get::<kelvin>())?;
    Ok(Mass::new::<kilogram>(filled.min(1.0) * volume_m3 * liquid.liquid_density_kg_m3))
}

/// Of the densities for this refrigerant, the one for the strongest cylinder that this one is; the
/// one for the weakest where its service pressure is not known.
fn filling_density(
    refrigerant: &Refrigerant,
    cylinder: &StockCylinder,
    table: &FillingTable,
) -> Result<f64, NoLimit> {
    let name = refrigerant.designation();
    let needs = |row: &FillingDensity| row.least_service_pressure.map_or(0.0, |p| p.above_ambient_pa());
    let named: Vec<&FillingDensity> = table.densities.iter().filter(|row| row.refrigerant == name).collect();
    let weakest = named
        .iter()
        .copied()
        .min_by(|a, b| needs(a).total_cmp(&needs(b)))
        .ok_or(NoLimit::NotNamed { refrigerant: name })?;
    let chosen = match cylinder.service_pressure {
        None => weakest,
        Some(has) => named
            .into_iter()
            .filter(|row| needs(row) <= has.above_ambient_pa())
            .max_by(|a, b| needs(a).total_cmp(&needs(b)))
            .ok_or(NoLimit::TooWeak {
                refrigerant: name,
                least_psig: needs(weakest) / PSI_PA,
                has_psig: has.above_ambient_pa() / PSI_PA,
            })?,
    };
    positive("the filling density", chosen.density.get::<ratio>())
}
