//! A typed value that a draw can replace.

use crate::units::{Measure, Typed, three_figures};

/// A value in the document, in SI units.
pub(super) trait Slot {
    /// Puts another value there; what cannot stand there changes nothing.
    fn put(&mut self, si: f64);
    /// A value as a person would read it in the unit that stands there.
    fn text_of(&self, si: f64) -> String;
}

impl<Q: Measure> Slot for Typed<Q> {
    fn put(&mut self, si: f64) {
        // A plain SI unit where there is one: no rounding on the way.
        let plain = Q::UNITS.iter().find(|unit| unit.scale == 1.0 && unit.shift == 0.0);
        let Some(unit) = plain.or(Q::UNITS.first()) else { return };
        if let Ok(drawn) = Self::written_in(si, unit) {
            *self = drawn;
        }
    }

    fn text_of(&self, si: f64) -> String {
        let own = self.unit();
        let spelled = |unit: &&crate::units::Unit| {
            unit.spellings.iter().any(|spelling| spelling.eq_ignore_ascii_case(&own))
        };
        match Q::UNITS.iter().find(spelled) {
            Some(unit) => format!("{} {own}", three_figures(unit.from_si(si))).trim().to_owned(),
            None => three_figures(si),
        }
    }
}

/// What stands in an optional field, put there first if nothing does.
pub(super) fn filled<Q: Measure>(field: &mut Option<Typed<Q>>, usual_si: f64) -> Option<&mut Typed<Q>> {
    if field.is_none() {
        let unit = Q::UNITS.iter().find(|unit| unit.scale == 1.0 && unit.shift == 0.0)?;
        *field = Typed::written_in(usual_si, unit).ok();
    }
    field.as_mut()
}

#[cfg(test)]
mod tests {
    use super::*;
    use uom::si::f64::{Length, Ratio, ThermodynamicTemperature, VolumeRate};

    /// A drawn value goes in and comes out as it was, whatever unit stood there.
    #[test]
    fn a_value_comes_back_as_it_was_put() {
        let mut bore: Typed<Length> = Typed::parse("2.2 mm").unwrap();
        bore.put(0.002_345_678_9);
        assert_eq!(bore.si(), 0.002_345_678_9);
        let mut temperature: Typed<ThermodynamicTemperature> = Typed::parse("75 degF").unwrap();
        temperature.put(297.123_456);
        assert_eq!(temperature.si(), 297.123_456);
        let mut displacement: Typed<VolumeRate> = Typed::parse("0.42 cfm").unwrap();
        displacement.put(1.987e-4);
        assert_eq!(displacement.si(), 1.987e-4);
        let mut share: Typed<Ratio> = Typed::parse("5 %").unwrap();
        share.put(0.043);
        assert_eq!(share.si(), 0.043);
        share.put(f64::NAN);
        assert_eq!(share.si(), 0.043);
    }

    #[test]
    fn words_keep_the_unit_that_was_typed() {
        let bore: Typed<Length> = Typed::parse("2.2 mm").unwrap();
        assert_eq!(bore.text_of(0.0018), "1.80 mm");
        let temperature: Typed<ThermodynamicTemperature> = Typed::parse("75 °F").unwrap();
        assert_eq!(temperature.text_of(298.15), "77.0 degF");
    }
}
