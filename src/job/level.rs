//! How far a system must be evacuated: by its pressure class, its charge and the machine's date,
//! from a dated table that its user can replace.
//!
//! The class is read from the liquid's (bubble) saturation pressure at 104 °F. What the machine
//! can reach is not looked at here.

use uom::si::f64::{Mass, Pressure, Ratio};
use uom::si::mass::kilogram;
use uom::si::pressure::pascal;

use super::cylinders::YearMonth;
use crate::fluid::{PressureClass, Refrigerant};
use crate::units::factors::{INCH_OF_MERCURY_PA, POUND_KG, PSI_PA};
use crate::units::{GaugePressure, Reference, TypedPressure};

/// Between the classes, psia at 104 °F. 40 CFR 82.152.
const CLASS_EDGES_PSIA: [f64; 3] = [45.0, 170.0, 355.0];
/// A class that another property source could read differently: nearer to its edge than this.
const NEAR_EDGE_RATIO: f64 = 0.02;
/// Levels nearer than this are one: gauges read no finer, and the rule's atmosphere is not the
/// standard one.
const SAME_LEVEL_PA: f64 = 150.0;

/// The levels of one place, dated.
#[derive(Debug, Clone, PartialEq)]
pub struct LevelTable {
    /// What it is called.
    pub title: String,
    /// Which text it was copied from, and when.
    pub edition: String,
    /// When someone should compare it with the current text.
    pub review_by: Option<YearMonth>,
    /// The atmosphere that its inches of vacuum are counted from.
    pub atmosphere: Pressure,
    /// When machines began to need the deeper levels, in words.
    pub machine_date: String,
    /// The rows; the first that fits counts.
    pub rows: Vec<LevelRow>,
    /// Where leaks make the level unattainable.
    pub leak: Option<LevelException>,
    /// For small factory-sealed appliances.
    pub small_appliance: Option<SmallAppliance>,
}

/// One row of the table.
#[derive(Debug, Clone, PartialEq)]
pub struct LevelRow {
    /// The appliance's class.
    pub class: PressureClass,
    /// Full charge of at least this; any if left out.
    pub charge_from: Option<Mass>,
    /// Full charge below this; any if left out.
    pub charge_below: Option<Mass>,
    /// With a machine made before the date.
    pub before: TypedPressure,
    /// With a machine made since.
    pub since: TypedPressure,
    /// What other published tables say instead.
    pub others: Vec<OtherTable>,
}

/// Another published table's answer to the same row.
#[derive(Debug, Clone, PartialEq)]
pub struct OtherTable {
    /// Which table.
    pub source: String,
    /// Refrigerants for which it agrees after all.
    pub not_for: Vec<String>,
    /// With a machine made before the date.
    pub before: TypedPressure,
    /// With a machine made since.
    pub since: TypedPressure,
}

/// A level with its condition in words.
#[derive(Debug, Clone, PartialEq)]
pub struct LevelException {
    /// The level.
    pub level: TypedPressure,
    /// What has to be done for it.
    pub condition: String,
}

/// The rule for small appliances.
#[derive(Debug, Clone, PartialEq)]
pub struct SmallAppliance {
    /// Charged with no more than this.
    pub charge_to: Mass,
    /// The level that counts as done.
    pub level: TypedPressure,
    /// Share to be recovered where its compressor runs.
    pub running: Ratio,
    /// Share to be recovered where it does not.
    pub not_running: Ratio,
    /// Share to be recovered with a machine made before the date.
    pub before: Ratio,
    /// What has to be so, in words.
    pub condition: String,
}

/// When the machine was made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MachineMade {
    /// Before the table's date.
    Before,
    /// On that date or later.
    Since,
}

/// What is asked for.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct LevelAsk {
    /// A level of one's own instead of the table's.
    pub given: Option<TypedPressure>,
    /// When the machine was made.
    pub machine_made: Option<MachineMade>,
    /// Leaks make the level unattainable.
    pub leak: bool,
    /// Low and high of the appliance's full charge; equal if it is known.
    pub full_charge: Option<(Mass, Mass)>,
    /// It is a small appliance, and whether its compressor runs.
    pub small_appliance: Option<CompressorRuns>,
}

/// Whether the appliance's own compressor runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CompressorRuns {
    /// It does.
    Yes,
    /// It does not, or nobody knows.
    No,
}

/// Why there is no level.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum LevelError {
    /// No row of the table fits.
    #[error("{title} has no row for a {class}-pressure appliance of {charge}; expected one")]
    NoRow {
        /// The table.
        title: String,
        /// The class.
        class: PressureClass,
        /// The charge in words.
        charge: String,
    },
    /// Below absolute vacuum.
    #[error("{level} is deeper than an absolute vacuum in this air ({ambient_pa:.0} Pa)")]
    BelowVacuum {
        /// As typed.
        level: String,
        /// The air, Pa.
        ambient_pa: f64,
    },
}

