//! Resistance and reactance of a copper, aluminium or copper-clad aluminium conductor per length.
//!
//! Direct-current resistance from published tables, corrected for temperature. Skin effect is
//! neglected (below 0.1 % at 60 Hz up to 4 AWG), joints are counted elsewhere.

use std::ops::Div;

use uom::si::electrical_resistance::ohm;
use uom::si::f64::{ElectricalResistance, Frequency, Length, ThermodynamicTemperature};
use uom::si::frequency::hertz;
use uom::si::length::meter;
use uom::si::thermodynamic_temperature::degree_celsius;

use super::gauge::{Awg, Gauge, MetricArea};

/// Electrical resistance per length, which the units library does not name.
pub type ResistancePerLength = <ElectricalResistance as Div<Length>>::Output;

/// Metres in 1000 ft, for tables printed in ohm per thousand feet.
pub(crate) const METERS_PER_KFT: f64 = 304.8;

/// What the conductor is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Metal {
    /// Uncoated annealed copper.
    Copper,
    /// Aluminium for electrical use.
    Aluminium,
    /// Aluminium with a copper skin of 10 % by volume, found in cheap cords.
    CopperCladAluminium,
}

/// How the conductor is built.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stranding {
    /// One wire, usual in building wiring of 10 AWG and thinner.
    Solid,
    /// Many wires, always so in an extension cord.
    Stranded,
}

/// One conductor of a cord or of a branch circuit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conductor {
    /// Size.
    pub gauge: Gauge,
    /// Material.
    pub metal: Metal,
    /// Build.
    pub stranding: Stranding,
}

impl Conductor {
    /// A stranded copper conductor, as in most cords.
    pub fn stranded_copper(gauge: Gauge) -> Self {
        Self { gauge, metal: Metal::Copper, stranding: Stranding::Stranded }
    }

    /// A solid copper conductor, as in most branch circuits.
    pub fn solid_copper(gauge: Gauge) -> Self {
        Self { gauge, metal: Metal::Copper, stranding: Stranding::Solid }
    }

    /// Resistance per length of **one** conductor: `r = r_ref (1 + α_ref (T − T_ref))`.
    ///
    /// # Valid
    /// −40 to 150 °C; linear beyond.
    /// # Source
    /// AWG: NEC Chapter 9 Table 8 at 75 °C, α₇₅ = 0.00323/K copper, 0.00330/K aluminium (its
    /// note, from memory). Metric: IEC 60228 class 5 (stranded) and class 1 (solid) at 20 °C,
    /// α₂₀ = 0.00393/K. Copper-clad: 62.9 % of copper's conductivity at 20 °C (the minimum of
    /// ASTM B566 class 10A as printed by wire makers), α₂₀ = 0.0040/K from memory.
    /// # Example
    /// 14 AWG stranded copper at 20 °C: 3.14 × (1 − 0.00323 × 55) = 2.5822 Ω/kft
    pub fn resistance_per_length(&self, temperature: ThermodynamicTemperature) -> ResistancePerLength {
        let ohm_m = self.line().at(temperature.get::<degree_celsius>());
        ElectricalResistance::new::<ohm>(ohm_m) / Length::new::<meter>(1.0)
    }

    /// Inductive reactance per length of **one** conductor beside its partner.
    ///
    /// # Source
    /// AWG: NEC Chapter 9 Table 9, non-magnetic raceway, 60 Hz; 16 to 18 AWG extrapolated from
    /// it. Metric: 0.1 Ω/km at 50 Hz, common practice, no source. Proportional to frequency.
    pub fn reactance_per_length(&self, frequency: Frequency) -> ResistancePerLength {
        let ohm_m = self.reactance_ohm_m(frequency.get::<hertz>());
        ElectricalResistance::new::<ohm>(ohm_m) / Length::new::<meter>(1.0)
    }

    pub(crate) fn reactance_ohm_m(&self, frequency_hz: f64) -> f64 {
        match self.gauge {
            Gauge::Awg(awg) => awg_row(awg).reactance_ohm_kft / METERS_PER_KFT * frequency_hz / 60.0,
            Gauge::Metric(_) => 0.1e-3 * frequency_hz / 50.0,
        }
    }

    /// The resistance line of this conductor over temperature.
    pub(crate) fn line(&self) -> ResistanceLine {
        let copper = match self.gauge {
            Gauge::Awg(awg) => awg_copper_line(awg, self.stranding),
            Gauge::Metric(area) => metric_copper_line(area, self.stranding),
        };
        match (self.metal, self.gauge) {
            (Metal::Copper, _) => copper,
            (Metal::Aluminium, Gauge::Awg(awg)) => awg_aluminium_line(awg, self.stranding),
            // Same metal cross-section, less conductive metal.
            (Metal::Aluminium, Gauge::Metric(_)) => ResistanceLine {
                ohm_m: copper.at(20.0) / ALUMINIUM_CONDUCTIVITY_RATIO,
                per_k: 0.00403,
                reference_c: 20.0,
            },
            (Metal::CopperCladAluminium, _) => ResistanceLine {
                ohm_m: copper.at(20.0) / COPPER_CLAD_CONDUCTIVITY_RATIO,
                per_k: 0.0040,
                reference_c: 20.0,
            },
        }
    }
}

