//! What a view wants done. Views return these; the session does them.

use std::path::PathBuf;

use narrows::kit::{Branch, Cord, Cylinder, Machine, Motor, Part, RatingCard};
use narrows::presets::{Item, Origin, Thing};
use narrows::scenario::{Document, SiteLog};
use narrows::units::UnitSet;

use super::projector::Step;
use super::style::Theme;
use super::view::{CordPage, Counted, Selected, ShelfLook, View};

/// A list of parts in the document.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PartList {
    /// A kit's, by its place.
    Kit(usize),
    /// The branch of a kit's second port, by the kit's place.
    Second(usize),
    /// From the machine to the cylinder.
    Discharge,
}

/// A change of the document. Each is one step of undo.
#[derive(Clone, Debug)]
pub enum Edit {
    /// A field by its path.
    Set { path: String, text: String },
    /// Several fields at once.
    SetAll(Vec<(String, String)>),
    /// A part before the one at `at`.
    Insert { list: PartList, at: usize, part: Box<Part> },
    /// A part out of the list.
    Remove { list: PartList, at: usize },
    /// A part to another place.
    Move { list: PartList, from: usize, to: usize },
    /// Another part in its place.
    Replace { list: PartList, at: usize, part: Box<Part> },
    /// A second port for a kit, with a copy of the first one's branch.
    AddSecondPort(usize),
    /// The second port out of a kit.
    RemoveSecondPort(usize),
    /// A copy of a kit, as a new kit at the end.
    CopyKit(usize),
    /// A kit out of the document.
    RemoveKit(usize),
    /// A cord at the end of the cords in hand.
    AddCord(Box<Cord>),
    /// A cord out of the cords in hand.
    RemoveCord(usize),
    /// Another cord in its place.
    SwapCord { at: usize, cord: Box<Cord> },
    /// Another circuit in the wall; its breaker's other loads stay.
    SwapBranch(Box<Branch>),
    /// Another machine for the kit in hand.
    SwapMachine(Box<Machine>),
    /// Another motor in the machine of the kit in hand.
    SwapMotor(Box<Motor>),
    /// Another cylinder.
    SwapCylinder(Box<Cylinder>),
    /// One more cylinder that waits, like the last.
    AddCylinder,
    /// A waiting cylinder out of the stock, by its place; 0 is the one in use and stays.
    RemoveCylinder(usize),
    /// Another rating card, or none.
    SwapCard(Option<Box<RatingCard>>),
    /// What a change costs; an empty text takes the price away.
    SetPrice { name: String, text: String },
    /// Another site log, or none.
    SwapLog(Option<Box<SiteLog>>),
}

/// A thing for one's own shelf.
#[derive(Clone, Debug)]
pub struct NewOnShelf {
    /// What it is called there.
    pub name: String,
    /// Where its figures come from.
    pub origin: Origin,
    /// What should be known with it.
    pub note: Option<String>,
    /// The thing.
    pub thing: Thing,
}

/// Something to do.
#[derive(Clone, Debug)]
pub enum Action {
    /// Change the document.
    Edit(Edit),
    /// Try a change: shown and solved, but not yet made.
    Try(Edit),
    /// What was tried goes again.
    EndTrial,
    /// What was tried stays.
    KeepTrial,
    /// One step back.
    Undo,
    /// One step forward.
    Redo,
    /// Start from a document that is not in a file.
    Start(Box<Document>),
    /// Open by a native dialog.
    OpenDialog,
    /// Open a site log's table by a native dialog.
    LogDialog,
    /// Open a file.
    Open(PathBuf),
    /// Save to the document's file, or ask for one.
    Save,
    /// Save by a native dialog.
    SaveDialog,
    /// Save to a file.
    SaveTo(PathBuf),
    /// Write pages to hand over, into a folder by a native dialog.
    PagesDialog,
    /// Write pages into a folder.
    PagesTo(PathBuf),
    /// Write them over those that are there.
    PagesOver,
    /// Leave those that are there.
    LeavePages,
    /// Show another view.
    View(View),
    /// Take another kit in hand.
    Kit(usize),
    /// Draw all kits, or only the one in hand.
    Overlay(bool),
    /// Show the axis without folds.
    Unfold(bool),
    /// Put the focus box on something.
    Select(Option<Selected>),
    /// Other units for answers, for this document and all others.
    Units(UnitSet),
    /// Answers in the units that go with how each document was typed.
    UnitsAsTyped,
    /// Pressures absolute, or as a gauge shows them, for now.
    Absolute(bool),
    /// Show or hide the choice of units.
    UnitsBox(bool),
    /// Show or hide the command search.
    Search(bool),
    /// Show one picture to a class, or come back.
    Projector(bool),
    /// Show it in a window of its own, or in this one.
    Beside(bool),
    /// Begin a built-in lesson, by its place.
    Teach(usize),
    /// A step of what the class is shown.
    Lesson(Step),
    /// Another theme.
    Theme(Theme),
    /// Large type and targets with the colours for the sun, or the usual ones.
    Van(bool),
    /// Let changes jump, or move.
    Still(bool),
    /// Show or hide the field for a file's path.
    PathField(bool),
    /// Show or hide the about box.
    About(bool),
    /// Take note of the message.
    Dismiss,
    /// Look at another moment of the job, in minutes.
    Clock(f64),
    /// Look at another cylinder, by its place in the document; 0 is the one in use.
    Cylinder(usize),
    /// Look at a cylinder at another temperature, in kelvin.
    FillTemperature(f64),
    /// Show the wires, or where to put the machine, in the cord run.
    CordPage(CordPage),
    /// Look at the machine at the end of a hose so long, in metres.
    MachineAt(f64),
    /// Count something else.
    Counts(Counted),
    /// Compare rates, or minutes where there are any.
    CountInRate(bool),
    /// End the long draws, or take them up again.
    CancelDraws(bool),
    /// Look at something else on the shelf.
    ShelfLook(Box<ShelfLook>),
    /// Look at the known answers of another topic, by its place.
    CheckTopic(usize),
    /// Look for a text among the words of the trade.
    FindWord(String),
    /// Put a new thing on one's own shelf.
    Shelve(Box<NewOnShelf>),
    /// Change a thing of one's own shelf.
    ChangeShelf(Box<Item<Thing>>),
    /// Close the window.
    Close,
    /// Save over what another program wrote.
    SaveOver,
    /// Open what another program wrote, and lose what is here.
    OpenTheirs,
    /// Leave both as they are.
    LeaveBoth,
    /// Bring back what a window that was ended had not saved.
    Recover,
    /// Throw that away.
    DropRecovery,
    /// Do what was held back, and lose what is not saved.
    DropChanges,
    /// Do not do what was held back.
    KeepChanges,
}
