//! A short restriction: a core, a seat, a valve, an end, a drier.
//!
//! One effective throat area and one pressure-recovery factor describe it, whatever its maker
//! printed: a hole and its discharge coefficient, a flow coefficient, or a rated flow at a rated
//! drop. The fluid expands isentropically from rest to the throat, and of the pressure lost to the
//! throat the share `1 − F_L²` comes back: `p2 = p_t + (1 − F_L²)(p1 − p_t)`.

use uom::si::area::square_meter;
use uom::si::f64::{Area, Length, MassDensity, MassRate, Pressure, Ratio};
use uom::si::length::meter;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::mass_rate::kilogram_per_second;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;

use super::critical::critical;
use super::element::{Choke, ElementFlow, FlowInput, LEAST_ROOM, Outcome};
use super::error::FlowError;
use super::flashing::FluidExpansion;
use super::medium::Medium;
use super::nozzle::{self, Throat};

/// Effective throat areas that are taken as a part: from a 5 µm hole to a 300 mm one.
const AREA_RANGE_M2: std::ops::RangeInclusive<f64> = 2e-11..=0.08;

/// A short restriction by its effective throat area and pressure-recovery factor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Restriction {
    effective_area_m2: f64,
    recovery_factor: f64,
}

impl Restriction {
    /// From the diameter of the hole that would pass as much, and its discharge coefficient.
    ///
    /// - `pressure_recovery`: `F_L` of IEC 60534, above 0, at most 1 (nothing recovered)
    ///
    /// # Errors
    /// A hole of no size, a coefficient outside 0.05–1.5, a recovery factor outside 0.1–1.
    /// # Example
    /// 2.2 mm at 0.7: 0.7 · π/4 · 2.2² = 2.661 mm².
    pub fn from_hole(
        diameter: Length,
        discharge_coefficient: Ratio,
        pressure_recovery: Ratio,
    ) -> Result<Self, FlowError> {
        let diameter_m = diameter.get::<meter>();
        let coefficient = discharge_coefficient.get::<ratio>();
        if !(0.05..=1.5).contains(&coefficient) {
            return Err(FlowError::out_of_range("discharge coefficient", coefficient, "0.05 to 1.5"));
        }
        let area = coefficient * std::f64::consts::FRAC_PI_4 * diameter_m * diameter_m;
        Self::from_area_m2(area, pressure_recovery.get::<ratio>())
    }

    /// From a flow coefficient `Kv` in m³/h of water at 1 bar.
    ///
    /// `ṁ = Kv/3600 · √(ρ · 1000 · Δp/1 bar)` equals `A √(2 ρ Δp)/F_L`, so
    /// `A = F_L · Kv/3600 · √(1000/(2·10⁵))`.
    ///
    /// # Source
    /// IEC 60534-2-1, incompressible flow without attached fittings.
    /// # Errors
    /// A coefficient that is not positive, a recovery factor outside 0.1–1.
    /// # Example
    /// Kv 1, F_L 1: 1/3600 · 0.070711 = 19.64 mm².
    pub fn from_kv(kv_m3_h: f64, pressure_recovery: Ratio) -> Result<Self, FlowError> {
        let factor = pressure_recovery.get::<ratio>();
        Self::from_area_m2(factor * kv_m3_h / 3600.0 * (1000.0_f64 / 2e5).sqrt(), factor)
    }

    /// From a flow coefficient `Cv` in US gallons a minute of water at 1 psi: `Kv = Cv/1.156099`.
    ///
    /// # Errors
    /// As [`Restriction::from_kv`].
    pub fn from_cv(cv_gpm: f64, pressure_recovery: Ratio) -> Result<Self, FlowError> {
        Self::from_kv(cv_gpm / 1.156_099, pressure_recovery)
    }

    /// From a liquid flow at a printed pressure drop, as filter-driers are rated (1 psi).
    ///
    /// `A = ṁ/√(2 ρ Δp)` with `F_L = 1`.
    ///
    /// # Errors
    /// A flow, density or drop that is not positive.
    pub fn from_rated_flow(
        flow: MassRate,
        density: MassDensity,
        pressure_drop: Pressure,
    ) -> Result<Self, FlowError> {
        let product = 2.0 * density.get::<kilogram_per_cubic_meter>() * pressure_drop.get::<pascal>();
        Self::from_area_m2(flow.get::<kilogram_per_second>() / product.sqrt(), 1.0)
    }

    fn from_area_m2(effective_area_m2: f64, recovery_factor: f64) -> Result<Self, FlowError> {
        if !AREA_RANGE_M2.contains(&effective_area_m2) {
            let got = effective_area_m2 * 1e6;
            return Err(FlowError::out_of_range("effective throat area (mm²)", got, "0.00002 to 80000"));
        }
        if !(0.1..=1.0).contains(&recovery_factor) {
            return Err(FlowError::out_of_range("pressure-recovery factor F_L", recovery_factor, "0.1 to 1"));
        }
        Ok(Self { effective_area_m2, recovery_factor })
    }

    /// Effective throat area: the hole's area times its discharge coefficient.
    pub fn effective_area(&self) -> Area {
        Area::new::<square_meter>(self.effective_area_m2)
    }

    /// The same restriction with its throat area multiplied, as a part that is partly blocked.
    ///
    /// # Errors
    /// The area left is no area.
    pub fn with_open_ratio(&self, open: Ratio) -> Result<Self, FlowError> {
        Self::from_area_m2(self.effective_area_m2 * open.get::<ratio>(), self.recovery_factor)
    }

    fn outlet_pa(&self, inlet_pa: f64, throat_pa: f64) -> f64 {
        throat_pa + (1.0 - self.recovery_factor.powi(2)) * (inlet_pa - throat_pa)
    }

    /// Passes a flow, or says by how much it is too much.
    pub(super) fn pass<M: Medium>(&self, input: &FlowInput<'_, M>) -> Result<Outcome, FlowError> {
        let inlet_pa = input.inlet.pressure_pa;
        let expansion = FluidExpansion::new(input.medium, input.inlet, input.method.flashing)?;
        let flux = input.mass_flow_kg_s / self.effective_area_m2;
        match nozzle::throat(&expansion, flux)? {
            Throat::Passes { pressure_pa } => {
                let outlet_pa = self.outlet_pa(inlet_pa, pressure_pa);
                input.passes_to(outlet_pa, 0.0)
            }
            Throat::Choked(critical) => {
                let outlet_pa = self.outlet_pa(inlet_pa, critical.pressure_pa);
                Ok(Outcome::Choked(Choke {
                    room: (critical.mass_flux_kg_m2s / flux).ln().max(LEAST_ROOM),
                    flow: ElementFlow { choked: true, ..input.flow_to(outlet_pa, 0.0)? },
                }))
            }
        }
    }

    /// `ln(largest flow / flow)`: positive where more would pass.
    pub(super) fn room<M: Medium>(&self, input: &FlowInput<'_, M>) -> Result<Choke, FlowError> {
        let expansion = FluidExpansion::new(input.medium, input.inlet, input.method.flashing)?;
        let critical = critical(&expansion)?;
        let outlet_pa = self.outlet_pa(input.inlet.pressure_pa, critical.pressure_pa);
        let passes_kg_s = critical.mass_flux_kg_m2s * self.effective_area_m2;
        let room = (passes_kg_s / input.mass_flow_kg_s).ln().max(LEAST_ROOM);
        Ok(Choke { room, flow: ElementFlow { choked: true, ..input.flow_to(outlet_pa, 0.0)? } })
    }
}
