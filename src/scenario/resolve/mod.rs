//! From the document to what physics takes: one setup per kit, or every fault.
//!
//! Values pass from text to checked types here and nowhere else. What a kit does not say it has
//! from the document.

mod limits;
mod over_time;
mod parts;
mod power;
mod rated;
mod system;

use super::document::{Document, check};
use crate::fluid::{FluidError, Refrigerant, SafetyClass};
use crate::job;
use crate::kit::{
    Door, Fault, Flashing, Kit, MECHANICAL_EFFICIENCY, Machine, Method, PartKind, PolytropicExponent, Port,
    PowerLoad, TwoPhaseFriction, VAPOUR_SHARE,
};
use crate::machine::{Compressor, Condenser, Exponent, RecoveryMachine};
use crate::units::{Measure, Typed};
use crate::{flow, kit};
pub use limits::resolve_limits;
pub use over_time::{JobPlanned, KitJob, resolve_jobs};
use parts::{Context, hole, parts_of, path_of};
pub use rated::RatedPart;
use std::sync::Arc;
pub use system::Charged;
use uom::si::f64::{Pressure, Ratio, ThermodynamicTemperature};

/// One kit, ready to be solved, and what its parts are called.
#[derive(Debug, Clone)]
pub struct KitSetup {
    /// The kit's name: `A`.
    pub name: String,
    /// The kit in words.
    pub label: Option<String>,
    /// The parts of `setup.path`, in the same order.
    pub parts: Vec<PartName>,
    /// The parts of the second branch, in the same order; empty if there is none.
    pub second_parts: Vec<PartName>,
    /// The parts of `setup.discharge`, in the same order.
    pub discharge_parts: Vec<PartName>,
    /// The cords of `setup.power`, in the same order.
    pub cords: Vec<String>,
    /// Safety classes its machine is marked for.
    pub suitable_for: Vec<SafetyClass>,
    /// Its machine is marked for low-pressure refrigerants.
    pub takes_low_pressure: bool,
    /// Its parts whose working pressure is known, those after the machine among them.
    pub rated: Vec<RatedPart>,
    /// The system's compressor motor burned out.
    pub burnout: bool,
    /// What warms the cylinder in use.
    pub cylinder_place: job::CylinderPlace,
    /// The system's charge and volume, where both are said.
    pub charged: Option<Charged>,
    /// How many machines run at once.
    pub machines: u32,
    /// A whole job is described, and it draws vapour only.
    pub job_of_vapour: bool,
    /// What physics takes.
    pub setup: job::Setup,
}

/// What a part is called.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PartName {
    /// Its own name, or its kind's.
    pub name: String,
    /// Its kind.
    pub kind: PartKind,
    /// Where it stands in the document.
    pub path: String,
}

/// The setup of every kit, or every fault of the document.
///
/// # Errors
/// What [`check`] finds, or else what the refrigerant's tables and the physics' own types refuse.
pub fn resolve(document: &Document) -> Result<Vec<KitSetup>, Vec<Fault>> {
    let mut faults = check(document);
    if !faults.is_empty() {
        return Err(faults);
    }
    let setups = resolve_kits(document, &mut Door::new(&mut faults));
    // Kits share most fields: a fault there would be told once for each.
    let mut told = Vec::new();
    faults.retain(|fault| {
        let is_new = !told.contains(fault);
        told.push(fault.clone());
        is_new
    });
    match setups {
        Some(setups) if faults.is_empty() => Ok(setups),
        _ => Err(faults),
    }
}

fn resolve_kits(document: &Document, door: &mut Door<'_>) -> Option<Vec<KitSetup>> {
    let refrigerant = door.keep("refrigerant", Refrigerant::load(&document.refrigerant))?;
    // Each kit is tried, so that the faults of all are found.
    let setups: Vec<Option<KitSetup>> =
        document.kits.iter().map(|kit| resolve_kit(document, kit, &refrigerant, door)).collect();
    setups.into_iter().collect()
}

fn resolve_kit(
    document: &Document,
    kit: &Kit,
    refrigerant: &Arc<Refrigerant>,
    door: &mut Door<'_>,
) -> Option<KitSetup> {
    let at_kit = format!("kits.{}", kit.name);
    let (machine, at_machine) = match &kit.machine {
        Some(machine) => (machine, format!("{at_kit}.machine")),
        None => (&document.machine, "machine".to_owned()),
    };
    let (cords, at_cords) = (document.cords_of(kit), kit.cords_path());
    let context = Context { refrigerant };
    let source = source_of(document, kit, refrigerant, door);
    let charged = system::charged(&document.source, refrigerant, &mut door.at("source"));
    let cylinder = cylinder_of(&document.cylinder, refrigerant, door);
    let path = path_of(kit, &context, &mut door.at(&at_kit));
    let discharge = parts_of(&document.discharge, &context, &mut door.at("discharge"));
    let recovery_machine = machine_of(machine, document, refrigerant, &mut door.at(&at_machine));
    let motor = power::motor_of(&machine.motor, &mut door.at(format!("{at_machine}.motor")));
    let supply = power::path_of(&document.supply, cords, &at_cords, door);
    let source = source?;
    let machines = over_time::machines_now(document, kit, source.first);
    let setup = job::Setup {
        refrigerant: Arc::clone(refrigerant),
        source,
        path: path?,
        machine: recovery_machine?,
        discharge: discharge?,
        cylinder: cylinder?,
        ambient: job::Ambient {
            temperature: document.ambient.temperature.value(),
            pressure: document.ambient.absolute_pressure(),
        },
        method: method_of(kit.method.unwrap_or(document.method)),
        power: supply?,
        motor: motor?,
        load: match machine.power_load {
            PowerLoad::Nameplate => job::LoadBasis::Nameplate,
            PowerLoad::Duty => job::LoadBasis::Duty,
        },
        machines,
    };
    let second = kit.second_port.as_ref().map_or(&[][..], |second| &second.parts);
    Some(KitSetup {
        name: kit.name.clone(),
        label: kit.label.clone(),
        parts: names_of(&kit.parts, &format!("{at_kit}.parts")),
        second_parts: names_of(second, &format!("{at_kit}.second_port.parts")),
        discharge_parts: names_of(&document.discharge, "discharge"),
        cords: cords.iter().map(power::cord_name).collect(),
        takes_low_pressure: machine.takes_low_pressure,
        rated: rated::rated_parts(document, kit),
        burnout: document.source.burnout,
        charged,
        machines: kit.machine_count(document.job.as_ref()),
        job_of_vapour: document.source.volume.is_some() && over_time::draws_vapour_only(document),
        cylinder_place: limits::place_of(&document.cylinder),
        suitable_for: machine.suitable_for.iter().map(|class| SafetyClass::from(*class)).collect(),
        setup,
    })
}

