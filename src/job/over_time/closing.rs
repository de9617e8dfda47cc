//! The answer of a job that has come to its end, and what a person should know beside it.

use uom::si::f64::{Mass, Pressure, Time};
use uom::si::mass::kilogram;
use uom::si::mass_rate::kilogram_per_second;
use uom::si::pressure::pascal;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::time::second;

use super::answer::{EndsBecause, JobAnswer, JobNote, PhaseKind, PushPullLimit, PushPullLimits};
use super::course::Course;
use super::push_pull::NEAR_RATIO;
use super::record::remaining_kg;
use super::setup::Contents;
use super::system::SystemView;
use crate::job::JobError;

const FREEZING_K: f64 = 273.15;
/// A system that is no colder than this below its start has not chilled.
const CHILLED_K: f64 = 0.5;

/// Less liquid than this share of the charge is a film, not a charge left behind.
const LIQUID_LEFT_RATIO: f64 = 0.01;

impl Course<'_> {
    pub(super) fn note_refrigerant(&mut self) {
        let refrigerant = &self.job.kit.refrigerant;
        if refrigerant.is_zeotrope() {
            self.notes.push(JobNote::FractionationNotFollowed { glide_k: refrigerant.glide_k() });
        }
        if refrigerant.is_estimated() {
            self.notes.push(JobNote::EstimatedProperties);
        }
        if self.job.system.contents == Contents::Isothermal {
            self.notes.push(JobNote::HeldTemperature);
        }
    }

    /// The limits, with the one that held this very job back: gas that condensed, where the flow
    /// never came near the bound without condensation.
    pub(super) fn push_pull(&self) -> Option<PushPullLimits> {
        let mut limits = self.limits?;
        let trace = &self.record.trace;
        let pushed = trace.phase.iter().zip(&trace.rate_kg_s).filter(|(phase, _)| {
            self.record.phases.get(**phase).is_some_and(|phase| phase.kind == PhaseKind::PushPull)
        });
        let fastest_kg_s = pushed.map(|(_, rate)| *rate).fold(0.0, f64::max);
        if fastest_kg_s < NEAR_RATIO * limits.no_condensation.get::<kilogram_per_second>() {
            limits.limit = PushPullLimit::Condensing;
        }
        Some(limits)
    }

    pub(super) fn answer(mut self, ends_because: EndsBecause) -> Result<JobAnswer, JobError> {
        self.disconnect();
        let push_pull = self.push_pull();
        let trace = &self.record.trace;
        if let (Some(system), Some(discharge)) = (trace.system_pa.first(), trace.discharge_pa.first())
            && system > discharge
        {
            self.notes.push(JobNote::FlowsByItself);
        }
        if self.record.drew_wet {
            self.notes.push(JobNote::WetSuction);
            if self.job.kit.machine.inlet_throttle.is_none() {
                self.notes.push(JobNote::OpenInlet);
            }
        }
        if self.trips > 0 {
            self.notes.push(JobNote::CutOutTripped { trips: self.trips });
        }
        if let Some(below_k) = self.job.kit.refrigerant.extrapolated_below_k()
            && self.record.lowest_k < below_k
        {
            self.notes.push(JobNote::ExtrapolatedProperties { below_k });
        }
        let start_k = self.job.kit.source.temperature.get::<kelvin>();
        if self.record.lowest_k < FREEZING_K.min(start_k - CHILLED_K) {
            self.notes.push(JobNote::ColdSystem { lowest_k: self.record.lowest_k });
        }
        let level_pa = match self.end_view() {
            None => 0.0,
            Some(Err(_)) => trace.system_pa.last().copied().unwrap_or(f64::NAN),
            Some(Ok(view)) => {
                if ends_because == EndsBecause::LevelReached
                    && view.liquid_kg > LIQUID_LEFT_RATIO * self.charge_kg
                {
                    let (liquid_kg, temperature_k) = (view.liquid_kg, view.temperature_k);
                    self.notes.push(JobNote::LiquidLeft { liquid_kg, temperature_k });
                }
                view.pressure_pa
            }
        };
        let remaining = Mass::new::<kilogram>(remaining_kg(&self.state));
        Ok(JobAnswer {
            total: Time::new::<second>(self.time_s),
            recovered: Mass::new::<kilogram>(self.charge_kg) - remaining,
            remaining,
            level: Pressure::new::<pascal>(level_pa),
            phases: self.record.phases,
            cylinders: self.record.cylinders,
            push_pull,
            ends_because,
            notes: self.notes,
            trace: self.record.trace,
        })
    }

    /// The system as it is at the end; none where nothing is left in it.
    fn end_view(&self) -> Option<Result<SystemView, JobError>> {
        (self.state[0] > 0.0).then(|| self.vessels.system.view(&self.system_state()))
    }
}
