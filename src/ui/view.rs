//! View state: what is looked at and how. Never saved with the document, never undone.

use narrows::units::UnitSet;

use super::projector::Projector;
use super::style::Theme;

/// The views there are.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum View {
    /// Everything on one page.
    #[default]
    Bench,
    /// The chain with its pressure stairs and a table.
    LineUp,
    /// The power path with its voltage stairs and a table.
    CordRun,
    /// Path curve and machine curve.
    MeetingPoint,
}

impl View {
    /// All, in the order of the row.
    pub const ALL: [Self; 4] = [Self::Bench, Self::LineUp, Self::CordRun, Self::MeetingPoint];

    /// Its name in the row.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Bench => "Bench",
            Self::LineUp => "Line-up",
            Self::CordRun => "Cord run",
            Self::MeetingPoint => "Meeting point",
        }
    }
}

/// What has the focus box.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Selected {
    /// The system.
    Source,
    /// A part of the kit in hand.
    Part(usize),
    /// A part of the second port's branch of the kit in hand.
    SecondPart(usize),
    /// The machine.
    Machine,
    /// A part between machine and cylinder.
    Discharge(usize),
    /// The cylinder.
    Cylinder,
    /// Panel or generator.
    Supply,
    /// The circuit in the wall.
    Branch,
    /// A cord.
    Cord(usize),
    /// The motor.
    Motor,
}

/// All of the view state.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ViewState {
    /// The open view.
    pub view: View,
    /// Colours.
    pub theme: Theme,
    /// Units of answers.
    pub units: UnitSet,
    /// Place of the kit in hand.
    pub kit: usize,
    /// What has the focus box.
    pub selected: Option<Selected>,
    /// Draw only the kit in hand.
    pub alone: bool,
    /// Show the axis without folds.
    pub unfolded: bool,
    /// Units of pressures, if not those of the other answers.
    pub pressure_units: Option<UnitSet>,
    /// Pressures are absolute, not as a gauge shows them.
    pub absolute: bool,
    /// The command search is open.
    pub search: bool,
    /// What a class is shown, if one is.
    pub projector: Option<Projector>,
    /// The field for a file's path is shown.
    pub path_field: bool,
    /// The about box is shown.
    pub about: bool,
    /// Something went wrong or was done; said until it is taken note of.
    pub message: Option<String>,
}
