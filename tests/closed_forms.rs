//! Flow of fluids whose answers have closed forms: an ideal gas, and a liquid that boils at one
//! pressure. Handbook examples that such fluids can express.

use narrows::flow::{
    Arrival, Bore, Element, Flashing, LargestFlow, Line, Medium, Method, Path, PathPart, Phases, Point,
    Restriction, Tube, TwoPhaseFriction, darcy_friction_factor, friction_gradient_pa_m,
};
use narrows::fluid::FluidError;
use uom::si::f64::{Length, Ratio};
use uom::si::length::{meter, millimeter};
use uom::si::ratio::ratio;

const METHOD: Method =
    Method { flashing: Flashing::Equilibrium, two_phase_friction: TwoPhaseFriction::Homogeneous };

/// `p v = R T`, constant heat capacity and viscosity.
struct IdealGas {
    gas_constant: f64,
    k: f64,
    viscosity_pa_s: f64,
}

impl IdealGas {
    fn heat_capacity(&self) -> f64 {
        self.k / (self.k - 1.0) * self.gas_constant
    }

    fn at(&self, pressure_pa: f64, kelvin: f64) -> Point {
        Point {
            pressure_pa,
            specific_volume_m3_kg: self.gas_constant * kelvin / pressure_pa,
            enthalpy_j_kg: self.heat_capacity() * kelvin,
            entropy_j_kg_k: self.heat_capacity() * kelvin.ln() - self.gas_constant * pressure_pa.ln(),
            quality: 2.0,
            vapor_ratio: 1.0,
            ln_viscosity: self.viscosity_pa_s.ln(),
        }
    }
}

impl Medium for IdealGas {
    type Isobar = f64;

    fn isobar(&self, pressure_pa: f64) -> Result<f64, FluidError> {
        Ok(pressure_pa)
    }

    fn by_enthalpy(&self, pressure_pa: &f64, enthalpy_j_kg: f64) -> Result<Point, FluidError> {
        Ok(self.at(*pressure_pa, enthalpy_j_kg / self.heat_capacity()))
    }

    fn by_entropy(&self, pressure_pa: &f64, entropy: f64) -> Result<Point, FluidError> {
        let log = (entropy + self.gas_constant * pressure_pa.ln()) / self.heat_capacity();
        Ok(self.at(*pressure_pa, log.exp()))
    }

    fn phases(&self, _: &f64, point: &Point) -> Phases {
        Phases {
            liquid_density_kg_m3: 0.0,
            vapor_density_kg_m3: 1.0 / point.specific_volume_m3_kg,
            liquid_viscosity_pa_s: 0.0,
            vapor_viscosity_pa_s: self.viscosity_pa_s,
        }
    }

    fn lowest_pressure_pa(&self) -> f64 {
        1.0
    }
}

/// A liquid of constant density down to one pressure, where it boils so hard that it chokes.
struct BoilingLiquid {
    density_kg_m3: f64,
    boiling_pa: f64,
}

impl BoilingLiquid {
    /// How much faster than an ideal gas the boiling liquid grows.
    const GROWTH: f64 = 1e4;

    fn volume(&self, pressure_pa: f64) -> f64 {
        let grown = 1.0 + Self::GROWTH * (self.boiling_pa / pressure_pa - 1.0).max(0.0);
        grown / self.density_kg_m3
    }

    /// `∫ v dp` from nothing up to a pressure, less a constant.
    fn flow_work(&self, pressure_pa: f64) -> f64 {
        let boiling = pressure_pa.min(self.boiling_pa);
        let vapor = self.boiling_pa * (boiling / self.boiling_pa).ln() - (boiling - self.boiling_pa);
        (pressure_pa + Self::GROWTH * vapor) / self.density_kg_m3
    }

