//! The document: its fields, its file, its edits, and the physics input it stands for.
