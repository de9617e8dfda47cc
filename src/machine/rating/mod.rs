//! Printed ratings read backwards: the rating tests simulated, and the machine that would pass
//! them with the printed figures.
//!
//! [`Bench`] is the machine at its own inlet, without hoses, against a cylinder at saturation.
//! [`simulate`] runs one test on it; [`fit`] finds displacement and inlet throttle. Neglected: the
//! cooling of the test vessel (the apparatus holds it), oil, and whatever the test's own valves
//! cost.
//!
//! # Source
//! AHRI 740-2016, reproduced in 40 CFR 82 Subpart F, Appendix B3, sections 7.4.1.1 to 7.4.1.4.

mod bench;
mod blow_down;
mod ceiling;
mod error;
mod fit;
mod push_pull;
mod test;

pub use bench::{Bench, Draw};
pub use blow_down::{BlowDown, blow_down};
pub use ceiling::{Ceiling, CeilingKind, CeilingLimits, ceilings};
pub use error::RatingError;
pub use fit::{Fit, FitInput, Reproduced, ThrottleConflict, fit};
pub use push_pull::{PushPull, push_pull};
pub use test::{Averaging, RatedTest, TestKind, simulate};
