//! The operating point.
