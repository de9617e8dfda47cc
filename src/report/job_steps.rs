//! The steps of a job from arrival to departure, in words.

use uom::si::f64::{Mass, Time};

use super::job_words::phase_name;
use crate::job::over_time::{JobAnswer, PhaseKind};
use crate::scenario::JobPlanned;

/// One step.
#[derive(Debug, Clone, PartialEq)]
pub struct JobStep {
    /// From arrival.
    pub from: Time,
    /// From arrival.
    pub to: Time,
    /// What it is called in a table.
    pub name: &'static str,
    /// What is done.
    pub what: String,
    /// What is recovered in it, where refrigerant flows.
    pub recovered: Option<Mass>,
}

/// Every step of the plan, in order.
pub fn job_steps(planned: &JobPlanned, answer: &JobAnswer) -> Vec<JobStep> {
    let begin = planned.set_up;
    let mut steps = Vec::new();
    if begin.value > 0.0 {
        steps.push(JobStep {
            from: Time::default(),
            to: begin,
            name: "set up",
            what: "Set up: hoses, scale, cord; weigh the empty cylinders".to_owned(),
            recovered: None,
        });
    }
    let mut swaps = 0;
    for phase in &answer.phases {
        swaps += usize::from(phase.kind == PhaseKind::Swap);
        steps.push(JobStep {
            from: begin + phase.start,
            to: begin + phase.end,
            name: phase_name(phase.kind),
            what: phase_words(phase.kind, swaps),
            recovered: phase.kind.flows().then_some(phase.recovered),
        });
    }
    if planned.pack_up.value > 0.0 {
        let end = begin + answer.total;
        steps.push(JobStep {
            from: end,
            to: end + planned.pack_up,
            name: "pack up",
            what: "Close the cylinder, purge the machine, weigh, label, pack up".to_owned(),
            recovered: None,
        });
    }
    steps
}

fn phase_words(kind: PhaseKind, swaps: usize) -> String {
    match kind {
        PhaseKind::Swap => format!("Change to cylinder {}", swaps + 1),
        PhaseKind::HoseChange => "Close valves, change hoses for the finish".to_owned(),
        PhaseKind::Wait => "Machine off, valves shut; read the gauge again".to_owned(),
        PhaseKind::CutOut => "The cut-out has tripped: let it cool, find the reason".to_owned(),
        PhaseKind::PushPull | PhaseKind::Liquid | PhaseKind::Vapor | PhaseKind::Tail => {
            format!("Recover, {}", phase_name(kind))
        }
    }
}

/// From arrival to departure.
pub fn whole_time(planned: &JobPlanned, job: Time) -> Time {
    planned.set_up + job + planned.pack_up
}
