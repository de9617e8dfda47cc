//! The operating point: path, machine, cylinder and motor solved together.