fn names_of(parts: &[kit::Part], path: &str) -> Vec<PartName> {
    parts
        .iter()
        .enumerate()
        .map(|(index, part)| PartName {
            name: part.label().to_owned(),
            kind: part.kind(),
            path: format!("{path}.{index}"),
        })
        .collect()
}

/// Ports of both branches. With a second connection, `both` opens liquid first and vapour second;
/// with one, it draws a mixture.
fn source_of(
    document: &Document,
    kit: &Kit,
    refrigerant: &Refrigerant,
    door: &mut Door<'_>,
) -> Option<job::Source> {
    let source = &document.source;
    let (first, second) = kit.ports(source.port);
    let share = source.vapour_share.as_ref().map_or(VAPOUR_SHARE, Typed::si);
    let port = |port| match port {
        Port::Liquid => job::Port::Liquid,
        Port::Vapour => job::Port::Vapor,
        Port::Both => job::Port::Mixed { vapor_ratio: Ratio::from_si(share) },
    };
    let temperature = source.temperature.value();
    let saturated =
        refrigerant.bubble_pressure(temperature).and_then(|_| refrigerant.dew_pressure(temperature));
    keep_temperature(door, "source.temperature", &source.temperature, saturated)?;
    Some(job::Source { temperature, first: port(first), second: port(second) })
}

fn cylinder_of(
    cylinder: &kit::Cylinder,
    refrigerant: &Refrigerant,
    door: &mut Door<'_>,
) -> Option<job::Cylinder> {
    let saturated = refrigerant.bubble_pressure(cylinder.temperature.value());
    keep_temperature(door, "cylinder.temperature", &cylinder.temperature, saturated)?;
    Some(job::Cylinder {
        temperature: cylinder.temperature.value(),
        non_condensables: Pressure::from_si(cylinder.excess_pressure.as_ref().map_or(0.0, Typed::si)),
    })
}

fn machine_of(
    machine: &Machine,
    document: &Document,
    refrigerant: &Refrigerant,
    door: &mut Door<'_>,
) -> Option<RecoveryMachine> {
    let exponent = match &machine.polytropic_exponent {
        PolytropicExponent::FromProperties => Exponent::FromProperties,
        PolytropicExponent::Given(exponent) => Exponent::Given(exponent.si()),
    };
    let efficiency = machine.mechanical_efficiency.as_ref().map_or(MECHANICAL_EFFICIENCY, Typed::si);
    let compressor = Compressor::new(
        machine.displacement.value(),
        machine.clearance.value(),
        machine.loss_factor.value(),
        exponent,
        Ratio::from_si(efficiency),
    );
    let compressor = door.keep("", compressor);
    let condenser = condenser_of(&machine.condenser, refrigerant, &mut door.at("condenser"));
    let inlet_throttle = match &machine.inlet_throttle {
        Some(throttle) => Some(door.keep("inlet_throttle", hole(throttle, false))?),
        None => None,
    };
    Some(RecoveryMachine {
        compressor: compressor?,
        inlet_throttle,
        condenser: condenser?,
        cut_out: machine
            .cut_out
            .as_ref()
            .map(|cut_out| cut_out.absolute(document.ambient.absolute_pressure())),
        takes_liquid: machine.takes_liquid,
    })
}

fn condenser_of(
    condenser: &kit::Condenser,
    refrigerant: &Refrigerant,
    door: &mut Door<'_>,
) -> Option<Condenser> {
    if let Some(temperature) = &condenser.condensing_temperature {
        let saturated = refrigerant.bubble_pressure(temperature.value());
        keep_temperature(door, "condensing_temperature", temperature, saturated)?;
        return Some(Condenser::FixedTemperature(temperature.value()));
    }
    condenser.conductance.as_ref().map(|conductance| Condenser::Conductance(conductance.value()))
}

fn method_of(method: Method) -> flow::Method {
    flow::Method {
        flashing: match method.flashing {
            Flashing::Equilibrium => flow::Flashing::Equilibrium,
            Flashing::Delayed => flow::Flashing::Delayed,
        },
        two_phase_friction: match method.two_phase_friction {
            TwoPhaseFriction::Homogeneous => flow::TwoPhaseFriction::Homogeneous,
            TwoPhaseFriction::MuellerSteinhagenHeck => flow::TwoPhaseFriction::MullerSteinhagenHeck,
        },
    }
}

/// Whether the refrigerant is saturated at this temperature; if not, why.
fn keep_temperature(
    door: &mut Door<'_>,
    field: &str,
    typed: &Typed<ThermodynamicTemperature>,
    saturated: Result<Pressure, FluidError>,
) -> Option<()> {
    door.keep(field, saturated.map(drop).map_err(|error| format!("{typed}: {error}")))
}