/// Aluminium for electrical use against annealed copper, 61 % IACS.
const ALUMINIUM_CONDUCTIVITY_RATIO: f64 = 0.61;

/// Copper-clad aluminium, 10 % copper by volume, against annealed copper.
const COPPER_CLAD_CONDUCTIVITY_RATIO: f64 = 0.629;

/// Resistance per length as a straight line in temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct ResistanceLine {
    pub ohm_m: f64,
    pub per_k: f64,
    pub reference_c: f64,
}

impl ResistanceLine {
    pub fn at(&self, temperature_c: f64) -> f64 {
        self.ohm_m * (1.0 + self.per_k * (temperature_c - self.reference_c))
    }
}

/// One row of NEC Chapter 9 Table 8 (75 °C, Ω/kft) with the reactance of Table 9.
struct AwgRow {
    awg: u8,
    copper_solid: f64,
    copper_stranded: f64,
    aluminium_solid: f64,
    aluminium_stranded: f64,
    reactance_ohm_kft: f64,
}

const fn row(
    awg: u8,
    (copper_solid, copper_stranded): (f64, f64),
    (aluminium_solid, aluminium_stranded): (f64, f64),
    reactance_ohm_kft: f64,
) -> AwgRow {
    AwgRow { awg, copper_solid, copper_stranded, aluminium_solid, aluminium_stranded, reactance_ohm_kft }
}

/// Copper as printed in Table 8. The table has no 17 AWG (16 AWG × 92^(2/39), the B258 area
/// step) and no solid 6 and 4 AWG (stranded / 1.02). Aluminium from memory of the same table,
/// 14 to 4 AWG solid agreeing with a printed copy.
#[expect(clippy::approx_constant, reason = "3.14 ohm per kft is printed so; it is no pi")]
const AWG_ROWS: [AwgRow; 9] = [
    row(18, (7.77, 7.95), (12.8, 13.1), 0.062),
    row(17, (6.166, 6.292), (10.15, 10.35), 0.061),
    row(16, (4.89, 4.99), (8.05, 8.21), 0.060),
    row(14, (3.07, 3.14), (5.06, 5.17), 0.058),
    row(12, (1.93, 1.98), (3.18, 3.25), 0.054),
    row(10, (1.21, 1.24), (2.00, 2.04), 0.050),
    row(8, (0.764, 0.778), (1.26, 1.28), 0.052),
    row(6, (0.481, 0.491), (0.792, 0.808), 0.051),
    row(4, (0.302, 0.308), (0.498, 0.508), 0.048),
];

fn awg_row(awg: Awg) -> &'static AwgRow {
    // `Awg` admits only listed numbers; the last row keeps the function total.
    AWG_ROWS.iter().find(|row| row.awg == awg.number()).unwrap_or(&AWG_ROWS[8])
}

fn awg_copper_line(awg: Awg, stranding: Stranding) -> ResistanceLine {
    let row = awg_row(awg);
    let ohm_kft = match stranding {
        Stranding::Solid => row.copper_solid,
        Stranding::Stranded => row.copper_stranded,
    };
    ResistanceLine { ohm_m: ohm_kft / METERS_PER_KFT, per_k: 0.00323, reference_c: 75.0 }
}

fn awg_aluminium_line(awg: Awg, stranding: Stranding) -> ResistanceLine {
    let row = awg_row(awg);
    let ohm_kft = match stranding {
        Stranding::Solid => row.aluminium_solid,
        Stranding::Stranded => row.aluminium_stranded,
    };
    ResistanceLine { ohm_m: ohm_kft / METERS_PER_KFT, per_k: 0.00330, reference_c: 75.0 }
}

/// IEC 60228 plain copper at 20 °C, Ω/km: mm², class 1 (solid), class 5 (flexible). Class 5 up
/// to 6 mm² and class 1 at 1.5 and 2.5 mm² as printed; the rest from memory of the same tables.
const METRIC_ROWS: [(f64, f64, f64); 8] = [
    (0.5, 36.0, 39.0),
    (0.75, 24.5, 26.0),
    (1.0, 18.1, 19.5),
    (1.5, 12.1, 13.3),
    (2.5, 7.41, 7.98),
    (4.0, 4.61, 4.95),
    (6.0, 3.08, 3.30),
    (10.0, 1.83, 1.91),
];

fn metric_copper_line(area: MetricArea, stranding: Stranding) -> ResistanceLine {
    let (_, solid, flexible) =
        METRIC_ROWS.iter().find(|row| row.0 == area.mm2()).copied().unwrap_or(METRIC_ROWS[7]);
    let ohm_km = match stranding {
        Stranding::Solid => solid,
        Stranding::Stranded => flexible,
    };
    ResistanceLine { ohm_m: ohm_km * 1e-3, per_k: 0.00393, reference_c: 20.0 }
}
