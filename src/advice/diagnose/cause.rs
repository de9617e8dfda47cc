//! The causes that are looked at, and the groups that they are told apart by.

use crate::kit::PartKind;
use crate::scenario::{KitSetup, PartName};

/// What is told apart first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Group {
    /// Something between system and machine.
    Path,
    /// Volts.
    Power,
    /// The cylinder.
    Cylinder,
    /// The machine itself, its inlet screen included.
    Machine,
    /// The system: cold, or nearly empty.
    Source,
    /// Nothing is wrong.
    None,
}

impl Group {
    /// Every group.
    pub const ALL: [Self; 6] =
        [Self::Cylinder, Self::Power, Self::Path, Self::Machine, Self::Source, Self::None];

    /// The word that programs read.
    pub fn tag(self) -> &'static str {
        match self {
            Self::Path => "path",
            Self::Power => "power",
            Self::Cylinder => "cylinder",
            Self::Machine => "machine",
            Self::Source => "source",
            Self::None => "none",
        }
    }

    /// In words.
    pub fn label(self) -> &'static str {
        match self {
            Self::Path => "path",
            Self::Power => "power",
            Self::Cylinder => "cylinder",
            Self::Machine => "machine",
            Self::Source => "low system pressure",
            Self::None => "nothing wrong",
        }
    }
}

/// One thing that may be wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Cause {
    /// All is as the document says.
    Nothing,
    /// This part of the path is blocked, kinked, loaded or not open.
    PartBlocked(usize),
    /// This part of the second branch is.
    SecondPartBlocked(usize),
    /// This part between machine and cylinder is.
    DischargePartBlocked(usize),
    /// The screen inside the machine's inlet is blocked.
    InletScreen,
    /// The compressor draws less than it should: valves, seals, belt.
    WornMachine,
    /// The system stands lower than its temperature says: cold inside, or nearly empty.
    LowSource,
    /// The voltage is lost before the receptacle.
    WeakSupply,
    /// The voltage is lost in cord or plug.
    LossyCord,
    /// The cylinder is hotter than it was taken to be.
    HotCylinder,
    /// Air or other non-condensables in the cylinder.
    AirInCylinder,
}

impl Cause {
    /// What it is called in this kit: a part by its name.
    pub(super) fn name(self, kit: &KitSetup) -> String {
        match self {
            Self::Nothing => "Nothing wrong".to_owned(),
            Self::PartBlocked(index) => blocked_name(kit.parts.get(index)),
            Self::SecondPartBlocked(index) => {
                format!("Second port: {}", blocked_name(kit.second_parts.get(index)))
            }
            Self::DischargePartBlocked(index) => {
                format!("Discharge: {}", blocked_name(kit.discharge_parts.get(index)))
            }
            Self::InletScreen => "Inlet screen inside the machine blocked".to_owned(),
            Self::WornMachine => "Machine worn: valves or seals".to_owned(),
            Self::LowSource => "System cold or low".to_owned(),
            Self::WeakSupply => "Low voltage from supply or branch circuit".to_owned(),
            Self::LossyCord => "Voltage lost in cord or plug".to_owned(),
            Self::HotCylinder => "Hot cylinder".to_owned(),
            Self::AirInCylinder => "Air or other non-condensables in the cylinder".to_owned(),
        }
    }

    /// Which group it belongs to.
    pub fn group(self) -> Group {
        match self {
            Self::Nothing => Group::None,
            Self::PartBlocked(_) | Self::SecondPartBlocked(_) | Self::DischargePartBlocked(_) => Group::Path,
            Self::InletScreen | Self::WornMachine => Group::Machine,
            Self::LowSource => Group::Source,
            Self::WeakSupply | Self::LossyCord => Group::Power,
            Self::HotCylinder | Self::AirInCylinder => Group::Cylinder,
        }
    }

    /// The word that programs read; parts carry their place.
    pub fn tag(self) -> String {
        match self {
            Self::Nothing => "nothing".to_owned(),
            Self::PartBlocked(index) => format!("part_{index}"),
            Self::SecondPartBlocked(index) => format!("second_port_part_{index}"),
            Self::DischargePartBlocked(index) => format!("discharge_part_{index}"),
            Self::InletScreen => "inlet_screen".to_owned(),
            Self::WornMachine => "worn_machine".to_owned(),
            Self::LowSource => "low_source".to_owned(),
            Self::WeakSupply => "weak_supply".to_owned(),
            Self::LossyCord => "lossy_cord".to_owned(),
            Self::HotCylinder => "hot_cylinder".to_owned(),
            Self::AirInCylinder => "air_in_cylinder".to_owned(),
        }
    }
}

fn blocked_name(part: Option<&PartName>) -> String {
    match part {
        Some(part) if part.kind == PartKind::FilterDrier => format!("{} loaded", part.name),
        // "Core out blocked" says nothing: what is blocked is the stem.
        Some(part) if part.name == PartKind::Stem.label() => "Stem, core out, blocked".to_owned(),
        Some(part) if part.kind == PartKind::Hose => format!("{} kinked or blocked", part.name),
        Some(part) => format!("{} blocked or not open", part.name),
        None => "A part blocked".to_owned(),
    }
}