    /// Entropy counts the enthalpy that a change of pressure does not explain, at 300 K.
    fn at(&self, pressure_pa: f64, enthalpy_j_kg: f64) -> Point {
        let boils = pressure_pa < self.boiling_pa;
        Point {
            pressure_pa,
            specific_volume_m3_kg: self.volume(pressure_pa),
            enthalpy_j_kg,
            entropy_j_kg_k: (enthalpy_j_kg - self.flow_work(pressure_pa)) / 300.0,
            quality: if boils { 0.5 } else { -0.5 },
            vapor_ratio: if boils { 0.5 } else { 0.0 },
            ln_viscosity: 1e-3f64.ln(),
        }
    }
}

impl Medium for BoilingLiquid {
    type Isobar = f64;

    fn isobar(&self, pressure_pa: f64) -> Result<f64, FluidError> {
        Ok(pressure_pa)
    }

    fn by_enthalpy(&self, pressure_pa: &f64, enthalpy_j_kg: f64) -> Result<Point, FluidError> {
        Ok(self.at(*pressure_pa, enthalpy_j_kg))
    }

    fn by_entropy(&self, pressure_pa: &f64, entropy: f64) -> Result<Point, FluidError> {
        Ok(self.at(*pressure_pa, 300.0 * entropy + self.flow_work(*pressure_pa)))
    }

    fn phases(&self, pressure_pa: &f64, _: &Point) -> Phases {
        Phases {
            liquid_density_kg_m3: self.density_kg_m3,
            vapor_density_kg_m3: 1.0 / self.volume(*pressure_pa),
            liquid_viscosity_pa_s: 1e-3,
            vapor_viscosity_pa_s: 1e-3,
        }
    }

    fn lowest_pressure_pa(&self) -> f64 {
        1.0
    }
}

#[track_caller]
fn within(got: f64, expected: f64, tolerance: f64) {
    assert!((got / expected - 1.0).abs() <= tolerance, "got {got}, expected {expected}");
}

fn share(value: f64) -> Ratio {
    Ratio::new::<ratio>(value)
}

fn smooth_tube(bore_m: f64, length_m: f64, rise_m: f64) -> Element {
    let m = Length::new::<meter>;
    Element::Tube(Tube::new(m(bore_m), m(length_m), m(0.0), m(rise_m)).unwrap())
}

fn hole(millimeters: f64, recovery: f64) -> Element {
    let bore = Length::new::<millimeter>(millimeters);
    Element::Restriction(Restriction::from_hole(bore, share(1.0), share(recovery)).unwrap())
}

fn path(element: Element) -> Path {
    Path::series(vec![PathPart { elements: vec![element] }])
}

fn largest<M: Medium>(medium: &M, element: Element, start: Point) -> LargestFlow {
    let line = Line::new(medium, METHOD, &path(element), start, start).unwrap();
    line.largest_flow(1e4).unwrap().unwrap()
}

#[track_caller]
fn end_pa<M: Medium>(medium: &M, element: Element, start: Point, flow: f64) -> f64 {
    let line = Line::new(medium, METHOD, &path(element), start, start).unwrap();
    match line.arrival(flow).unwrap() {
        Arrival::Arrives(end) => end.pressure_pa,
        Arrival::TooMuch { room, .. } => panic!("too much by {room}"),
    }
}

/// Closed-form Fanno flow (textbook tables): the longest `f L/d` from Mach number and `k`.
#[test]
fn fanno_flow_chokes_at_the_tabulated_length() {
    for (mach, k, longest) in
        [(0.1, 1.4, 66.92156), (0.3, 1.4, 5.29925), (0.5, 1.4, 1.06906), (0.3, 1.15, 6.60268)]
    {
        let gas = IdealGas { gas_constant: 287.0, k, viscosity_pa_s: 18e-6 };
        let (pressure, kelvin, bore) = (5e5, 300.0, 0.006);
        // Static state at the mouth, and the total enthalpy that goes with it.
        let speed = mach * (k * gas.gas_constant * kelvin).sqrt();
        let flux = pressure / (gas.gas_constant * kelvin) * speed;
        let total_k = kelvin * (1.0 + 0.5 * (k - 1.0) * mach * mach);
        let factor = darcy_friction_factor(flux * bore / gas.viscosity_pa_s, 0.0);
        let tube = smooth_tube(bore, longest * bore / factor, 0.0);
        let flow = largest(&gas, tube, gas.at(pressure, total_k)).mass_flow_kg_s;
        within(flow / (std::f64::consts::FRAC_PI_4 * bore * bore), flux, 5e-4);
    }
}

