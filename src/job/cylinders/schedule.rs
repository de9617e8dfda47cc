//! Which cylinders a charge fills, in which order, and whether its high case is covered too.
//!
//! Cylinders are filled in the order of the stock, each to its own limit. Where the stock is too
//! small, it says how many more like the last usable one are needed.

use uom::si::f64::Mass;
use uom::si::mass::kilogram;

use super::filling::FillRuleKind;
use super::room::CylinderAnswer;

/// Masses nearer than this are one.
const SAME_MASS_KG: f64 = 1e-9;
/// No plan counts more cylinders than this: beyond, something was mistyped.
const MOST_CYLINDERS: f64 = 1e6;

/// One cylinder's turn.
#[derive(Debug, Clone, PartialEq)]
pub struct CylinderFill {
    /// Its place in the stock.
    pub index: usize,
    /// Its name.
    pub name: String,
    /// The rule that limits it.
    pub rule: FillRuleKind,
    /// Mass put in it for the likely charge: zero if it is only needed for the high one.
    pub likely: Mass,
    /// Mass put in it for the high charge.
    pub high: Mass,
    /// Weight on the scale to stop at, if its tare is known.
    pub stop_gross: Option<Mass>,
    /// Room left after the high charge.
    pub spare_after_high: Mass,
}

/// Cylinders that the stock lacks.
#[derive(Debug, Clone, PartialEq)]
pub struct MoreCylinders {
    /// Like this one, empty: its place in the stock.
    pub like: usize,
    /// How many for the likely charge.
    pub likely: usize,
    /// How many for the high charge.
    pub high: usize,
}

/// The cylinders of a job.
#[derive(Debug, Clone, PartialEq)]
pub struct CylinderSchedule {
    /// Those of the stock that are used, in order.
    pub fills: Vec<CylinderFill>,
    /// Cylinders for the likely charge.
    pub likely_count: usize,
    /// Cylinders for the high charge.
    pub high_count: usize,
    /// Changes of cylinder for the likely charge.
    pub likely_swaps: usize,
    /// Changes of cylinder for the high charge.
    pub high_swaps: usize,
    /// Room left in the likely charge's last cylinder.
    pub likely_spare: Mass,
    /// The likely charge's cylinders also take the high one.
    pub covers_high: bool,
    /// What the stock lacks, if anything.
    pub more: Option<MoreCylinders>,
    /// Mass of the high charge that nothing takes: no usable cylinder at all.
    pub homeless: Mass,
}

/// Shares a charge out over the stock.
///
/// # Source
/// Arithmetic: each cylinder takes what it has room for until the charge is gone.
/// # Example
/// 900 lb into cylinders of 191.2 lb: 4.71, so 5; 990 lb: 5.18, so 6.
pub fn cylinder_schedule(stock: &[CylinderAnswer], likely: Mass, high: Mass) -> CylinderSchedule {
    let likely_kg = likely.get::<kilogram>().max(0.0);
    let high_kg = high.get::<kilogram>().max(likely_kg);
    let usable = stock.iter().enumerate().filter(|(_, cylinder)| room_kg(cylinder) > SAME_MASS_KG);
    let (mut likely_left_kg, mut high_left_kg) = (likely_kg, high_kg);
    let mut fills = Vec::new();
    let (mut likely_count, mut likely_spare_kg) = (0, 0.0);
    for (index, cylinder) in usable {
        if high_left_kg <= SAME_MASS_KG {
            break;
        }
        let room_kg = room_kg(cylinder);
        let (likely_here_kg, high_here_kg) = (likely_left_kg.min(room_kg), high_left_kg.min(room_kg));
        if likely_left_kg > SAME_MASS_KG {
            likely_count += 1;
            likely_spare_kg = room_kg - likely_here_kg;
        }
        likely_left_kg -= likely_here_kg;
        high_left_kg -= high_here_kg;
        fills.push(CylinderFill {
            index,
            name: cylinder.name.clone(),
            rule: cylinder.lowest.map_or(FillRuleKind::WaterCapacity, |(kind, _)| kind),
            likely: Mass::new::<kilogram>(likely_here_kg),
            high: Mass::new::<kilogram>(high_here_kg),
            stop_gross: cylinder.stop_gross,
            spare_after_high: Mass::new::<kilogram>(room_kg - high_here_kg),
        });
    }
    let mut high_count = fills.len();
    let mut homeless_kg = 0.0;
    let more = match empty_like_last(stock) {
        Some((like, room_kg)) if high_left_kg > SAME_MASS_KG => {
            let more = MoreCylinders {
                like,
                likely: whole(likely_left_kg / room_kg),
                high: whole(high_left_kg / room_kg),
            };
            likely_count += more.likely;
            high_count += more.high;
            if more.likely > 0 {
                likely_spare_kg = more.likely as f64 * room_kg - likely_left_kg;
            }
            Some(more)
        }
        _ => {
            homeless_kg = high_left_kg.max(0.0);
            None
        }
    };
    CylinderSchedule {
        fills,
        likely_count,
        high_count,
        likely_swaps: likely_count.saturating_sub(1),
        high_swaps: high_count.saturating_sub(1),
        likely_spare: Mass::new::<kilogram>(likely_spare_kg),
        covers_high: high_count == likely_count && homeless_kg <= SAME_MASS_KG,
        more,
        homeless: Mass::new::<kilogram>(if homeless_kg > SAME_MASS_KG { homeless_kg } else { 0.0 }),
    }
}

fn room_kg(cylinder: &CylinderAnswer) -> f64 {
    cylinder.remaining.get::<kilogram>()
}

/// The last cylinder that may be filled, and what one like it takes when empty.
fn empty_like_last(stock: &[CylinderAnswer]) -> Option<(usize, f64)> {
    let (index, cylinder) = stock.iter().enumerate().rfind(|(_, cylinder)| cylinder.stops.is_empty())?;
    let room_kg = cylinder.empty_room.get::<kilogram>();
    (room_kg > SAME_MASS_KG).then_some((index, room_kg))
}

/// Whole cylinders for so many fillings.
fn whole(fillings: f64) -> usize {
    (fillings - SAME_MASS_KG).ceil().clamp(0.0, MOST_CYLINDERS) as usize
}
