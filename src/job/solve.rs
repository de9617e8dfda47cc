//! One kit solved: volts and amps first, then the crossing of path and machine at the motor's
//! speed, then every part's pressures.

use uom::si::f64::{Mass, MassRate, Power, Pressure, Ratio, ThermodynamicTemperature};
use uom::si::mass::kilogram;
use uom::si::mass_rate::kilogram_per_second;
use uom::si::power::watt;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::kelvin;

use super::balance::{Balance, Crossing};
use super::error::JobError;
use super::note::Note;
use super::point::{MachinePoint, OperatingPoint, PartPoint, SecondPort};
use super::setup::{LoadBasis, Port, Setup};
use crate::flow::{Medium, PartFlow, Point};
use crate::machine::Suction;
use crate::power::{Conditions, Load, PowerError, PowerPoint, Running, solve as solve_power};

/// A kit's two answers. The electrical one stands even where the flow has none.
#[derive(Debug, Clone, PartialEq)]
pub struct KitAnswer {
    /// Volts and amps, running and starting.
    pub power: Result<PowerPoint, PowerError>,
    /// The operating point, or why there is none.
    pub point: Result<OperatingPoint, JobError>,
}

/// Solves one kit. Both answers are always given, each as a value or as a reason in words.
pub fn solve(setup: &Setup) -> KitAnswer {
    let planning = powered(setup, Load::Nameplate);
    let solved = match (&planning, setup.load) {
        (Err(error), _) => Err(error.clone().into()),
        (Ok(power), LoadBasis::Nameplate) => at_speed_of(setup, power).map(|point| (power.clone(), point)),
        (Ok(power), LoadBasis::Duty) => on_duty(setup, power),
    };
    match solved {
        Ok((power, point)) => KitAnswer { power: Ok(power), point: Ok(point) },
        Err(error) => KitAnswer { power: planning, point: Err(error) },
    }
}

pub(super) fn powered(setup: &Setup, load: Load) -> Result<PowerPoint, PowerError> {
    let conditions = Conditions::new(setup.ambient.temperature)?;
    solve_power(&setup.power, &setup.motor, load, &conditions)
}

/// The speed that a whole job runs at, if volts decide it alone.
pub(crate) fn speed_by_volts(setup: &Setup) -> Option<f64> {
    match setup.load {
        LoadBasis::Nameplate => speed_ratio(&powered(setup, Load::Nameplate).ok()?).ok(),
        LoadBasis::Duty => None,
    }
}

pub(super) fn speed_ratio(power: &PowerPoint) -> Result<f64, JobError> {
    match &power.running {
        Running::Holds(running) => Ok(running.speed_ratio),
        Running::CannotHold(reason) => Err(JobError::MotorCannotHold(*reason)),
    }
}

fn at_speed_of(setup: &Setup, power: &PowerPoint) -> Result<OperatingPoint, JobError> {
    let speed = speed_ratio(power)?;
    refuse_liquid(setup)?;
    let mut balance = Balance::new(setup)?;
    balance.speed_ratio = speed;
    let crossing = balance.cross()?;
    operating_point(&balance, &crossing)
}

/// Speed, volts and the compressor's own power agree: a few rounds, since speed hardly moves.
fn on_duty(setup: &Setup, planning: &PowerPoint) -> Result<(PowerPoint, OperatingPoint), JobError> {
    speed_ratio(planning)?;
    refuse_liquid(setup)?;
    let mut balance = Balance::new(setup)?;
    let mut crossing = balance.cross()?;
    let mut power = planning.clone();
    for _ in 0..12 {
        let shaft_w = each_kg_s(&balance, &crossing) * crossing.discharge.work_j_kg;
        let at_rated_speed = Power::new::<watt>(shaft_w / balance.speed_ratio);
        power = powered(setup, Load::ShaftPower(at_rated_speed))?;
        let speed = speed_ratio(&power)?;
        if (speed - balance.speed_ratio).abs() < 1e-7 {
            break;
        }
        balance.speed_ratio = speed;
        crossing = balance.cross()?;
    }
    Ok((power, operating_point(&balance, &crossing)?))
}

/// What each of the machines draws.
fn each_kg_s(balance: &Balance<'_>, crossing: &Crossing) -> f64 {
    crossing.mass_flow_kg_s / balance.sharing
}

fn refuse_liquid(setup: &Setup) -> Result<(), JobError> {
    let draws_liquid = |port: Port| !matches!(port, Port::Vapor);
    let second = setup.path.second.is_some() && draws_liquid(setup.source.second);
    if !setup.machine.takes_liquid && (draws_liquid(setup.source.first) || second) {
        return Err(JobError::LiquidRefused);
    }
    Ok(())
}

