//! The explicit step: an embedded Runge–Kutta pair with dense output.
//!
//! Sources: J. R. Dormand, P. J. Prince, "A family of embedded Runge–Kutta formulae", J. Comp.
//! Appl. Math. 6 (1980) 19–26; dense output, step control and the sign of stiffness after E. Hairer,
//! S. P. Nørsett, G. Wanner, *Solving Ordinary Differential Equations I*, 2nd ed., II.4–II.6, and II
//! (*Stiff and Differential-Algebraic Problems*), IV.2 (coefficients from memory; the tests show their
//! order).

use super::{HELD_BACK, Integrator, Step, Trial, along};

/// The pair is stable up to a product of length and eigenvalue of 3.3: a step beyond the second of these is
/// about to be held back. One beyond the first may be, where the eigenvalue differs from place to place, as
/// with flows that go with the root of a small difference of pressure.
const STABLE: [f64; 2] = [1.2, 2.5];

impl<const N: usize> Integrator<N> {
    pub(super) fn explicit<E>(
        &self,
        rhs: &mut impl FnMut(f64, &[f64; N]) -> Result<[f64; N], E>,
        k1: [f64; N],
        h: f64,
    ) -> Result<Trial<N>, E> {
        let (t, y) = (self.time_s, &self.state);
        let k2 = rhs(t + h / 5.0, &along(y, h, &[(1.0 / 5.0, &k1)]))?;
        let k3 = rhs(t + 0.3 * h, &along(y, h, &[(3.0 / 40.0, &k1), (9.0 / 40.0, &k2)]))?;
        let k4 =
            rhs(t + 0.8 * h, &along(y, h, &[(44.0 / 45.0, &k1), (-56.0 / 15.0, &k2), (32.0 / 9.0, &k3)]))?;
        let fifth = [
            (19372.0 / 6561.0, &k1),
            (-25360.0 / 2187.0, &k2),
            (64448.0 / 6561.0, &k3),
            (-212.0 / 729.0, &k4),
        ];
        let k5 = rhs(t + 8.0 / 9.0 * h, &along(y, h, &fifth))?;
        let sixth = [
            (9017.0 / 3168.0, &k1),
            (-355.0 / 33.0, &k2),
            (46732.0 / 5247.0, &k3),
            (49.0 / 176.0, &k4),
            (-5103.0 / 18656.0, &k5),
        ];
        let before = along(y, h, &sixth);
        let k6 = rhs(t + h, &before)?;
        let last = [
            (35.0 / 384.0, &k1),
            (500.0 / 1113.0, &k3),
            (125.0 / 192.0, &k4),
            (-2187.0 / 6784.0, &k5),
            (11.0 / 84.0, &k6),
        ];
        let end = along(y, h, &last);
        let k7 = rhs(t + h, &end)?;
        let error_of = |i: usize| {
            h * (71.0 / 57600.0 * k1[i] - 71.0 / 16695.0 * k3[i] + 71.0 / 1920.0 * k4[i]
                - 17253.0 / 339200.0 * k5[i]
                + 22.0 / 525.0 * k6[i]
                - k7[i] / 40.0)
        };
        // Two states at one time: how their slopes differ shows the largest eigenvalue.
        let bend = h * self.norm(|i| k7[i] - k6[i], &end);
        let apart = self.norm(|i| end[i] - before[i], &end);
        let [may_be, is_about_to_be] = STABLE.map(|product| bend > product * apart);
        // A slope that has left on its way and is back at the end swings about what pulls it, faster than the
        // step. Where that pull ends at a kink, the eigenvalue between two states does not show it.
        let swings = self.norm(|i| k4[i] - k7[i], &end) > self.norm(|i| k1[i] - k7[i], &end);
        Ok(Trial {
            step: Step::new(t, h, [y, &end], [&k1, &k7], rest(h, [&k1, &k3, &k4, &k5, &k6, &k7])),
            slope: k7,
            error: self.norm(error_of, &end),
            order: 0.2,
            held_back: if is_about_to_be || swings { HELD_BACK } else { u32::from(may_be) },
        })
    }
}

/// What bends the curve beyond a cubic (Hairer's CONTD5).
fn rest<const N: usize>(h: f64, k: [&[f64; N]; 6]) -> [f64; N] {
    const WEIGHTS: [f64; 6] = [
        -12_715_105_075.0 / 11_282_082_432.0,
        87_487_479_700.0 / 32_700_410_799.0,
        -10_690_763_975.0 / 1_880_347_072.0,
        701_980_252_875.0 / 199_316_789_632.0,
        -1_453_857_185.0 / 822_651_844.0,
        69_997_945.0 / 29_380_423.0,
    ];
    std::array::from_fn(|i| h * WEIGHTS.iter().zip(k).map(|(w, k)| w * k[i]).sum::<f64>())
}
