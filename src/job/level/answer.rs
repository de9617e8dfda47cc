//! What is asked about a level, and what is answered.

use uom::si::f64::{Mass, Pressure, Ratio};
use uom::si::pressure::pascal;

use crate::fluid::PressureClass;
use crate::job::YearMonth;
use crate::units::factors::{INCH_OF_MERCURY_PA, POUND_KG};
use crate::units::{GaugePressure, TypedPressure};

/// When the machine was made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MachineMade {
    /// Before the table's date.
    Before,
    /// On that date or later.
    Since,
}

/// What is asked for.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct LevelAsk {
    /// A level of one's own instead of the table's.
    pub given: Option<TypedPressure>,
    /// When the machine was made.
    pub machine_made: Option<MachineMade>,
    /// Leaks make the level unattainable.
    pub leak: bool,
    /// Low and high of the appliance's full charge; equal if it is known.
    pub full_charge: Option<(Mass, Mass)>,
    /// It is a small appliance, and whether its compressor runs.
    pub small_appliance: Option<CompressorRuns>,
}

/// Whether the appliance's own compressor runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CompressorRuns {
    /// It does.
    Yes,
    /// It does not, or nobody knows.
    No,
}

/// Why there is no level.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum LevelError {
    /// No row of the table fits.
    #[error("{title} has no row for a {class}-pressure appliance of {charge}; expected one")]
    NoRow {
        /// The table.
        title: String,
        /// The class.
        class: PressureClass,
        /// The charge in words.
        charge: String,
    },
    /// Below absolute vacuum.
    #[error("{level} is deeper than an absolute vacuum in this air ({ambient_pa:.0} Pa)")]
    BelowVacuum {
        /// As typed.
        level: String,
        /// The air, Pa.
        ambient_pa: f64,
    },
}

/// On what the level stands.
#[derive(Debug, Clone, PartialEq)]
pub enum LevelBasis {
    /// A row of the table, in words.
    Row(String),
    /// Leaks; the condition.
    Leak(String),
    /// A small appliance; the condition, and the share to be recovered instead.
    SmallAppliance {
        /// In words.
        condition: String,
        /// Recovering this share is enough too.
        recover: Ratio,
    },
    /// One's own.
    Given,
}

/// Another table that says otherwise.
#[derive(Debug, Clone, PartialEq)]
pub struct Disagreement {
    /// Which table.
    pub source: String,
    /// Its level, as printed.
    pub stated: String,
    /// Absolute.
    pub absolute: Pressure,
}

/// What should be known with a level.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum LevelNote {
    /// Near the edge of its class.
    #[error(
        "saturation at 104 °F is {psia:.0} psia, close to the {edge_psia:.0} psia between classes: another \
         source may call it {other}-pressure"
    )]
    NearEdge {
        /// Saturation at 104 °F, psia.
        psia: f64,
        /// The edge, psia.
        edge_psia: f64,
        /// The class on the other side.
        other: PressureClass,
    },
    /// The charge is needed and not known.
    #[error("the full charge is not known; the deepest level of the class is taken")]
    ChargeUnknown,
    /// The charge's band lies across a row's edge.
    #[error("the full charge may lie on either side of {:.0} lb; the deeper level is taken", limit_kg / POUND_KG)]
    ChargeAcrossRows {
        /// The edge, kg.
        limit_kg: f64,
    },
    /// The machine's date is needed and not known.
    #[error("nothing says when the machine was made; {machine_date} or later is taken")]
    MachineDateAssumed {
        /// The date.
        machine_date: String,
    },
    /// Too much charge for a small appliance.
    #[error("a charge above {:.0} lb makes it no small appliance; the table's row is taken", limit_kg / POUND_KG)]
    NoSmallAppliance {
        /// The most a small appliance holds, kg.
        limit_kg: f64,
    },
    /// It may be a small appliance.
    #[error("with no more than {:.0} lb it may be a small appliance, for which another rule holds", limit_kg / POUND_KG)]
    MaybeSmallAppliance {
        /// The most a small appliance holds, kg.
        limit_kg: f64,
    },
    /// One's own level is shallower than the table's.
    #[error("the level you gave is shallower than the {stated} of {title}")]
    ShallowerThanTable {
        /// The table's level.
        stated: String,
        /// The table.
        title: String,
    },
    /// The table should be compared with the current text.
    #[error("{title} was due to be compared with the current text by {by}")]
    ReviewDue {
        /// The table.
        title: String,
        /// The date.
        by: YearMonth,
    },
}

/// How far to evacuate.
#[derive(Debug, Clone, PartialEq)]
pub struct RequiredLevel {
    /// The appliance's class.
    pub class: PressureClass,
    /// Liquid's saturation pressure at 104 °F, absolute; none above the critical point.
    pub class_pressure: Option<Pressure>,
    /// The level, absolute.
    pub absolute: Pressure,
    /// As the table prints it or as it was typed: "10 inHg vac".
    pub stated: String,
    /// On what it stands.
    pub basis: LevelBasis,
    /// The table's title.
    pub source: String,
    /// Its edition, with the date.
    pub edition: String,
    /// Tables that say otherwise: confirm with the current text. Empty if none does.
    pub confirm: Vec<Disagreement>,
    /// What should be known.
    pub notes: Vec<LevelNote>,
    /// What its inches of vacuum are counted from.
    pub atmosphere: Pressure,
}

impl RequiredLevel {
    /// Inches of mercury below the table's atmosphere; negative above it.
    pub fn vacuum_inhg(&self) -> f64 {
        (self.atmosphere - self.absolute).get::<pascal>() / INCH_OF_MERCURY_PA
    }

    /// What a gauge in this air reads at the level.
    pub fn gauge(&self, ambient: Pressure) -> GaugePressure {
        GaugePressure::from_absolute(self.absolute, ambient)
    }

    /// Where the level comes from, in words: the table and its edition, or whoever typed it.
    pub fn origin(&self) -> String {
        match self.basis {
            LevelBasis::Given => "as typed in the document".to_owned(),
            LevelBasis::Row(_) | LevelBasis::Leak(_) | LevelBasis::SmallAppliance { .. } => {
                format!("{}, {}", self.source, self.edition)
            }
        }
    }

    /// Someone has to look at the current text before relying on it.
    pub fn needs_confirmation(&self) -> bool {
        !self.confirm.is_empty()
    }
}
