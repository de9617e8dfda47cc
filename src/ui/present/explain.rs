//! Where a number on a plate comes from: the formula in words, what went in, the source, the band.

use narrows::compare::Figure;
use narrows::job::OperatingPoint;
use narrows::kit::{Content, Part};
use narrows::power::{ElementKind, PowerPoint};
use narrows::report::machines_text;
use uom::si::ratio::ratio;

use super::{Scene, compared, explain_job, parts};
use crate::ui::widgets::plate::About;

/// All that can be said about a number.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Explanation {
    /// How it is computed, in words.
    pub formula: String,
    /// What went in, name and value.
    pub inputs: Vec<(String, String)>,
    /// Where the formula and its data are from.
    pub source: String,
    /// How sure it is.
    pub band: String,
}

/// Explains a plate of the kit in hand; nothing where there is no number.
pub fn explain(scene: &Scene, about: About) -> Option<Explanation> {
    let hand = scene.hand();
    let explanation = match about {
        About::Level => return explain_job::level(scene),
        About::Stop => return explain_job::stop(scene),
        About::Nothing => None,
        About::Rate => Some(rate(scene, scene.point(hand)?)),
        About::Inlet => Some(inlet(scene, scene.point(hand)?)),
        About::Running => Some(running(scene, scene.power(hand)?)),
        About::Starting => Some(starting(scene, scene.power(hand)?)),
    };
    let figure = match about {
        About::Inlet => Figure::MachineInlet,
        About::Running => Figure::RunningVoltage,
        About::Starting => Figure::StartingVoltage,
        _ => Figure::Rate,
    };
    let drawn = compared::band_text(scene, hand, figure).filter(|_| about != About::Inlet);
    match (explanation, drawn) {
        (Some(explanation), Some(band)) => {
            let band = format!("{band}: 10 to 90 % of the draws, with every input between its low and high.");
            Some(Explanation { band, ..explanation })
        }
        (explanation, _) => explanation,
    }
}

/// How a part's loss is computed, in words.
pub fn part_formula(part: &Part) -> &'static str {
    match part.content() {
        Content::Tube(_) => {
            "Marched along its length: friction (Churchill; two-phase as the method says), acceleration, rise."
        }
        Content::FilterDrier(_) => "A hole as wide as its rated flow at 1 psi asks.",
        Content::GaugeSet(_) => "Each seat a hole: its area × flow factor, isentropic to the throat.",
        Content::Valve(_) => "A hole of its flow coefficient Kv or Cv, pressure won back by F_L (IEC 60534).",
        Content::Hole(_) => {
            "A hole: its area × flow factor, isentropic to the throat, pressure won back by F_L (IEC 60534)."
        }
    }
}

fn rate(scene: &Scene, point: &OperatingPoint) -> Explanation {
    let (units, machine) = (scene.units(), &point.machine);
    let displacement = scene.kit().and_then(|k| k.machine.as_ref()).unwrap_or(&scene.document().machine);
    let pair = |name: &str, value: String| (name.to_owned(), value);
    let mut inputs = vec![
        pair("System", scene.pressure_text(point.system_pressure)),
        pair("Machine inlet", scene.pressure_text(point.machine_inlet_pressure)),
        pair("Discharge", scene.pressure_text(machine.discharge_pressure)),
        pair("Displacement", displacement.displacement.as_typed().to_owned()),
        pair("Volumetric efficiency", units.share(machine.volumetric_efficiency.get::<ratio>())),
        pair("Speed against rated", units.share(machine.speed.get::<ratio>())),
    ];
    inputs.extend(machines_text(point, units).map(|text| pair("Machines", text)));
    Explanation {
        formula: "The one flow at which what the parts let through is what the machine draws: \
                  displacement × speed × volumetric efficiency × density at its suction."
            .to_owned(),
        inputs,
        source: "Reciprocating compressor with clearance and re-expansion; refrigerant tables computed \
                 with CoolProp 8.0.0."
            .to_owned(),
        band: band(),
    }
}

fn inlet(scene: &Scene, point: &OperatingPoint) -> Explanation {
    let mut inputs = vec![("System".to_owned(), scene.pressure_text(point.system_pressure))];
    let solved = scene.solved_document().and_then(|d| d.kits.get(scene.hand()));
    for (part, at) in solved.into_iter().flat_map(|k| &k.parts).zip(&point.parts) {
        inputs.push((parts::name(part), format!("\u{2212} {}", scene.units().pressure_loss(at.drop()))));
    }
    Explanation {
        formula: "The system's pressure less what each part loses on the way, in order.".to_owned(),
        inputs,
        source: "One-dimensional adiabatic flow. Lengths: Darcy friction by Churchill, two-phase by \
                 Müller-Steinhagen and Heck. Holes: isentropic to the throat, pressure recovery as in IEC 60534."
            .to_owned(),
        band: band(),
    }
}

fn running(scene: &Scene, power: &PowerPoint) -> Explanation {
    let units = scene.units();
    let mut inputs = vec![("Open circuit".to_owned(), units.voltage(power.open_circuit))];
    for element in &power.elements {
        if let Some(drop) = element.running_drop.filter(|d| d.value > 0.005) {
            inputs.push((element_name(element.kind), format!("\u{2212} {}", units.voltage(drop))));
        }
    }
    if let Some(point) = power.running.point() {
        inputs.push(("Current".to_owned(), units.current(point.current)));
        inputs.push(("Speed against rated".to_owned(), units.share(point.speed_ratio)));
    }
    Explanation {
        formula: "The supply's voltage less current × impedance of every conductor, out and back. The \
                  motor's current follows its voltage and its load; both are solved together."
            .to_owned(),
        inputs,
        source: wire_source(),
        band: "at the plate's upper right once worked out. A drop of a few volts costs little rate, but heat, trips and starts.".to_owned(),
    }
}

fn starting(scene: &Scene, power: &PowerPoint) -> Explanation {
    let units = scene.units();
    let mut inputs = vec![("Open circuit".to_owned(), units.voltage(power.open_circuit))];
    for element in power.elements.iter().filter(|e| e.starting_drop.value > 0.005) {
        let drop = units.voltage(element.starting_drop);
        inputs.push((element_name(element.kind), format!("\u{2212} {drop}")));
    }
    inputs.push(("Current".to_owned(), units.current(power.starting.current)));
    inputs
        .push(("Torque against full voltage".to_owned(), units.share(power.starting.voltage_ratio.powi(2))));
    Explanation {
        formula: "As running, with the rotor still: its locked-rotor current at this voltage. Starting \
                  torque goes with the square of the voltage."
            .to_owned(),
        inputs,
        source: wire_source(),
        band: "at the plate's upper right once worked out.".to_owned(),
    }
}

fn wire_source() -> String {
    "Conductors by ASTM B258 and NEC chapter 9 table 8, at their working temperature; the motor from its \
     nameplate."
        .to_owned()
}

fn band() -> String {
    "at the plate's upper right once worked out, 10 to 90 % over the low and high bounds of the parts. Bores \
     and flow factors are the weak link."
        .to_owned()
}

fn element_name(kind: ElementKind) -> String {
    match kind {
        ElementKind::Supply => "Supply".to_owned(),
        ElementKind::Branch => "Branch circuit".to_owned(),
        ElementKind::Receptacle => "Receptacle".to_owned(),
        ElementKind::Cord(i) => format!("Cord {}", i + 1),
    }
}
