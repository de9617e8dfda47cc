//! Bands that are assumed where the document gives none. One place, so that pages can print it.
//!
//! All are common practice or invented, no source, unless one is named; a document's own band
//! always wins.

use super::super::spread::Spread;
use super::Basis;

/// A width that is assumed around a likely value.
#[derive(Debug, Clone, Copy)]
pub(super) struct Assumed {
    /// Said wherever the band is shown.
    pub words: &'static str,
    /// Half the width.
    half: Half,
    /// No value above this.
    cap: f64,
}

#[derive(Debug, Clone, Copy)]
enum Half {
    /// A share of the likely value.
    Share(f64),
    /// SI units.
    Plain(f64),
}

const fn share(words: &'static str, ratio: f64) -> Assumed {
    Assumed { words, half: Half::Share(ratio), cap: f64::INFINITY }
}

const fn plain(words: &'static str, half: f64) -> Assumed {
    Assumed { words, half: Half::Plain(half), cap: f64::INFINITY }
}

const fn up_to_one(assumed: Assumed) -> Assumed {
    Assumed { cap: 1.0, ..assumed }
}

impl Assumed {
    /// The spread around a likely value.
    pub fn around(&self, likely: f64) -> (Spread, Basis) {
        let half = match self.half {
            Half::Share(ratio) => ratio * likely.abs(),
            Half::Plain(half) => half,
        };
        (Spread::new(likely - half, likely, (likely + half).min(self.cap)), Basis::Assumed(self.words))
    }
}

/// Scatter of a line-up about its computed rate. Invented, and sized by one judgement: two
/// line-ups whose rates are within about 5 % of each other cannot be told apart on a job.
/// `1.28 · √2 · 7 %/√6 = 5.2 %` is where nine differences of ten lie on one side.
pub(super) const LINE_UP: Assumed = share("what no model holds of a line-up ±7 % of its rate", 0.07);
/// A bore without a band. Common practice, no source.
pub(super) const BORE: Assumed = share("bore ±10 %", 0.10);
/// Discharge coefficients, around 0.8 between a sharp edge (0.61) and a short tube (0.82): the
/// bore's band holds most of it already. Invented.
pub(super) const DISCHARGE_COEFFICIENT: Assumed = up_to_one(share("discharge coefficient ±8 %", 0.08));
/// A valve's flow coefficient without a band. Common practice, no source.
pub(super) const FLOW_COEFFICIENT: Assumed = share("flow coefficient ±10 %", 0.10);
/// A filter-drier's size, however it is written. Invented.
pub(super) const DRIER_SIZE: Assumed = share("filter-drier size ±15 %", 0.15);
/// What a used or loaded filter-drier keeps of its flow area: hardly known. Invented.
pub(super) const DRIER_AREA: Assumed = up_to_one(share("area left of a filter-drier ±30 %", 0.30));
/// Displacement without a band. Invented.
pub(super) const DISPLACEMENT: Assumed = share("displacement ±8 %", 0.08);
/// Clearance without a band. Invented.
pub(super) const CLEARANCE: Assumed = share("clearance ±30 %", 0.30);
/// Loss factor without a band. Invented.
pub(super) const LOSS_FACTOR: Assumed = up_to_one(share("loss factor ±4 %", 0.04));
/// Condenser conductance: dust, fan, sun. Invented.
pub(super) const CONDUCTANCE: Assumed = share("condenser conductance ±20 %", 0.20);
/// Condensing temperature that is taken as held. Invented.
pub(super) const CONDENSING: Assumed = plain("condensing temperature ±5 °F", 5.0 / 1.8);
/// Temperature of the source: a thermometer on a pipe. Common practice, no source.
pub(super) const SOURCE: Assumed = plain("source temperature ±3 °F", 3.0 / 1.8);
/// Temperature of the air. Common practice, no source.
pub(super) const AMBIENT: Assumed = plain("air temperature ±3 °F", 3.0 / 1.8);
/// Temperature of what is in the cylinder, which warms as it fills. Invented.
pub(super) const CYLINDER: Assumed = plain("cylinder temperature ±5 °F", 5.0 / 1.8);
/// Excess pressure of air in the cylinder, where it is given. Invented.
pub(super) const EXCESS_PRESSURE: Assumed = share("air in the cylinder ±30 %", 0.30);
/// Vapour's share at a port that draws both. Invented.
pub(super) const VAPOUR_SHARE: Assumed = up_to_one(share("vapour share ±50 %", 0.50));
/// Voltage at the panel. Common practice, no source: a meter's error and the swing of a day.
pub(super) const PANEL_VOLTAGE: Assumed = share("panel voltage ±2 %", 0.02);
/// Resistance and reactance behind the panel, where given. Invented.
pub(super) const SOURCE_IMPEDANCE: Assumed = share("impedance behind the panel ±30 %", 0.30);
/// Sag of a generator, where given. Invented.
pub(super) const SAG: Assumed = share("generator sag ±30 %", 0.30);
/// Length of the wiring in the wall, which nobody sees. Invented.
pub(super) const BRANCH_LENGTH: Assumed = share("length of the branch circuit ±20 %", 0.20);
/// Other loads on the circuit. Invented.
pub(super) const OTHER_LOAD: Assumed = share("other loads ±30 %", 0.30);
/// Contact resistances, where given. Invented.
pub(super) const CONTACT: Assumed = share("contact resistance ±50 %", 0.50);
/// Charge without a band: a nameplate, some of it leaked. Common practice, no source.
pub(super) const CHARGE: Assumed = share("charge ±10 %", 0.10);
/// Inside volume of the system, which nobody measures. Invented.
pub(super) const VOLUME: Assumed = share("system volume ±15 %", 0.15);
/// Heat capacity of the metal that chills with the charge, where given. Invented.
pub(super) const METAL: Assumed = share("heat capacity of the metal ±30 %", 0.30);
/// Heat that the air gives to system or cylinder, where given. Invented.
pub(super) const HEAT_GAIN: Assumed = share("heat gain ±30 %", 0.30);
/// Liquid out of reach and refrigerant in the oil, where given. Invented.
pub(super) const HELD_BACK: Assumed = up_to_one(share("share held back ±50 %", 0.50));
/// Minutes of people's hands, where given. Common practice, no source.
pub(super) const HANDS: Assumed = share("time of hands ±25 %", 0.25);
/// Locked-rotor current, where given. Invented.
pub(super) const LOCKED_ROTOR: Assumed = share("locked-rotor current ±10 %", 0.10);
/// Power factor with the rotor locked, where given: 0.5 to 0.8 around 0.65. Common practice, no
/// source.
pub(super) const STARTING_POWER_FACTOR: Assumed = up_to_one(share("starting power factor ±23 %", 0.23));

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_share_is_never_drawn_above_one() {
        let (spread, basis) = LOSS_FACTOR.around(0.98);
        assert!((spread.low() - 0.9408).abs() < 1e-12 && spread.high() == 1.0);
        assert_eq!(basis, Basis::Assumed("loss factor ±4 %"));
        let (spread, _) = SOURCE.around(300.0);
        assert!((spread.high() - 301.666_666_666).abs() < 1e-6);
    }
}
