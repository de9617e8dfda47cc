//! What is uncertain in a machine: displacement, clearance, losses, condenser, inlet, starting.

use super::assumed;
use super::part::inlet;
use super::walk::{Thing, Visit};
use crate::kit::{Machine, shelf_id};

/// Visits a machine's uncertain fields.
pub(super) fn walk(machine: &mut Machine, place: &str, visit: &mut Visit<'_>) {
    let key = match &machine.from {
        Some(from) => shelf_id(from).to_owned(),
        None => format!("machine {}", machine.displacement),
    };
    let name = machine.name.clone().unwrap_or_else(|| "Machine".to_owned());
    let thing = Thing::new(key.clone(), name.clone(), place);
    let (displacement, clearance, loss) =
        (&mut machine.displacement, &mut machine.clearance, &mut machine.loss_factor);
    thing.banded(
        visit,
        "displacement",
        displacement,
        machine.displacement_band.as_ref(),
        &assumed::DISPLACEMENT,
    );
    thing.banded(visit, "clearance", clearance, machine.clearance_band.as_ref(), &assumed::CLEARANCE);
    thing.banded(visit, "loss_factor", loss, machine.loss_factor_band.as_ref(), &assumed::LOSS_FACTOR);
    if let Some(throttle) = &mut machine.inlet_throttle {
        let at = Thing::new(
            format!("{key}.inlet_throttle"),
            format!("{name}, inlet"),
            format!("{place}.inlet_throttle"),
        );
        inlet(throttle, &at, visit);
    }
    let condenser =
        Thing::new(format!("{key}.condenser"), format!("{name}, condenser"), format!("{place}.condenser"));
    if let Some(temperature) = &mut machine.condenser.condensing_temperature {
        condenser.assumed(visit, "condensing_temperature", temperature, &assumed::CONDENSING);
    }
    if let Some(conductance) = &mut machine.condenser.conductance {
        condenser.assumed(visit, "conductance", conductance, &assumed::CONDUCTANCE);
    }
    let motor = Thing::new(format!("{key}.motor"), format!("{name}, motor"), format!("{place}.motor"));
    if let Some(current) = &mut machine.motor.locked_rotor_current {
        motor.assumed(visit, "locked_rotor_current", current, &assumed::LOCKED_ROTOR);
    }
    if let Some(factor) = &mut machine.motor.starting_power_factor {
        motor.assumed(visit, "starting_power_factor", factor, &assumed::STARTING_POWER_FACTOR);
    }
}
