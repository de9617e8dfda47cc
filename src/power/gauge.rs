//! Conductor sizes: American wire gauge (ASTM B258) and metric cross-sections (IEC 60228).
//! Sizes that the tables of this room cover and no others; an unknown size is an error.

use std::fmt;
use std::str::FromStr;

use uom::si::area::square_millimeter;
use uom::si::f64::{Area, Length};
use uom::si::length::inch;

use super::error::PowerError;

/// An American wire gauge: 18, 17, 16, 14, 12, 10, 8, 6 or 4.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Awg(u8);

impl Awg {
    /// The gauges that cords and branch circuits of this trade use, thinnest first.
    pub const KNOWN: [u8; 9] = [18, 17, 16, 14, 12, 10, 8, 6, 4];

    /// Checks a gauge number.
    ///
    /// # Errors
    /// [`PowerError::UnknownAwg`] for a number that is not in [`Awg::KNOWN`].
    pub fn new(number: i64) -> Result<Self, PowerError> {
        u8::try_from(number)
            .ok()
            .filter(|n| Self::KNOWN.contains(n))
            .map(Self)
            .ok_or(PowerError::UnknownAwg { got: number })
    }

    /// The gauge number.
    pub fn number(self) -> u8 {
        self.0
    }

    /// Diameter of a solid round conductor, `d = 0.005 in × 92^((36 − n)/39)`.
    ///
    /// # Source
    /// ASTM B258 (the defining geometric series between 36 AWG and 0000 AWG).
    /// # Example
    /// 14 AWG: 0.005 × 92^(22/39) = 0.06408 in
    pub fn solid_diameter(self) -> Length {
        let exponent = (36.0 - f64::from(self.0)) / 39.0;
        Length::new::<inch>(0.005 * 92f64.powf(exponent))
    }

    /// Metal cross-section, `π d²/4` of [`Awg::solid_diameter`]; stranding keeps it.
    pub fn area(self) -> Area {
        let d = self.solid_diameter();
        d * d * std::f64::consts::FRAC_PI_4
    }
}

impl fmt::Display for Awg {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} AWG", self.0)
    }
}

/// A metric conductor size: 0.5, 0.75, 1, 1.5, 2.5, 4, 6 or 10 mm².
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MetricArea(f64);

impl MetricArea {
    /// Nominal cross-sections in mm², thinnest first.
    pub const KNOWN_MM2: [f64; 8] = [0.5, 0.75, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0];

    /// Checks a nominal cross-section.
    ///
    /// # Errors
    /// [`PowerError::UnknownArea`] unless it is within 0.1 % of a size in
    /// [`MetricArea::KNOWN_MM2`].
    pub fn new(area: Area) -> Result<Self, PowerError> {
        let got_mm2 = area.get::<square_millimeter>();
        Self::KNOWN_MM2
            .into_iter()
            .find(|known| (got_mm2 - known).abs() <= 1e-3 * known)
            .map(Self)
            .ok_or(PowerError::UnknownArea { got_mm2 })
    }

    /// Nominal cross-section.
    pub fn area(self) -> Area {
        Area::new::<square_millimeter>(self.0)
    }

    pub(crate) fn mm2(self) -> f64 {
        self.0
    }
}

impl fmt::Display for MetricArea {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} mm²", self.0)
    }
}

/// A conductor size in either system.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Gauge {
    /// American wire gauge.
    Awg(Awg),
    /// Metric cross-section.
    Metric(MetricArea),
}

impl fmt::Display for Gauge {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Awg(awg) => awg.fmt(f),
            Self::Metric(area) => area.fmt(f),
        }
    }
}

impl FromStr for Gauge {
    type Err = PowerError;

    /// Reads `16 AWG`, `16AWG`, `1.5 mm2` or `1.5 mm²`, in any case.
    fn from_str(text: &str) -> Result<Self, PowerError> {
        let unreadable = || PowerError::UnreadableGauge { got: text.to_owned() };
        let lower = text.trim().to_lowercase();
        if let Some(number) = lower.strip_suffix("awg") {
            let number: i64 = number.trim().parse().map_err(|_| unreadable())?;
            return Awg::new(number).map(Self::Awg);
        }
        let number = lower
            .strip_suffix("mm2")
            .or_else(|| lower.strip_suffix("mm²"))
            .or_else(|| lower.strip_suffix("mm^2"))
            .ok_or_else(unreadable)?;
        let mm2: f64 = number.trim().parse().map_err(|_| unreadable())?;
        MetricArea::new(Area::new::<square_millimeter>(mm2)).map(Self::Metric)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn texts_are_read_or_refused_in_words() {
        assert_eq!("16 AWG".parse::<Gauge>().unwrap().to_string(), "16 AWG");
        assert_eq!("2.5mm2".parse::<Gauge>().unwrap().to_string(), "2.5 mm²");
        let text = |s: &str| s.parse::<Gauge>().unwrap_err().to_string();
        assert!(text("24 AWG").contains("24 AWG") && text("24 AWG").contains("18, 17, 16"));
        assert!(text("3 mm2").contains("3 mm²"));
        assert!(text("NaN mm2").contains("NaN"));
        assert!(text("thick").contains("thick"));
        assert!(text("-16 awg").contains("-16"));
    }
}
