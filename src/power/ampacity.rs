//! How much current a conductor or a cord is meant to carry: published ampacities, and the
//! markings that cords of a gauge and length usually bear.
//!
//! The marking on the cord in hand always outranks the typical one.

use super::conductor::{Conductor, Metal};
use super::gauge::{Awg, Gauge};

/// Where the conductor runs, which decides the ampacity table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Installation {
    /// A flexible cord in air.
    Cord,
    /// Building wiring.
    Building,
}

/// Ambient temperature on which the ampacity tables are based.
pub(crate) const AMPACITY_AMBIENT_C: f64 = 30.0;

/// Conductor temperature at which the ampacity tables end: 60 °C in North America (cords are
/// 60 °C unless marked, and small circuits are sized in the 60 °C column), 60 °C rubber cords
/// and 70 °C building wiring in the metric tables.
pub(crate) fn rated_temperature_c(gauge: Gauge, installation: Installation) -> f64 {
    match (gauge, installation) {
        (Gauge::Metric(_), Installation::Building) => 70.0,
        _ => 60.0,
    }
}

/// Ampacity at 30 °C ambient, laid straight.
///
/// - Cords, AWG: NEC 400.5(A), two current-carrying conductors; 8 AWG and thicker from memory.
/// - Building wiring, AWG: NEC 310.16 60 °C column, with 240.4(D) for 18 to 16 AWG; from memory.
/// - Metric: harmonised flexible cords and IEC 60364-5-52 method B2 with two loaded conductors;
///   from memory, the thinnest building sizes by proportion.
///
/// Aluminium and copper-clad carry the current that makes the same heat:
/// `I = I_copper √(r_copper / r_metal)`.
pub(crate) fn ampacity_a(conductor: &Conductor, installation: Installation) -> f64 {
    let copper_a = match conductor.gauge {
        Gauge::Awg(awg) => awg_ampacity_a(awg, installation),
        Gauge::Metric(area) => metric_ampacity_a(area.mm2(), installation),
    };
    if conductor.metal == Metal::Copper {
        return copper_a;
    }
    let copper = Conductor { metal: Metal::Copper, ..*conductor };
    copper_a * (copper.line().at(60.0) / conductor.line().at(60.0)).sqrt()
}

fn awg_ampacity_a(awg: Awg, installation: Installation) -> f64 {
    let (cord, building) = match awg.number() {
        18 => (10.0, 7.0),
        17 => (12.0, 8.0),
        16 => (13.0, 10.0),
        14 => (18.0, 15.0),
        12 => (25.0, 20.0),
        10 => (30.0, 30.0),
        8 => (40.0, 40.0),
        6 => (55.0, 55.0),
        _ => (70.0, 70.0),
    };
    match installation {
        Installation::Cord => cord,
        Installation::Building => building,
    }
}

fn metric_ampacity_a(mm2: f64, installation: Installation) -> f64 {
    let rows: [(f64, f64, f64); 8] = [
        (0.5, 3.0, 8.0),
        (0.75, 6.0, 10.5),
        (1.0, 10.0, 13.0),
        (1.5, 16.0, 16.5),
        (2.5, 25.0, 23.0),
        (4.0, 32.0, 30.0),
        (6.0, 43.0, 38.0),
        (10.0, 60.0, 52.0),
    ];
    let (_, cord, building) = rows.iter().find(|row| row.0 >= mm2).copied().unwrap_or(rows[7]);
    match installation {
        Installation::Cord => cord,
        Installation::Building => building,
    }
}

/// The amps that a cord of this gauge and length usually bears on its marking.
///
/// Common practice, no source beyond trade charts: up to 10 A on 16 AWG to 100 ft; up to 15 A on
/// 14 AWG to 50 ft and on 12 AWG to 100 ft. The rest fills the gaps between them. Bands end 5 %
/// above the nominal length, so that a cord typed as 30.5 m is still a 100 ft cord.
pub(crate) fn typical_marking_a(conductor: &Conductor, length_m: f64) -> f64 {
    let (bands_m, amps) = match conductor.gauge {
        Gauge::Awg(awg) => ([15.24, 30.48, 45.72], awg_marking_a(awg)),
        Gauge::Metric(area) => ([15.0, 25.0, 50.0], metric_marking_a(area.mm2())),
    };
    let band = bands_m.iter().position(|end_m| length_m <= end_m * 1.05).unwrap_or(3);
    let copper_a = amps.get(band).copied().unwrap_or(amps[3]);
    if conductor.metal == Metal::Copper {
        return copper_a;
    }
    let copper = Conductor { metal: Metal::Copper, ..*conductor };
    copper_a * (copper.line().at(60.0) / conductor.line().at(60.0)).sqrt()
}

/// Amps to 50 ft, 100 ft, 150 ft and beyond.
fn awg_marking_a(awg: Awg) -> [f64; 4] {
    match awg.number() {
        18 => [10.0, 7.0, 5.0, 5.0],
        17 => [12.0, 9.0, 7.0, 6.0],
        16 => [13.0, 10.0, 8.0, 7.0],
        14 => [15.0, 13.0, 10.0, 9.0],
        12 => [15.0, 15.0, 13.0, 12.0],
        10 => [20.0, 20.0, 15.0, 15.0],
        8 => [40.0, 30.0, 30.0, 25.0],
        6 => [50.0, 50.0, 40.0, 30.0],
        _ => [60.0, 60.0, 50.0, 50.0],
    }
}

/// Amps to 15 m, 25 m, 50 m and beyond.
fn metric_marking_a(mm2: f64) -> [f64; 4] {
    let rows: [(f64, [f64; 4]); 8] = [
        (0.5, [3.0, 3.0, 2.0, 2.0]),
        (0.75, [6.0, 6.0, 4.0, 3.0]),
        (1.0, [10.0, 10.0, 6.0, 5.0]),
        (1.5, [16.0, 16.0, 13.0, 10.0]),
        (2.5, [16.0, 16.0, 16.0, 13.0]),
        (4.0, [32.0, 32.0, 25.0, 20.0]),
        (6.0, [40.0, 40.0, 32.0, 25.0]),
        (10.0, [60.0, 60.0, 50.0, 40.0]),
    ];
    rows.iter().find(|row| row.0 >= mm2).map_or(rows[7].1, |row| row.1)
}
