//! The job sheet: each kit's time line from arrival to departure, its steps, what the crew needs.
//!
//! Times come from the job over time; set-up, pack-up and deadline from the plan. Nothing is
//! assumed here: what the plan does not say is left out and said.

use narrows::job::{JobAnswer, PhaseKind};
use narrows::kit::JobPlan;
use narrows::units::Measure;
use uom::si::f64::Mass;

use super::clock::minutes;
use super::scale::sentence;
use super::{Scene, cylinders, job_words, quantity};
use crate::ui::diagram::time;
use crate::ui::diagram::timeline::{Kind, Line, Stretch, Timeline};
use crate::ui::symbols::Mark;

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

fn plan(scene: &Scene) -> JobPlan {
    scene.document().job.clone().unwrap_or_default()
}

fn typed_minutes(time: &Option<narrows::units::Typed<uom::si::f64::Time>>) -> f64 {
    time.as_ref().map_or(0.0, |t| t.si() / 60.0)
}

/// Every kit's time line.
pub fn timeline(scene: &Scene) -> Timeline {
    let plan = plan(scene);
    let study = scene.session.study();
    let lines = scene.document().kits.iter().enumerate().map(|(i, kit)| {
        let job = study.and_then(|s| s.job(i));
        let (stretches, text) = match job {
            Some(Ok(job)) => (stretches(&plan, job), whole_text(&plan, job)),
            Some(Err(why)) => (Vec::new(), sentence(why)),
            None => (Vec::new(), "no time worked out".to_owned()),
        };
        Line { kit: (i, kit.name.clone()), stretches, band: None, text, selected: i == scene.hand() }
    });
    let deadline = plan.deadline.as_ref().map(|d| (d.si() / 60.0, format!("deadline {d}")));
    Timeline { lines: lines.collect(), deadline, stale: scene.session.is_studying() }
}

/// From arrival to departure.
fn whole(plan: &JobPlan, job: &JobAnswer) -> f64 {
    typed_minutes(&plan.set_up) + minutes(job.total) + typed_minutes(&plan.pack_up)
}

fn whole_text(plan: &JobPlan, job: &JobAnswer) -> String {
    let whole_min = whole(plan, job);
    let text = time::text(whole_min);
    if !job_words::is_done(&job.ends_because) {
        return format!("{text}, not done");
    }
    match &plan.deadline {
        Some(deadline) if whole_min > deadline.si() / 60.0 => {
            format!("{text}, {} too late", time::text(whole_min - deadline.si() / 60.0))
        }
        Some(deadline) => format!("{text}, {} to spare", time::text(deadline.si() / 60.0 - whole_min)),
        None => text,
    }
}

fn stretches(plan: &JobPlan, job: &JobAnswer) -> Vec<Stretch> {
    let set_up = typed_minutes(&plan.set_up);
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
            name: job_words::phase(phase.kind).to_owned(),
            kind,
        });
    }
    let pack_up = typed_minutes(&plan.pack_up);
    if pack_up > 0.0 {
        let from = set_up + minutes(job.total);
        all.push(Stretch { from, to: from + pack_up, name: "pack-up".to_owned(), kind: Kind::Hands });
    }
    all
}

/// The steps of the kit in hand.
pub fn steps(scene: &Scene, job: &JobAnswer) -> Vec<Step> {
    let (plan, units) = (plan(scene), scene.units());
    let mut swaps = 0;
    let set_up = typed_minutes(&plan.set_up);
    let recovered = |stretch: &Stretch| {
        let phase = job.phases.iter().find(|p| (set_up + minutes(p.start) - stretch.from).abs() < 1e-9 && p.kind.flows());
        phase.map(|p| units.mass(p.recovered)).filter(|_| stretch.kind == Kind::Flow).unwrap_or_default()
    };
    let mut steps = Vec::new();
    for stretch in stretches(&plan, job) {
        let what = match stretch.name.as_str() {
            "set-up" => "Set up: hoses, scale, cord; weigh the empty cylinders".to_owned(),
            "swap" => {
                swaps += 1;
                format!("Change to cylinder {}", swaps + 1)
            }
            "hose change" => "Close valves, change hoses for the finish".to_owned(),
            "wait and re-check" => "Machine off, valves shut; read the gauge again".to_owned(),
            "cut-out" => "The cut-out has tripped: let it cool, find the reason".to_owned(),
            "pack-up" => "Close the cylinder, purge the machine, weigh, label, pack up".to_owned(),
            name => format!("Recover, {name}"),
        };
        let at = if stretch.from < 1.0 / 120.0 { "0 min".to_owned() } else { time::text(stretch.from) };
        steps.push(Step { at, takes: time::text(stretch.to - stretch.from), what, mass: recovered(&stretch) });
    }
    steps
}

/// What the crew has to have and know, in the order in which it is needed.
pub fn crew_list(scene: &Scene) -> Vec<(Mark, String)> {
    let (document, units) = (scene.document(), scene.units());
    let mut list = Vec::new();
    let mut say = |text: String| list.push((Mark::Note, text));
    say(format!("{} in {}.", document.refrigerant, document.place.as_deref().unwrap_or("the system")));
    if let Some(kit) = scene.kit() {
        let parts: Vec<String> = kit.parts.iter().map(|p| {
            format!("{} ({})", super::parts::name(p).to_lowercase(), super::parts::detail(p))
        }).collect();
        say(format!("Kit {}: {}.", kit.name, parts.join(", ")));
    }
    let machines = plan(scene).machines.unwrap_or(1);
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
                let mut text = format!("Level: {} ({}, {}).", level.stated, level.source, level.edition);
                for other in &level.confirm {
                    text.push_str(&format!(" {} says {}: confirm with the current text.", other.source, other.stated));
                }
                let mark = if level.needs_confirmation() { Mark::Warning } else { Mark::Note };
                list.push((mark, text));
                list.extend(level.notes.iter().map(|n| (Mark::Note, format!("{}.", sentence(&n.to_string())))));
            }
            Err(why) => list.push((Mark::Warning, format!("{}.", sentence(&why.to_string())))),
        }
        list.extend(limits.answer.unsuited.iter().map(|u| (Mark::Warning, format!("{}.", sentence(&u.to_string())))));
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
    if let Some(more) = &schedule.more {
        let mark = if more.likely > 0 { Mark::Stop } else { Mark::Warning };
        list.push((mark, format!("{} cylinders more are needed, {} if the charge is high.", more.likely, more.high)));
    }
}
