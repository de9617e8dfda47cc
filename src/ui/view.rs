//! View state: what is looked at and how. Never saved with the document, never undone.

use narrows::presets::ThingKind;
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
    /// The job over time.
    JobClock,
    /// Kits in columns, differences only.
    SideBySide,
    /// What each part, cord and condition is worth.
    WhatCounts,
    /// Fill rules, warming, schedule.
    Cylinders,
    /// Time line of each kit, steps, what the crew needs.
    JobSheet,
    /// The machine that would be given a card's ratings.
    ReadRating,
    /// The likely cause of a slow job.
    FindCause,
    /// Rows from a job, and what they say of machine and parts.
    SiteLog,
    /// Parts to take, and a person's own.
    Shelf,
    /// Known answers from outside, and what comes out here.
    Checks,
    /// What words of the trade mean.
    Words,
}

impl View {
    /// All, in the order of the row.
    pub const ALL: [Self; 15] = [
        Self::Bench,
        Self::LineUp,
        Self::CordRun,
        Self::MeetingPoint,
        Self::JobClock,
        Self::SideBySide,
        Self::WhatCounts,
        Self::Cylinders,
        Self::JobSheet,
        Self::ReadRating,
        Self::FindCause,
        Self::SiteLog,
        Self::Shelf,
        Self::Checks,
        Self::Words,
    ];

    /// Its name in the row.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Bench => "Bench",
            Self::LineUp => "Line-up",
            Self::CordRun => "Cord run",
            Self::MeetingPoint => "Meeting point",
            Self::JobClock => "Job clock",
            Self::SideBySide => "Side by side",
            Self::WhatCounts => "What counts",
            Self::Cylinders => "Cylinders",
            Self::JobSheet => "Job sheet",
            Self::ReadRating => "Read the rating",
            Self::FindCause => "Find the cause",
            Self::SiteLog => "Site log",
            Self::Shelf => "Shelf",
            Self::Checks => "Checks",
            Self::Words => "Words",
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

/// What stands under the voltage stairs of the cord run.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum CordPage {
    /// Every wire, to be edited.
    #[default]
    Wires,
    /// Hose against cord: where to put the machine.
    Place,
}

impl CordPage {
    /// Both, in the order of the row.
    pub const ALL: [Self; 2] = [Self::Wires, Self::Place];

    /// Its name in the row.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Wires => "Wires",
            Self::Place => "Where to put the machine",
        }
    }
}

/// What is counted in What counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Counted {
    /// Rate or minutes gained where each thing is made ideal alone.
    #[default]
    Gain,
    /// The rate with everything but this ideal.
    OnlyThis,
    /// What a real change brings.
    Change,
    /// Volts at the running motor.
    VoltsRunning,
    /// Volts at the starting motor.
    VoltsStarting,
}

impl Counted {
    /// All, in the order of the row.
    pub const ALL: [Self; 5] =
        [Self::Gain, Self::Change, Self::OnlyThis, Self::VoltsRunning, Self::VoltsStarting];

    /// Its name in the row.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Gain => "Made ideal",
            Self::OnlyThis => "Only this",
            Self::Change => "A real change",
            Self::VoltsRunning => "Volts running",
            Self::VoltsStarting => "Volts starting",
        }
    }
}

/// What is looked at on the shelf.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ShelfLook {
    /// One kind alone.
    pub kind: Option<ThingKind>,
    /// Words that are searched for.
    pub words: String,
    /// Also what is retired.
    pub retired: bool,
    /// The entry in hand, by its id.
    pub chosen: Option<String>,
}

impl ViewState {
    /// Forgets what belonged to another document.
    pub fn look_again(&mut self) {
        (self.clock_min, self.cylinder, self.fill_k, self.machine_at_m) = (None, 0, None, None);
    }
}

/// All of the view state.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ViewState {
    /// The open view.
    pub view: View,
    /// Colours.
    pub theme: Theme,
    /// Large type and targets, for a van.
    pub van: bool,
    /// Nothing moves: what changes, jumps.
    pub still: bool,
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
    /// The command search is open.
    pub search: bool,
    /// What a class is shown, if one is.
    pub projector: Option<Projector>,
    /// The field for a file's path is shown.
    pub path_field: bool,
    /// The about box is shown.
    pub about: bool,
    /// The choice of units is shown.
    pub units_box: bool,
    /// Something went wrong or was done; said until it is taken note of.
    pub message: Option<String>,
    /// The moment of the job that is looked at.
    pub clock_min: Option<f64>,
    /// The cylinder that is looked at; 0 is the one in use.
    pub cylinder: usize,
    /// The temperature it is looked at, in kelvin.
    pub fill_k: Option<f64>,
    /// What stands under the voltage stairs of the cord run.
    pub cord_page: CordPage,
    /// The length of the hose at whose end the machine is looked at; today's if nothing is.
    pub machine_at_m: Option<f64>,
    /// What is counted.
    pub counted: Counted,
    /// Rates are compared even where minutes are known.
    pub in_rate: bool,
    /// What is looked at on the shelf.
    pub shelf: ShelfLook,
    /// The topic of the known answers that are looked at.
    pub check_topic: usize,
    /// The text that is looked for among the words of the trade.
    pub word: String,
}
