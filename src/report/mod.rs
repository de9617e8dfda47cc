//! Words, tables and numbers for people and for programs.
