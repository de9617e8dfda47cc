//! Finds the row of the table that fits, and says where other tables differ.

use uom::si::f64::{Mass, Pressure};
use uom::si::mass::kilogram;
use uom::si::pressure::pascal;

use super::answer::{
    CompressorRuns, Disagreement, LevelAsk, LevelBasis, LevelError, LevelNote, MachineMade, RequiredLevel,
};
use super::table::{LevelRow, LevelTable, SmallAppliance};
use crate::fluid::{PressureClass, Refrigerant};
use crate::job::YearMonth;
use crate::units::factors::{POUND_KG, PSI_PA};
use crate::units::{Reference, TypedPressure};

/// Between the classes, psia at 104 °F. 40 CFR 82.152.
const CLASS_EDGES_PSIA: [f64; 3] = [45.0, 170.0, 355.0];
/// A class that another property source could read differently: nearer to its edge than this.
const NEAR_EDGE_RATIO: f64 = 0.02;
/// Levels nearer than this are one: gauges read no finer, and the rule's atmosphere is not the
/// standard one.
const SAME_LEVEL_PA: f64 = 150.0;

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
            if let Ok(rule) = by_table
                && level.absolute - rule.absolute > Pressure::new::<pascal>(SAME_LEVEL_PA)
            {
                let (stated, title) = (rule.stated, table.title.clone());
                level.notes.push(LevelNote::ShallowerThanTable { stated, title });
            }
            level
        }
    };
    if let (Some(by), Some(date)) = (table.review_by, date)
        && date > by
    {
        level.notes.push(LevelNote::ReviewDue { title: table.title.clone(), by });
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
