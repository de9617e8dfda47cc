//! The site log: at most two factors fitted to its rows, with what is left over.
//!
//! Factors are the machine's health (its displacement over the one written) and one part's open
//! area. Each row is solved at its own system pressure; rates are summed to weights by trapezoids.
//! Residuals are weights and inlet pressures over their tolerances, minimized by Levenberg and
//! Marquardt's method. The crate `levenberg-marquardt` is MINPACK's `lmder` in Rust and tested
//! against it; it is quiet because it is finished. General optimizers bring more and know less of
//! least squares.

use levenberg_marquardt::{LeastSquaresProblem, LevenbergMarquardt};
use nalgebra::{DMatrix, DVector, Dyn, Owned, U1};
use uom::si::electric_potential::volt;
use uom::si::f64::{ElectricPotential, ThermodynamicTemperature};
use uom::si::thermodynamic_temperature::kelvin;

use super::change::{block, standing_at};
use super::error::DiagnoseError;
use super::flow_case::{FlowReading, flow_reading};
use crate::job::Setup;
use crate::power::{Conditions, Load, Supply, solve as solve_power};
use crate::scenario::{LogSetup, LogStep};

/// A log that was fitted. Nothing on the shelf or in the document is changed by it.
#[derive(Debug, Clone, PartialEq)]
pub struct LogFit {
    /// Displacement over the one written, with its standard error; none if not a factor.
    pub health: Option<(f64, f64)>,
    /// Open area of the part over the one written, with its standard error; none if not a factor.
    pub part_open: Option<(f64, f64)>,
    /// Row by row.
    pub rows: Vec<LogRowFit>,
    /// Root of the mean squared weight residual before the fit, kg.
    pub before_kg: f64,
    /// And after it, kg.
    pub after_kg: f64,
}

/// One row with its predictions before and after.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LogRowFit {
    /// Since the first row.
    pub time_s: f64,
    /// Gained since the first row, as logged.
    pub gained_kg: f64,
    /// As the document's machine and parts would have.
    pub written_kg: f64,
    /// As fitted.
    pub fitted_kg: f64,
    /// Inlet pressure as logged.
    pub machine_inlet_pa: Option<f64>,
    /// As fitted.
    pub fitted_inlet_pa: f64,
}

/// What a weight may be off by, as a share of the whole gain. Common practice, no source.
const WEIGHT_RATIO: f64 = 0.02;
/// What a gauge may be off by, as a share of the absolute pressure. Common practice, no source.
const PRESSURE_RATIO: f64 = 0.02;
/// Factors are kept between these.
const LEAST: f64 = 0.01;
const MOST: f64 = 4.0;
/// Step of the derivatives, in the logarithm of a factor.
const STEP: f64 = 1e-3;

/// Fits a log.
///
/// # Errors
/// Too few rows, no gain, rows that cannot be solved, or a fit that does not settle.
pub fn fit_log(log: &LogSetup) -> Result<LogFit, DiagnoseError> {
    let factors = usize::from(log.fit_health) + usize::from(log.fit_part.is_some());
    if factors == 0 {
        return Err(DiagnoseError::NothingToFit);
    }
    let usable = log.steps.len();
    if usable < factors + 2 {
        return Err(DiagnoseError::TooFewRows { usable, needed: factors + 2 });
    }
    let gained_kg = log.steps.last().map_or(0.0, |step| step.gained_kg);
    if !(gained_kg > 0.0) {
        return Err(DiagnoseError::NoGain { gained_kg });
    }
    let setups =
        log.steps.iter().map(|step| row_setup(&log.kit.setup, step)).collect::<Result<Vec<_>, _>>()?;
    let model = Model { log, setups, gained_kg };
    // Start a little below as written, where a blocked part already counts.
    let start = DVector::from_element(factors, 0.8_f64.ln());
    let written = model.rows(&DVector::zeros(factors));
    let (fitted, report) = LevenbergMarquardt::new().minimize(Fitting { model: &model, logs: start });
    if !report.termination.was_successful() {
        return Err(DiagnoseError::NotSettled { detail: format!("{:?}", report.termination) });
    }
    Ok(model.answer(&fitted, &written))
}

