//! What is assumed where a part does not say. One place, so that pages can print it.

/// Inner roughness of a rubber or polymer hose, 0.01 mm. Common practice, no source: drawn
/// tubing is quoted at 0.0015 mm and rubber hose up to ten times that.
pub const HOSE_ROUGHNESS_M: f64 = 1e-5;
/// Discharge coefficient of a drilled passage. Common practice, no source; 0.8 lies between a
/// sharp edge (0.61) and a short tube (0.82).
pub const DISCHARGE_COEFFICIENT: f64 = 0.8;
/// Discharge coefficient of a depressed valve core. Common practice, no source.
pub const CORE_DISCHARGE_COEFFICIENT: f64 = 0.7;
/// Pressure-recovery factor F_L: 1 means that nothing is won back behind the throat.
pub const PRESSURE_RECOVERY: f64 = 1.0;
/// Flow area a used filter-drier keeps of a clean one's. Invented.
pub const USED_DRIER_AREA_RATIO: f64 = 0.7;
/// Flow area a loaded filter-drier keeps of a clean one's. Invented.
pub const LOADED_DRIER_AREA_RATIO: f64 = 0.2;
/// Compression work over shaft work. Common practice for small pistons, no source.
pub const MECHANICAL_EFFICIENCY: f64 = 0.8;
/// Vapour's share of the mass where one connection draws liquid and vapour and nothing says how
/// much. Invented: through equal holes about four times as much liquid passes as vapour.
pub const VAPOUR_SHARE: f64 = 0.2;
/// Breaker of a branch circuit that does not say, in A. Common practice for receptacle circuits.
pub const BREAKER_A: f64 = 20.0;
