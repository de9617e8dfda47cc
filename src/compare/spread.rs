//! How an uncertain value is spread: low, likely, high, and a triangle over them.
//!
//! A triangle is what three guessed numbers support: no value outside low and high, the likely one
//! likeliest, straight sides. Where a true distribution is known, it is narrower or wider; this
//! neglects that.

/// A value between `low` and `high`, likeliest at `likely`. SI units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread {
    low: f64,
    likely: f64,
    high: f64,
}

impl Spread {
    /// Low and high are moved out to the likely value where they would leave it outside.
    pub fn new(low: f64, likely: f64, high: f64) -> Self {
        Self { low: low.min(likely), likely, high: high.max(likely) }
    }

    /// The lowest value.
    pub fn low(&self) -> f64 {
        self.low
    }

    /// The likeliest value.
    pub fn likely(&self) -> f64 {
        self.likely
    }

    /// The highest value.
    pub fn high(&self) -> f64 {
        self.high
    }

    /// The value below which the share `u` of all lies.
    ///
    /// `a + √(u (b−a)(c−a))` up to the likeliest value `c`, then `b − √((1−u)(b−a)(b−c))`.
    ///
    /// # Valid
    /// `u` of 0 to 1; outside, the nearer end.
    /// # Source
    /// The triangle's density integrated and inverted (closed form).
    /// # Example
    /// low 0, likely 1, high 4, u = 1/16: √(1/16 · 4 · 1) = 0.5; u = 13/16: 4 − √(3/16 · 4 · 3) = 2.5.
    pub fn quantile(&self, u: f64) -> f64 {
        let u = u.clamp(0.0, 1.0);
        let width = self.high - self.low;
        if !(width > 0.0) {
            return self.likely;
        }
        let (below, above) = (self.likely - self.low, self.high - self.likely);
        if u * width < below {
            self.low + (u * width * below).sqrt()
        } else {
            self.high - ((1.0 - u) * width * above).sqrt()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(u: f64, expected: f64) {
        let got = Spread::new(0.0, 1.0, 4.0).quantile(u);
        assert!((got - expected).abs() < 1e-12, "{got}");
    }

    #[test]
    fn a_triangle_by_hand() {
        check(0.0, 0.0);
        check(1.0 / 16.0, 0.5);
        check(0.25, 1.0);
        check(13.0 / 16.0, 2.5);
        check(1.0, 4.0);
    }

    /// The mean of a triangle is a third of the sum of its corners.
    #[test]
    fn the_mean_is_a_third_of_the_corners() {
        let spread = Spread::new(1.8, 2.2, 2.8);
        let count = 10_000;
        let sum: f64 = (0..count).map(|i| spread.quantile((f64::from(i) + 0.5) / f64::from(count))).sum();
        assert!((sum / f64::from(count) - 6.8 / 3.0).abs() < 1e-6);
    }

    #[test]
    fn no_width_is_the_likely_value() {
        assert_eq!(Spread::new(2.0, 2.0, 2.0).quantile(0.3), 2.0);
        assert_eq!(Spread::new(3.0, 2.0, 1.0).quantile(0.3), 2.0);
        assert_eq!(Spread::new(2.0, 2.0, 3.0).quantile(0.0), 2.0);
    }
}
