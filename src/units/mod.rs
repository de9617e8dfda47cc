//! Quantities: aliases, gauge pressure, and numbers kept as a person typed them.
