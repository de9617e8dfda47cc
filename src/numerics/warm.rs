//! A root sought from where the last one lay.

/// Where a search ended, and how the function changed there: the next one starts from it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Warm {
    /// The root.
    pub x: f64,
    /// The function's slope there.
    pub slope: f64,
}

const MAX_STEPS: usize = 14;

impl Warm {
    /// Follows secants to a root, and hands on what goes with it.
    ///
    /// - `at`: the function, and what goes with it; none where it has no value
    /// - `enough`: size of the function that counts as zero
    /// - `stride`: no step is longer
    ///
    /// None where they do not lead to it soon, or the slope changes its sign: a bracket is safer then.
    pub fn root<T>(
        self,
        mut at: impl FnMut(f64) -> Option<(f64, T)>,
        enough: f64,
        stride: f64,
    ) -> Option<(T, Self)> {
        let Self { mut x, mut slope } = self;
        let mut last: Option<(f64, f64)> = None;
        for _ in 0..MAX_STEPS {
            let (miss, found) = at(x)?;
            if let Some((x0, miss0)) = last
                && x != x0
            {
                slope = (miss - miss0) / (x - x0);
            }
            if !(slope * self.slope > 0.0) {
                return None;
            }
            if miss.abs() <= enough {
                return Some((found, Self { x, slope }));
            }
            last = Some((x, miss));
            x -= (miss / slope).clamp(-stride, stride);
        }
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn seek(start: Warm, function: impl Fn(f64) -> f64) -> (Option<f64>, usize) {
        let mut calls = 0;
        let root = start.root(
            |x| {
                calls += 1;
                Some((function(x), x))
            },
            1e-12,
            1.0,
        );
        (root.map(|(x, _)| x), calls)
    }

    /// √2 and the root of e^x = 3, both known in closed form.
    #[test]
    fn a_near_start_takes_few_steps() {
        let (root, calls) = seek(Warm { x: 1.41, slope: 2.8 }, |x| x * x - 2.0);
        assert!((root.unwrap() - 2f64.sqrt()).abs() < 1e-11 && calls <= 5, "{root:?} {calls}");
        let (root, calls) = seek(Warm { x: 1.0, slope: 3.0 }, |x| 3.0 - x.exp());
        assert_eq!((root, calls), (None, 2), "the slope has the other sign");
        let (root, calls) = seek(Warm { x: 1.0, slope: -3.0 }, |x| 3.0 - x.exp());
        assert!((root.unwrap() - 3f64.ln()).abs() < 1e-11 && calls <= 7, "{root:?} {calls}");
    }

    #[test]
    fn what_has_no_root_is_given_up() {
        assert_eq!(seek(Warm { x: 1.0, slope: 2.0 }, |x| x * x + 1.0).0, None);
        assert_eq!(seek(Warm { x: 1.0, slope: 1.0 }, |_| f64::NAN).0, None);
        assert_eq!(Warm { x: 1.0, slope: 1.0 }.root(|_| None::<(f64, ())>, 1e-9, 1.0), None);
    }
}
