//! What a job comes to: its phases, its cylinders, its curves, and why it ends.

use uom::si::f64::{Mass, MassRate, Pressure, Time};

use crate::job::JobError;

/// A job followed to its end.
#[derive(Debug, Clone, PartialEq)]
pub struct JobAnswer {
    /// From the machine's first turn to the end, pauses included.
    pub total: Time,
    /// Refrigerant that left the system.
    pub recovered: Mass,
    /// Refrigerant still in it, what the oil holds included.
    pub remaining: Mass,
    /// The system's pressure at the end.
    pub level: Pressure,
    /// Phases and pauses in order; they fill the time from start to end.
    pub phases: Vec<PhaseSpan>,
    /// What each cylinder took, those used only.
    pub cylinders: Vec<CylinderUse>,
    /// Push-pull's limits as it began; none where the method is another.
    pub push_pull: Option<PushPullLimits>,
    /// Why it ends there.
    pub ends_because: EndsBecause,
    /// What a person should know.
    pub notes: Vec<JobNote>,
    /// The curves.
    pub trace: JobTrace,
}

/// Why a job ends. Anything but `LevelReached` says that it is not done.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum EndsBecause {
    /// The system is at the level, and holds it if it was checked again.
    LevelReached,
    /// The system was at or below the level from the start.
    AlreadyAtLevel,
    /// There is nothing in the system.
    NothingToRecover,
    /// The pressure rose again after the last re-check.
    LevelDoesNotHold {
        /// The system's pressure after the last wait.
        rebound_pa: f64,
    },
    /// The machine draws no more before the level is reached.
    BeyondMachine {
        /// The lowest pressure it reaches against this discharge.
        ultimate_pa: f64,
        /// Against this discharge pressure.
        discharge_pa: f64,
    },
    /// Every cylinder is at its stop weight, and refrigerant is left.
    CylindersFull {
        /// How many there were.
        count: usize,
    },
    /// A cylinder is full of liquid before its stop weight.
    CylinderLiquidFull {
        /// Its place in the order, from 0.
        index: usize,
        /// Net contents at that moment, kg.
        net_kg: f64,
    },
    /// The cut-out trips again and again.
    CutOutLoop {
        /// How often it tripped.
        trips: u32,
        /// Discharge pressure that is wanted.
        discharge_pa: f64,
        /// The cut-out's setting.
        cut_out_pa: f64,
    },
    /// Hardly anything flows any more.
    Stalled {
        /// The last rate.
        rate_kg_s: f64,
    },
    /// The time limit.
    TimeLimit,
    /// There is no operating point here.
    NoPoint(JobError),
}

/// What a person should know beside the minutes.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum JobNote {
    /// The blend's composition is taken to stay as charged: fractionation is not followed.
    FractionationNotFollowed {
        /// Bubble-to-dew span at atmospheric pressure.
        glide_k: f64,
    },
    /// Properties of this blend are estimated.
    EstimatedProperties,
    /// The system became colder than the refrigerant's equation of state is valid for.
    ExtrapolatedProperties {
        /// It is valid from here on.
        below_k: f64,
    },
    /// There was no liquid in reach when liquid should be drawn.
    NoLiquidInReach,
    /// Contents held at one temperature: no self-chilling.
    HeldTemperature,
    /// A cylinder had reached its stop weight before it was used.
    CylinderFullAtStart {
        /// Its place in the order, from 0.
        index: usize,
    },
    /// The system's pressure is above the discharge at the start: refrigerant flows by itself.
    FlowsByItself,
    /// The level lies below what the machine reaches against the discharge at the start.
    LevelBelowUltimate {
        /// The lowest pressure it reaches.
        ultimate_pa: f64,
    },
    /// The compressor draws a mixture of liquid and vapour; its capacity is taken by volume.
    WetSuction,
    /// Liquid reached a machine whose own inlet is not described: it is taken as wide open.
    OpenInlet,
    /// The cut-out stopped the machine.
    CutOutTripped {
        /// How often.
        trips: u32,
    },
    /// The system became colder than water freezes.
    ColdSystem {
        /// Lowest temperature.
        lowest_k: f64,
    },
    /// After the last wait the pressure is above the level, by no more than counts as holding.
    RoseWithin {
        /// Pressure after the wait.
        system_pa: f64,
        /// So much above the level still counts.
        allowed_pa: f64,
    },
    /// The level is reached and cold liquid is left: it boils and the pressure comes back.
    LiquidLeft {
        /// Liquid in the system at the end.
        liquid_kg: f64,
        /// Its temperature.
        temperature_k: f64,
    },
}

