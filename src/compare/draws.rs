//! Where draws come from: one seeded quasi-random number for each input and draw.
//!
//! Each input has its own Owen-scrambled and shuffled Sobol sequence, seeded by the input's key
//! ("padding", Burley 2020, *Practical hash-based Owen scrambling*, JCGT 9(4), as the crate
//! documents it). So every input alone is spread evenly, inputs pair up at random, kits that own
//! the same part share its draws, and adding a part or a kit changes nobody else's draws.

use super::error::CompareError;

/// How many draws a band is made of if nobody says otherwise: a power of two, which spreads
/// Sobol's numbers evenly.
pub const DEFAULT_DRAWS: usize = 1024;

/// How many whole jobs a band is made of, in the terminal: milliseconds each. From seed to seed an
/// end of a band moves by 4 to 8 % of its width then, by 1 to 3 % with 256 (standard deviation).
pub const DEFAULT_JOB_DRAWS: usize = 64;

/// The crate's longest sequence.
const MOST_DRAWS: usize = 1 << 16;

/// How many draws, and from which seed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DrawPlan {
    count: u32,
    seed: u32,
}

impl Default for DrawPlan {
    fn default() -> Self {
        Self { count: DEFAULT_DRAWS as u32, seed: 1 }
    }
}

impl DrawPlan {
    /// A plan.
    ///
    /// # Errors
    /// Fewer than two draws, or more than 65536.
    pub fn new(count: usize, seed: u32) -> Result<Self, CompareError> {
        let error = CompareError::Draws { count, most: MOST_DRAWS };
        match u32::try_from(count) {
            Ok(small) if (2..=MOST_DRAWS).contains(&count) => Ok(Self { count: small, seed }),
            _ => Err(error),
        }
    }

    /// How many draws.
    pub fn count(&self) -> usize {
        self.count as usize
    }

    /// The seed.
    pub fn seed(&self) -> u32 {
        self.seed
    }

    /// The number of the next draw; none if all are made.
    pub(super) fn next(&self, made: usize) -> Option<u32> {
        u32::try_from(made).ok().filter(|index| *index < self.count)
    }

    /// A number of 0 to 1 for the input `key` in draw `index`.
    pub(super) fn uniform(&self, key: &str, index: u32) -> f64 {
        f64::from(sobol_burley::sample(index % (MOST_DRAWS as u32), 0, self.seed_of(key)))
    }

    fn seed_of(&self, key: &str) -> u32 {
        fnv1a(key.bytes().chain(self.seed.to_le_bytes()))
    }
}

/// The 32-bit FNV-1a hash (Fowler, Noll, Vo; constants as they publish them).
fn fnv1a(bytes: impl Iterator<Item = u8>) -> u32 {
    bytes.fold(0x811c_9dc5, |hash, byte| (hash ^ u32::from(byte)).wrapping_mul(0x0100_0193))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Test vectors that the authors of the hash publish.
    #[test]
    fn the_hash_is_the_published_one() {
        assert_eq!(fnv1a("".bytes()), 0x811c_9dc5);
        assert_eq!(fnv1a("a".bytes()), 0xe40c_292c);
        assert_eq!(fnv1a("foobar".bytes()), 0xbf9c_f968);
    }

    /// A scrambled Sobol sequence of 2^k points has one point in each of 2^k equal cells.
    #[test]
    fn each_input_is_spread_evenly() {
        let plan = DrawPlan::new(256, 7).unwrap();
        for key in ["core-depressed.bore", "source.temperature"] {
            let mut cells = [0; 256];
            for index in 0..plan.count {
                cells[(plan.uniform(key, index) * 256.0) as usize] += 1;
            }
            assert!(cells.iter().all(|count| *count == 1), "{key}: {cells:?}");
        }
    }

    /// Correlation of two independent samples of 1024 is within 4/√1024 = 0.125 nearly always.
    #[test]
    fn inputs_do_not_follow_each_other() {
        let plan = DrawPlan::default();
        let keys =
            ["core-depressed.bore", "hose-quarter.bore", "hose-quarter-3-ft.bore", "source.temperature"];
        for (a, one) in keys.iter().enumerate() {
            for other in &keys[a + 1..] {
                let sum: f64 = (0..plan.count)
                    .map(|i| (plan.uniform(one, i) - 0.5) * (plan.uniform(other, i) - 0.5))
                    .sum();
                let correlation = 12.0 * sum / plan.count() as f64;
                assert!(correlation.abs() < 0.125, "{one}, {other}: {correlation}");
            }
        }
    }

    #[test]
    fn plans_that_cannot_be_drawn_are_refused() {
        for count in [0, 1, 65_537, usize::MAX] {
            assert!(DrawPlan::new(count, 1).is_err(), "{count}");
        }
        assert!(DrawPlan::new(65_536, 1).is_ok());
    }

    #[test]
    fn another_seed_is_another_sequence() {
        let (one, other) = (DrawPlan::new(16, 1).unwrap(), DrawPlan::new(16, 2).unwrap());
        assert!((0..one.count).any(|i| one.uniform("x", i) != other.uniform("x", i)));
    }
}
