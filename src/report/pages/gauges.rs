//! What the crew's gauges and scale should show.

use uom::si::f64::{MassRate, Pressure};
use uom::si::mass_rate::kilogram_per_second;
use uom::si::pressure::pascal;

use super::common::{self, Scene};
use super::model::{Block, Section};
use super::picture::Cut;
use crate::job::OperatingPoint;
use crate::job::over_time::{JobAnswer, PhaseKind};
use crate::report::solved::SolvedKit;
use crate::report::table::choked_name;

pub(super) fn section(scene: &Scene) -> Section {
    let Some(solved) = scene.answers.kit() else { return Section::new("At the start", Vec::new()) };
    let pushed = scene.job().ok().and_then(|answer| push_pull_facts(scene, answer));
    let title = match pushed {
        Some(_) => "What gauges and scale should show",
        None => "What gauges and scale should show at the start",
    };
    let mut blocks = Vec::new();
    if let Some(facts) = pushed {
        blocks.push(Block::Heading("Push-pull, midway through its first cylinder".to_owned()));
        blocks.push(facts);
        blocks.push(Block::Heading("Drawn straight through the kit, without push-pull".to_owned()));
    }
    blocks.extend(scene.no_rate(solved).map(Block::Words));
    blocks.extend(solved.shown_point().ok().map(|point| drawn_facts(scene, solved, point)));
    blocks.extend(common::bench(scene, scene.answers.hand, Cut::Open));
    blocks.extend(common::part_table(scene, solved).map(Block::Table));
    Section::new(title, blocks)
}

fn drawn_facts(scene: &Scene, solved: &SolvedKit, point: &OperatingPoint) -> Block {
    let choked = match choked_name(solved, point) {
        Some(name) => format!("CHOKED at {name}: pulling harder does nothing"),
        None => "no part is choked".to_owned(),
    };
    Block::Facts(vec![
        ("Rate".to_owned(), format!("{}; {choked}", scene.units.rate(point.mass_flow))),
        ("System gauge".to_owned(), scene.pressure(point.system_pressure)),
        ("Machine inlet gauge".to_owned(), scene.pressure(point.machine_inlet_pressure)),
        ("Discharge gauge".to_owned(), scene.pressure(point.machine.discharge_pressure)),
    ])
}

/// A job that begins with push-pull, as it stands halfway through that phase.
fn push_pull_facts(scene: &Scene, answer: &JobAnswer) -> Option<Block> {
    let phase = answer.phases.first().filter(|phase| phase.kind == PhaseKind::PushPull)?;
    let trace = &answer.trace;
    let midway_s = 0.5 * (phase.start + phase.end).value;
    let at = trace.time_s.partition_point(|time_s| *time_s < midway_s);
    let gauge = |column: &[f64]| Some(scene.pressure(Pressure::new::<pascal>(*column.get(at)?)));
    let rate = MassRate::new::<kilogram_per_second>(*trace.rate_kg_s.get(at)?);
    Some(Block::Facts(vec![
        ("Rate on the scale".to_owned(), format!("{}; liquid in less gas out", scene.units.rate(rate))),
        ("System gauge".to_owned(), gauge(&trace.system_pa)?),
        ("Cylinder gauge".to_owned(), gauge(&trace.cylinder_pa)?),
        ("Discharge gauge".to_owned(), gauge(&trace.discharge_pa)?),
    ]))
}
