//! One stage of a course: what it draws with, what is looked for, and one stretch after another until it
//! ends.

use uom::si::f64::Time;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermal_conductance::watt_per_kelvin;
use uom::si::time::second;

use super::answer::{EndsBecause, JobNote, PhaseKind};
use super::course::Course;
use super::delivery::{CondensedDelivery, Delivery};
use super::draw::Drawer;
use super::event::Event;
use super::moment::{Mode, Moment};
use super::push_pull::GasLoop;
use super::record::{Record, remaining_kg};
use super::setup::{Contents, Finish, Ports, PushPull, Recovery};
use super::stretch::{Ended, Stretch};
use crate::job::{Connection, JobError, Port};

/// A stage of the method.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Stage {
    PushPull,
    HoseChange,
    Liquid { change_over_ratio: f64 },
    Vapor,
}

/// What comes after a stage.
pub(super) enum After {
    Next,
    End(EndsBecause),
}

/// Less liquid than this share of the charge is none.
const DRY_RATIO: f64 = 1e-6;
/// Two zones need some liquid to have a temperature.
const ZONE_RATIO: f64 = 1e-3;

impl<'a> Course<'a> {
    /// The stages of the job's method, in order.
    pub(super) fn plan(&self) -> Vec<Stage> {
        match &self.job.method {
            Recovery::VaporOnly => vec![Stage::Vapor],
            Recovery::LiquidThenVapor { change_over_ratio } => {
                vec![Stage::Liquid { change_over_ratio: change_over_ratio.get::<ratio>() }, Stage::Vapor]
            }
            Recovery::PushPull(PushPull { finish, .. }) => {
                let mut plan = vec![Stage::PushPull, Stage::HoseChange];
                if let Finish::LiquidThenVapor { change_over_ratio } = finish {
                    plan.push(Stage::Liquid { change_over_ratio: change_over_ratio.get::<ratio>() });
                }
                plan.push(Stage::Vapor);
                plan
            }
        }
    }

    /// Plays one stage with all its interruptions.
    pub(super) fn play(&mut self, stage: Stage) -> After {
        let floor_kg = match self.liquid_floor_kg(stage) {
            Ok(Some(floor_kg)) => floor_kg,
            Ok(None) => {
                self.note_once(JobNote::NoLiquidInReach);
                return After::Next;
            }
            Err(error) => return After::End(EndsBecause::NoPoint(error)),
        };
        if let Err(error) = self.prepare(stage) {
            return After::End(EndsBecause::NoPoint(error));
        }
        let after = loop {
            let ended = match self.stretch(stage, floor_kg) {
                Ok(ended) => ended,
                Err(error) => break After::End(EndsBecause::NoPoint(error)),
            };
            let after = match ended {
                Ended::Time => Some(After::End(EndsBecause::TimeLimit)),
                Ended::Failed(error) => Some(After::End(self.failed(error))),
                Ended::Event(event) => self.happened(stage, event),
            };
            if let Some(after) = after {
                break after;
            }
        };
        if stage == Stage::PushPull
            && let Ok(state) = self.vessels.system.merge(&self.system_state())
        {
            self.state[..4].copy_from_slice(&state);
        }
        after
    }

    /// The liquid that stays when this stage ends; none if there is nothing above it.
    fn liquid_floor_kg(&self, stage: Stage) -> Result<Option<f64>, JobError> {
        let unreachable_kg = self.job.system.unreachable_ratio.get::<ratio>() * self.charge_kg;
        let liquid_kg = self.vessels.system.view(&self.system_state())?.liquid_kg;
        let reachable_kg = liquid_kg - unreachable_kg;
        let (floor_kg, least_kg) = match stage {
            Stage::Vapor | Stage::HoseChange => return Ok(Some(0.0)),
            Stage::Liquid { change_over_ratio } => {
                (unreachable_kg + change_over_ratio * reachable_kg, DRY_RATIO * self.charge_kg)
            }
            Stage::PushPull => (unreachable_kg.max(ZONE_RATIO * self.charge_kg), ZONE_RATIO * self.charge_kg),
        };
        Ok((liquid_kg - floor_kg > least_kg).then_some(floor_kg.max(DRY_RATIO * self.charge_kg)))
    }

