//! Supply, branch circuit, cords and motor to what `power` takes.

use crate::kit::{
    BREAKER_A, Branch, Cord, Door, Lay, Material, Motor, MotorKind, MotorStart, Stranding, Supply,
};
use crate::power::{
    self, Awg, CodeLetter, Conductor, Gauge, LockedRotor, MetricArea, Nameplate, PowerError, PowerPath,
};
use crate::units::{Measure, Typed, TypedWire, WireSize};
use uom::si::area::square_millimeter;
use uom::si::f64::{Area, ElectricCurrent, ElectricalResistance, Frequency, Length, Power};

const MAINS_HZ: f64 = 60.0;
/// Transient reactance of a generator whose sag is given, over its base impedance; `power`'s own
/// usual value.
const TRANSIENT_REACTANCE_RATIO: f64 = 0.25;

/// The path of power, with these cords.
pub(super) fn path_of(
    supply: &Supply,
    cords: &[Cord],
    at_cords: &str,
    door: &mut Door<'_>,
) -> Option<PowerPath> {
    let source = supply_of(supply, &mut door.at("supply"));
    let branch = match &supply.branch {
        Some(branch) => door.keep("supply.branch", branch_of(branch)),
        None => door.keep("supply.branch", no_branch()),
    };
    let mut door = door.at(at_cords);
    let cords: Vec<Option<power::Cord>> =
        cords.iter().enumerate().map(|(index, cord)| door.keep(index, cord_of(cord))).collect();
    Some(PowerPath { supply: source?, branch: branch?, cords: cords.into_iter().collect::<Option<_>>()? })
}

/// What a cord is called.
pub(super) fn cord_name(cord: &Cord) -> String {
    cord.name.clone().unwrap_or_else(|| format!("{} cord, {}", cord.gauge, cord.length))
}

fn supply_of(supply: &Supply, door: &mut Door<'_>) -> Option<power::Supply> {
    let frequency = supply.frequency.as_ref().map_or(Frequency::from_si(MAINS_HZ), Typed::value);
    let source = match (&supply.generator, &supply.source_resistance, &supply.source_reactance) {
        (Some(generator), ..) => power::Source::Generator(door.keep("generator", generator_of(generator))?),
        (None, None, None) => power::Source::HeldPanel,
        (None, resistance, reactance) => {
            let ohms = |typed: &Option<Typed<_>>| {
                typed.as_ref().map_or(ElectricalResistance::from_si(0.0), Typed::value)
            };
            let impedance = power::SourceImpedance::new(ohms(resistance), ohms(reactance));
            power::Source::Service(door.keep("source_resistance", impedance)?)
        }
    };
    door.keep("voltage", power::Supply::new(supply.voltage.value(), frequency, source))
}

fn generator_of(generator: &crate::kit::Generator) -> Result<power::Generator, PowerError> {
    let watts = |typed: &Typed<crate::units::ApparentPower>| Power::from_si(typed.si());
    let plain = power::Generator::new(watts(&generator.continuous), watts(&generator.surge))?;
    match &generator.sag {
        Some(sag) => plain.with_sag(sag.si(), TRANSIENT_REACTANCE_RATIO),
        None => Ok(plain),
    }
}

fn branch_of(branch: &Branch) -> Result<power::Branch, PowerError> {
    let gauge = gauge_of(&branch.gauge)?;
    let conductor =
        Conductor { gauge, metal: metal_of(branch.material), stranding: stranding_of(branch, gauge) };
    let breaker = branch.breaker.as_ref().map_or(ElectricCurrent::from_si(BREAKER_A), Typed::value);
    let mut wired = power::Branch::new(conductor, branch.length.value(), breaker)?;
    if let Some(other) = &branch.other_load {
        wired = wired.with_other_loads(other.value())?;
    }
    match &branch.contact_resistance {
        Some(contact) => wired.with_contact(contact.value()),
        None => Ok(wired),
    }
}

/// The machine stands at the panel: no length, so that the gauge does not matter.
fn no_branch() -> Result<power::Branch, PowerError> {
    let conductor = Conductor::solid_copper(Gauge::Awg(Awg::new(12)?));
    power::Branch::new(conductor, Length::from_si(0.0), ElectricCurrent::from_si(BREAKER_A))
}

