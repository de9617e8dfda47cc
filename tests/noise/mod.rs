//! Seeded noise (splitmix64), so that the tests need no other crate.
#![allow(dead_code, reason = "each test file uses its own part of this")]

/// A generator; the number is its seed.
pub struct Noise(pub u64);

impl Noise {
    /// Evenly spread from low to high.
    pub fn uniform(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        let share = ((z ^ (z >> 31)) >> 11) as f64 / (1u64 << 53) as f64;
        low + (high - low) * share
    }

    /// Sum of twelve uniforms less six: nearly a standard normal.
    pub fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.uniform(0.0, 1.0)).sum::<f64>() - 6.0
    }
}