fn operating_point(balance: &Balance<'_>, crossing: &Crossing) -> Result<OperatingPoint, JobError> {
    let setup = balance.setup;
    if let Some(cut_out) = setup.machine.cut_out
        && crossing.discharge.pressure_pa > cut_out.get::<pascal>()
    {
        return Err(JobError::CutOut {
            discharge_pa: crossing.discharge.pressure_pa,
            cut_out_pa: cut_out.get::<pascal>(),
        });
    }
    let paths = f64::from(setup.machines.paths());
    let suction_pa = crossing.suction.point.pressure_pa;
    let profile =
        balance.line.profile(crossing.mass_flow_kg_s, Some(suction_pa), crossing.largest.as_ref())?;
    let mut parts = resting(&profile.parts, balance.source);
    let throttle = setup.machine.inlet_throttle.and_then(|_| parts.pop());
    let inlet_pa = throttle.as_ref().map_or(pa(suction_pa), |part| part.inlet_pressure);
    let second = match (&setup.path.second, profile.second) {
        (Some(branch), Some(flow)) => Some(SecondPort {
            parts: resting(&flow.parts, balance.source),
            joins_before: branch.joins_before,
            first_mass_flow: MassRate::new::<kilogram_per_second>(paths * flow.first_mass_flow_kg_s),
            mass_flow: MassRate::new::<kilogram_per_second>(paths * flow.mass_flow_kg_s),
        }),
        _ => None,
    };
    let choked = |parts: &[PartPoint]| parts.iter().position(|part| part.choked);
    let machine = machine_point(balance, crossing);
    Ok(OperatingPoint {
        mass_flow: MassRate::new::<kilogram_per_second>(paths * crossing.mass_flow_kg_s),
        machines: setup.machines,
        system_pressure: pa(balance.line.source_pressure_pa()),
        machine_inlet_pressure: inlet_pa,
        choked_part: choked(&parts),
        throttle_choked: throttle.is_some_and(|part| part.choked),
        notes: notes(balance, crossing, &machine.0, machine.1, &parts),
        parts,
        second,
        machine: machine.0,
        discharge_parts: discharge_parts(balance, crossing)?,
        cylinder_pressure: pa(balance.discharge.cylinder_pa()),
    })
}

fn pa(value: f64) -> Pressure {
    Pressure::new::<pascal>(value)
}

/// Parts as a person reads them. A part without elements stands at its neighbour's pressure.
fn resting(flows: &[PartFlow], source: Point) -> Vec<PartPoint> {
    let mut before = (source.pressure_pa, source.quality);
    let mut parts = Vec::with_capacity(flows.len());
    for flow in flows {
        let (Some(first), Some(last)) = (flow.elements.first(), flow.elements.last()) else {
            parts.push(part_point(flow, before, before));
            continue;
        };
        let ends =
            ((first.inlet_pressure_pa, first.inlet_quality), (last.outlet_pressure_pa, last.outlet_quality));
        parts.push(part_point(flow, ends.0, ends.1));
        before = ends.1;
    }
    parts
}

fn part_point(flow: &PartFlow, inlet: (f64, f64), outlet: (f64, f64)) -> PartPoint {
    let inner = flow.elements.len().saturating_sub(1);
    // Saturated liquid at the port is at quality zero: rounding may put it a hair above.
    let was_liquid = inlet.1 < 1e-6;
    PartPoint {
        inlet_pressure: pa(inlet.0),
        outlet_pressure: pa(outlet.0),
        between: flow.elements.iter().take(inner).map(|element| pa(element.outlet_pressure_pa)).collect(),
        inlet_quality: Ratio::new::<ratio>(inlet.1),
        outlet_quality: Ratio::new::<ratio>(outlet.1),
        flash_onset: was_liquid && outlet.1 > 1e-6,
        choked: flow.elements.iter().any(|element| element.choked),
        trapped_mass: Mass::new::<kilogram>(flow.elements.iter().map(|e| e.trapped_mass_kg).sum()),
    }
}

/// The machine's figures, and whether the gas temperature had to be estimated.
fn machine_point(balance: &Balance<'_>, crossing: &Crossing) -> (MachinePoint, bool) {
    let machine = &balance.setup.machine;
    let discharge = &crossing.discharge;
    let (temperature_k, estimated) =
        discharge_temperature(balance, &crossing.suction, discharge.work_j_kg, discharge.pressure_pa);
    let efficiency = machine.compressor.volumetric_efficiency(&crossing.suction, discharge.pressure_pa);
    let point = MachinePoint {
        suction_pressure: pa(crossing.suction.point.pressure_pa),
        discharge_pressure: pa(discharge.pressure_pa),
        condensing_temperature: ThermodynamicTemperature::new::<kelvin>(discharge.condensing_k),
        discharge_temperature: ThermodynamicTemperature::new::<kelvin>(temperature_k),
        volumetric_efficiency: Ratio::new::<ratio>(efficiency),
        shaft_power: Power::new::<watt>(each_kg_s(balance, crossing) * discharge.work_j_kg),
        heat_rejected: Power::new::<watt>(discharge.heat_w),
        speed: Ratio::new::<ratio>(balance.speed_ratio),
        cut_out_margin: machine.cut_out.map(|cut_out| cut_out - pa(discharge.pressure_pa)),
    };
    (point, estimated)
}