/// On what the level stands.
#[derive(Debug, Clone, PartialEq)]
pub enum LevelBasis {
    /// A row of the table, in words.
    Row(String),
    /// Leaks; the condition.
    Leak(String),
    /// A small appliance; the condition, and the share to be recovered instead.
    SmallAppliance {
        /// In words.
        condition: String,
        /// Recovering this share is enough too.
        recover: Ratio,
    },
    /// One's own.
    Given,
}

/// Another table that says otherwise.
#[derive(Debug, Clone, PartialEq)]
pub struct Disagreement {
    /// Which table.
    pub source: String,
    /// Its level, as printed.
    pub stated: String,
    /// Absolute.
    pub absolute: Pressure,
}

/// What should be known with a level.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum LevelNote {
    /// Near the edge of its class.
    #[error(
        "saturation at 104 °F is {psia:.0} psia, close to the {edge_psia:.0} psia between classes: another \
         source may call it {other}-pressure"
    )]
    NearEdge {
        /// Saturation at 104 °F, psia.
        psia: f64,
        /// The edge, psia.
        edge_psia: f64,
        /// The class on the other side.
        other: PressureClass,
    },
    /// The charge is needed and not known.
    #[error("the full charge is not known; the deepest level of the class is taken")]
    ChargeUnknown,
    /// The charge's band lies across a row's edge.
    #[error("the full charge may lie on either side of {:.0} lb; the deeper level is taken", limit_kg / POUND_KG)]
    ChargeAcrossRows {
        /// The edge, kg.
        limit_kg: f64,
    },
    /// The machine's date is needed and not known.
    #[error("nothing says when the machine was made; {machine_date} or later is taken")]
    MachineDateAssumed {
        /// The date.
        machine_date: String,
    },
    /// Too much charge for a small appliance.
    #[error("a charge above {:.0} lb makes it no small appliance; the table's row is taken", limit_kg / POUND_KG)]
    NoSmallAppliance {
        /// The most a small appliance holds, kg.
        limit_kg: f64,
    },
    /// It may be a small appliance.
    #[error("with no more than {:.0} lb it may be a small appliance, for which another rule holds", limit_kg / POUND_KG)]
    MaybeSmallAppliance {
        /// The most a small appliance holds, kg.
        limit_kg: f64,
    },
    /// One's own level is shallower than the table's.
    #[error("the level you gave is shallower than the {stated} of {title}")]
    ShallowerThanTable {
        /// The table's level.
        stated: String,
        /// The table.
        title: String,
    },
    /// The table should be compared with the current text.
    #[error("{title} was due to be compared with the current text by {by}")]
    ReviewDue {
        /// The table.
        title: String,
        /// The date.
        by: YearMonth,
    },
}

/// How far to evacuate.
#[derive(Debug, Clone, PartialEq)]
pub struct RequiredLevel {
    /// The appliance's class.
    pub class: PressureClass,
    /// Liquid's saturation pressure at 104 °F, absolute; none above the critical point.
    pub class_pressure: Option<Pressure>,
    /// The level, absolute.
    pub absolute: Pressure,
    /// As the table prints it or as it was typed: "10 inHg vac".
    pub stated: String,
    /// On what it stands.
    pub basis: LevelBasis,
    /// The table's title.
    pub source: String,
    /// Its edition, with the date.
    pub edition: String,
    /// Tables that say otherwise: confirm with the current text. Empty if none does.
    pub confirm: Vec<Disagreement>,
    /// What should be known.
    pub notes: Vec<LevelNote>,
    /// What its inches of vacuum are counted from.
    pub atmosphere: Pressure,
}

impl RequiredLevel {
    /// Inches of mercury below the table's atmosphere; negative above it.
    pub fn vacuum_inhg(&self) -> f64 {
        (self.atmosphere - self.absolute).get::<pascal>() / INCH_OF_MERCURY_PA
    }

    /// What a gauge in this air reads at the level.
    pub fn gauge(&self, ambient: Pressure) -> GaugePressure {
        GaugePressure::from_absolute(self.absolute, ambient)
    }

    /// Someone has to look at the current text before relying on it.
    pub fn needs_confirmation(&self) -> bool {
        !self.confirm.is_empty()
    }
}

