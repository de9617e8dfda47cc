//! A recovery machine: inlet throttle, compressor, condenser, cut-out.

use uom::si::f64::Pressure;

use super::compressor::Compressor;
use super::condenser::Condenser;
use crate::flow::Restriction;

/// A machine as the physics sees it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RecoveryMachine {
    /// The compressor.
    pub compressor: Compressor,
    /// The machine's own inlet, a restriction that limits liquid; none if it is wide.
    pub inlet_throttle: Option<Restriction>,
    /// The condenser.
    pub condenser: Condenser,
    /// High-pressure cut-out, absolute; none if unknown.
    pub cut_out: Option<Pressure>,
    /// Whether its instructions let liquid in.
    pub takes_liquid: bool,
}
