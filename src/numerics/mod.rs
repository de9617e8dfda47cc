//! Root finding and integration in time that the physics rooms share.

mod cube_root;
mod ode;
mod root;

pub use cube_root::cube_root;
pub use ode::{Integrator, OdeError, Step};
pub use root::{Root, RootError, Tolerance, find_root};
