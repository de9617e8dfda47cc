//! Root finding that the physics rooms share.

mod root;

pub use root::{Root, RootError, Tolerance, find_root};
