//! Tests that drive the panels by label.
