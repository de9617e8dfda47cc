//! The window. Draws what the library computed; computes no physics.

pub mod diagram;
pub mod style;
pub mod symbols;
pub mod widgets;
