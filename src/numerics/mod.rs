//! Root finding and integration in time that the physics rooms share.

mod cube_root;
mod ode;
mod root;
mod warm;

pub use cube_root::cube_root;
pub use ode::{Integrator, OdeError, Step};
pub use root::{Root, RootError, Tolerance, find_root};
pub use warm::Warm;