/// The level that has to be reached.
///
/// # Valid
/// As far as the table goes; whoever is responsible confirms it against the current text.
/// # Errors
/// No row fits, or a given level is deeper than an absolute vacuum.
/// # Example
/// R-22, 900 lb, machine made since 1993, 40 CFR 82.156 Table 1: 10 inHg vac, 67.39 kPa absolute.
pub fn required_level(
    refrigerant: &Refrigerant,
    ask: &LevelAsk,
    table: &LevelTable,
    ambient: Pressure,
    date: Option<YearMonth>,
) -> Result<RequiredLevel, LevelError> {
    let by_table = by_table(refrigerant, ask, table, ambient);
    let mut level = match &ask.given {
        None => by_table?,
        Some(given) => {
            let mut level = blank(refrigerant, table);
            level.absolute = absolute(given, ambient, ambient)?;
            level.stated = given.as_typed().to_owned();
            if let Ok(rule) = by_table {
                if level.absolute - rule.absolute > Pressure::new::<pascal>(SAME_LEVEL_PA) {
                    let (stated, title) = (rule.stated, table.title.clone());
                    level.notes.push(LevelNote::ShallowerThanTable { stated, title });
                }
            }
            level
        }
    };
    if let (Some(by), Some(date)) = (table.review_by, date) {
        if date > by {
            level.notes.push(LevelNote::ReviewDue { title: table.title.clone(), by });
        }
    }
    Ok(level)
}

fn blank(refrigerant: &Refrigerant, table: &LevelTable) -> RequiredLevel {
    RequiredLevel {
        class: refrigerant.pressure_class(),
        class_pressure: refrigerant
            .bubble_pressure_pa(PressureClass::TEMPERATURE_K)
            .ok()
            .map(Pressure::new::<pascal>),
        absolute: table.atmosphere,
        stated: String::new(),
        basis: LevelBasis::Given,
        source: table.title.clone(),
        edition: table.edition.clone(),
        confirm: Vec::new(),
        notes: Vec::new(),
        atmosphere: table.atmosphere,
    }
}

fn by_table(
    refrigerant: &Refrigerant,
    ask: &LevelAsk,
    table: &LevelTable,
    ambient: Pressure,
) -> Result<RequiredLevel, LevelError> {
    let mut level = blank(refrigerant, table);
    if let Some(small) = small_appliance(ask, table, &mut level.notes) {
        return finish(level, &small.level, small_basis(small, ask), table.atmosphere, ambient);
    }
    if let (true, Some(leak)) = (ask.leak, &table.leak) {
        let basis = LevelBasis::Leak(leak.condition.clone());
        return finish(level, &leak.level, basis, table.atmosphere, ambient);
    }
    level.notes.extend(near_edge(level.class_pressure));
    let made = ask.machine_made.unwrap_or(MachineMade::Since);
    let row = deepest_row(level.class, ask, table, made, ambient, &mut level.notes)?;
    if ask.machine_made.is_none() && !same(&row.before, &row.since, table.atmosphere, ambient) {
        level.notes.push(LevelNote::MachineDateAssumed { machine_date: table.machine_date.clone() });
    }
    let stated = of(made, &row.before, &row.since);
    for other in &row.others {
        let its = of(made, &other.before, &other.since);
        let agrees = same(its, stated, table.atmosphere, ambient)
            || other.not_for.iter().any(|name| name == refrigerant.designation());
        if !agrees {
            level.confirm.push(Disagreement {
                source: other.source.clone(),
                stated: its.as_typed().to_owned(),
                absolute: absolute(its, table.atmosphere, ambient)?,
            });
        }
    }
    finish(level, stated, LevelBasis::Row(row_words(row, made, table)), table.atmosphere, ambient)
}

fn finish(
    level: RequiredLevel,
    stated: &TypedPressure,
    basis: LevelBasis,
    atmosphere: Pressure,
    ambient: Pressure,
) -> Result<RequiredLevel, LevelError> {
    let absolute = absolute(stated, atmosphere, ambient)?;
    Ok(RequiredLevel { absolute, stated: stated.as_typed().to_owned(), basis, ..level })
}

/// A vacuum is counted from `atmosphere`, a gauge pressure from the air around.
fn absolute(level: &TypedPressure, atmosphere: Pressure, ambient: Pressure) -> Result<Pressure, LevelError> {
    let air = match level.reference() {
        Reference::Vacuum => atmosphere,
        Reference::Gauge | Reference::Absolute => ambient,
    };
    let absolute = level.absolute(air);
    // Refuses what is not a number, too.
    if absolute.get::<pascal>() >= 0.0 {
        Ok(absolute)
    } else {
        Err(LevelError::BelowVacuum { level: level.as_typed().to_owned(), ambient_pa: air.get::<pascal>() })
    }
}

fn of<'a>(made: MachineMade, before: &'a TypedPressure, since: &'a TypedPressure) -> &'a TypedPressure {
    match made {
        MachineMade::Before => before,
        MachineMade::Since => since,
    }
}

