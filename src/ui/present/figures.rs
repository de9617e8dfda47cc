//! The figures of parts, machines, motors, cylinders, cords and circuits: what each is called,
//! where it stands, what was typed. The same list serves fields to edit and the shelf.

use std::fmt::Display;

use narrows::kit::{
    Band, Branch, Content, Cord, Cylinder, DrierState, Hole, Lay, Machine, Material, Motor, MotorKind, Part,
    Tube,
};
use narrows::presets::Thing;
use narrows::units::Typed;

/// One figure.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Figure {
    /// What it is called.
    pub label: &'static str,
    /// Its place beneath the thing.
    pub path: &'static str,
    /// What was typed; empty if it is left out.
    pub value: String,
    /// Low and high, as typed, if it has them.
    pub band: Option<(String, String)>,
    /// Whether it may have them.
    pub bandable: bool,
    /// The words there are, if it is one of a few words.
    pub words: &'static [&'static str],
}

/// Where the low end of a figure's band stands beneath the thing.
pub fn low_path(path: &str) -> String {
    format!("{path}_band.low")
}

/// Where the high end stands.
pub fn high_path(path: &str) -> String {
    format!("{path}_band.high")
}

fn figure(label: &'static str, path: &'static str, value: impl Display) -> Figure {
    Figure { label, path, value: value.to_string(), ..Figure::default() }
}

fn optional(label: &'static str, path: &'static str, value: Option<&impl Display>) -> Figure {
    Figure { label, path, value: value.map(ToString::to_string).unwrap_or_default(), ..Figure::default() }
}

fn word(label: &'static str, path: &'static str, value: &str, words: &'static [&'static str]) -> Figure {
    Figure { words, ..figure(label, path, value) }
}

/// Yes or no to choose; its place is its asker's to say.
pub fn yes_no(label: &'static str, value: bool) -> Figure {
    word(label, "", if value { "yes" } else { "no" }, &["yes", "no"])
}

impl Figure {
    fn banded<Q>(mut self, band: Option<&Band<Typed<Q>>>) -> Self {
        self.bandable = true;
        self.band = band.map(|band| (band.low.to_string(), band.high.to_string()));
        self
    }
}

/// The figures of anything on the shelf.
pub fn of_thing(thing: &Thing) -> Vec<Figure> {
    match thing {
        Thing::Part(part) => of_part(part),
        Thing::Machine(machine) => of_machine(machine),
        Thing::Motor(motor) => of_motor(motor),
        Thing::Cylinder(cylinder) => of_cylinder(cylinder),
        Thing::Cord(cord) => of_cord(cord),
        Thing::Wiring(branch) => of_branch(branch),
    }
}

/// The figures of a part.
pub fn of_part(part: &Part) -> Vec<Figure> {
    match part.content() {
        Content::Tube(tube) => of_tube(tube),
        Content::Hole(hole) => of_hole(hole),
        Content::GaugeSet(set) => {
            let mut all = vec![figure("Seats", "seats", set.seats)];
            all.extend(of_hole(&set.seat()));
            all.push(optional("Rated pressure", "working_pressure", set.working_pressure.as_ref()));
            all
        }
        Content::FilterDrier(drier) => {
            let state = match drier.state {
                DrierState::Clean => "clean",
                DrierState::Used => "used",
                DrierState::Loaded => "loaded",
            };
            vec![
                word("State", "state", state, &["clean", "used", "loaded"]),
                optional("Size", "flow_coefficient", drier.flow_coefficient.as_ref()),
                optional("Rated flow", "rated_flow", drier.rated_flow.as_ref()),
                optional("Rated capacity", "rated_capacity", drier.rated_capacity.as_ref()),
            ]
        }
        Content::Valve(valve) => vec![
            figure("Size", "flow_coefficient", &valve.flow_coefficient)
                .banded(valve.flow_coefficient_band.as_ref()),
            optional("Recovery F_L", "pressure_recovery", valve.pressure_recovery.as_ref()),
        ],
    }
}

fn of_tube(tube: &Tube) -> Vec<Figure> {
    vec![
        figure("Bore", "bore", &tube.bore).banded(tube.bore_band.as_ref()),
        figure("Length", "length", &tube.length),
        optional("Rise", "rise", tube.rise.as_ref()),
        optional("Roughness", "roughness", tube.roughness.as_ref()),
        optional("Rated pressure", "working_pressure", tube.working_pressure.as_ref()),
    ]
}

