//! Root finding that the physics rooms share.
