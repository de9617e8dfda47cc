//! Parts of a kit to elements of a path.

use crate::flow::{Element, FlowError, Path, PathPart, Restriction, SecondBranch, Tube};
use crate::fluid::{FluidError, Refrigerant};
use crate::kit::{Content, Door, FilterDrier, Hole, Kit, Part, PartKind, Valve};
use crate::units::factors::{FAHRENHEIT_DEGREE_K, FAHRENHEIT_SHIFT, PSI_PA};
use crate::units::{Measure, Typed};
use uom::si::f64::Ratio;

/// What parts need to know besides themselves.
pub(super) struct Context<'a> {
    pub refrigerant: &'a Refrigerant,
}

/// Why a part is no element.
#[derive(Debug, thiserror::Error)]
pub(super) enum PartError {
    #[error(transparent)]
    Flow(#[from] FlowError),
    #[error("rated_refrigerant: {0}")]
    RatedRefrigerant(#[from] FluidError),
    #[error("the filter-drier has no size; give one of flow_coefficient, rated_flow, rated_capacity, bore")]
    NoSize,
}

/// The whole path of a kit.
pub(super) fn path_of(kit: &Kit, context: &Context<'_>, door: &mut Door<'_>) -> Option<Path> {
    let parts = parts_of(&kit.parts, context, &mut door.at("parts"));
    let Some(second) = &kit.second_port else { return parts.map(Path::series) };
    let second_parts = parts_of(&second.parts, context, &mut door.at("second_port.parts"));
    let branch = SecondBranch { parts: second_parts?, joins_before: second.joins_before };
    door.keep("second_port.joins_before", Path::with_second(parts?, branch))
}

/// The elements of each part.
pub(super) fn parts_of(parts: &[Part], context: &Context<'_>, door: &mut Door<'_>) -> Option<Vec<PathPart>> {
    let elements: Vec<Option<PathPart>> =
        parts.iter().enumerate().map(|(index, part)| door.keep(index, elements_of(part, context))).collect();
    elements.into_iter().collect()
}

fn elements_of(part: &Part, context: &Context<'_>) -> Result<PathPart, PartError> {
    let elements = match part.content() {
        Content::Tube(tube) => {
            let (bore, length) = (tube.bore.value(), tube.length.value());
            vec![Element::Tube(Tube::new(bore, length, tube.roughness(), tube.rise())?)]
        }
        Content::Hole(one) => {
            vec![Element::Restriction(hole(one, part.kind() == PartKind::ValveCore)?)]
        }
        Content::GaugeSet(set) => {
            let seat = Element::Restriction(hole(&set.seat(), false)?);
            (0..set.seats).map(|_| seat).collect()
        }
        Content::FilterDrier(drier) => vec![Element::Restriction(restriction_of_drier(drier, context)?)],
        Content::Valve(valve) => vec![Element::Restriction(restriction_of_valve(valve)?)],
    };
    Ok(PathPart { elements })
}

/// A hole by its bore and coefficients.
pub(super) fn hole(hole: &Hole, is_core: bool) -> Result<Restriction, FlowError> {
    Restriction::from_hole(
        hole.bore.value(),
        Ratio::from_si(hole.discharge_coefficient_ratio(is_core)),
        Ratio::from_si(hole.pressure_recovery_ratio()),
    )
}

fn restriction_of_valve(valve: &Valve) -> Result<Restriction, FlowError> {
    Restriction::from_kv(valve.flow_coefficient.value().kv(), Ratio::from_si(valve.pressure_recovery_ratio()))
}

fn restriction_of_drier(drier: &FilterDrier, context: &Context<'_>) -> Result<Restriction, PartError> {
    let recovery = Ratio::from_si(drier.pressure_recovery_ratio());
    let clean = if let Some(bore) = &drier.bore {
        let hole = Hole { pressure_recovery: drier.pressure_recovery.clone(), ..Hole::new(bore.clone()) };
        self::hole(&hole, false)?
    } else {
        Restriction::from_kv(kv_of_drier(drier, context)?, recovery)?
    };
    Ok(clean.with_open_ratio(Ratio::from_si(drier.area_left_ratio()))?)
}

/// Kv of a clean drier, from whichever way its size is written.
fn kv_of_drier(drier: &FilterDrier, context: &Context<'_>) -> Result<f64, PartError> {
    if let Some(coefficient) = &drier.flow_coefficient {
        return Ok(coefficient.value().kv());
    }
    let rated = match &drier.rated_refrigerant {
        Some(name) => Some(Refrigerant::load(name)?),
        None => None,
    };
    let basis = RatingBasis::of(rated.as_deref().unwrap_or(context.refrigerant))?;
    let drop_pa = drier.rated_drop.as_ref().map_or(PSI_PA, Typed::si);
    let flow_kg_s = match (&drier.rated_flow, &drier.rated_capacity) {
        (Some(flow), _) => flow.si(),
        (None, Some(capacity)) => capacity.si() / basis.effect_j_kg,
        (None, None) => return Err(PartError::NoSize),
    };
    Ok(kv_of_liquid_flow(flow_kg_s, basis.liquid_density_kg_m3, drop_pa))
}

/// What a drier's rating stands on: liquid at 86 °F, vapour at 5 °F.
struct RatingBasis {
    liquid_density_kg_m3: f64,
    effect_j_kg: f64,
}

impl RatingBasis {
    /// # Source
    /// Rating conditions of AHRI 710: saturated liquid at 86 °F, saturated vapour at 5 °F, 1 psi.
    fn of(refrigerant: &Refrigerant) -> Result<Self, FluidError> {
        let kelvin = |fahrenheit: f64| (fahrenheit + FAHRENHEIT_SHIFT) * FAHRENHEIT_DEGREE_K;
        let liquid = refrigerant.saturation_at_pressure(refrigerant.bubble_pressure_pa(kelvin(86.0))?)?;
        let vapor = refrigerant.saturation_at_pressure(refrigerant.dew_pressure_pa(kelvin(5.0))?)?;
        Ok(Self {
            liquid_density_kg_m3: liquid.liquid_density_kg_m3,
            effect_j_kg: vapor.vapor_enthalpy_j_kg - liquid.liquid_enthalpy_j_kg,
        })
    }
}

/// `Kv = 3600 · ṁ / √(1000 · ρ · Δp/1 bar)`, in m³/h at 1 bar.
///
/// # Source
/// Definition of Kv, IEC 60534-1.
/// # Example
/// 1 kg/s of water at 1 bar: 3600/√(1000 · 1000 · 1) = 3.6.
fn kv_of_liquid_flow(flow_kg_s: f64, density_kg_m3: f64, drop_pa: f64) -> f64 {
    3600.0 * flow_kg_s / (1000.0 * density_kg_m3 * drop_pa / 1e5).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::factors::{KV_PER_CV, POUND_KG};

    #[test]
    fn water_by_definition() {
        assert!((kv_of_liquid_flow(1.0, 1000.0, 1e5) - 3.6).abs() < 1e-12);
    }

    /// One rated ton: flow and Cv computed with CoolProp 8.0.0 on the basis of AHRI 710.
    #[track_caller]
    fn check_ton(name: &str, expected_lb_min: f64, expected_cv: f64) {
        let basis = RatingBasis::of(&Refrigerant::load(name).unwrap()).unwrap();
        let flow_kg_s = 12_000.0 * crate::units::factors::BTU_J / 3600.0 / basis.effect_j_kg;
        let lb_min = flow_kg_s * 60.0 / POUND_KG;
        let cv = kv_of_liquid_flow(flow_kg_s, basis.liquid_density_kg_m3, PSI_PA) / KV_PER_CV;
        assert!((lb_min / expected_lb_min - 1.0).abs() < 2e-3, "{name}: {lb_min} lb/min");
        assert!((cv / expected_cv - 1.0).abs() < 4e-3, "{name}: Cv {cv}");
    }

    #[test]
    fn a_rated_ton_is_the_published_flow() {
        check_ton("R-22", 2.862, 0.317);
        check_ton("R-134a", 3.145, 0.346);
        check_ton("R-410A", 2.773, 0.327);
        check_ton("R-404A", 4.084, 0.485);
    }
}
