//! Exact conversion factors to SI, each derived from definitions.
//!
//! Published tables round these to seven digits; a length typed in feet must come back without
//! drift, so the products are written out here.

/// One international inch in metres. Definition of 1959.
pub const INCH_M: f64 = 0.0254;
/// One international foot in metres: twelve inches.
pub const FOOT_M: f64 = 0.3048;
/// One avoirdupois pound in kilograms. Definition of 1959.
pub const POUND_KG: f64 = 0.453_592_37;
/// One ounce in kilograms: a sixteenth of a pound.
pub const OUNCE_KG: f64 = POUND_KG / 16.0;
/// Standard gravity in m/s². CGPM 1901.
pub const STANDARD_GRAVITY_M_S2: f64 = 9.806_65;
/// One pound-force per square inch in pascals: `0.45359237 · 9.80665 / 0.0254²`.
pub const PSI_PA: f64 = 6_894.757_293_168_361;
/// One conventional millimetre of mercury in pascals: 13 595.1 kg/m³ under standard gravity.
pub const MILLIMETRE_OF_MERCURY_PA: f64 = 133.322_387_415;
/// One conventional inch of mercury in pascals.
pub const INCH_OF_MERCURY_PA: f64 = 25.4 * MILLIMETRE_OF_MERCURY_PA;
/// One standard atmosphere in pascals. CGPM 1954.
pub const STANDARD_ATMOSPHERE_PA: f64 = 101_325.0;
/// One cubic foot in cubic metres.
pub const CUBIC_FOOT_M3: f64 = FOOT_M * FOOT_M * FOOT_M;
/// One US liquid gallon in cubic metres: 231 cubic inches.
pub const US_GALLON_M3: f64 = 231.0 * INCH_M * INCH_M * INCH_M;
/// One mechanical horsepower in watts: 550 ft·lbf/s.
pub const HORSEPOWER_W: f64 = 550.0 * FOOT_M * POUND_KG * STANDARD_GRAVITY_M_S2;
/// One International Table British thermal unit in joules: `2326 J/kg · 1 lb` per degree.
pub const BTU_J: f64 = 2_326.0 * POUND_KG;
/// One Fahrenheit degree in kelvins.
pub const FAHRENHEIT_DEGREE_K: f64 = 5.0 / 9.0;
/// Zero on the Fahrenheit scale lies this many Fahrenheit degrees above absolute zero.
pub const FAHRENHEIT_SHIFT: f64 = 459.67;
/// Zero on the Celsius scale lies this many kelvins above absolute zero.
pub const CELSIUS_SHIFT_K: f64 = 273.15;
/// One cubic foot per minute in m³/s.
pub const CFM_M3_S: f64 = CUBIC_FOOT_M3 / 60.0;
/// Kv in m³/h of water at 1 bar for a Cv of 1 (US gal/min at 1 psi):
/// `231 in³ · 60 / √(psi / bar)`. A test works it out again, as roots are not constant.
pub const KV_PER_CV: f64 = 0.864_977_655_442_301_7;

#[cfg(test)]
mod tests {
    use super::*;

    /// From the definitions: no published value is needed.
    #[test]
    fn products_agree_with_their_definitions() {
        let same = |a: f64, b: f64| assert!((a / b - 1.0).abs() < 4.0 * f64::EPSILON, "{a} {b}");
        same(PSI_PA, POUND_KG * STANDARD_GRAVITY_M_S2 / (INCH_M * INCH_M));
        same(FOOT_M, 12.0 * INCH_M);
        same(KV_PER_CV, US_GALLON_M3 * 60.0 / (PSI_PA / 1.0e5).sqrt());
    }
}
