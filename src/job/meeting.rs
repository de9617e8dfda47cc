//! The two curves that meet: what the path passes and what the machine draws, against the
//! pressure at the machine's inlet.

use uom::si::f64::{MassRate, Pressure};
use uom::si::mass_rate::kilogram_per_second;
use uom::si::pressure::pascal;

use super::balance::Balance;
use super::error::JobError;
use super::setup::Setup;
use crate::flow::{Arrival, Medium};

/// Both curves as pairs of absolute pressure in the suction chamber and mass flow of all machines, by
/// rising pressure.
#[derive(Debug, Clone, PartialEq)]
pub struct MeetingCurves {
    /// What the paths pass; level where they are choked.
    pub path: Vec<(Pressure, MassRate)>,
    /// What the machines draw, against the discharge that this flow needs.
    pub machine: Vec<(Pressure, MassRate)>,
}

/// Samples both curves with about `count` points each.
///
/// # Errors
/// As [`super::solve`], where a curve has no meaning at all.
pub fn meeting_curves(setup: &Setup, count: usize) -> Result<MeetingCurves, JobError> {
    let balance = Balance::new(setup)?;
    let count = count.clamp(4, 2000);
    let paths = f64::from(setup.machines.paths());
    let of_all =
        |curve: Vec<(Pressure, MassRate)>| curve.into_iter().map(|(p, flow)| (p, flow * paths)).collect();
    Ok(MeetingCurves {
        path: of_all(path_curve(&balance, count)?),
        machine: of_all(machine_curve(&balance, count)?),
    })
}

fn pair(pressure_pa: f64, flow_kg_s: f64) -> (Pressure, MassRate) {
    (Pressure::new::<pascal>(pressure_pa), MassRate::new::<kilogram_per_second>(flow_kg_s))
}

fn path_curve(balance: &Balance<'_>, count: usize) -> Result<Vec<(Pressure, MassRate)>, JobError> {
    let (open, ..) = balance.drawn(balance.source, 0.0)?;
    let reach = 3.0 * open.max(1e-6);
    let (top, plateau_pa) = match balance.line.largest_flow(reach)? {
        Some(largest) => (largest.mass_flow_kg_s, Some(largest.outlet_pressure_pa)),
        None => (reach, None),
    };
    let mut curve = Vec::with_capacity(count + 2);
    // At no flow a rise or a fall already moves the pressure.
    for index in 0..=count {
        // Closer together near the plateau, where the pressure falls fast.
        let share = 1.0 - (1.0 - index as f64 / count as f64).powi(2);
        if let Arrival::Arrives(point) = balance.line.arrival(share * top)? {
            curve.push(pair(point.pressure_pa, share * top));
        }
    }
    if plateau_pa.is_some() {
        curve.push(pair(0.0, top));
    }
    curve.reverse();
    Ok(curve)
}

fn machine_curve(balance: &Balance<'_>, count: usize) -> Result<Vec<(Pressure, MassRate)>, JobError> {
    let refrigerant = &*balance.setup.refrigerant;
    let floor_pa = refrigerant.lowest_pressure_pa() * 1.000_001;
    let top_pa = balance.source.pressure_pa;
    let mut curve = Vec::with_capacity(count);
    for index in 0..count {
        let pressure_pa = floor_pa + (top_pa - floor_pa) * index as f64 / (count - 1) as f64;
        let Ok(point) = refrigerant.point(pressure_pa.min(top_pa), balance.source.enthalpy_j_kg) else {
            continue;
        };
        // The discharge pressure depends on the flow: two rounds settle it well within a line's width.
        let (first, ..) = balance.drawn(point, 0.0)?;
        let (second, ..) = balance.drawn(point, first)?;
        let (flow, ..) = balance.drawn(point, second)?;
        curve.push(pair(pressure_pa, flow));
    }
    Ok(curve)
}
