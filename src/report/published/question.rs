//! The questions that the data file can ask: each knows its words, its unit and how this program
//! answers it.

use std::fmt;

use serde::Deserialize;

use super::cylinders::{
    AirPressure, AverageRate, FilledTo, HotFill, Level, LiquidFullAt, NetFill, RatedTon, SpecificGravity,
};
use super::electrical::{
    CordDrop, FullLoadCurrent, LockedRotorAmps, LowVoltage, Resistance, RoofCord, SolidDiameter,
};
use super::flow::{CriticalFlow, DarcyFactor, FlashingHose, LossCoefficient, ShortTube, TwoPhaseDrop};
use super::fluid::{At104F, Saturated};
use super::gas::{GasHole, GasTubeChoke, GasTubeEnd, LiquidDrop, ValveChoke};
use super::kits::ReferenceKit;

/// One question to this program.
pub(super) trait Ask {
    /// In words.
    fn what(&self) -> String;
    /// The unit of its answer.
    fn unit(&self) -> &'static str;
    /// The answer, or why there is none.
    fn answer(&self) -> Result<f64, String>;
}

macro_rules! questions {
    ($($kind:ident),+ $(,)?) => {
        /// Every kind of question.
        #[derive(Debug, Deserialize)]
        pub(super) enum Question {
            $($kind($kind)),+
        }

        impl Question {
            fn ask(&self) -> &dyn Ask {
                match self { $(Self::$kind(question) => question),+ }
            }
        }
    };
}

questions! {
    AirPressure, At104F, AverageRate, CordDrop, CriticalFlow, DarcyFactor, FilledTo, FlashingHose,
    FullLoadCurrent, GasHole, GasTubeChoke, GasTubeEnd, HotFill, Level, LiquidDrop, LiquidFullAt,
    LockedRotorAmps, LossCoefficient, LowVoltage, NetFill, RatedTon, ReferenceKit, Resistance,
    RoofCord, Saturated, ShortTube, SolidDiameter, SpecificGravity, TwoPhaseDrop, ValveChoke,
}

impl Question {
    pub(super) fn unit(&self) -> &'static str {
        self.ask().unit()
    }

    pub(super) fn answer(&self) -> Result<f64, String> {
        self.ask().answer()
    }
}

impl fmt::Display for Question {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.ask().what())
    }
}