/// One phase or pause.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PhaseSpan {
    /// What it is.
    pub kind: PhaseKind,
    /// When it begins.
    pub start: Time,
    /// When it ends.
    pub end: Time,
    /// What left the system in it.
    pub recovered: Mass,
}

/// Phases and pauses.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum PhaseKind {
    /// Liquid is pushed over by gas.
    PushPull,
    /// Hoses are changed for the finish.
    HoseChange,
    /// Liquid, or liquid and vapour, is drawn.
    Liquid,
    /// Vapour is drawn while liquid boils off.
    Vapor,
    /// The last vapour, no liquid left.
    Tail,
    /// A cylinder is changed.
    Swap,
    /// Waiting at the level to see whether it holds.
    Wait,
    /// The cut-out has tripped.
    CutOut,
}

impl PhaseKind {
    /// Whether refrigerant moves.
    pub fn flows(self) -> bool {
        matches!(self, Self::PushPull | Self::Liquid | Self::Vapor | Self::Tail)
    }
}

/// A cylinder that was used.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CylinderUse {
    /// Its place in the order, from 0.
    pub index: usize,
    /// When it was connected.
    pub connected: Time,
    /// When it was full, or the job ended.
    pub closed: Time,
    /// Contents at the end.
    pub net: Mass,
    /// Highest pressure in it.
    pub highest_pressure: Pressure,
}

/// What limits push-pull, for its liquid as it begins: two bounds and what each limit alone passes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PushPullLimits {
    /// All gas condenses on the system's liquid, which stays at saturation: the line's choked
    /// saturated flow.
    pub full_condensation: MassRate,
    /// No gas condenses: line, displacement and flashing in the cylinder are in balance.
    pub no_condensation: MassRate,
    /// The machine's drawn volume as liquid: volume in is volume out, nothing flashes.
    pub displacement: MassRate,
    /// The most that the liquid line passes under the system's pressure of `no_condensation`.
    pub liquid_line: MassRate,
    /// Pressure of the system in the balance without condensation.
    pub system_pressure: Pressure,
    /// Pressure of the cylinder in that balance.
    pub cylinder_pressure: Pressure,
    /// What holds the flow back: in a job's answer what held that job back, otherwise what would if
    /// no gas condensed.
    pub limit: PushPullLimit,
}

/// The three limits of push-pull.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PushPullLimit {
    /// The liquid line: a wider one would pass more.
    LiquidLine,
    /// The machine's displacement: volume in is volume out.
    Displacement,
    /// Gas condenses on the system's liquid faster than it builds pressure.
    Condensing,
}

/// Curves of a job. All columns have the same length; times never fall.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct JobTrace {
    /// Time since the start.
    pub time_s: Vec<f64>,
    /// Index into [`JobAnswer::phases`].
    pub phase: Vec<usize>,
    /// What leaves the system.
    pub rate_kg_s: Vec<f64>,
    /// What has left it.
    pub recovered_kg: Vec<f64>,
    /// What is in it, the oil's share included.
    pub remaining_kg: Vec<f64>,
    /// Liquid in it, the oil's share not included.
    pub liquid_kg: Vec<f64>,
    /// Its absolute pressure.
    pub system_pa: Vec<f64>,
    /// Temperature of its liquid, or of its vapour where no liquid is left.
    pub system_k: Vec<f64>,
    /// Absolute pressure in the machine's suction chamber; the system's own in a pause.
    pub suction_pa: Vec<f64>,
    /// Absolute discharge pressure; the cylinder's own in a pause.
    pub discharge_pa: Vec<f64>,
    /// Which cylinder is connected, from 0.
    pub cylinder: Vec<usize>,
    /// Absolute pressure in it, non-condensables included.
    pub cylinder_pa: Vec<f64>,
    /// Temperature in it.
    pub cylinder_k: Vec<f64>,
    /// Its net contents.
    pub cylinder_kg: Vec<f64>,
}

impl JobTrace {
    /// Number of samples.
    pub fn len(&self) -> usize {
        self.time_s.len()
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.time_s.is_empty()
    }
}