fn of_hole(hole: &Hole) -> Vec<Figure> {
    vec![
        figure("Hole", "bore", &hole.bore).banded(hole.bore_band.as_ref()),
        optional("Flow factor", "discharge_coefficient", hole.discharge_coefficient.as_ref()),
        optional("Recovery F_L", "pressure_recovery", hole.pressure_recovery.as_ref()),
    ]
}

/// The figures of a machine, without its motor's.
pub fn of_machine(machine: &Machine) -> Vec<Figure> {
    let condenser = &machine.condenser;
    let throttle = machine.inlet_throttle.as_ref();
    vec![
        figure("Displacement", "displacement", &machine.displacement)
            .banded(machine.displacement_band.as_ref()),
        figure("Clearance", "clearance", &machine.clearance).banded(machine.clearance_band.as_ref()),
        figure("Loss factor", "loss_factor", &machine.loss_factor).banded(machine.loss_factor_band.as_ref()),
        figure("Exponent", "polytropic_exponent", machine.polytropic_exponent.as_typed()),
        optional(
            "Condensing at",
            "condenser.condensing_temperature",
            condenser.condensing_temperature.as_ref(),
        ),
        optional("Condenser UA", "condenser.conductance", condenser.conductance.as_ref()),
        optional("Cut-out", "cut_out", machine.cut_out.as_ref()),
        optional("Inlet hole", "inlet_throttle.bore", throttle.map(|hole| &hole.bore)),
    ]
}

/// The figures of a motor.
pub fn of_motor(motor: &Motor) -> Vec<Figure> {
    let kind = match motor.kind {
        MotorKind::Induction => "induction",
        MotorKind::Universal => "universal",
        MotorKind::Electronic => "electronic",
    };
    vec![
        word("Kind", "kind", kind, &["induction", "universal", "electronic"]),
        figure("Rated voltage", "rated_voltage", &motor.rated_voltage),
        figure("Rated current", "rated_current", &motor.rated_current),
        optional("Locked rotor", "locked_rotor_current", motor.locked_rotor_current.as_ref()),
        optional("Shaft power", "shaft_power", motor.shaft_power.as_ref()),
        optional("Power factor", "power_factor", motor.power_factor.as_ref()),
        optional("Speed", "speed", motor.speed.as_ref()),
    ]
}

/// What is stamped on a cylinder, and its temperature.
pub fn of_cylinder(cylinder: &Cylinder) -> Vec<Figure> {
    vec![
        figure("Temperature", "temperature", &cylinder.temperature),
        optional("Air in it", "excess_pressure", cylinder.excess_pressure.as_ref()),
        optional("Water capacity", "water_capacity", cylinder.water_capacity.as_ref()),
        optional("Tare", "tare", cylinder.tare.as_ref()),
        optional("Contents", "contents", cylinder.contents.as_ref()),
    ]
}

/// The figures of a cord.
pub fn of_cord(cord: &Cord) -> Vec<Figure> {
    let lay = match cord.lay {
        Lay::Straight => "straight",
        Lay::Coiled => "coiled",
    };
    vec![
        figure("Gauge", "gauge", &cord.gauge),
        figure("Length", "length", &cord.length),
        optional("Marked amps", "marked_current", cord.marked_current.as_ref()),
        word("Lay", "lay", lay, &["straight", "coiled"]),
        material(cord.material),
    ]
}

fn material(material: Material) -> Figure {
    let name = match material {
        Material::Copper => "copper",
        Material::Aluminium => "aluminium",
        Material::CopperCladAluminium => "copper_clad_aluminium",
    };
    word("Conductor", "material", name, &["copper", "aluminium", "copper_clad_aluminium"])
}

/// The figures of a branch circuit.
pub fn of_branch(branch: &Branch) -> Vec<Figure> {
    vec![
        figure("Gauge", "gauge", &branch.gauge),
        figure("Length", "length", &branch.length),
        optional("Breaker", "breaker", branch.breaker.as_ref()),
        optional("Other loads", "other_load", branch.other_load.as_ref()),
        material(branch.material),
    ]
}
