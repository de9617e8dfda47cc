//! What is kept of a job as it goes: samples, phases, cylinders.

use uom::si::f64::{Mass, Pressure, Time};
use uom::si::mass::kilogram;
use uom::si::pressure::pascal;
use uom::si::time::second;

use super::answer::{CylinderUse, JobTrace, PhaseKind, PhaseSpan};
use super::moment::{JobState, Moment};

/// The record of a job.
#[derive(Debug)]
pub(super) struct Record {
    pub charge_kg: f64,
    pub phases: Vec<PhaseSpan>,
    pub cylinders: Vec<CylinderUse>,
    pub trace: JobTrace,
    pub lowest_k: f64,
    pub drew_wet: bool,
    highest_pa: f64,
}

impl Record {
    pub fn new(charge_kg: f64) -> Self {
        Self {
            charge_kg,
            phases: Vec::new(),
            cylinders: Vec::new(),
            trace: JobTrace::default(),
            lowest_k: f64::INFINITY,
            drew_wet: false,
            highest_pa: 0.0,
        }
    }

    /// Keeps a sample of a phase that is under way (its place in the order is the next one).
    pub fn sample(&mut self, time_s: f64, cylinder: usize, state: &JobState, moment: &Moment) {
        let remaining_kg = remaining_kg(state);
        let trace = &mut self.trace;
        trace.time_s.push(time_s);
        trace.phase.push(self.phases.len());
        trace.rate_kg_s.push(moment.rate_kg_s);
        trace.recovered_kg.push(self.charge_kg - remaining_kg);
        trace.remaining_kg.push(remaining_kg);
        trace.liquid_kg.push(moment.system.liquid_kg);
        trace.system_pa.push(moment.system.pressure_pa);
        trace.system_k.push(moment.system.temperature_k);
        trace.suction_pa.push(moment.suction_pa);
        trace.discharge_pa.push(moment.discharge_pa);
        trace.cylinder.push(cylinder);
        let (pressure_pa, temperature_k) = match &moment.cylinder {
            Some(view) => (view.pressure_pa, view.filling.temperature_k),
            None => (f64::NAN, f64::NAN),
        };
        trace.cylinder_pa.push(pressure_pa);
        trace.cylinder_k.push(temperature_k);
        trace.cylinder_kg.push(if moment.cylinder.is_some() { state[5] } else { f64::NAN });
        self.lowest_k = self.lowest_k.min(moment.system.temperature_k);
        self.highest_pa = self.highest_pa.max(pressure_pa);
    }

    /// Closes a phase; one without length leaves no trace.
    pub fn close_phase(&mut self, kind: PhaseKind, start_s: f64, end_s: f64, recovered_kg: f64) {
        if end_s <= start_s {
            self.forget_phase();
            return;
        }
        let start = Time::new::<second>(start_s);
        let end = Time::new::<second>(end_s);
        if let Some(last) = self.phases.last_mut()
            && last.kind == kind
            && last.end == start
        {
            // The same work goes on (after an event that changed nothing for the eye).
            last.end = end;
            last.recovered += Mass::new::<kilogram>(recovered_kg);
            let place = self.phases.len();
            self.trace.phase.iter_mut().filter(|phase| **phase == place).for_each(|phase| *phase -= 1);
            return;
        }
        self.phases.push(PhaseSpan { kind, start, end, recovered: Mass::new::<kilogram>(recovered_kg) });
    }

    /// Drops the samples of a phase that never came to be.
    fn forget_phase(&mut self) {
        let place = self.phases.len();
        let keep = self.trace.phase.iter().position(|phase| *phase == place).unwrap_or(self.trace.len());
        let trace = &mut self.trace;
        trace.phase.truncate(keep);
        trace.cylinder.truncate(keep);
        for column in [
            &mut trace.time_s,
            &mut trace.rate_kg_s,
            &mut trace.recovered_kg,
            &mut trace.remaining_kg,
            &mut trace.liquid_kg,
            &mut trace.system_pa,
            &mut trace.system_k,
            &mut trace.suction_pa,
            &mut trace.discharge_pa,
            &mut trace.cylinder_pa,
            &mut trace.cylinder_k,
            &mut trace.cylinder_kg,
        ] {
            column.truncate(keep);
        }
    }

    /// A cylinder is taken off.
    pub fn close_cylinder(&mut self, index: usize, connected_s: f64, closed_s: f64, net_kg: f64) {
        self.cylinders.push(CylinderUse {
            index,
            connected: Time::new::<second>(connected_s),
            closed: Time::new::<second>(closed_s),
            net: Mass::new::<kilogram>(net_kg),
            highest_pressure: Pressure::new::<pascal>(self.highest_pa),
        });
        self.highest_pa = 0.0;
    }
}

/// Refrigerant in the system, the oil's share included.
pub(super) fn remaining_kg(state: &JobState) -> f64 {
    state[0] + state[2] + state[4]
}
