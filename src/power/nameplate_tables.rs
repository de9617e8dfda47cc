//! Published tables that stand in for what a nameplate leaves out: full-load current by
//! horsepower and locked-rotor code letters.

use uom::si::electric_current::ampere;
use uom::si::electric_potential::volt;
use uom::si::f64::{ElectricCurrent, ElectricPotential, Power};
use uom::si::power::watt;

use super::error::{PowerError, checked};

/// Watts in one mechanical horsepower, 550 ft·lbf/s.
pub(crate) const WATTS_PER_HORSEPOWER: f64 = 745.699_871_582_27;

/// Full-load current of a single-phase motor by its horsepower.
///
/// The 115 V column serves 100 to 130 V, the 230 V column anything higher.
///
/// # Source
/// NEC Table 430.248. These are planning values, usually above a nameplate's own.
/// # Errors
/// [`PowerError::UnknownHorsepower`] unless within 1 % of a listed size; voltage outside 100 to
/// 250 V.
/// # Example
/// 1 hp at 115 V: 16 A
pub fn full_load_current(
    shaft_power: Power,
    voltage: ElectricPotential,
) -> Result<ElectricCurrent, PowerError> {
    const ROWS: [(f64, f64, f64); 10] = [
        (1.0 / 6.0, 4.4, 2.2),
        (1.0 / 4.0, 5.8, 2.9),
        (1.0 / 3.0, 7.2, 3.6),
        (1.0 / 2.0, 9.8, 4.9),
        (3.0 / 4.0, 13.8, 6.9),
        (1.0, 16.0, 8.0),
        (1.5, 20.0, 10.0),
        (2.0, 24.0, 12.0),
        (3.0, 34.0, 17.0),
        (5.0, 56.0, 28.0),
    ];
    let rated_v = checked("motor voltage", voltage.get::<volt>(), "V", 100.0, 250.0)?;
    let got_hp = shaft_power.get::<watt>() / WATTS_PER_HORSEPOWER;
    let (_, low_v, high_v) = ROWS
        .into_iter()
        .find(|row| (got_hp - row.0).abs() <= 0.01 * row.0)
        .ok_or(PowerError::UnknownHorsepower { got_hp })?;
    Ok(ElectricCurrent::new::<ampere>(if rated_v <= 130.0 { low_v } else { high_v }))
}

/// A locked-rotor code letter: the band of kVA per horsepower that a motor draws at standstill.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CodeLetter(char);

impl CodeLetter {
    /// Checks a letter, in either case.
    ///
    /// # Errors
    /// [`PowerError::UnknownCodeLetter`] for I, O, Q and anything after V.
    pub fn new(letter: char) -> Result<Self, PowerError> {
        let upper = letter.to_ascii_uppercase();
        band(upper).map(|_| Self(upper)).ok_or(PowerError::UnknownCodeLetter { got: letter })
    }

    /// The letter.
    pub fn letter(self) -> char {
        self.0
    }

    /// Lowest and highest kVA per horsepower. V is open upward; its lower end stands for both.
    ///
    /// # Source
    /// NEC Table 430.7(B).
    pub fn kva_per_horsepower(self) -> (f64, f64) {
        band(self.0).unwrap_or((22.4, 22.4))
    }

    /// Lowest and highest locked-rotor current, `I = 1000 (kVA/hp) hp / V`.
    ///
    /// # Source
    /// Definition of the code letter, single phase.
    /// # Example
    /// Code L, 1/2 hp, 115 V: 9000 × 0.5 / 115 = 39.13 A to 43.43 A
    pub fn locked_rotor_current(
        self,
        shaft_power: Power,
        voltage: ElectricPotential,
    ) -> (ElectricCurrent, ElectricCurrent) {
        let hp = shaft_power.get::<watt>() / WATTS_PER_HORSEPOWER;
        let amps = |kva: f64| ElectricCurrent::new::<ampere>(1000.0 * kva * hp / voltage.get::<volt>());
        let (low, high) = self.kva_per_horsepower();
        (amps(low), amps(high))
    }
}

#[expect(clippy::approx_constant, reason = "3.14 kVA per horsepower is printed so; it is no pi")]
fn band(letter: char) -> Option<(f64, f64)> {
    Some(match letter {
        'A' => (0.0, 3.14),
        'B' => (3.15, 3.54),
        'C' => (3.55, 3.99),
        'D' => (4.0, 4.49),
        'E' => (4.5, 4.99),
        'F' => (5.0, 5.59),
        'G' => (5.6, 6.29),
        'H' => (6.3, 7.09),
        'J' => (7.1, 7.99),
        'K' => (8.0, 8.99),
        'L' => (9.0, 9.99),
        'M' => (10.0, 11.19),
        'N' => (11.2, 12.49),
        'P' => (12.5, 13.99),
        'R' => (14.0, 15.99),
        'S' => (16.0, 17.99),
        'T' => (18.0, 19.99),
        'U' => (20.0, 22.39),
        'V' => (22.4, 22.4),
        _ => return None,
    })
}
