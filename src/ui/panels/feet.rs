//! What stands below the pressure stairs on the Bench, and how it gives way where there is little
//! height: the clock becomes a bar first, then the power picture.

use crate::ui::style::Measures;
use crate::ui::style::measures::STRIP;

/// One of them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Foot {
    /// Its height.
    pub height: f32,
    /// It is one line, not a picture.
    pub is_strip: bool,
}

impl Foot {
    fn low(self) -> Self {
        Self { height: self.height.min(STRIP), is_strip: true }
    }
}

/// Both of them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Feet {
    /// The power picture.
    pub power: Foot,
    /// The job clock.
    pub clock: Foot,
}

impl Feet {
    /// As high as can be when so much of the height is needed above them; without a job there is
    /// no clock.
    pub fn within(height: f32, needed: f32, has_job: bool, m: &Measures) -> Self {
        let power = Foot { height: m.power.min(height * 0.34), is_strip: m.strips };
        let clock = Foot { height: if has_job { m.clock } else { 0.0 }, is_strip: m.strips };
        let ways = [(power, clock), (power, clock.low()), (power.low(), clock.low())];
        let fits = |(power, clock): &(Foot, Foot)| height - power.height - clock.height >= needed;
        let (power, clock) = ways.into_iter().find(fits).unwrap_or(ways[2]);
        Self { power, clock }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn strips(height: f32, has_job: bool) -> (bool, bool) {
        let m = Measures::for_window(1366.0, 768.0, false);
        let feet = Feet::within(height, 300.0, has_job, &m);
        (feet.power.is_strip, feet.clock.is_strip)
    }

    /// By hand: 300 + 190 + 104 = 594, 300 + 190 + 58 = 548; below 190 / 0.34 = 558.8 the picture of
    /// power has 0.34 of the height: 0.66 · 543 − 58 = 300.4, 0.66 · 455 = 300.3.
    #[test]
    fn the_clock_gives_way_first_then_the_power() {
        assert_eq!(strips(594.0, true), (false, false));
        assert_eq!(strips(593.0, true), (false, true));
        assert_eq!(strips(543.0, true), (false, true));
        assert_eq!(strips(542.0, true), (true, true));
        assert_eq!(strips(0.0, true), (true, true));
        assert_eq!(strips(455.0, false), (false, false));
        assert!(strips(454.0, false).0);
    }
}