/// The document's setup as it stood at a row.
fn row_setup(written: &Setup, step: &LogStep) -> Result<Setup, DiagnoseError> {
    let mut setup = written.clone();
    if let Some(pressure_pa) = step.system_pa {
        if let Err(error) = setup.refrigerant.saturation_at_pressure(pressure_pa) {
            return Err(DiagnoseError::SystemPressure { pressure_pa, error });
        }
        if let Some(temperature) = standing_at(&setup, pressure_pa) {
            setup.source.temperature = temperature;
        }
    }
    if let Some(pressure_pa) = step.cylinder_pa
        && let Ok(saturation) = setup.refrigerant.saturation_at_pressure(pressure_pa)
    {
        setup.cylinder.temperature = ThermodynamicTemperature::new::<kelvin>(saturation.bubble_temperature_k);
        setup.cylinder.non_condensables = uom::si::f64::Pressure::new::<uom::si::pressure::pascal>(0.0);
    }
    if let Some(volts) = step.running_v {
        hold_voltage(&mut setup, volts);
    }
    Ok(setup)
}

/// Scales the supply so that the motor stands at this voltage; leaves it where it cannot.
fn hold_voltage(setup: &mut Setup, volts: f64) {
    let Ok(conditions) = Conditions::new(setup.ambient.temperature) else { return };
    for _ in 0..3 {
        let solved = solve_power(&setup.power, &setup.motor, Load::Nameplate, &conditions);
        let Some(running) = solved.ok().and_then(|power| power.running.point().copied()) else { return };
        let supply = setup.power.supply;
        let short = volts - running.voltage.get::<volt>();
        let raised = ElectricPotential::new::<volt>(supply.open_circuit().get::<volt>() + short);
        match Supply::new(raised, supply.frequency(), *supply.source()) {
            Ok(supply) => setup.power.supply = supply,
            Err(_) => return,
        }
    }
}

struct Model<'a> {
    log: &'a LogSetup,
    setups: Vec<Setup>,
    gained_kg: f64,
}

/// Gained weight and inlet pressure of a row.
#[derive(Debug, Clone, Copy)]
struct Row {
    gained_kg: f64,
    machine_inlet_pa: f64,
}

