//! How likely each cause is before anything is read, and how far the model itself may be off.
//!
//! Common practice, no source: chosen so that no group is favoured by its number of members.

use super::cause::Cause;
use crate::kit::PartKind;
use crate::scenario::KitSetup;

/// Of the flow's causes, before anything is read.
const NOTHING: f64 = 0.3;
const PATH: f64 = 0.3;
const WORN: f64 = 0.1;
const SCREEN: f64 = 0.1;
const SOURCE: f64 = 0.2;
/// Low volts, before anything is read; shared by supply and cord.
pub(super) const POWER: f64 = 0.15;
/// A hot cylinder or air in it, before anything is read; shared by both.
pub(super) const CYLINDER: f64 = 0.1;

/// The model's rate, as a share: displacement, losses, bores within their bands.
pub(super) const RATE_RATIO: f64 = 0.12;
/// The model's pressure drop of the path as written, as a share.
pub(super) const DROP_RATIO: f64 = 0.35;
/// The model's pressures, as a share.
pub(super) const PRESSURE_RATIO: f64 = 0.01;
/// The model's discharge pressure, as a share.
pub(super) const DISCHARGE_RATIO: f64 = 0.05;
/// The model's volts, as a share: the wire behind the wall is not seen.
pub(super) const VOLTAGE_RATIO: f64 = 0.015;
/// The model's amps, as a share.
pub(super) const CURRENT_RATIO: f64 = 0.1;
/// What a cylinder's shell is off its contents, K.
pub(super) const SHELL_K: f64 = 1.5;
/// A system that is emptied chills: its pressure may lie this share below saturation at the
/// temperature written before that itself is the cause.
pub(super) const CHILL_RATIO: f64 = 0.15;
/// A cold spot is felt where it is, this often.
pub(super) const FELT_RATIO: f64 = 0.8;
/// A part feels cold where at least this share of the absolute pressure is lost in it.
pub(super) const COLD_DROP_RATIO: f64 = 0.15;

/// How often a part is the one that is blocked, beside the others.
fn part_weight(kind: PartKind) -> f64 {
    match kind {
        PartKind::FilterDrier => 3.0,
        PartKind::ValveCore | PartKind::InletScreen | PartKind::ServiceValve => 2.0,
        PartKind::SelfSealingEnd | PartKind::BallValve | PartKind::GaugeSet | PartKind::Valve => 1.5,
        _ => 1.0,
    }
}

/// The flow's causes in a kit with their prior weights; `own_screen` stands for the screen inside
/// the machine.
pub(super) fn flow_priors(kit: &KitSetup, own_screen: Option<usize>) -> Vec<(Cause, f64)> {
    let parts = kit.parts.iter().enumerate().filter(|(index, _)| Some(*index) != own_screen);
    let mut weights: Vec<(Cause, f64)> =
        parts.map(|(index, part)| (Cause::PartBlocked(index), part_weight(part.kind))).collect();
    let second = kit.second_parts.iter().enumerate();
    weights.extend(second.map(|(index, part)| (Cause::SecondPartBlocked(index), part_weight(part.kind))));
    let discharge = kit.discharge_parts.iter().enumerate();
    weights
        .extend(discharge.map(|(index, part)| (Cause::DischargePartBlocked(index), part_weight(part.kind))));
    let all: f64 = weights.iter().map(|(_, weight)| weight).sum();
    let mut priors = vec![
        (Cause::Nothing, NOTHING),
        (Cause::WornMachine, WORN),
        (Cause::InletScreen, SCREEN),
        (Cause::LowSource, SOURCE),
    ];
    priors.extend(weights.iter().map(|(cause, weight)| (*cause, PATH * weight / all)));
    priors
}
