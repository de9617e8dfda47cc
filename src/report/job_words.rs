//! A job's phases, notes and end in words.

use uom::si::f64::{Mass, Pressure, ThermodynamicTemperature};
use uom::si::mass::kilogram;
use uom::si::pressure::pascal;
use uom::si::thermodynamic_temperature::kelvin;

use super::error_words::job_error_text;
use super::note_words::{OPEN_INLET, extrapolated_text, glide_text};
use crate::job::over_time::{EndsBecause, JobNote, PhaseKind, PushPullLimit};
use crate::units::UnitSet;

/// What a phase is called.
pub fn phase_name(kind: PhaseKind) -> &'static str {
    match kind {
        PhaseKind::PushPull => "push-pull",
        PhaseKind::HoseChange => "hose change",
        PhaseKind::Liquid => "liquid",
        PhaseKind::Vapor => "vapour",
        PhaseKind::Tail => "tail",
        PhaseKind::Swap => "cylinder swap",
        PhaseKind::Wait => "wait and re-check",
        PhaseKind::CutOut => "cut-out, waiting",
    }
}

/// What limits push-pull, in words.
pub fn push_pull_limit_text(limit: PushPullLimit) -> &'static str {
    match limit {
        PushPullLimit::LiquidLine => "the liquid line",
        PushPullLimit::Displacement => "the machine's displacement",
        PushPullLimit::Condensing => "gas condensing in the system",
    }
}

/// Why a job ends, as a sentence.
pub fn ends_text(ends: &EndsBecause, units: UnitSet, ambient: Pressure) -> String {
    let pressure = |pa: f64| units.pressure(Pressure::new::<pascal>(pa), ambient);
    match ends {
        EndsBecause::LevelReached => "The level is reached.".to_owned(),
        EndsBecause::AlreadyAtLevel => "The system is at the level already.".to_owned(),
        EndsBecause::NothingToRecover => "There is nothing in the system.".to_owned(),
        EndsBecause::LevelDoesNotHold { rebound_pa } => format!(
            "The level does not hold: after the last wait the gauge is back at {}. Refrigerant is still coming \
             out of the oil.",
            pressure(*rebound_pa)
        ),
        EndsBecause::BeyondMachine { ultimate_pa, discharge_pa } => format!(
            "The level is deeper than the machine reaches: against {} it stops at {}.",
            pressure(*discharge_pa),
            pressure(*ultimate_pa)
        ),
        EndsBecause::CylindersFull { count } => format!(
            "Cylinders are full at their stop weight ({count} of them) and refrigerant is left in the system."
        ),
        EndsBecause::CylinderLiquidFull { index, .. } => {
            format!("Cylinder {} is full of liquid before its stop weight. Stop at once.", index + 1)
        }
        EndsBecause::CutOutLoop { trips, cut_out_pa, .. } => format!(
            "The high-pressure cut-out, set at {}, trips again and again ({trips} times). Cool the cylinder and \
             the condenser.",
            pressure(*cut_out_pa)
        ),
        EndsBecause::Stalled { .. } => {
            "Hardly anything flows any more before the level is reached.".to_owned()
        }
        EndsBecause::TimeLimit => "The job is not done within 30 days.".to_owned(),
        EndsBecause::NoPoint(error) => job_error_text(error, units, ambient),
    }
}

/// The word programs read.
pub fn ends_tag(ends: &EndsBecause) -> &'static str {
    match ends {
        EndsBecause::LevelReached => "level_reached",
        EndsBecause::AlreadyAtLevel => "already_at_level",
        EndsBecause::NothingToRecover => "nothing_to_recover",
        EndsBecause::LevelDoesNotHold { .. } => "level_does_not_hold",
        EndsBecause::BeyondMachine { .. } => "beyond_machine",
        EndsBecause::CylindersFull { .. } => "cylinders_full",
        EndsBecause::CylinderLiquidFull { .. } => "cylinder_liquid_full",
        EndsBecause::CutOutLoop { .. } => "cut_out_loop",
        EndsBecause::Stalled { .. } => "stalled",
        EndsBecause::TimeLimit => "time_limit",
        EndsBecause::NoPoint(_) => "no_point",
    }
}

/// Whether a note is to be heeded before the time is believed.
pub fn job_note_warns(note: &JobNote) -> bool {
    matches!(note, JobNote::LiquidLeft { .. })
}

/// One note as a sentence.
pub fn job_note_text(note: &JobNote, units: UnitSet, ambient: Pressure) -> String {
    match *note {
        JobNote::FractionationNotFollowed { glide_k } => format!(
            "This blend boils over a glide of {}; its composition is taken to stay as charged, \
             though vapour and liquid change it on the way.",
            glide_text(glide_k)
        ),
        JobNote::EstimatedProperties => {
            "Properties of this blend are estimated: mixing parameters were fitted, not measured.".to_owned()
        }
        JobNote::ExtrapolatedProperties { below_k } => extrapolated_text(below_k),
        JobNote::NoLiquidInReach => "There is no liquid in reach of the port: vapour is drawn.".to_owned(),
        JobNote::HeldTemperature => {
            "The contents are held at their temperature: no self-chilling is counted.".to_owned()
        }
        JobNote::CylinderFullAtStart { index } => {
            format!("Cylinder {} was at its stop weight before it was used.", index + 1)
        }
        JobNote::FlowsByItself => {
            "The system starts above the discharge pressure: refrigerant also flows by itself.".to_owned()
        }
        JobNote::LevelBelowUltimate { ultimate_pa } => format!(
            "The level lies below what the machine reaches against the discharge at the start, {}.",
            units.pressure(Pressure::new::<pascal>(ultimate_pa), ambient)
        ),
        JobNote::WetSuction => {
            "The compressor draws liquid with vapour; its capacity is taken by volume.".to_owned()
        }
        JobNote::OpenInlet => OPEN_INLET.to_owned(),
        JobNote::CutOutTripped { trips } => {
            format!("The high-pressure cut-out stopped the machine {trips} times.")
        }
        JobNote::ColdSystem { lowest_k } => format!(
            "The system chills to {}: water in heat exchangers can freeze and burst them.",
            units.temperature(ThermodynamicTemperature::new::<kelvin>(lowest_k))
        ),
        JobNote::RoseWithin { system_pa, allowed_pa } => format!(
            "After the wait the gauge is back at {}: up to {} above the level counts as holding (common practice, \
             no source).",
            units.pressure(Pressure::new::<pascal>(system_pa), ambient),
            units.pressure_loss(Pressure::new::<pascal>(allowed_pa))
        ),
        JobNote::LiquidLeft { liquid_kg, temperature_k } => format!(
            "{} of liquid at {} is still in the system: it boils and the pressure comes back. Wait, check again \
             and go on; heat from the air or a liquid port shortens this.",
            units.mass(Mass::new::<kilogram>(liquid_kg)),
            units.temperature(ThermodynamicTemperature::new::<kelvin>(temperature_k))
        ),
    }
}
