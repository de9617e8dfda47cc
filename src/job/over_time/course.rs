//! A job from its first minute to its end: stages of the method, and what interrupts them.

use uom::si::f64::Time;
use uom::si::heat_capacity::joule_per_kelvin;
use uom::si::mass::kilogram;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermal_conductance::watt_per_kelvin;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::time::second;
use uom::si::volume::cubic_meter;

use super::answer::{EndsBecause, JobAnswer, JobNote, PhaseKind, PushPullLimits};
use super::check::check;
use super::delivery::{CondensedDelivery, Delivery};
use super::draw::Drawer;
use super::event::Event;
use super::moment::{JobState, Mode, Moment, Oil, Vessels};
use super::push_pull::GasLoop;
use super::record::{Record, remaining_kg};
use super::setup::{Connection, Contents, Finish, JobSetup, Ports, PushPull, Recovery};
use super::stretch::{Ended, Stretch};
use super::system::SystemModel;
use super::vessel::Vessel;
use crate::job::{JobError, Port};

/// Follows a job to its end.
///
/// What cannot go on is an answer too: it stands in [`JobAnswer::ends_because`].
///
/// # Errors
/// - [`JobError::OutOfRange`] for a figure that makes no sense;
/// - [`JobError::DoesNotFit`] for a charge (or a cylinder's contents) larger than its vessel;
/// - [`JobError::Fluid`] for a start outside the refrigerant's table.
pub fn follow(job: &JobSetup) -> Result<JobAnswer, JobError> {
    check(job)?;
    Course::new(job)?.run()
}

/// The limits of a push-pull line-up with the system's liquid at its starting temperature.
///
/// # Errors
/// There is no such steady point.
pub fn push_pull_limits(job: &JobSetup, lines: &PushPull) -> Result<PushPullLimits, JobError> {
    let liquid_k = job.kit.source.temperature.get::<kelvin>();
    GasLoop::new(&job.kit, lines, job.machines.count)?.limits(liquid_k)
}

/// A stage of the method.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Stage {
    PushPull,
    HoseChange,
    Liquid { change_over_ratio: f64 },
    Vapor,
}

/// What comes after a stage.
enum After {
    Next,
    End(EndsBecause),
}

pub(super) struct Course<'a> {
    pub(super) job: &'a JobSetup,
    pub(super) vessels: Vessels<'a>,
    pub(super) record: Record,
    pub(super) state: JobState,
    pub(super) time_s: f64,
    pub(super) cylinder: usize,
    pub(super) connected_s: f64,
    pub(super) charge_kg: f64,
    pub(super) is_dry: bool,
    pub(super) trips: u32,
    pub(super) checks: u32,
    pub(super) drawers: Vec<((Ports, u32), Drawer<'a>)>,
    pub(super) gas_loop: Option<GasLoop<'a>>,
    pub(super) limits: Option<PushPullLimits>,
    pub(super) notes: Vec<JobNote>,
}

/// Less liquid than this share of the charge is none.
const DRY_RATIO: f64 = 1e-6;
/// Two zones need some liquid to have a temperature.
const ZONE_RATIO: f64 = 1e-3;

impl<'a> Course<'a> {
    fn new(job: &'a JobSetup) -> Result<Self, JobError> {
        let refrigerant = &*job.kit.refrigerant;
        let charge_kg = job.system.charge.get::<kilogram>();
        let start_k = job.kit.source.temperature.get::<kelvin>();
        let mut vessel = Vessel::new(refrigerant, job.system.volume.get::<cubic_meter>(), start_k);
        vessel.metal_j_k = job.system.metal_heat_capacity.get::<joule_per_kelvin>();
        vessel.is_held = job.system.contents == Contents::Isothermal;
        let is_held = vessel.is_held;
        let held_kg = charge_kg * job.system.dissolved.share_ratio.get::<ratio>();
        let free_kg = charge_kg - held_kg;
        let system = SystemModel::new(vessel);
        let mut state = [0.0; 7];
        let mut start_pa = refrigerant.lowest_pressure_pa();
        if free_kg > 0.0 {
            let filling = system.vessel.start(free_kg)?;
            start_pa = filling.pressure_pa;
            state[..4].copy_from_slice(&system.state_of(free_kg, &filling));
        }
        state[4] = held_kg;
        let vessels = Vessels {
            system,
            cylinder: None,
            ambient_k: job.kit.ambient.temperature.get::<kelvin>(),
            heat_gain_w_k: if is_held { 0.0 } else { job.system.heat_gain.get::<watt_per_kelvin>() },
            oil: Oil {
                start_kg: held_kg,
                start_pa,
                release_s: job.system.dissolved.release_time.get::<second>(),
            },
        };
        Ok(Self {
            job,
            vessels,
            record: Record::new(charge_kg),
            state,
            time_s: 0.0,
            cylinder: 0,
            connected_s: 0.0,
            charge_kg,
            is_dry: false,
            trips: 0,
            checks: 0,
            drawers: Vec::new(),
            gas_loop: None,
            limits: None,
            notes: Vec::new(),
        })
    }

    fn run(mut self) -> Result<JobAnswer, JobError> {
        self.note_refrigerant();
        let ends_because = self.begin()?;
        let ends_because = match ends_because {
            Some(reason) => reason,
            None => self.stages(),
        };
        self.answer(ends_because)
    }

    /// What ends a job before it begins.
    fn begin(&mut self) -> Result<Option<EndsBecause>, JobError> {
        if !(self.state[0] > 0.0) {
            return Ok(Some(EndsBecause::NothingToRecover));
        }
        let system = self.vessels.system.view(&self.system_state())?;
        if system.pressure_pa <= self.level_pa() {
            return Ok(Some(EndsBecause::AlreadyAtLevel));
        }
        self.connect()
    }

    fn stages(&mut self) -> EndsBecause {
        for stage in self.plan() {
            let after = match stage {
                Stage::HoseChange => {
                    self.pause(PhaseKind::HoseChange, self.job.pauses.hose_change);
                    After::Next
                }
                stage => self.play(stage),
            };
            if let After::End(reason) = after {
                return reason;
            }
        }
        // The last stage does not run out of itself: it ends for a reason.
        EndsBecause::Stalled { rate_kg_s: 0.0 }
    }

    fn plan(&self) -> Vec<Stage> {
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
    fn play(&mut self, stage: Stage) -> After {
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

    pub(super) fn system_state(&self) -> [f64; 4] {
        [self.state[0], self.state[1], self.state[2], self.state[3]]
    }

    pub(super) fn level_pa(&self) -> f64 {
        self.job.target.level.get::<pascal>()
    }

    pub(super) fn limit_s(&self) -> f64 {
        self.job.limits.time.get::<second>()
    }

    pub(super) fn note_once(&mut self, note: JobNote) {
        if !self.notes.contains(&note) {
            self.notes.push(note);
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