impl Model<'_> {
    /// Health and open area from the logarithms that are fitted.
    fn factors(&self, logs: &DVector<f64>) -> (f64, Option<f64>) {
        let mut values = logs.iter().map(|log| log.exp().clamp(LEAST, MOST));
        let health = if self.log.fit_health { values.next().unwrap_or(1.0) } else { 1.0 };
        (health, self.log.fit_part.and_then(|_| values.next()))
    }

    fn rows(&self, logs: &DVector<f64>) -> Vec<Row> {
        let (health, open) = self.factors(logs);
        let mut rows: Vec<Row> = Vec::with_capacity(self.setups.len());
        let mut last: Option<(f64, FlowReading)> = None;
        for (setup, step) in self.setups.iter().zip(&self.log.steps) {
            let reading = self.reading(setup, health, open);
            let before = rows.last().map_or(0.0, |row| row.gained_kg);
            let gained_kg = match last {
                Some((time_s, earlier)) => {
                    before + 0.5 * (earlier.rate_kg_s + reading.rate_kg_s) * (step.time_s - time_s)
                }
                None => 0.0,
            };
            rows.push(Row { gained_kg, machine_inlet_pa: reading.machine_inlet_pa });
            last = Some((step.time_s, reading));
        }
        rows
    }

    fn reading(&self, written: &Setup, health: f64, open: Option<f64>) -> FlowReading {
        let mut setup = written.clone();
        let compressor = setup.machine.compressor;
        if let Ok(worn) = compressor.with_displacement(compressor.displacement() * health) {
            setup.machine.compressor = worn;
        }
        if let (Some(index), Some(open)) = (self.log.fit_part, open)
            && let Some(part) = setup.path.parts.get_mut(index)
        {
            // A part that cannot be opened so far stays as it is.
            let as_written = part.clone();
            if block(part, open).is_none() {
                *part = as_written;
            }
        }
        flow_reading(&self.log.kit, &setup).unwrap_or(FlowReading {
            rate_kg_s: 0.0,
            system_pa: 0.0,
            machine_inlet_pa: 0.0,
            discharge_pa: 0.0,
            cold: crate::scenario::ColdSpot::Nowhere,
        })
    }

    fn residuals(&self, logs: &DVector<f64>) -> DVector<f64> {
        let mut all = Vec::new();
        for (row, step) in self.rows(logs).iter().zip(&self.log.steps) {
            all.push((row.gained_kg - step.gained_kg) / (WEIGHT_RATIO * self.gained_kg));
            if let Some(read_pa) = step.machine_inlet_pa {
                all.push((row.machine_inlet_pa - read_pa) / (PRESSURE_RATIO * read_pa));
            }
        }
        DVector::from_vec(all)
    }

    fn jacobian(&self, logs: &DVector<f64>) -> DMatrix<f64> {
        let columns: Vec<DVector<f64>> = (0..logs.len())
            .map(|index| {
                let moved = |by: f64| {
                    let mut moved = logs.clone();
                    moved[index] += by;
                    self.residuals(&moved)
                };
                (moved(STEP) - moved(-STEP)) / (2.0 * STEP)
            })
            .collect();
        DMatrix::from_columns(&columns)
    }

    fn answer(&self, fitted: &Fitting<'_>, written: &[Row]) -> LogFit {
        let rows = self.rows(&fitted.logs);
        let (health, open) = self.factors(&fitted.logs);
        let errors = self.standard_errors(&fitted.logs);
        let error = |index: usize| errors.get(index).copied().unwrap_or(f64::NAN);
        let rms = |rows: &[Row]| {
            let squares =
                rows.iter().zip(&self.log.steps).map(|(row, step)| (row.gained_kg - step.gained_kg).powi(2));
            (squares.sum::<f64>() / rows.len() as f64).sqrt()
        };
        LogFit {
            health: self.log.fit_health.then(|| (health, health * error(0))),
            part_open: open.map(|open| (open, open * error(usize::from(self.log.fit_health)))),
            before_kg: rms(written),
            after_kg: rms(&rows),
            rows: self
                .log
                .steps
                .iter()
                .zip(rows.iter().zip(written))
                .map(|(step, (row, written))| LogRowFit {
                    time_s: step.time_s,
                    gained_kg: step.gained_kg,
                    written_kg: written.gained_kg,
                    fitted_kg: row.gained_kg,
                    machine_inlet_pa: step.machine_inlet_pa,
                    fitted_inlet_pa: row.machine_inlet_pa,
                })
                .collect(),
        }
    }

    /// Of the logarithms: `√diag((JᵀJ)⁻¹ · s²)`, not a number where the log does not fix a factor.
    fn standard_errors(&self, logs: &DVector<f64>) -> Vec<f64> {
        let jacobian = self.jacobian(logs);
        let residuals = self.residuals(logs);
        let spare = residuals.len().saturating_sub(logs.len()).max(1);
        let variance = residuals.norm_squared() / spare as f64;
        match (jacobian.transpose() * &jacobian).try_inverse() {
            Some(inverse) => inverse.diagonal().iter().map(|d| (d * variance).sqrt()).collect(),
            None => vec![f64::NAN; logs.len()],
        }
    }
}

/// What the least-squares crate asks for.
struct Fitting<'a> {
    model: &'a Model<'a>,
    logs: DVector<f64>,
}

impl LeastSquaresProblem<f64, Dyn, Dyn> for Fitting<'_> {
    type ResidualStorage = Owned<f64, Dyn, U1>;
    type JacobianStorage = Owned<f64, Dyn, Dyn>;
    type ParameterStorage = Owned<f64, Dyn, U1>;

    fn set_params(&mut self, logs: &DVector<f64>) {
        self.logs.copy_from(logs);
    }

    fn params(&self) -> DVector<f64> {
        self.logs.clone()
    }

    fn residuals(&self) -> Option<DVector<f64>> {
        Some(self.model.residuals(&self.logs))
    }

    fn jacobian(&self) -> Option<DMatrix<f64>> {
        Some(self.model.jacobian(&self.logs))
    }
}