/// fluids 1.3.1 `isothermal_gas` and `P_isothermal_critical_flow`: 11.3 kg/m³, f 0.00185, 10 to 9 bar,
/// 0.5 m × 1000 m: 145.48476 kg/s, chokes at 389699.73 Pa. Here a tenth of the size, which keeps
/// `f L/d` and divides the flow by 100, and a gas that hardly cools.
#[test]
fn isothermal_flow_in_a_long_pipe() {
    // Churchill's smooth factor is 0.00185 at ln(Re/7) = √(8/0.00185)/(2.457 · 0.9).
    let reynolds = 7.0 * ((8.0f64 / 0.00185).sqrt() / (2.457 * 0.9)).exp();
    let flow = 1.4548476;
    let bore = 0.05;
    let flux = flow / (std::f64::consts::FRAC_PI_4 * bore * bore);
    let gas =
        IdealGas { gas_constant: 1e6 / 11.3 / 300.0, k: 1.000_01, viscosity_pa_s: flux * bore / reynolds };
    let start = gas.at(1e6, 300.0);
    within(end_pa(&gas, smooth_tube(bore, 100.0, 0.0), start, flow), 9e5, 2e-4);
    // Choked, the factor is another one: choose the viscosity for that flow.
    let choked_pa = 389_699.73;
    let choked_flux = choked_pa * (11.3f64 / 1e6).sqrt();
    let gas = IdealGas { viscosity_pa_s: choked_flux * bore / reynolds, ..gas };
    let plateau = largest(&gas, smooth_tube(bore, 100.0, 0.0), start);
    within(plateau.mass_flow_kg_s / (std::f64::consts::FRAC_PI_4 * bore * bore), choked_flux, 5e-4);
    within(plateau.outlet_pressure_pa, choked_pa, 0.01);
}

/// fluids 1.3.1 `P_critical_flow`: k 1.289 at 1.4 MPa chokes at 766812.9 Pa.
#[test]
fn a_hole_chokes_at_the_printed_pressure() {
    let gas = IdealGas { gas_constant: 189.0, k: 1.289, viscosity_pa_s: 15e-6 };
    within(largest(&gas, hole(5.0, 1.0), gas.at(1.4e6, 350.0)).outlet_pressure_pa, 766_812.9, 1e-3);
}

/// API 520 gas example (fluids 1.3.1 `API520_A_g`): 24270 kg/h at 348 K, Z 0.9, M 51, k 1.11, from
/// 670 to 532 kPa, Kd 0.975: 4248.36 mm².
#[test]
fn a_relief_valve_passes_the_printed_flow() {
    let gas = IdealGas { gas_constant: 0.9 * 8.314_462_6 / 0.051, k: 1.11, viscosity_pa_s: 12e-6 };
    let diameter_mm = (0.975f64 * 4248.36 / std::f64::consts::FRAC_PI_4).sqrt();
    let end = end_pa(&gas, hole(diameter_mm, 1.0), gas.at(670e3, 348.0), 24270.0 / 3600.0);
    within(end, 532e3, 1e-3);
}

/// IEC 60534 choked liquid (fluids 1.3.1 `control_valve_choke_P_l`): F_L 0.6, 680 kPa, saturation
/// 69682.89 Pa, critical 22048320 Pa: outlet 458887.53 Pa where it begins to choke. The throat is then at
/// `F_F p_sat`, `F_F = 0.96 − 0.28 √(p_sat/p_c)`.
#[test]
fn a_valve_with_recovery_chokes_where_the_standard_says() {
    let factor = 0.96 - 0.28 * (69_682.89f64 / 22_048_320.0).sqrt();
    let liquid = BoilingLiquid { density_kg_m3: 965.4, boiling_pa: factor * 69_682.89 };
    let start = liquid.at(680e3, 3e5);
    let plateau = largest(&liquid, hole(10.0, 0.6), start);
    within(plateau.outlet_pressure_pa, 458_887.53, 1e-3);
    let jet = (2.0 * 965.4 * (680e3 - liquid.boiling_pa)).sqrt() * std::f64::consts::FRAC_PI_4 * 1e-4;
    within(plateau.mass_flow_kg_s, jet, 1e-3);
}

