//! What a person read on a slow job, and what that is in numbers.
//!
//! Every reading may be left out. A tolerance is what a reading may well be off by: two times in
//! three the truth lies within it.

use super::document::Document;
use super::resolve::{KitSetup, resolve};
use crate::kit::{Door, Fault, PartKind};
use crate::units::{Measure, PressureDifference, Typed, TypedPressure};
use serde::{Deserialize, Serialize};
use uom::si::f64::{
    ElectricCurrent, ElectricPotential, MassRate, Ratio, TemperatureInterval, ThermodynamicTemperature,
};

/// Readings of one moment.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Readings {
    /// The kit that was in use; the first if left out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub kit: Option<String>,
    /// What the scale gained per time.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rate: Option<Typed<MassRate>>,
    /// At the system, before the first part.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub system_pressure: Option<TypedPressure>,
    /// At the machine's inlet, after the last part; before a screen inside the machine.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub machine_inlet_pressure: Option<TypedPressure>,
    /// At the machine's discharge.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub discharge_pressure: Option<TypedPressure>,
    /// At the cylinder.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cylinder_pressure: Option<TypedPressure>,
    /// Of the cylinder.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cylinder_temperature: Option<Typed<ThermodynamicTemperature>>,
    /// At the machine's plug while it runs.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub running_voltage: Option<Typed<ElectricPotential>>,
    /// At the receptacle while it runs.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub receptacle_voltage: Option<Typed<ElectricPotential>>,
    /// Of the machine while it runs.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub running_current: Option<Typed<ElectricCurrent>>,
    /// The part where cold or frost begins, by its name or place (0 is the first), "machine inlet"
    /// or "nowhere".
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cold_part: Option<String>,
    /// What readings may be off by.
    #[serde(skip_serializing_if = "Tolerances::is_usual")]
    pub tolerances: Tolerances,
}

/// What readings may be off by; the usual if left out (common practice, no source).
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Tolerances {
    /// Of the rate; 10 %.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rate: Option<Typed<Ratio>>,
    /// Of every gauge; 2 psi.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pressure: Option<Typed<PressureDifference>>,
    /// Of the cylinder's temperature; 3 °F.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub temperature: Option<Typed<TemperatureInterval>>,
    /// Of volts; 1.5 V.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub voltage: Option<Typed<ElectricPotential>>,
    /// Of amps; 5 %.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub current: Option<Typed<Ratio>>,
}

impl Tolerances {
    fn is_usual(&self) -> bool {
        *self == Self::default()
    }
}

/// Usual tolerances in SI units: 10 %, 2 psi, 3 °F, 1.5 V, 5 %. Common practice, no source.
const USUAL_RATE_RATIO: f64 = 0.1;
const USUAL_PRESSURE_PA: f64 = 13_790.0;
const USUAL_TEMPERATURE_K: f64 = 1.667;
const USUAL_VOLTAGE_V: f64 = 1.5;
const USUAL_CURRENT_RATIO: f64 = 0.05;

/// What can be read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum ReadingKind {
    /// What the scale gains per time, kg/s.
    Rate,
    /// Pressure at the system, Pa absolute.
    SystemPressure,
    /// Pressure at the machine's inlet, Pa absolute.
    MachineInlet,
    /// Pressure at the machine's discharge, Pa absolute.
    Discharge,
    /// Pressure at the cylinder, Pa absolute.
    CylinderPressure,
    /// Temperature of the cylinder, K.
    CylinderTemperature,
    /// Volts at the machine.
    RunningVoltage,
    /// Volts at the receptacle.
    ReceptacleVoltage,
    /// Amps of the machine.
    RunningCurrent,
    /// Where cold begins.
    ColdPart,
}

/// Where cold or frost begins.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum ColdSpot {
    /// Nowhere.
    Nowhere,
    /// At this part of the path.
    Part(usize),
    /// At the machine's own inlet.
    MachineInlet,
}

/// A number that was read, in SI units, absolute.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Observed {
    /// What.
    pub kind: ReadingKind,
    /// In SI units; pressures absolute.
    pub value: f64,
    /// In the same unit.
    pub tolerance: f64,
}

