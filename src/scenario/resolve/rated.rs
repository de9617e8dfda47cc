//! The parts of a kit whose working pressure is known, and what may press on each.

use super::super::document::Document;
use crate::job::Side;
use crate::kit::{Content, Kit, Part, RecoveryMethod};
use crate::units::GaugePressure;
use uom::si::f64::Pressure;

/// A part that says what pressure it is made for.
#[derive(Debug, Clone, PartialEq)]
pub struct RatedPart {
    /// Its own name, or its kind's.
    pub name: String,
    /// Where it stands: `1` for the first.
    pub number: usize,
    /// The line that it stands in, in words; none for the way from the system to the machine.
    pub line: Option<&'static str>,
    /// What it is made for.
    pub made_for: GaugePressure,
    /// What may press on it.
    pub sides: &'static [Side],
}

/// All of a kit, of the discharge and, where the method has them, of push-pull's lines.
pub(super) fn rated_parts(document: &Document, kit: &Kit) -> Vec<RatedPart> {
    let air = document.ambient.absolute_pressure();
    let plan = document.job.as_ref();
    let pushing = plan.filter(|plan| plan.method == RecoveryMethod::PushPull);
    // Push-pull presses on the system, and so on what is connected to it.
    let system: &[Side] = if pushing.is_some() { &[Side::System, Side::Machine] } else { &[Side::System] };
    let second = kit.second_port.as_ref().map_or(&[][..], |second| &second.parts);
    let mut all = rated(&kit.parts, None, system, air);
    all.extend(rated(second, Some("the second port's line"), system, air));
    let discharge = &[Side::Machine, Side::Cylinder];
    all.extend(rated(&document.discharge, Some("the line to the cylinder"), discharge, air));
    if let Some(plan) = pushing {
        all.extend(rated(&plan.vapour_line, Some("the vapour line"), &[Side::Cylinder], air));
        all.extend(rated(&plan.gas_line, Some("the gas line"), &[Side::System, Side::Machine], air));
    }
    all
}

fn rated(
    parts: &[Part],
    line: Option<&'static str>,
    sides: &'static [Side],
    air: Pressure,
) -> Vec<RatedPart> {
    let one = |(index, part): (usize, &Part)| {
        let made_for = match part.content() {
            Content::Tube(tube) => tube.working_pressure.as_ref(),
            Content::GaugeSet(set) => set.working_pressure.as_ref(),
            Content::Hole(_) | Content::FilterDrier(_) | Content::Valve(_) => None,
        };
        let made_for = made_for?.gauge(air);
        Some(RatedPart { name: part.label().to_owned(), number: index + 1, line, made_for, sides })
    };
    parts.iter().enumerate().filter_map(one).collect()
}
