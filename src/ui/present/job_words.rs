//! Phases, ends and notes of a job in words.

use narrows::job::{EndsBecause, JobAnswer, JobNote, PhaseKind, PushPullLimit};
use narrows::report::job_error_text;
use narrows::units::{Measure, UnitSet};
use uom::si::f64::{MassRate, Mass, Pressure, ThermodynamicTemperature};

/// What a phase is called.
pub fn phase(kind: PhaseKind) -> &'static str {
    match kind {
        PhaseKind::PushPull => "push-pull",
        PhaseKind::HoseChange => "hose change",
        PhaseKind::Liquid => "liquid",
        PhaseKind::Vapor => "vapour",
        PhaseKind::Tail => "last vapour",
        PhaseKind::Swap => "swap",
        PhaseKind::Wait => "wait and re-check",
        PhaseKind::CutOut => "cut-out",
    }
}

/// Whether the job is done as it should be.
pub fn is_done(ends: &EndsBecause) -> bool {
    matches!(ends, EndsBecause::LevelReached | EndsBecause::AlreadyAtLevel | EndsBecause::NothingToRecover)
}

/// Why a job ends.
pub fn ends(ends: &EndsBecause, units: UnitSet, ambient: Pressure) -> String {
    let pressure = |pa: f64| units.pressure(Pressure::from_si(pa), ambient);
    match ends {
        EndsBecause::LevelReached => "the level is reached and holds".to_owned(),
        EndsBecause::AlreadyAtLevel => "the system is at the level from the start".to_owned(),
        EndsBecause::NothingToRecover => "there is nothing in the system".to_owned(),
        EndsBecause::LevelDoesNotHold { rebound_pa } => {
            format!("the level does not hold: after the last wait the gauge is back at {}", pressure(*rebound_pa))
        }
        EndsBecause::BeyondMachine { ultimate_pa, discharge_pa } => format!(
            "the level is deeper than this machine reaches: {} at best against {}",
            pressure(*ultimate_pa),
            pressure(*discharge_pa)
        ),
        EndsBecause::CylindersFull { count: 1 } => {
            "the cylinder is at its stop weight, and refrigerant is left: have another one ready".to_owned()
        }
        EndsBecause::CylindersFull { count } => {
            format!("all {count} cylinders are at their stop weight, and refrigerant is left")
        }
        EndsBecause::CylinderLiquidFull { index, net_kg } => format!(
            "cylinder {} is full of liquid at {}, before its stop weight",
            index + 1,
            units.mass(Mass::from_si(*net_kg))
        ),
        EndsBecause::CutOutLoop { trips, discharge_pa, cut_out_pa } => format!(
            "the cut-out tripped {trips} times: the discharge wants {}, the cut-out is set to {}",
            pressure(*discharge_pa),
            pressure(*cut_out_pa)
        ),
        EndsBecause::Stalled { rate_kg_s } => {
            format!("hardly anything flows any more ({})", units.rate(MassRate::from_si(*rate_kg_s)))
        }
        EndsBecause::TimeLimit => "it takes longer than is worth following".to_owned(),
        EndsBecause::NoPoint(error) => job_error_text(error, units, ambient),
        _ => "the job ends early".to_owned(),
    }
}

/// What a person should know beside the minutes.
pub fn notes(answer: &JobAnswer, units: UnitSet, ambient: Pressure) -> Vec<String> {
    answer.notes.iter().map(|n| note(n, units, ambient)).filter(|n| !n.is_empty()).collect()
}

fn note(note: &JobNote, units: UnitSet, ambient: Pressure) -> String {
    let pressure = |pa: f64| units.pressure(Pressure::from_si(pa), ambient);
    match note {
        JobNote::FractionationNotFollowed { .. } => {
            "The blend is taken to stay as charged: that its parts leave at different speeds is not followed.".to_owned()
        }
        JobNote::EstimatedProperties => "Properties of this blend are estimated.".to_owned(),
        JobNote::NoLiquidInReach => "There was no liquid in reach when liquid should be drawn.".to_owned(),
        JobNote::HeldTemperature => {
            "The system is held at its temperature: real vapour recovery chills it and takes longer.".to_owned()
        }
        JobNote::CylinderFullAtStart { index } => {
            format!("Cylinder {} was at its stop weight before it was used.", index + 1)
        }
        JobNote::FlowsByItself => "At the start refrigerant flows by itself.".to_owned(),
        JobNote::LevelBelowUltimate { ultimate_pa } => format!(
            "The level lies below what the machine reaches against the discharge at the start, {}.",
            pressure(*ultimate_pa)
        ),
        JobNote::WetSuction => "The compressor draws liquid with the vapour; its capacity is taken by volume.".to_owned(),
        JobNote::CutOutTripped { trips } => format!("The cut-out stopped the machine {trips} times."),
        JobNote::ColdSystem { lowest_k } => format!(
            "The system falls to {}: frost, and water in it freezes.",
            units.temperature(ThermodynamicTemperature::from_si(*lowest_k))
        ),
        _ => String::new(),
    }
}

/// What holds push-pull back.
pub fn push_pull_limit(limit: PushPullLimit) -> &'static str {
    match limit {
        PushPullLimit::LiquidLine => "the liquid line",
        PushPullLimit::Displacement => "the machine's displacement",
        PushPullLimit::Condensing => "gas condensing on the system's liquid",
    }
}