fn same(a: &TypedPressure, b: &TypedPressure, atmosphere: Pressure, ambient: Pressure) -> bool {
    match (absolute(a, atmosphere, ambient), absolute(b, atmosphere, ambient)) {
        (Ok(a), Ok(b)) => (a - b).get::<pascal>().abs() < SAME_LEVEL_PA,
        _ => false,
    }
}

fn small_appliance<'t>(
    ask: &LevelAsk,
    table: &'t LevelTable,
    notes: &mut Vec<LevelNote>,
) -> Option<&'t SmallAppliance> {
    let small = table.small_appliance.as_ref()?;
    let limit_kg = small.charge_to.get::<kilogram>();
    let is_small = ask.full_charge.map(|(_, high)| high <= small.charge_to);
    match (ask.small_appliance, is_small) {
        (Some(_), Some(false)) => notes.push(LevelNote::NoSmallAppliance { limit_kg }),
        (Some(_), _) => return Some(small),
        (None, Some(true)) => notes.push(LevelNote::MaybeSmallAppliance { limit_kg }),
        (None, _) => {}
    }
    None
}

fn small_basis(small: &SmallAppliance, ask: &LevelAsk) -> LevelBasis {
    let recover = match (ask.machine_made, ask.small_appliance) {
        (Some(MachineMade::Before), _) => small.before,
        (_, Some(CompressorRuns::Yes)) => small.running,
        _ => small.not_running,
    };
    LevelBasis::SmallAppliance { condition: small.condition.clone(), recover }
}

fn near_edge(class_pressure: Option<Pressure>) -> Option<LevelNote> {
    let psia = class_pressure?.get::<pascal>() / PSI_PA;
    let edge_psia = CLASS_EDGES_PSIA.into_iter().find(|edge| (psia / edge - 1.0).abs() < NEAR_EDGE_RATIO)?;
    // Just across the edge, whichever side this is on.
    let across_psia = if psia <= edge_psia { edge_psia * 1.001 } else { edge_psia * 0.999 };
    let other = PressureClass::of_bubble_pressure_pa(across_psia * PSI_PA);
    Some(LevelNote::NearEdge { psia, edge_psia, other })
}

/// Of the rows that the charge may fall in, the one with the deepest level.
fn deepest_row<'t>(
    class: PressureClass,
    ask: &LevelAsk,
    table: &'t LevelTable,
    made: MachineMade,
    ambient: Pressure,
    notes: &mut Vec<LevelNote>,
) -> Result<&'t LevelRow, LevelError> {
    let (low, high) = ask.full_charge.unwrap_or((Mass::default(), Mass::new::<kilogram>(f64::INFINITY)));
    let fits = |row: &&LevelRow| {
        row.class == class
            && row.charge_from.is_none_or(|from| high >= from)
            && row.charge_below.is_none_or(|below| low < below)
    };
    let rows: Vec<&LevelRow> = table.rows.iter().filter(fits).collect();
    let depth_pa = |row: &LevelRow| {
        absolute(of(made, &row.before, &row.since), table.atmosphere, ambient)
            .map_or(f64::INFINITY, |level| level.get::<pascal>())
    };
    let deepest = rows.iter().copied().min_by(|a, b| depth_pa(a).total_cmp(&depth_pa(b)));
    let row = deepest.ok_or_else(|| LevelError::NoRow {
        title: table.title.clone(),
        class,
        charge: ask.full_charge.map_or_else(
            || "any charge".to_owned(),
            |(low, high)| {
                format!(
                    "{:.0} to {:.0} lb",
                    low.get::<kilogram>() / POUND_KG,
                    high.get::<kilogram>() / POUND_KG
                )
            },
        ),
    })?;
    let levels_differ = rows.iter().any(|other| depth_pa(other) - depth_pa(row) > SAME_LEVEL_PA);
    if levels_differ {
        let edge = row.charge_from.or(row.charge_below);
        notes.push(match (ask.full_charge, edge) {
            (Some(_), Some(edge)) => LevelNote::ChargeAcrossRows { limit_kg: edge.get::<kilogram>() },
            _ => LevelNote::ChargeUnknown,
        });
    }
    Ok(row)
}

fn row_words(row: &LevelRow, made: MachineMade, table: &LevelTable) -> String {
    let pounds = |mass: Mass| format!("{:.0} lb", mass.get::<kilogram>() / POUND_KG);
    let charge = match (row.charge_from, row.charge_below) {
        (Some(from), Some(below)) => format!(", {} to {}", pounds(from), pounds(below)),
        (Some(from), None) => format!(", {} or more", pounds(from)),
        (None, Some(below)) => format!(", less than {}", pounds(below)),
        (None, None) => String::new(),
    };
    let made = match made {
        MachineMade::Before => format!("before {}", table.machine_date),
        MachineMade::Since => format!("{} or later", table.machine_date),
    };
    format!("{}-pressure appliance{charge}, machine made {made}", row.class)
}
