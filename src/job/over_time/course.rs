//! A job from its first minute to its end: the stages of its method, one after the other.

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
use super::draw::Drawer;
use super::moment::{JobState, Oil, Vessels};
use super::push_pull::GasLoop;
use super::record::Record;
use super::setup::{Contents, JobSetup, Ports, PushPull};
use super::stage::{After, Stage};
use super::system::SystemModel;
use super::vessel::Vessel;
use crate::job::JobError;

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
