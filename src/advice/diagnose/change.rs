//! A setup with one thing wrong with it, by so much.

use uom::si::electric_potential::volt;
use uom::si::electrical_resistance::ohm;
use uom::si::f64::{
    ElectricPotential, ElectricalResistance, Length, Pressure, Ratio, ThermodynamicTemperature,
};
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::kelvin;

use super::cause::Cause;
use crate::flow::{Element, PathPart, Restriction};
use crate::fluid::Refrigerant;
use crate::job::{Port, Setup};
use crate::kit::PartKind;
use crate::power::Supply;
use crate::scenario::KitSetup;

/// A clean screen inside a machine that has no inlet throttle written: 6 mm, coefficient 0.7.
/// Invented.
const SCREEN_BORE_M: f64 = 6e-3;
const SCREEN_COEFFICIENT: f64 = 0.7;
/// A hose that is kinked acts as a hole of this coefficient. Common practice, no source.
const KINK_COEFFICIENT: f64 = 0.8;

/// Severities from none to the worst that is looked at, by cause: a factor that multiplies an open
/// area, a displacement, a pressure above nothing or a voltage; or an amount that is added.
pub(super) fn severity_range(cause: Cause) -> (f64, f64) {
    match cause {
        Cause::Nothing => (1.0, 1.0),
        Cause::PartBlocked(_)
        | Cause::SecondPartBlocked(_)
        | Cause::DischargePartBlocked(_)
        | Cause::InletScreen => (1.0, 0.003),
        Cause::WornMachine => (1.0, 0.05),
        Cause::LowSource => (1.0, 0.05),
        Cause::WeakSupply => (1.0, 0.68),
        // Ohms in the plug.
        Cause::LossyCord => (0.01, 2.0),
        // Kelvins above what was taken.
        Cause::HotCylinder => (0.5, 40.0),
        // Pascals above saturation.
        Cause::AirInCylinder => (1e4, 2e6),
    }
}

/// The part of the path that stands for the screen inside the machine, if the kit has one: an inlet
/// screen as its last part. The machine's gauge stands before it.
pub(super) fn own_screen(kit: &KitSetup) -> Option<usize> {
    let last = kit.parts.len().checked_sub(1)?;
    (kit.parts.get(last)?.kind == PartKind::InletScreen).then_some(last)
}

/// The setup with this wrong; none where it cannot be, as a cord that is not there.
pub(super) fn changed(kit: &KitSetup, setup: &Setup, cause: Cause, severity: f64) -> Option<Setup> {
    let mut setup = setup.clone();
    match cause {
        Cause::Nothing => {}
        Cause::PartBlocked(index) => block(setup.path.parts.get_mut(index)?, severity)?,
        Cause::SecondPartBlocked(index) => {
            block(setup.path.second.as_mut()?.parts.get_mut(index)?, severity)?;
        }
        Cause::DischargePartBlocked(index) => block(setup.discharge.get_mut(index)?, severity)?,
        Cause::InletScreen => match own_screen(kit) {
            Some(index) => block(setup.path.parts.get_mut(index)?, severity)?,
            None => {
                let clean = match setup.machine.inlet_throttle {
                    Some(throttle) => throttle,
                    None => clean_screen()?,
                };
                setup.machine.inlet_throttle =
                    Some(clean.with_open_ratio(Ratio::new::<ratio>(severity)).ok()?);
            }
        },
        Cause::WornMachine => {
            let compressor = setup.machine.compressor;
            setup.machine.compressor =
                compressor.with_displacement(compressor.displacement() * severity).ok()?;
        }
        Cause::LowSource => {
            let standing_pa = source_pa(&setup)?;
            setup.source.temperature = standing_at(&setup, standing_pa * severity)?;
        }
        Cause::WeakSupply => {
            let supply = &setup.power.supply;
            let volts = ElectricPotential::new::<volt>(supply.open_circuit().get::<volt>() * severity);
            setup.power.supply = Supply::new(volts, supply.frequency(), *supply.source()).ok()?;
        }
        Cause::LossyCord => {
            let cord = setup.power.cords.last_mut()?;
            *cord = cord.with_contact(ElectricalResistance::new::<ohm>(severity)).ok()?;
        }
        Cause::HotCylinder => {
            let warm = setup.cylinder.temperature.get::<kelvin>() + severity;
            setup.cylinder.temperature = ThermodynamicTemperature::new::<kelvin>(warm);
        }
        Cause::AirInCylinder => {
            setup.cylinder.non_condensables += Pressure::new::<pascal>(severity);
        }
    }
    Some(setup)
}

/// Leaves a share of a part's flow area open. A tube is narrowed at one place.
pub(super) fn block(part: &mut PathPart, open: f64) -> Option<()> {
    let open = Ratio::new::<ratio>(open);
    let mut kinks = Vec::new();
    for element in &mut part.elements {
        match element {
            Element::Restriction(restriction) => *restriction = restriction.with_open_ratio(open).ok()?,
            Element::Tube(tube) if open.value < 1.0 => {
                let full = hole(tube.bore().get::<meter>(), KINK_COEFFICIENT)?;
                kinks.push(Element::Restriction(full.with_open_ratio(open).ok()?));
            }
            Element::Tube(_) => {}
        }
    }
    part.elements.extend(kinks);
    Some(())
}

fn hole(diameter_m: f64, coefficient: f64) -> Option<Restriction> {
    let part = Ratio::new::<ratio>;
    Restriction::from_hole(Length::new::<meter>(diameter_m), part(coefficient), part(1.0)).ok()
}

fn clean_screen() -> Option<Restriction> {
    hole(SCREEN_BORE_M, SCREEN_COEFFICIENT)
}

/// Pressure at the system's first port.
pub(super) fn source_pa(setup: &Setup) -> Option<f64> {
    let temperature_k = setup.source.temperature.get::<kelvin>();
    match setup.source.first {
        Port::Vapor => setup.refrigerant.dew_pressure_pa(temperature_k).ok(),
        Port::Liquid | Port::Mixed { .. } => setup.refrigerant.bubble_pressure_pa(temperature_k).ok(),
    }
}

/// The temperature at which the first port stands at this pressure.
pub(super) fn standing_at(setup: &Setup, pressure_pa: f64) -> Option<ThermodynamicTemperature> {
    let temperature_k = saturated_k(&setup.refrigerant, setup.source.first, pressure_pa)?;
    Some(ThermodynamicTemperature::new::<kelvin>(temperature_k))
}

fn saturated_k(refrigerant: &Refrigerant, port: Port, pressure_pa: f64) -> Option<f64> {
    let saturation = refrigerant.saturation_at_pressure(pressure_pa).ok()?;
    Some(match port {
        Port::Vapor => saturation.dew_temperature_k,
        Port::Liquid | Port::Mixed { .. } => saturation.bubble_temperature_k,
    })
}