/// Readings ready for a diagnosis.
#[derive(Debug, Clone)]
pub struct ReadingsSetup {
    /// The kit in use, as the document has it.
    pub kit: KitSetup,
    /// The numbers that were read.
    pub observed: Vec<Observed>,
    /// Where cold begins, if anybody felt.
    pub cold: Option<ColdSpot>,
    /// Tolerances of what was not read, for the worth of reading it.
    pub tolerance: ReadingTolerance,
}

/// Tolerances in SI units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReadingTolerance {
    /// Of the rate.
    pub rate_ratio: f64,
    /// Of gauges.
    pub pressure_pa: f64,
    /// Of temperatures.
    pub temperature_k: f64,
    /// Of volts.
    pub voltage_v: f64,
    /// Of amps.
    pub current_ratio: f64,
}

impl ReadingsSetup {
    /// The reading of a kind, if there is one.
    pub fn reading(&self, kind: ReadingKind) -> Option<&Observed> {
        self.observed.iter().find(|observed| observed.kind == kind)
    }
}

pub(super) fn check(document: &Document, door: &mut Door<'_>) {
    let Some(readings) = &document.readings else { return };
    let mut door = door.at("readings");
    if let Some(name) = &readings.kit
        && document.kit(name).is_none()
    {
        door.fault("kit", no_kit(name, document));
    }
    door.optional("rate", readings.rate.as_ref(), 0.0..=10.0, "0 to 600 kg/min");
    door.optional(
        "cylinder_temperature",
        readings.cylinder_temperature.as_ref(),
        200.0..=400.0,
        "−73 to 127 degC",
    );
    door.optional("running_voltage", readings.running_voltage.as_ref(), 1.0..=1000.0, "1 to 1000 V");
    door.optional("receptacle_voltage", readings.receptacle_voltage.as_ref(), 1.0..=1000.0, "1 to 1000 V");
    door.optional("running_current", readings.running_current.as_ref(), 0.01..=1000.0, "0.01 to 1000 A");
    let tolerances = &readings.tolerances;
    let mut door = door.at("tolerances");
    door.optional("rate", tolerances.rate.as_ref(), 1e-3..=2.0, "0.1 to 200 %");
    door.optional("pressure", tolerances.pressure.as_ref(), 1.0..=2e6, "1 Pa to 20 bar");
    door.optional("temperature", tolerances.temperature.as_ref(), 1e-2..=50.0, "0.01 to 50 K");
    door.optional("voltage", tolerances.voltage.as_ref(), 1e-2..=100.0, "0.01 to 100 V");
    door.optional("current", tolerances.current.as_ref(), 1e-3..=2.0, "0.1 to 200 %");
}

/// The sentence about a kit that is not there.
pub(super) fn no_kit(name: &str, document: &Document) -> String {
    let names: Vec<&str> = document.kits.iter().map(|kit| kit.name.as_str()).collect();
    format!("there is no kit {name:?}; expected one of {}", names.join(", "))
}

/// The document's readings, or every fault of the document.
///
/// # Errors
/// As [`resolve`]; a document without readings; a pressure below absolute vacuum; a cold part that
/// is not there.
pub fn readings_of(document: &Document) -> Result<ReadingsSetup, Vec<Fault>> {
    let kits = resolve(document)?;
    let mut faults = Vec::new();
    let mut door = Door::new(&mut faults);
    let Some(readings) = &document.readings else {
        door.fault(
            "readings",
            "there are none; give some, as readings: (rate: \"0.14 lb/min\", system_pressure: \"70 psig\")",
        );
        return Err(faults);
    };
    let Some(kit) = kit_of(kits, readings.kit.as_deref()) else {
        door.fault("kits", "there is no kit; expected at least one");
        return Err(faults);
    };
    let tolerance = tolerance_of(&readings.tolerances);
    let mut door = door.at("readings");
    let observed = observed_of(readings, &tolerance, &kit, &mut door);
    let cold = match &readings.cold_part {
        Some(text) => match cold_spot(text, &kit) {
            Some(spot) => Some(spot),
            None => {
                let names: Vec<&str> = kit.parts.iter().map(|part| part.name.as_str()).collect();
                door.fault(
                    "cold_part",
                    format!(
                        "{text:?} is no part of kit {}; expected nowhere, machine inlet, {}",
                        kit.name,
                        names.join(", ")
                    ),
                );
                None
            }
        },
        None => None,
    };
    if faults.is_empty() { Ok(ReadingsSetup { kit, observed, cold, tolerance }) } else { Err(faults) }
}

