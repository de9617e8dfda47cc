//! Compressor, condenser and discharge of a recovery machine.
