//! Laws that hold whatever is drawn: random documents through the door, solved and followed.
//!
//! The short form runs with every `cargo test`. `NARROWS_LAWS=long` runs 1,000 cases of each law
//! (or `PROPTEST_CASES`), best in a release build.

mod job_laws;
mod limit_laws;
mod machine_laws;
mod path_laws;
mod power_laws;
mod pressure_laws;
mod regressions;
mod runner;
mod world;
