//! From the document to what the limits of a job depend on: stock, rules, target, method.

use super::super::document::{Document, check};
use crate::fluid::Refrigerant;
use crate::job::{
    self, ChargeBand, CompressorRuns, CylinderPlace, Holds, LevelAsk, LimitsAsk, RecoveryDay, StockCylinder,
};
use crate::kit::{
    Cylinder, Door, Fault, FillingChoice, JobPlan, MachineMade, RecoveryMethod, Rules, Target, TargetLevel,
    TypedDate,
};
use crate::units::{Measure, Typed};
use std::sync::Arc;
use uom::si::f64::{Mass, Pressure};

/// What the limits of the document's job depend on. `built_in` serves where the document carries no
/// rules of its own.
///
/// # Errors
/// Every fault of the document.
pub fn resolve_limits(document: &Document, built_in: &Rules) -> Result<LimitsAsk, Vec<Fault>> {
    let mut faults = check(document);
    if !faults.is_empty() {
        return Err(faults);
    }
    let refrigerant =
        Door::new(&mut faults).keep("refrigerant", Refrigerant::load(&document.refrigerant)).ok_or(faults)?;
    let ambient = document.ambient.absolute_pressure();
    let own = document.rules.as_ref();
    let filling = own.and_then(|rules| rules.filling.as_ref()).unwrap_or(&built_in.filling);
    let levels = own.and_then(|rules| rules.levels.as_ref()).unwrap_or(&built_in.levels);
    let plan = document.job.clone().unwrap_or_default();
    let charge = charge_of(document);
    Ok(LimitsAsk {
        stock: stock_of(document, &refrigerant, ambient),
        filling: filling.table(document.filling.as_ref().unwrap_or(&FillingChoice::default()), ambient),
        levels: levels.table(),
        level: level_of(document.target.as_ref().unwrap_or(&Target::default()), charge),
        day: RecoveryDay {
            date: document.date.as_ref().map(TypedDate::value),
            ambient_pressure: ambient,
            siphon_allowance: siphon_of(&plan),
        },
        charge,
        method: method_of(plan.method),
        system: system_of(document, &plan, charge),
        source_temperature: document.source.temperature.value(),
        scale_capacity: plan.scale_capacity.as_ref().map(Typed::value),
        refrigerant,
    })
}

fn charge_of(document: &Document) -> Option<ChargeBand> {
    let likely = document.source.charge.as_ref()?.value();
    let share = document.charge_band.as_ref().map_or(0.0, Typed::si);
    Some(ChargeBand { low: likely * (1.0 - share), likely, high: likely * (1.0 + share) })
}

/// Only push-pull goes on by itself.
fn siphon_of(plan: &JobPlan) -> Mass {
    match plan.method {
        RecoveryMethod::PushPull => plan.siphon_allowance.as_ref().map_or(Mass::default(), Typed::value),
        RecoveryMethod::Vapour | RecoveryMethod::LiquidThenVapour => Mass::default(),
    }
}

fn method_of(method: RecoveryMethod) -> job::RecoveryMethod {
    match method {
        RecoveryMethod::Vapour => job::RecoveryMethod::Vapor,
        RecoveryMethod::LiquidThenVapour => job::RecoveryMethod::LiquidThenVapor,
        RecoveryMethod::PushPull => job::RecoveryMethod::PushPull,
    }
}

fn system_of(document: &Document, plan: &JobPlan, charge: Option<ChargeBand>) -> job::SystemTraits {
    let source = &document.source;
    job::SystemTraits {
        charge: charge.map(|charge| (charge.low, charge.high)),
        liquid_port: source.liquid_port,
        reversing_valve: source.reversing_valve,
        accumulator: source.accumulator,
        receiver: source.receiver_volume.as_ref().map(Typed::value),
        push_pull_from: plan.push_pull_from.as_ref().map(Typed::value),
    }
}

fn level_of(target: &Target, charge: Option<ChargeBand>) -> LevelAsk {
    let full = target.full_charge.as_ref().map(|full| (full.value(), full.value()));
    LevelAsk {
        given: match &target.level {
            TargetLevel::Rule => None,
            TargetLevel::Given(level) => Some(level.clone()),
        },
        machine_made: target.machine_made.map(|made| match made {
            MachineMade::Before1993 => job::MachineMade::Before,
            MachineMade::Since1993 => job::MachineMade::Since,
        }),
        leak: target.leak,
        full_charge: full.or(charge.map(|charge| (charge.low, charge.high))),
        small_appliance: target.small_appliance.then_some(if target.compressor_runs {
            CompressorRuns::Yes
        } else {
            CompressorRuns::No
        }),
    }
}

/// The cylinder in use first, then those that wait; an entry that stands for several is repeated.
fn stock_of(document: &Document, refrigerant: &Arc<Refrigerant>, ambient: Pressure) -> Vec<StockCylinder> {
    let in_use = stock_cylinder(&document.cylinder, "the cylinder in use", refrigerant, ambient);
    let waiting = document.cylinders.iter().enumerate().flat_map(|(index, cylinder)| {
        let name = format!("cylinder {}", index + 2);
        let one = stock_cylinder(cylinder, &name, refrigerant, ambient);
        let count = cylinder.count.unwrap_or(1);
        (1..=count).map(move |number| {
            let mut one = one.clone();
            if count > 1 {
                one.name = format!("{} ({number} of {count})", one.name);
            }
            one
        })
    });
    std::iter::once(in_use).chain(waiting).collect()
}

fn stock_cylinder(
    cylinder: &Cylinder,
    name: &str,
    refrigerant: &Arc<Refrigerant>,
    ambient: Pressure,
) -> StockCylinder {
    let mass = |typed: &Option<Typed<Mass>>| typed.as_ref().map(Typed::value);
    StockCylinder {
        name: cylinder.name.clone().unwrap_or_else(|| name.to_owned()),
        water_capacity: mass(&cylinder.water_capacity),
        tare: mass(&cylinder.tare),
        contents: mass(&cylinder.contents).unwrap_or(Mass::from_si(0.0)),
        holds: holds(cylinder, refrigerant),
        marking_limit: mass(&cylinder.marking_limit),
        service_pressure: cylinder.service_pressure.as_ref().map(|pressure| pressure.gauge(ambient)),
        test_date: cylinder.test_date.as_ref().map(TypedDate::value),
        disposable: cylinder.disposable,
        damaged: cylinder.damaged,
        temperature: cylinder.temperature.value(),
        place: place_of(cylinder),
    }
}

/// What warms it from outside.
pub(super) fn place_of(cylinder: &Cylinder) -> CylinderPlace {
    CylinderPlace { in_sun: cylinder.in_sun, surroundings: cylinder.surroundings.as_ref().map(Typed::value) }
}

/// A name that is no refrigerant (a mixture, "unknown") is something else.
fn holds(cylinder: &Cylinder, refrigerant: &Arc<Refrigerant>) -> Holds {
    match cylinder.refrigerant.as_deref().map(str::trim) {
        None | Some("") => Holds::Unsaid,
        Some(name) => match Refrigerant::load(name) {
            Ok(held) if held.designation() == refrigerant.designation() => Holds::Same,
            _ => Holds::Other(name.to_owned()),
        },
    }
}
