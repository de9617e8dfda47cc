//! The parts people own, as they are written down.