fn cord_of(cord: &Cord) -> Result<power::Cord, PowerError> {
    let conductor = Conductor {
        gauge: gauge_of(&cord.gauge)?,
        metal: metal_of(cord.material),
        stranding: power::Stranding::Stranded,
    };
    let lay = match cord.lay {
        Lay::Straight => power::Lay::Straight,
        Lay::Coiled => power::Lay::Coiled,
    };
    let mut plain = power::Cord::new(conductor, cord.length.value(), lay)?;
    if let Some(marked) = &cord.marked_current {
        plain = plain.with_marking(marked.value())?;
    }
    match &cord.contact_resistance {
        Some(contact) => plain.with_contact(contact.value()),
        None => Ok(plain),
    }
}

fn gauge_of(wire: &TypedWire) -> Result<Gauge, PowerError> {
    match wire.size() {
        WireSize::Awg(number) => Awg::new(i64::from(number)).map(Gauge::Awg),
        WireSize::SquareMillimetres(mm2) => {
            MetricArea::new(Area::new::<square_millimeter>(mm2)).map(Gauge::Metric)
        }
    }
}

fn metal_of(material: Material) -> power::Metal {
    match material {
        Material::Copper => power::Metal::Copper,
        Material::Aluminium => power::Metal::Aluminium,
        Material::CopperCladAluminium => power::Metal::CopperCladAluminium,
    }
}

/// Building wiring of 10 AWG and thinner is solid, thicker is stranded. Common practice.
fn stranding_of(branch: &Branch, gauge: Gauge) -> power::Stranding {
    match branch.stranding {
        Some(Stranding::Solid) => power::Stranding::Solid,
        Some(Stranding::Stranded) => power::Stranding::Stranded,
        None => match gauge {
            Gauge::Awg(awg) if awg.number() >= 10 => power::Stranding::Solid,
            Gauge::Awg(_) | Gauge::Metric(_) => power::Stranding::Stranded,
        },
    }
}

/// The motor of a nameplate.
pub(super) fn motor_of(motor: &Motor, door: &mut Door<'_>) -> Option<power::Motor> {
    let kind = match motor.kind {
        MotorKind::Induction => power::MotorKind::Induction(match motor.start.unwrap_or_default() {
            MotorStart::SplitPhase => power::InductionStart::SplitPhase,
            MotorStart::CapacitorStart => power::InductionStart::CapacitorStart,
            MotorStart::CapacitorStartCapacitorRun => power::InductionStart::CapacitorStartCapacitorRun,
            MotorStart::PermanentCapacitor => power::InductionStart::PermanentCapacitor,
        }),
        MotorKind::Universal => power::MotorKind::Universal,
        MotorKind::Electronic => power::MotorKind::ElectronicDrive {
            under_voltage_trip: motor.trip_voltage.as_ref().map(Typed::value),
            inrush_ratio: motor.inrush.as_ref().map(Typed::si),
        },
    };
    let locked_rotor = match (&motor.locked_rotor_current, &motor.code_letter) {
        (Some(current), _) => LockedRotor::Current(current.value()),
        (None, Some(letter)) => LockedRotor::Code(door.keep("code_letter", code_letter(letter))?),
        (None, None) => LockedRotor::Unknown,
    };
    let nameplate = Nameplate {
        frequency: motor.frequency.as_ref().map_or(Frequency::from_si(MAINS_HZ), Typed::value),
        shaft_power: motor.shaft_power.as_ref().map(Typed::value),
        speed: motor.speed.as_ref().map(Typed::value),
        power_factor_ratio: motor.power_factor.as_ref().map(Typed::si),
        locked_rotor_power_factor_ratio: motor.starting_power_factor.as_ref().map(Typed::si),
        locked_rotor_torque_ratio: motor.starting_torque.as_ref().map(Typed::si),
        ..Nameplate::new(motor.rated_voltage.value(), motor.rated_current.value(), locked_rotor)
    };
    door.keep("", power::Motor::new(kind, &nameplate))
}

fn code_letter(letter: &str) -> Result<CodeLetter, PowerError> {
    // Checked to be one letter.
    CodeLetter::new(letter.chars().next().unwrap_or(' '))
}