/// Temperature of the compressed gas from `h0 + w`; beyond the table `T_s r^((n−1)/n)`.
fn discharge_temperature(
    balance: &Balance<'_>,
    suction: &Suction,
    work_j_kg: f64,
    discharge_pa: f64,
) -> (f64, bool) {
    let refrigerant = &*balance.setup.refrigerant;
    match refrigerant.state_ph(discharge_pa, suction.point.enthalpy_j_kg + work_j_kg) {
        Ok(state) => (state.temperature_k, false),
        Err(_) => {
            let start_k = refrigerant
                .state_ph(suction.point.pressure_pa, suction.point.enthalpy_j_kg)
                .map_or(f64::NAN, |state| state.temperature_k);
            let n = suction.exponent;
            (start_k * (discharge_pa / suction.point.pressure_pa).powf((n - 1.0) / n), true)
        }
    }
}

fn discharge_parts(balance: &Balance<'_>, crossing: &Crossing) -> Result<Vec<PartPoint>, JobError> {
    if balance.setup.discharge.is_empty() {
        return Ok(Vec::new());
    }
    let discharge = &crossing.discharge;
    let start =
        Medium::point(&*balance.setup.refrigerant, discharge.pressure_pa, discharge.liquid_enthalpy_j_kg)?;
    let line = balance.discharge.line(start)?;
    let profile = line.profile(each_kg_s(balance, crossing), None, None)?;
    Ok(resting(&profile.parts, start))
}

/// The colder of the system's contents and what reaches the machine.
fn coldest_k(balance: &Balance<'_>, crossing: &Crossing) -> f64 {
    let source_k = balance.setup.source.temperature.get::<kelvin>();
    let at = &crossing.suction.point;
    let arriving = balance.setup.refrigerant.state_ph(at.pressure_pa, at.enthalpy_j_kg);
    arriving.map_or(source_k, |state| state.temperature_k.min(source_k))
}

/// A vapour with less than this much liquid in it is as good as dry to a compressor.
const DRY_ENOUGH: f64 = 0.98;

fn notes(
    balance: &Balance<'_>,
    crossing: &Crossing,
    machine: &MachinePoint,
    temperature_estimated: bool,
    parts: &[PartPoint],
) -> Vec<Note> {
    let setup = balance.setup;
    let refrigerant = &*setup.refrigerant;
    let mut notes = Vec::new();
    if refrigerant.is_estimated() {
        notes.push(Note::EstimatedProperties);
    }
    if let Some(below_k) = refrigerant.extrapolated_below_k()
        && coldest_k(balance, crossing) < below_k
    {
        notes.push(Note::ExtrapolatedProperties { below_k });
    }
    if refrigerant.is_zeotrope() {
        notes.push(Note::Glide { glide_k: refrigerant.glide_k() });
    }
    if let Port::Mixed { vapor_ratio } = setup.source.first {
        notes.push(Note::MixedPort { vapor_ratio: vapor_ratio.value });
    }
    if balance.source.pressure_pa > crossing.discharge.pressure_pa {
        notes.push(Note::FlowsByItself);
    }
    if crossing.suction.point.vapor_ratio < DRY_ENOUGH {
        notes.push(Note::WetSuction { vapor_ratio: crossing.suction.point.vapor_ratio });
        if setup.machine.inlet_throttle.is_none() {
            notes.push(Note::OpenInlet);
        }
    }
    let flashes = |part: &PartPoint| (1e-3..0.9).contains(&part.outlet_quality.value);
    if parts.iter().any(flashes) {
        notes.push(Note::TwoPhaseUncertain);
    }
    if temperature_estimated {
        notes.push(Note::DischargeTemperatureEstimated);
    }
    let duty_ratio = machine.shaft_power.get::<watt>() / setup.motor.rated_shaft_power().get::<watt>();
    if setup.load == LoadBasis::Nameplate {
        notes.push(Note::NameplateLoad { duty_ratio });
    }
    if duty_ratio > 1.0 {
        notes.push(Note::DutyOverNameplate { duty_ratio });
    }
    notes
}