/// Definitions: Kv 1 passes 1 m³/h of water at 1 bar, Cv 1 one US gallon a minute at 1 psi, whatever
/// pressure is recovered; Kv 1 is Cv 1.156099 (fluids 1.3.1).
#[test]
fn flow_coefficients_by_definition() {
    let water = BoilingLiquid { density_kg_m3: 1000.0, boiling_pa: 2000.0 };
    let start = water.at(1e6, 3e5);
    for recovery in [1.0, 0.9, 0.6] {
        let kv = |kv| Element::Restriction(Restriction::from_kv(kv, share(recovery)).unwrap());
        let cv = |cv| Element::Restriction(Restriction::from_cv(cv, share(recovery)).unwrap());
        within(1e6 - end_pa(&water, kv(1.0), start, 1000.0 / 3600.0), 1e5, 1e-5);
        within(1e6 - end_pa(&water, cv(1.156_099), start, 1000.0 / 3600.0), 1e5, 1e-5);
        let gallon_kg_s = 3.785_411_784 / 60.0;
        within(1e6 - end_pa(&water, cv(1.0), start, gallon_kg_s), 6894.757, 1e-3);
    }
}

/// Hydrostatics and Hagen–Poiseuille, uphill, level and downhill: `Δp = 128 μ L Q/(π d⁴) + ρ g H`.
#[test]
fn a_slow_liquid_loses_friction_and_height() {
    let oil = BoilingLiquid { density_kg_m3: 1000.0, boiling_pa: 2000.0 };
    let start = oil.at(1e6, 3e5);
    for rise in [-4.0, 0.0, 4.0] {
        for flow in [0.0, 0.005] {
            let friction = 128.0 * 1e-3 * 10.0 * (flow / 1000.0) / (std::f64::consts::PI * 0.008f64.powi(4));
            let lost = 1e6 - end_pa(&oil, smooth_tube(0.008, 10.0, rise), start, flow);
            let expected = friction + 1000.0 * 9.80665 * rise;
            assert!(
                (lost - expected).abs() < 5.0,
                "rise {rise} m, {flow} kg/s: {lost} Pa, expected {expected}"
            );
        }
    }
}

/// Crane TP 410 examples 7-1 (turbulent, smooth, Re 100600: 0.0179) and 7-9 (laminar, Re 1675.6: 0.038195).
#[test]
fn friction_factors_of_a_handbook() {
    within(darcy_friction_factor(100_600.0, 0.0), 0.0179, 0.015);
    within(darcy_friction_factor(1675.6, 0.0), 0.038195, 1e-3);
}

/// fluids 1.3.1 with CoolProp 8.0.0, exact Colebrook: R-134a saturated vapour 25 °C, 3 g/s, 4.8 mm ×
/// 1.5 m, 10 µm, density constant: 3450.5 Pa. Churchill is within 1.5 % of Colebrook.
#[test]
fn vapour_in_a_hose_at_constant_density() {
    let phases = Phases {
        liquid_density_kg_m3: 1206.712,
        vapor_density_kg_m3: 32.35,
        liquid_viscosity_pa_s: 1.949e-4,
        vapor_viscosity_pa_s: 1.169_282e-5,
    };
    let flux = 0.003 / (std::f64::consts::FRAC_PI_4 * 0.0048 * 0.0048);
    let bore = Bore { diameter_m: 0.0048, roughness_m: 1e-5 };
    let gradient = friction_gradient_pa_m(TwoPhaseFriction::Homogeneous, flux, bore, 1.0, &phases);
    within(1.5 * gradient, 3450.5, 0.015);
}
