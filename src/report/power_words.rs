//! The power path in words: what its elements are called and lose, how the motor runs and starts.

use crate::power::{Element, ElementKind, Running, StartOutcome, StartingPoint};
use crate::units::UnitSet;

/// Whether it starts, in words.
pub(super) fn start_words(outcome: &StartOutcome) -> String {
    let word = start_word(outcome);
    match outcome {
        StartOutcome::Starts => word.to_owned(),
        StartOutcome::MayNotStart(reason) | StartOutcome::WillNotStart(reason) => format!("{word}: {reason}"),
    }
}

/// Whether a motor starts.
pub fn start_word(outcome: &StartOutcome) -> &'static str {
    match outcome {
        StartOutcome::Starts => "starts",
        StartOutcome::MayNotStart(_) => "may not start",
        StartOutcome::WillNotStart(_) => "will not start",
    }
}

/// What an element of the power path is called: a cord by its gauge and length.
pub(super) fn element_name(cords: &[String], element: &Element) -> String {
    match element.kind {
        ElementKind::Cord(index) => cords.get(index).cloned().unwrap_or_else(|| element.kind.to_string()),
        other => other.to_string(),
    }
}

/// Volts lost in an element, running and starting.
pub(super) fn element_losses(element: &Element, units: UnitSet) -> [String; 2] {
    [
        element.running_drop.map_or("none".to_owned(), |drop| units.voltage(drop)),
        units.voltage(element.starting_drop),
    ]
}

/// The motor running, in words.
pub(super) fn running_words(running: &Running, units: UnitSet) -> String {
    match running {
        Running::Holds(point) => format!(
            "{} at the motor ({}), {}",
            units.voltage(point.voltage),
            units.share(point.voltage_ratio),
            units.current(point.current),
        ),
        Running::CannotHold(reason) => reason.to_string(),
    }
}

/// The motor starting, in words.
pub(super) fn starting_words(start: &StartingPoint, units: UnitSet) -> String {
    format!(
        "{} at the motor ({}), {}, torque {} of that at nameplate volts; {}",
        units.voltage(start.voltage),
        units.share(start.voltage_ratio),
        units.current(start.current),
        units.share(start.torque_ratio),
        start_words(&start.outcome),
    )
}
