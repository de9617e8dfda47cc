//! From the document to whole jobs: one setup per kit, with cylinders, target and pauses.

use super::super::document::Document;
use super::limits::resolve_limits;
use super::parts::{Context, parts_of};
use super::{KitSetup, resolve};
use crate::fluid::Refrigerant;
use crate::job::over_time::{
    Contents, CylinderWalls, Dissolved, Finish, JobCylinder, JobSetup, Joins, Machines, Pauses, PhaseKind,
    PushPull, Recovery, RunLimits, System, Target,
};
use crate::job::{
    self, AtOnce, Connection, CylinderAnswer, JobLimits, LimitsAsk, RequiredLevel, inside_volume, job_limits,
};
use crate::kit::{self, Cylinder, Door, Fault, JobPlan, MachinePorts, RecoveryMethod, Rules};
use crate::units::factors::INCH_OF_MERCURY_PA;
use crate::units::{Measure, Typed};
use uom::si::f64::{
    HeatCapacity, Mass, Pressure, Ratio, ThermalConductance, ThermodynamicTemperature, Time, Volume,
};

/// Rise after a wait that still counts as holding: 1 inHg. Common practice, no source.
const ALLOWED_RISE_PA: f64 = INCH_OF_MERCURY_PA;
/// Steel of a cylinder for each kilogram of water capacity: 0.6 kg at 0.49 kJ/(kg K). Common
/// practice, no source.
const STEEL_J_K_PER_WATER_KG: f64 = 290.0;

/// A kit's whole job, ready to be followed.
#[derive(Debug, Clone)]
pub struct KitJob {
    /// The kit.
    pub kit: KitSetup,
    /// The job.
    pub setup: JobSetup,
    /// The same job by the other methods, for their break-even: liquid then vapour, push-pull.
    pub others: [Recovery; 2],
}

/// The jobs of a document and what they share.
#[derive(Debug, Clone)]
pub struct JobPlanned {
    /// One job a kit, in the document's order.
    pub kits: Vec<KitJob>,
    /// What the limits depend on.
    pub ask: LimitsAsk,
    /// Cylinders, level and method.
    pub limits: JobLimits,
    /// Index into the stock of each cylinder that the jobs fill, in order.
    pub filled: Vec<usize>,
    /// Low and high end of the charge, if it has a band.
    pub charge_band: Option<(Mass, Mass)>,
    /// Before the machine starts.
    pub set_up: Time,
    /// After the level holds.
    pub pack_up: Time,
    /// All has to be done within this time.
    pub deadline: Option<Time>,
    /// The charge was not given: the system holds saturated vapour only.
    pub vapour_only: bool,
}

/// The jobs of every kit.
///
/// # Errors
/// Every fault of the document; a job also needs the system's volume, a water capacity for each
/// cylinder that is filled, and a level.
pub fn resolve_jobs(document: &Document, built_in: &Rules) -> Result<JobPlanned, Vec<Fault>> {
    let kits = resolve(document)?;
    let ask = resolve_limits(document, built_in)?;
    let limits = job_limits(&ask);
    let mut faults = Vec::new();
    let planned = plan_of(document, kits, ask, limits, &mut Door::new(&mut faults));
    match planned {
        Some(planned) if faults.is_empty() => Ok(planned),
        _ => Err(faults),
    }
}