    /// Drawers, the gas loop and the zones that a stage needs.
    fn prepare(&mut self, stage: Stage) -> Result<(), JobError> {
        let job = self.job;
        let Stage::PushPull = stage else { return Ok(()) };
        let Recovery::PushPull(lines) = &job.method else { return Ok(()) };
        let gas_loop = GasLoop::new(&job.kit, lines, job.machines.count)?;
        let view = self.vessels.system.view(&self.system_state())?;
        // A bound that does not exist is no reason to stop the job itself.
        self.limits = gas_loop.limits(view.temperature_k).ok();
        self.gas_loop = Some(gas_loop);
        if let Contents::TwoZone { interphase } = job.system.contents {
            let conductance = interphase.get::<watt_per_kelvin>();
            let state = self.vessels.system.split(&self.system_state(), conductance)?;
            self.state[..4].copy_from_slice(&state);
        }
        Ok(())
    }

    /// Runs until something happens.
    fn stretch(&mut self, stage: Stage, floor_kg: f64) -> Result<Ended, JobError> {
        let liquid_kg = self.vessels.system.view(&self.system_state())?.liquid_kg;
        self.is_dry |= liquid_kg <= 1.01 * DRY_RATIO * self.charge_kg;
        let kind = match stage {
            Stage::PushPull => PhaseKind::PushPull,
            Stage::Liquid { .. } => PhaseKind::Liquid,
            Stage::Vapor | Stage::HoseChange if self.is_dry => PhaseKind::Tail,
            Stage::Vapor | Stage::HoseChange => PhaseKind::Vapor,
        };
        let mut events = vec![Event::Stalled];
        if let Some(receiving) = &self.vessels.cylinder {
            events.push(Event::Full { stop_kg: receiving.stop_kg });
        }
        events.push(Event::LiquidFull);
        if let Some(cut_out) = self.job.kit.machine.cut_out {
            events.push(Event::CutOut { pa: cut_out.get::<pascal>() });
        }
        if stage != Stage::PushPull {
            events.push(Event::Level { pa: self.level_pa() });
            events.push(Event::Ultimate);
        }
        match kind {
            PhaseKind::PushPull | PhaseKind::Liquid => events.push(Event::LiquidDown { to_kg: floor_kg }),
            PhaseKind::Vapor => events.push(Event::LiquidDown { to_kg: DRY_RATIO * self.charge_kg }),
            _ => {}
        }
        if kind == PhaseKind::PushPull {
            let Some(gas_loop) = self.gas_loop.take() else { return Ok(Ended::Time) };
            let ended = self.integrate(kind, Mode::Loop(&gas_loop), events, self.limit_s());
            self.gas_loop = Some(gas_loop);
            return Ok(ended);
        }
        let (ports, count) = (self.ports(stage), self.job.machines.in_phase(kind));
        let index = self.drawer(ports, count)?;
        let drawers = std::mem::take(&mut self.drawers);
        let copies = match self.job.machines.connection {
            Connection::SamePort => 1.0,
            Connection::SeparatePorts => f64::from(count),
        };
        let ended = match drawers.get(index) {
            Some((_, drawer)) => {
                self.integrate(kind, Mode::Draw { drawer, ports, copies }, events, self.limit_s())
            }
            None => Ended::Time,
        };
        self.drawers = drawers;
        Ok(ended)
    }

