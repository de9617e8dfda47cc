//! The job sheet: each kit's time line from arrival to departure, its steps, what the crew needs.
//!
//! Times come from the job over time; set-up, pack-up and deadline from the plan.

use narrows::advice::Place;
use narrows::job::over_time::{JobAnswer, PhaseKind};
use narrows::kit::RecoveryMethod;
use narrows::power::Grade;
use narrows::report::{JobStep, job_steps, phase_name};
use narrows::scenario::JobPlanned;
use narrows::units::Measure;
use uom::si::f64::Mass;

use super::clock::minutes;
use super::scale::sentence;
use super::{Scene, clock, cylinders, job_words, quantity};
use crate::ui::diagram::timeline::{Kind, Line, Stretch, Timeline};
use crate::ui::symbols::Mark;

/// The methods there are: words, and the document's own word.
pub const METHODS: [(RecoveryMethod, &str, &str); 3] = [
    (RecoveryMethod::Vapour, "vapour only", "vapour"),
    (RecoveryMethod::LiquidThenVapour, "liquid, then vapour", "liquid_then_vapour"),
    (RecoveryMethod::PushPull, "push-pull", "push_pull"),
];

/// A step of the plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// From arrival, in words.
    pub at: String,
    /// How long, in words.
    pub takes: String,
    /// What is done.
    pub what: String,
    /// What has been recovered in it.
    pub mass: String,
}

/// Every kit's time line.
pub fn timeline(scene: &Scene) -> Timeline {
    let planned = clock::jobs(scene).map(|jobs| &jobs.planned);
    let lines = scene.document().kits.iter().enumerate().map(|(i, kit)| {
        let (stretches, band, text) = match (planned.as_ref(), clock::job_of(scene, i)) {
            (Ok(planned), Ok(job)) => {
                let more = minutes(planned.set_up) + minutes(planned.pack_up);
                let band = clock::band(scene, i).map(|(low, high)| (low + more, high + more));
                (stretches(planned, job), band, whole_text(scene, planned, job))
            }
            (_, Err(why)) => (Vec::new(), None, why),
            (Err(why), _) => (Vec::new(), None, why.clone()),
        };
        Line { kit: (i, kit.name.clone()), stretches, band, text, selected: i == scene.hand() }
    });
    let lines = lines.collect();
    let deadline = planned.ok().and_then(|p| p.deadline).map(minutes);
    let deadline = deadline.map(|d| (d, format!("deadline {}", scene.time_text(d))));
    Timeline { lines, deadline, stale: scene.session.is_study_stale() }
}

/// From arrival to departure.
fn whole(planned: &JobPlanned, job: &JobAnswer) -> f64 {
    minutes(planned.set_up) + minutes(job.total) + minutes(planned.pack_up)
}

fn whole_text(scene: &Scene, planned: &JobPlanned, job: &JobAnswer) -> String {
    let whole_min = whole(planned, job);
    let text = scene.time_text(whole_min);
    if !job_words::is_done(&job.ends_because) {
        return format!("{text}, not done");
    }
    match planned.deadline.map(minutes) {
        Some(deadline) if whole_min > deadline => {
            format!("{text}, {} too late", scene.time_text(whole_min - deadline))
        }
        Some(deadline) => format!("{text}, {} to spare", scene.time_text(deadline - whole_min)),
        None => text,
    }
}

fn stretches(planned: &JobPlanned, job: &JobAnswer) -> Vec<Stretch> {
    let set_up = minutes(planned.set_up);
    let mut all = Vec::new();
    if set_up > 0.0 {
        all.push(Stretch { from: 0.0, to: set_up, name: "set-up".to_owned(), kind: Kind::Hands });
    }
    for phase in &job.phases {
        let kind = match phase.kind {
            kind if kind.flows() => Kind::Flow,
            PhaseKind::HoseChange | PhaseKind::Swap => Kind::Hands,
            _ => Kind::Wait,
        };
        all.push(Stretch {
            from: set_up + minutes(phase.start),
            to: set_up + minutes(phase.end),
            name: phase_name(phase.kind).to_owned(),
            kind,
        });
    }
    let pack_up = minutes(planned.pack_up);
    if pack_up > 0.0 {
        let from = set_up + minutes(job.total);
        all.push(Stretch { from, to: from + pack_up, name: "pack-up".to_owned(), kind: Kind::Hands });
    }
    all
}

/// The steps of the kit in hand.
pub fn steps(scene: &Scene, job: &JobAnswer) -> Vec<Step> {
    let Ok(planned) = clock::jobs(scene).map(|jobs| &jobs.planned) else { return Vec::new() };
    let step = |step: JobStep| {
        let from = minutes(step.from);
        Step {
            at: scene.time_text(from),
            takes: scene.time_text(minutes(step.to) - from),
            what: step.what,
            mass: step.recovered.map(|mass| scene.units().mass(mass)).unwrap_or_default(),
        }
    };
    job_steps(planned, job).into_iter().map(step).collect()
}

/// What the crew has to have and know, in the order in which it is needed.
pub fn crew_list(scene: &Scene) -> Vec<(Mark, String)> {
    let (document, units) = (scene.document(), scene.units());
    let mut list = Vec::new();
    let mut say = |text: String| list.push((Mark::Note, text));
    say(format!("{} in {}.", document.refrigerant, document.place.as_deref().unwrap_or("the system")));
    if let Some(kit) = scene.kit() {
        let parts: Vec<String> = kit
            .parts
            .iter()
            .map(|p| format!("{} ({})", super::parts::name(p).to_lowercase(), super::parts::detail(p)))
            .collect();
        say(format!("Kit {}: {}.", kit.name, parts.join(", ")));
    }
    let planned = document.job.as_ref().and_then(|j| j.machines);
    let machines = scene.kit().and_then(|kit| kit.machines).or(planned).unwrap_or(1);
    if machines > 1 {
        say(format!("{machines} machines, each on a circuit of its own."));
    }
    for cord in super::volts::cords(scene) {
        say(format!("Cord: {}, {}.", cord.gauge, cord.length));
    }
    if let Ok(limits) = cylinders::limits(scene) {
        crew_cylinders(scene, limits, &mut list);
        match &limits.answer.level {
            Ok(level) => {
                let text = format!("Level: {} ({}).", level.stated, level.origin());
                list.push((Mark::Note, text));
            }
            Err(why) => list.push((Mark::Warning, format!("{}.", sentence(&why.to_string())))),
        }
        let heeded = limits.cautions.iter().filter(|c| c.place != Place::Cylinder || c.grade != Grade::Note);
        list.extend(heeded.map(|c| (super::volts::graded(c.grade).0, c.text.clone())));
    }
    if let Ok(job) = super::clock::job(scene) {
        let left = units.mass(Mass::from_si(job.remaining.si().max(0.0)));
        list.push((Mark::Note, format!("At the end {left} stay in the system.")));
    }
    list
}

fn crew_cylinders(scene: &Scene, limits: &crate::ui::study::Limits, list: &mut Vec<(Mark, String)>) {
    let Some(schedule) = &limits.answer.schedule else { return };
    for (i, fill) in schedule.fills.iter().enumerate() {
        let stop = match fill.stop_gross {
            Some(stop) => format!("stop at {} on the scale", quantity::scale_text(scene.units(), stop)),
            None => "tare not known: read the stamp TW".to_owned(),
        };
        list.push((Mark::Note, format!("Cylinder {}, {}: {stop}.", i + 1, fill.name)));
    }
}
