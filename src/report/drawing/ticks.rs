//! Round values to mark on an axis, and a straight scale between values and pixels.

use std::ops::RangeInclusive;

/// A straight scale along one axis of the screen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale {
    /// Values at the two ends.
    pub values: (f64, f64),
    /// Pixels of the same ends; they may fall where values rise.
    pub pixels: (f32, f32),
}

impl Scale {
    /// Values from left to right.
    pub fn across(values: (f64, f64), x: impl Into<RangeInclusive<f32>>) -> Self {
        Self { values, pixels: x.into().into_inner() }
    }

    /// Values from the bottom up.
    pub fn up(values: (f64, f64), y: impl Into<RangeInclusive<f32>>) -> Self {
        let (top, bottom) = y.into().into_inner();
        Self { values, pixels: (bottom, top) }
    }

    /// Where a value lies; what is no number lies at the beginning.
    pub fn at(&self, value: f64) -> f32 {
        let span = self.values.1 - self.values.0;
        let share = (value - self.values.0) / span;
        let share = if share.is_finite() { share.clamp(-4.0, 5.0) as f32 } else { 0.0 };
        self.pixels.0 + share * (self.pixels.1 - self.pixels.0)
    }

    /// The value at a place, within the ends.
    pub fn value(&self, pixel: f32) -> f64 {
        let share = f64::from((pixel - self.pixels.0) / (self.pixels.1 - self.pixels.0));
        let share = if share.is_finite() { share.clamp(0.0, 1.0) } else { 0.0 };
        self.values.0 + share * (self.values.1 - self.values.0)
    }

    /// Round values within the ends, at least `min_px` apart.
    pub fn ticks(&self, min_px: f32) -> Vec<f64> {
        self.ticks_of(min_px, round_step)
    }

    /// Round times in minutes within the ends, at least `min_px` apart.
    pub fn time_ticks(&self, min_px: f32) -> Vec<f64> {
        self.ticks_of(min_px, time_step)
    }

    fn ticks_of(&self, min_px: f32, step_of: fn(f64) -> f64) -> Vec<f64> {
        let span = (self.values.1 - self.values.0).abs();
        let room = f64::from((self.pixels.1 - self.pixels.0).abs());
        if !(span > 0.0 && span.is_finite() && room > 0.0) {
            return Vec::new();
        }
        let step = step_of(span * f64::from(min_px) / room);
        let low = self.values.0.min(self.values.1);
        let (first, last) =
            ((low / step).ceil() as i64, ((low + span) / step * (1.0 + 1e-12)).floor() as i64);
        if last.saturating_sub(first) > 400 {
            return Vec::new();
        }
        (first..=last).map(|i| i as f64 * step).collect()
    }
}

/// The smallest of 1, 2, 5 times a power of ten that is not below `least`.
pub fn round_step(least: f64) -> f64 {
    if !(least.is_finite() && least > 0.0) {
        return 1.0;
    }
    let power = 10f64.powf(least.log10().floor());
    [1.0, 2.0, 5.0, 10.0].into_iter().map(|k| k * power).find(|s| *s >= least).unwrap_or(10.0 * power)
}

/// The smallest usual step of a clock, in minutes, that is not below `least`.
pub fn time_step(least: f64) -> f64 {
    const STEPS: [f64; 15] =
        [0.25, 0.5, 1.0, 2.0, 5.0, 10.0, 15.0, 30.0, 60.0, 120.0, 240.0, 480.0, 720.0, 1440.0, 2880.0];
    STEPS.into_iter().find(|s| *s >= least).unwrap_or_else(|| 1440.0 * round_step(least / 1440.0))
}

/// A round number of an axis, without needless decimals.
pub fn short(number: f64) -> String {
    let decimals = (0..4).find(|d| {
        let shifted = number * 10f64.powi(*d);
        (shifted - shifted.round()).abs() < 1e-6 * shifted.abs().max(1.0)
    });
    let size = number.abs();
    // What is not round is given to three figures.
    let decimals = match decimals {
        Some(d) if d <= 2 => d as usize,
        _ if size >= 100.0 => 0,
        _ if size >= 10.0 => 1,
        _ => 2,
    };
    let text = format!("{:.decimals$}", size);
    if number < 0.0 && text.contains(|c: char| ('1'..='9').contains(&c)) {
        format!("\u{2212}{text}")
    } else {
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 0 to 50 on 500 px is 10 px a unit; 60 px apart needs 6, the next round step is 10.
    #[test]
    fn ticks_by_hand() {
        let scale = Scale::across((0.0, 50.0), 0.0..=500.0);
        assert_eq!(scale.ticks(60.0), [0.0, 10.0, 20.0, 30.0, 40.0, 50.0]);
        assert_eq!(scale.at(25.0), 250.0);
        assert_eq!(scale.value(125.0), 12.5);
        let up = Scale::up((0.0, 10.0), 100.0..=200.0);
        assert_eq!((up.at(0.0), up.at(10.0)), (200.0, 100.0));
    }

    #[test]
    fn times_are_marked_as_on_a_clock() {
        let scale = Scale::across((0.0, 200.0), 0.0..=400.0);
        assert_eq!(scale.time_ticks(50.0), [0.0, 30.0, 60.0, 90.0, 120.0, 150.0, 180.0]);
        assert_eq!(time_step(100.0), 120.0);
    }

    #[test]
    fn odd_ends_are_no_trouble() {
        for values in [(0.0, 0.0), (f64::NAN, 1.0), (0.0, f64::INFINITY), (5.0, 5.0), (0.0, 1e300)] {
            for span in [0.0, 1.0, 300.0] {
                let scale = Scale::across(values, 0.0..=span);
                assert!(scale.at(3.0).is_finite());
                scale.ticks(30.0);
                scale.time_ticks(30.0);
            }
        }
    }
}