/// The kit of a name; the first without one.
pub(super) fn kit_of(kits: Vec<KitSetup>, name: Option<&str>) -> Option<KitSetup> {
    kits.into_iter().find(|kit| name.is_none_or(|name| kit.name == name))
}

fn tolerance_of(tolerances: &Tolerances) -> ReadingTolerance {
    ReadingTolerance {
        rate_ratio: tolerances.rate.as_ref().map_or(USUAL_RATE_RATIO, Typed::si),
        pressure_pa: tolerances.pressure.as_ref().map_or(USUAL_PRESSURE_PA, Typed::si),
        temperature_k: tolerances.temperature.as_ref().map_or(USUAL_TEMPERATURE_K, Typed::si),
        voltage_v: tolerances.voltage.as_ref().map_or(USUAL_VOLTAGE_V, Typed::si),
        current_ratio: tolerances.current.as_ref().map_or(USUAL_CURRENT_RATIO, Typed::si),
    }
}

fn observed_of(
    readings: &Readings,
    tolerance: &ReadingTolerance,
    kit: &KitSetup,
    door: &mut Door<'_>,
) -> Vec<Observed> {
    let mut observed = Vec::new();
    let mut add = |kind, value: Option<f64>, tolerance: f64| {
        observed.extend(value.map(|value| Observed { kind, value, tolerance }));
    };
    let rate = readings.rate.as_ref().map(Typed::si);
    add(ReadingKind::Rate, rate, tolerance.rate_ratio * rate.unwrap_or_default());
    for (kind, field, typed) in [
        (ReadingKind::SystemPressure, "system_pressure", &readings.system_pressure),
        (ReadingKind::MachineInlet, "machine_inlet_pressure", &readings.machine_inlet_pressure),
        (ReadingKind::Discharge, "discharge_pressure", &readings.discharge_pressure),
        (ReadingKind::CylinderPressure, "cylinder_pressure", &readings.cylinder_pressure),
    ] {
        let absolute = typed.as_ref().map(|typed| typed.absolute(kit.setup.ambient.pressure).si());
        if let (Some(typed), Some(pa)) = (typed, absolute)
            && !(pa > 0.0 && pa < 3e7)
        {
            door.fault(
                field,
                format!("{typed} is out of range; expected more than absolute vacuum, up to 300 bar"),
            );
        }
        add(kind, absolute, tolerance.pressure_pa);
    }
    add(
        ReadingKind::CylinderTemperature,
        readings.cylinder_temperature.as_ref().map(Typed::si),
        tolerance.temperature_k,
    );
    let volts = |typed: &Option<Typed<ElectricPotential>>| typed.as_ref().map(Typed::si);
    add(ReadingKind::RunningVoltage, volts(&readings.running_voltage), tolerance.voltage_v);
    add(ReadingKind::ReceptacleVoltage, volts(&readings.receptacle_voltage), tolerance.voltage_v);
    let amps = readings.running_current.as_ref().map(Typed::si);
    add(ReadingKind::RunningCurrent, amps, tolerance.current_ratio * amps.unwrap_or_default());
    observed
}

fn cold_spot(text: &str, kit: &KitSetup) -> Option<ColdSpot> {
    let plain = text.trim().replace(['_', '-'], " ").to_lowercase();
    match plain.as_str() {
        "nowhere" => return Some(ColdSpot::Nowhere),
        "machine inlet" => return Some(ColdSpot::MachineInlet),
        _ => {}
    }
    if let Ok(index) = plain.parse::<usize>() {
        return (index < kit.parts.len()).then_some(ColdSpot::Part(index));
    }
    let by_name = |part: &super::PartName| part.name.replace(['_', '-'], " ").to_lowercase() == plain;
    let by_kind = |part: &super::PartName| kind_words(part.kind) == plain;
    kit.parts.iter().position(by_name).or_else(|| kit.parts.iter().position(by_kind)).map(ColdSpot::Part)
}

fn kind_words(kind: PartKind) -> String {
    kind.label().replace(['_', '-'], " ").to_lowercase()
}
