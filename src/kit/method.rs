//! How flow is computed, and what the port draws.

use serde::{Deserialize, Serialize};

/// What the connection to the system draws.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Port {
    /// Liquid.
    Liquid,
    /// Vapour.
    #[default]
    #[serde(alias = "vapor")]
    Vapour,
    /// Liquid and vapour together.
    Both,
}

/// Whether liquid boils at once when its pressure falls.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Flashing {
    /// At once: homogeneous equilibrium.
    Equilibrium,
    /// Late in short restrictions: HNE-DS of ISO 4126-10.
    #[default]
    Delayed,
}

/// Which friction correlation serves two-phase flow in tubes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum TwoPhaseFriction {
    /// One fluid of mean density, viscosity after McAdams.
    Homogeneous,
    /// Müller-Steinhagen and Heck.
    #[default]
    MuellerSteinhagenHeck,
}

/// How flow is computed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Method {
    /// Boiling in restrictions.
    pub flashing: Flashing,
    /// Friction in tubes.
    pub two_phase_friction: TwoPhaseFriction,
}