fn plan_of(
    document: &Document,
    kits: Vec<KitSetup>,
    ask: LimitsAsk,
    limits: JobLimits,
    door: &mut Door<'_>,
) -> Option<JobPlanned> {
    let plan = document.job.clone().unwrap_or_default();
    let system = system_of(document, &ask.refrigerant, &mut door.at("source"));
    let (filled, cylinders) = cylinders_of(document, &limits, door);
    let level = door.keep("target.level", limits.level.clone());
    let context = Context { refrigerant: &ask.refrigerant };
    let lines = (
        parts_of(&plan.vapour_line, &context, &mut door.at("job.vapour_line")),
        parts_of(&plan.gas_line, &context, &mut door.at("job.gas_line")),
    );
    let (system, vapour_only) = system?;
    let target = target_of(document, &level?);
    let (vapor_line, gas_line) = (lines.0?, lines.1?);
    let kits = kits
        .into_iter()
        .zip(&document.kits)
        .map(|(kit, written)| {
            let method_of = |method| method_of(method, &plan, &kit, &vapor_line, &gas_line);
            let method = method_of(plan.method);
            let others = [RecoveryMethod::LiquidThenVapour, RecoveryMethod::PushPull].map(method_of);
            let setup = JobSetup {
                kit: job::Setup { machines: AtOnce::ONE, ..kit.setup.clone() },
                system,
                cylinders: cylinders.clone(),
                method,
                machines: machines_of(&plan, written),
                target,
                pauses: pauses_of(&plan),
                limits: RunLimits::default(),
            };
            KitJob { kit, setup, others }
        })
        .collect();
    let none = Time::from_si(0.0);
    Some(JobPlanned {
        kits,
        charge_band: ask.charge.map(|charge| (charge.low, charge.high)).filter(|(low, high)| low < high),
        ask,
        limits,
        filled,
        set_up: plan.set_up.as_ref().map_or(none, Typed::value),
        pack_up: plan.pack_up.as_ref().map_or(none, Typed::value),
        deadline: plan.deadline.as_ref().map(Typed::value),
        vapour_only,
    })
}

/// The system, and whether its charge had to be taken as saturated vapour.
fn system_of(document: &Document, refrigerant: &Refrigerant, door: &mut Door<'_>) -> Option<(System, bool)> {
    let source = &document.source;
    let Some(volume) = source.volume.as_ref().map(Typed::value) else {
        door.fault("volume", "the time of a job depends on the system's inside volume; say it, as 0.5 ft3");
        return None;
    };
    let charge = match &source.charge {
        Some(charge) => charge.value(),
        None => vapour_mass(refrigerant, source.temperature.value(), volume, door)?,
    };
    let number = |typed: Option<f64>| typed.unwrap_or(0.0);
    let system = System {
        charge,
        volume,
        contents: if source.isothermal { Contents::Isothermal } else { Contents::Equilibrium },
        metal_heat_capacity: HeatCapacity::from_si(number(
            source.metal_heat_capacity.as_ref().map(Typed::si),
        )),
        heat_gain: ThermalConductance::from_si(number(source.heat_gain.as_ref().map(Typed::si))),
        unreachable_ratio: Ratio::from_si(number(source.unreachable.as_ref().map(Typed::si))),
        dissolved: Dissolved {
            share_ratio: Ratio::from_si(number(source.dissolved.as_ref().map(Typed::si))),
            ..Dissolved::none()
        },
    };
    Some((system, source.charge.is_none()))
}

fn vapour_mass(
    refrigerant: &Refrigerant,
    temperature: ThermodynamicTemperature,
    volume: Volume,
    door: &mut Door<'_>,
) -> Option<Mass> {
    let saturation = refrigerant.saturation_at_dew_temperature(temperature.si());
    let density = door.keep("temperature", saturation)?.vapor_density_kg_m3;
    Some(Mass::from_si(density * volume.si()))
}

/// The cylinders that may be filled, with their places in the stock.
fn cylinders_of(
    document: &Document,
    limits: &JobLimits,
    door: &mut Door<'_>,
) -> (Vec<usize>, Vec<JobCylinder>) {
    let ambient = document.ambient.temperature.value();
    let mut places = Vec::new();
    let mut cylinders = Vec::new();
    for (place, (answer, (path, written))) in limits.cylinders.iter().zip(written(document)).enumerate() {
        let Some(capacity) = written.water_capacity.as_ref().map(Typed::value) else {
            door.fault(
                format!("{path}.water_capacity"),
                "a job needs it; say it as it is stamped, as 47.6 lb",
            );
            continue;
        };
        if !answer.stops.is_empty() {
            continue;
        }
        let Some(stop_net) = stop_net(answer, written) else { continue };
        places.push(place);
        cylinders.push(JobCylinder {
            volume: inside_volume(capacity),
            contents: written.contents.as_ref().map_or(Mass::from_si(0.0), Typed::value),
            stop_net,
            temperature: written.temperature.value(),
            non_condensables: Pressure::from_si(written.excess_pressure.as_ref().map_or(0.0, Typed::si)),
            walls: match &written.heat_exchange {
                None => CylinderWalls::Held,
                Some(conductance) => CylinderWalls::Exchange {
                    conductance: conductance.value(),
                    surroundings: written.surroundings.as_ref().map_or(ambient, Typed::value),
                },
            },
            metal_heat_capacity: HeatCapacity::from_si(match written.heat_exchange {
                None => 0.0,
                Some(_) => STEEL_J_K_PER_WATER_KG * capacity.si(),
            }),
        });
    }
    (places, cylinders)
}

