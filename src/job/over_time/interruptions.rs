//! What interrupts a job: the level and its re-check, the cut-out, a full cylinder.

use uom::si::pressure::pascal;
use uom::si::time::second;

use super::answer::{EndsBecause, JobNote, PhaseKind};
use super::course::Course;
use super::event::Event;
use super::receiving::Receiving;
use crate::job::JobError;

/// A gauge shows a rise of this share of the pressure.
const SEEN_RISE: f64 = 1e-3;

impl Course<'_> {
    /// At the level: done, or wait and see.
    pub(super) fn at_level(&mut self) -> Option<EndsBecause> {
        let target = self.job.target;
        if target.rechecks == 0 || target.wait.get::<second>() <= 0.0 {
            return Some(EndsBecause::LevelReached);
        }
        self.pause(PhaseKind::Wait, target.wait);
        self.checks += 1;
        let system_pa = match self.vessels.system.view(&self.system_state()) {
            Ok(view) => view.pressure_pa,
            Err(error) => return Some(EndsBecause::NoPoint(error)),
        };
        let allowed_pa = target.allowed_rise.get::<pascal>();
        if system_pa <= self.level_pa() + allowed_pa {
            if system_pa > self.level_pa() * (1.0 + SEEN_RISE) {
                self.note_once(JobNote::RoseWithin { system_pa, allowed_pa });
            }
            return Some(EndsBecause::LevelReached);
        }
        if self.checks >= target.rechecks {
            return Some(EndsBecause::LevelDoesNotHold { rebound_pa: system_pa });
        }
        (self.time_s >= self.limit_s()).then_some(EndsBecause::TimeLimit)
    }

    /// The cut-out has tripped: wait and start again, or give up.
    pub(super) fn tripped(&mut self, cut_out_pa: f64) -> Option<EndsBecause> {
        self.trips += 1;
        if self.trips > self.job.limits.trips {
            let discharge_pa = self.record.trace.discharge_pa.last().copied().unwrap_or(cut_out_pa);
            return Some(EndsBecause::CutOutLoop {
                trips: self.trips,
                discharge_pa: discharge_pa.max(cut_out_pa),
                cut_out_pa,
            });
        }
        self.pause(PhaseKind::CutOut, self.job.pauses.restart);
        (self.time_s >= self.limit_s()).then_some(EndsBecause::TimeLimit)
    }

    /// The cylinder is full: the next one.
    pub(super) fn swap(&mut self) -> Option<EndsBecause> {
        self.disconnect();
        self.cylinder += 1;
        if self.cylinder >= self.job.cylinders.len() {
            return Some(EndsBecause::CylindersFull { count: self.job.cylinders.len() });
        }
        self.pause(PhaseKind::Swap, self.job.pauses.swap);
        match self.connect() {
            Ok(reason) => reason,
            Err(error) => Some(EndsBecause::NoPoint(error)),
        }
    }

    pub(super) fn disconnect(&mut self) {
        if self.vessels.cylinder.take().is_some() {
            self.record.close_cylinder(self.cylinder, self.connected_s, self.time_s, self.state[5]);
        }
    }

    /// Connects the next cylinder that has room.
    pub(super) fn connect(&mut self) -> Result<Option<EndsBecause>, JobError> {
        while let Some(cylinder) = self.job.cylinders.get(self.cylinder) {
            let receiving = Receiving::new(&self.job.kit.refrigerant, cylinder)?;
            if receiving.start_kg < receiving.stop_kg {
                (self.state[5], self.state[6]) = (receiving.start_kg, receiving.start_j);
                self.vessels.cylinder = Some(receiving);
                self.connected_s = self.time_s;
                return Ok(None);
            }
            self.note_once(JobNote::CylinderFullAtStart { index: self.cylinder });
            self.cylinder += 1;
        }
        Ok(Some(EndsBecause::CylindersFull { count: self.job.cylinders.len() }))
    }

    pub(super) fn out_of_reach(&self, event: Event) -> EndsBecause {
        let trace = &self.record.trace;
        let discharge_pa = trace.discharge_pa.last().copied().unwrap_or(f64::NAN);
        let system_pa = trace.system_pa.last().copied().unwrap_or(f64::NAN);
        match event {
            Event::Ultimate => EndsBecause::BeyondMachine { ultimate_pa: system_pa, discharge_pa },
            _ => EndsBecause::Stalled { rate_kg_s: trace.rate_kg_s.last().copied().unwrap_or(0.0) },
        }
    }

    pub(super) fn failed(&self, error: JobError) -> EndsBecause {
        match error {
            JobError::DrawsNothing { discharge_pa, ultimate_pa, .. } => {
                EndsBecause::BeyondMachine { ultimate_pa, discharge_pa }
            }
            other => EndsBecause::NoPoint(other),
        }
    }
}
