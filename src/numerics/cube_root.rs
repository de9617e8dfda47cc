//! The cube root, in a third of the time of the library's.
//!
//! Every property look-up takes one, and friction takes more. The bits of the exponent divided by
//! three give a guess `y` within 5 %. With `h = 1 - y³/x` the root is `y (1 - h)^(-1/3)`; that
//! binomial series to the fifth power of `h` leaves 3e-6, and once more to the second less than
//! 4e-16.
//!
//! Source: the guess is that of W. Kahan, "Computing a real cube root" (1991), as in the C
//! libraries; from memory. The binomial series: any text on calculus.

/// A third of the exponent's bias, shifted to its place, and what makes the guess's error even.
const GUESS_BITS: u64 = 0x2A9F_7893_0000_0000;

/// The cube root of a number that is not negative; others are left to the library.
pub fn cube_root(x: f64) -> f64 {
    if !(f64::MIN_POSITIVE..=1e100).contains(&x) {
        return x.cbrt();
    }
    let inverse = 1.0 / x;
    let y = f64::from_bits(x.to_bits() / 3 + GUESS_BITS);
    let h = 1.0 - y * y * y * inverse;
    let (even, odd) = (1.0 + h * h * (C[2] + h * h * C[4]), C[1] + h * h * (C[3] + h * h * C[5]));
    let y = y * (even + h * odd);
    let h = 1.0 - y * y * y * inverse;
    y + y * h * (C[1] + h * C[2])
}

/// `(1 - h)^(-1/3) = Σ C[k] h^k`.
const C: [f64; 6] = [1.0, 1.0 / 3.0, 2.0 / 9.0, 14.0 / 81.0, 35.0 / 243.0, 91.0 / 729.0];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cubes_come_back_exactly_enough() {
        for i in 1..20_000 {
            let root = (f64::from(i) * 1e-3 - 10.0).exp();
            let got = cube_root(root * root * root);
            assert!((got / root - 1.0).abs() < 1e-15, "{got} {root}");
        }
        assert_eq!(cube_root(27.0), 3.0);
        assert_eq!(cube_root(0.0), 0.0);
        assert_eq!(cube_root(-8.0), -2.0);
        assert!(cube_root(f64::NAN).is_nan() && cube_root(f64::INFINITY).is_infinite());
    }
}