/// Each cylinder of the stock as it is written, in the stock's order.
fn written(document: &Document) -> impl Iterator<Item = (String, &Cylinder)> {
    let waiting = document.cylinders.iter().enumerate().flat_map(|(index, cylinder)| {
        let count = usize::try_from(cylinder.count.unwrap_or(1)).unwrap_or(1);
        std::iter::repeat_n((format!("cylinders.{index}"), cylinder), count)
    });
    std::iter::once(("cylinder".to_owned(), &document.cylinder)).chain(waiting)
}

/// Net weight at which filling stops: what is in it and what may still be added.
fn stop_net(answer: &CylinderAnswer, written: &Cylinder) -> Option<Mass> {
    answer.lowest?;
    let contents = written.contents.as_ref().map_or(Mass::from_si(0.0), Typed::value);
    Some(contents + answer.remaining)
}

fn target_of(document: &Document, level: &RequiredLevel) -> Target {
    let written: kit::Target = document.target.clone().unwrap_or_default();
    let wait = written.wait.as_ref().map_or(Time::from_si(0.0), Typed::value);
    Target {
        level: level.absolute,
        wait,
        rechecks: written.rechecks.unwrap_or(u32::from(wait.si() > 0.0)),
        allowed_rise: Pressure::from_si(ALLOWED_RISE_PA),
    }
}

fn method_of(
    method: RecoveryMethod,
    plan: &JobPlan,
    kit: &KitSetup,
    vapor_line: &[crate::flow::PathPart],
    gas_line: &[crate::flow::PathPart],
) -> Recovery {
    let change_over_ratio = Ratio::from_si(plan.change_over.as_ref().map_or(0.0, Typed::si));
    match method {
        RecoveryMethod::Vapour => Recovery::VaporOnly,
        RecoveryMethod::LiquidThenVapour => Recovery::LiquidThenVapor { change_over_ratio },
        RecoveryMethod::PushPull => Recovery::PushPull(PushPull {
            liquid_line: kit.setup.path.clone(),
            vapor_line: vapor_line.to_vec(),
            gas_line: gas_line.to_vec(),
            finish: Finish::LiquidThenVapor { change_over_ratio },
        }),
    }
}

/// The machines of a kit that draw at once through ports such as the first.
pub(super) fn machines_now(document: &Document, kit: &kit::Kit, first: job::Port) -> AtOnce {
    let plan = document.job.clone().unwrap_or_default();
    let phase = match first {
        job::Port::Vapor => PhaseKind::Vapor,
        job::Port::Liquid | job::Port::Mixed { .. } => PhaseKind::Liquid,
    };
    machines_of(&plan, kit).at_once(phase)
}

/// Whether the plan draws no liquid, whatever the ports are.
pub(super) fn draws_vapour_only(document: &Document) -> bool {
    document.job.clone().unwrap_or_default().method == RecoveryMethod::Vapour
}

/// A kit's own machines, or the plan's.
fn machines_of(plan: &JobPlan, kit: &kit::Kit) -> Machines {
    let (connection, joins) = match kit.machine_ports.unwrap_or(plan.machine_ports) {
        MachinePorts::Same => (Connection::SamePort, Joins::AtOnce),
        MachinePorts::Separate => (Connection::SeparatePorts, Joins::AtOnce),
        MachinePorts::Staged => (Connection::SeparatePorts, Joins::WithVapor),
    };
    Machines { count: kit.machine_count(Some(plan)), connection, joins }
}

fn pauses_of(plan: &JobPlan) -> Pauses {
    let usual = Pauses::default();
    Pauses {
        swap: plan.swap.as_ref().map_or(usual.swap, Typed::value),
        hose_change: plan.hose_change.as_ref().map_or(usual.hose_change, Typed::value),
        ..usual
    }
}
