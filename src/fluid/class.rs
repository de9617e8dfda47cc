//! Safety class (ASHRAE 34) and pressure class (40 CFR 82.152).

use std::fmt;

/// Toxicity (A lower, B higher) and flammability (1 none, 2L mildly, 2, 3 highly) of ASHRAE 34.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[allow(missing_docs)]
pub enum SafetyClass {
    A1,
    A2L,
    A2,
    A3,
    B1,
    B2L,
}

impl SafetyClass {
    /// Whether the vapour can burn (any class but A1 and B1).
    pub fn is_flammable(self) -> bool {
        !matches!(self, Self::A1 | Self::B1)
    }

    /// Whether it is of higher toxicity (class B).
    pub fn is_toxic(self) -> bool {
        matches!(self, Self::B1 | Self::B2L)
    }
}

impl fmt::Display for SafetyClass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::A1 => "A1",
            Self::A2L => "A2L",
            Self::A2 => "A2",
            Self::A3 => "A3",
            Self::B1 => "B1",
            Self::B2L => "B2L",
        })
    }
}

/// Appliance class by the liquid's (bubble) saturation pressure at 104 degF (40 degC).
///
/// # Source
/// 40 CFR 82.152: low below 45 psia, medium 45 to 170, high above 170 to 355, very high above 355 psia
/// or with a critical temperature below 104 degF.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[allow(missing_docs)]
pub enum PressureClass {
    Low,
    Medium,
    High,
    VeryHigh,
}

/// Pascals in a pound-force per square inch: 4.448 221 615 260 5 N over 0.0254 m squared.
const PSI_PA: f64 = 6_894.757_293_168;

impl PressureClass {
    /// Temperature at which the class is read: 104 degF.
    pub const TEMPERATURE_K: f64 = 313.15;

    /// The class of a liquid with this bubble pressure at 104 degF.
    ///
    /// # Example
    /// 351.8 psia is high, 359.4 psia is very high.
    pub fn of_bubble_pressure_pa(pressure_pa: f64) -> Self {
        let psia = pressure_pa / PSI_PA;
        if psia < 45.0 {
            Self::Low
        } else if psia <= 170.0 {
            Self::Medium
        } else if psia <= 355.0 {
            Self::High
        } else {
            Self::VeryHigh
        }
    }
}

impl fmt::Display for PressureClass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Low => "low",
            Self::Medium => "medium",
            Self::High => "high",
            Self::VeryHigh => "very high",
        })
    }
}
