//! Root finding and integration in time that the physics rooms share.

mod ode;
mod root;

pub use ode::{Integrator, OdeError, Step};
pub use root::{Root, RootError, Tolerance, find_root};