    /// Integrates one stretch and keeps what it shows.
    fn integrate(&mut self, kind: PhaseKind, mode: Mode<'_, 'a>, events: Vec<Event>, until_s: f64) -> Ended {
        let (start_s, before_kg) = (self.time_s, remaining_kg(&self.state));
        let charge = self.charge_kg;
        let heat = 2e5 * charge;
        let (record, cylinder) = (&mut self.record, self.cylinder);
        let stretch = Stretch {
            vessels: &self.vessels,
            mode,
            events,
            until_s,
            tolerance: self.job.limits.tolerance,
            scale: [
                1e-3 * charge,
                1e-3 * heat,
                1e-3 * charge,
                1e-3 * heat,
                0.01 * charge,
                0.01 * charge,
                0.01 * heat,
            ],
        };
        let (time_s, state, ended) = stretch.run(self.time_s, self.state, |time_s, state, moment| {
            note_wet(record, kind, moment);
            record.sample(time_s, cylinder, state, moment);
        });
        self.record.close_phase(kind, start_s, time_s, before_kg - remaining_kg(&state));
        (self.time_s, self.state) = (time_s, state);
        ended
    }

    /// Nothing flows for a while.
    pub(super) fn pause(&mut self, kind: PhaseKind, length: Time) {
        let until_s = (self.time_s + length.get::<second>()).min(self.limit_s());
        self.integrate(kind, Mode::Rest, Vec::new(), until_s);
    }

    /// What follows an event; none if the stage goes on.
    fn happened(&mut self, stage: Stage, event: Event) -> Option<After> {
        match event {
            Event::Level { .. } => self.at_level().map(After::End),
            // Vapour is drawn on when the last liquid is gone: only the phase has another name.
            Event::LiquidDown { .. } if stage == Stage::Vapor => None,
            Event::LiquidDown { .. } => Some(After::Next),
            Event::Full { .. } => self.swap().map(After::End),
            Event::LiquidFull => Some(After::End(EndsBecause::CylinderLiquidFull {
                index: self.cylinder,
                net_kg: self.state[5],
            })),
            Event::CutOut { pa } => self.tripped(pa).map(After::End),
            Event::Ultimate | Event::Stalled => Some(After::End(self.out_of_reach(event))),
        }
    }

    fn drawer(&mut self, ports: Ports, count: u32) -> Result<usize, JobError> {
        let job = self.job;
        let wants_liquid = |port: Port| !matches!(port, Port::Vapor);
        let is_wet = wants_liquid(ports.0) || (job.kit.path.second.is_some() && wants_liquid(ports.1));
        if is_wet && !job.kit.machine.takes_liquid {
            return Err(JobError::LiquidRefused);
        }
        if let Some(index) = self.drawers.iter().position(|(key, _)| *key == (ports, count)) {
            return Ok(index);
        }
        let sharing = match job.machines.connection {
            Connection::SamePort => count,
            Connection::SeparatePorts => 1,
        };
        let delivery = Delivery::Condensed(CondensedDelivery::new(&job.kit));
        let drawer = Drawer::new(&job.kit, &job.kit.path, ports, sharing, delivery)?;
        self.drawers.push(((ports, count), drawer));
        Ok(self.drawers.len() - 1)
    }

    fn ports(&self, stage: Stage) -> Ports {
        let source = &self.job.kit.source;
        match stage {
            Stage::Liquid { .. } if source.first == Port::Vapor && source.second == Port::Vapor => {
                (Port::Liquid, Port::Liquid)
            }
            Stage::Liquid { .. } => (source.first, source.second),
            _ => (Port::Vapor, Port::Vapor),
        }
    }
}

/// A vapour with more liquid in it than this is a wet draw.
const DRY_ENOUGH: f64 = 0.98;

fn note_wet(record: &mut Record, kind: PhaseKind, moment: &Moment) {
    if matches!(kind, PhaseKind::Vapor | PhaseKind::Tail | PhaseKind::Liquid)
        && moment.vapor_ratio < DRY_ENOUGH
    {
        record.drew_wet = true;
    }
}
