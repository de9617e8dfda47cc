//! Volts and cylinder: what can be read directly, and what a fault of it makes the meter read.

use uom::si::electric_current::ampere;
use uom::si::electric_potential::volt;
use uom::si::thermodynamic_temperature::kelvin;

use super::cause::Cause;
use super::change::{changed, severity_range};
use super::error::DiagnoseError;
use super::likelihood::{cylinder_likelihood, power_likelihood};
use super::weights::{CYLINDER, POWER};
use crate::fluid::FluidError;
use crate::job::Setup;
use crate::power::{Conditions, Load, PowerError, solve as solve_power};
use crate::scenario::ReadingsSetup;

/// Volts, amps and cylinder as predicted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SideReading {
    /// Volts at the machine; none where the motor cannot hold.
    pub running_v: Option<f64>,
    /// Volts at the receptacle.
    pub receptacle_v: Option<f64>,
    /// Amps of the machine.
    pub running_a: Option<f64>,
    /// Pressure in the cylinder.
    pub cylinder_pa: f64,
    /// Temperature of the cylinder.
    pub cylinder_k: f64,
    /// How its saturation pressure rises with its temperature.
    pub(super) cylinder_slope_pa_k: f64,
}

/// One state of power or cylinder: as written, or with one cause.
#[derive(Debug, Clone, Copy)]
pub(super) struct SideEvidence {
    /// None: as written.
    pub cause: Option<Cause>,
    /// Prior times density of the readings, averaged over the severities.
    pub weight: f64,
    /// The severity that agrees best.
    pub severity: f64,
    /// Its prediction.
    pub reading: SideReading,
}

const SEVERITIES: usize = 60;

/// Predicts the side readings of a setup, with the motor at its nameplate's load.
///
/// # Errors
/// A contradictory power path; a cylinder outside the refrigerant's table.
pub(super) fn side_reading(setup: &Setup) -> Result<SideReading, DiagnoseError> {
    let power = powered(setup)?;
    let running = power.running.point();
    let cylinder_k = setup.cylinder.temperature.get::<kelvin>();
    let at = |kelvins: f64| {
        setup
            .refrigerant
            .bubble_pressure_pa(kelvins)
            .map_err(|error: FluidError| DiagnoseError::CylinderTemperature { temperature_k: kelvins, error })
    };
    let saturated = at(cylinder_k)?;
    let colder = at(cylinder_k - 1.0).unwrap_or(saturated);
    Ok(SideReading {
        running_v: running.map(|point| point.voltage.get::<volt>()),
        receptacle_v: power.receptacle.map(|volts| volts.get::<volt>()),
        running_a: running.map(|point| point.current.get::<ampere>()),
        cylinder_pa: saturated + setup.cylinder.non_condensables.value,
        cylinder_k,
        cylinder_slope_pa_k: saturated - colder,
    })
}

fn powered(setup: &Setup) -> Result<crate::power::PowerPoint, PowerError> {
    let conditions = Conditions::new(setup.ambient.temperature)?;
    solve_power(&setup.power, &setup.motor, Load::Nameplate, &conditions)
}

/// Power as written, weak at the supply, lossy in the cord.
pub(super) fn power_states(
    readings: &ReadingsSetup,
    setup: &Setup,
) -> Result<Vec<SideEvidence>, DiagnoseError> {
    states(readings, setup, &[Cause::WeakSupply, Cause::LossyCord], POWER, power_likelihood)
}

/// The cylinder as written, hot, or with air in it.
pub(super) fn cylinder_states(
    readings: &ReadingsSetup,
    setup: &Setup,
) -> Result<Vec<SideEvidence>, DiagnoseError> {
    states(readings, setup, &[Cause::HotCylinder, Cause::AirInCylinder], CYLINDER, cylinder_likelihood)
}

fn states(
    readings: &ReadingsSetup,
    setup: &Setup,
    causes: &[Cause],
    prior: f64,
    likelihood: fn(&ReadingsSetup, &SideReading) -> f64,
) -> Result<Vec<SideEvidence>, DiagnoseError> {
    let as_written = side_reading(setup)?;
    let faulty: Vec<SideEvidence> =
        causes.iter().filter_map(|&cause| state(readings, setup, cause, likelihood)).collect();
    let share = prior / faulty.len().max(1) as f64;
    let mut all = vec![SideEvidence {
        cause: None,
        weight: (1.0 - prior) * likelihood(readings, &as_written),
        severity: 1.0,
        reading: as_written,
    }];
    all.extend(faulty.into_iter().map(|one| SideEvidence { weight: share * one.weight, ..one }));
    Ok(all)
}

/// One fault over its severities, evenly spaced: weight is the average density.
fn state(
    readings: &ReadingsSetup,
    setup: &Setup,
    cause: Cause,
    likelihood: fn(&ReadingsSetup, &SideReading) -> f64,
) -> Option<SideEvidence> {
    let (mild, worst) = severity_range(cause);
    let mut sum = 0.0;
    let mut best: Option<(f64, SideEvidence)> = None;
    for index in 0..SEVERITIES {
        let severity = mild + (worst - mild) * (index as f64 + 0.5) / SEVERITIES as f64;
        let Some(reading) =
            changed(&readings.kit, setup, cause, severity).and_then(|one| side_reading(&one).ok())
        else {
            continue;
        };
        let density = likelihood(readings, &reading);
        sum += density;
        if best.is_none_or(|(known, _)| density > known) {
            best = Some((density, SideEvidence { cause: Some(cause), weight: 0.0, severity, reading }));
        }
    }
    best.map(|(_, one)| SideEvidence { weight: sum / SEVERITIES as f64, ..one })
}
