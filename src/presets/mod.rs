//! Parts and scenarios that are built into the program.
