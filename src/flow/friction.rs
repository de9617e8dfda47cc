//! Friction in a round tube: one phase and two.
//!
//! Darcy friction factors throughout. Two-phase friction is either homogeneous with McAdams
//! viscosity or Müller-Steinhagen & Heck; published methods spread by a factor of two on the
//! same case, which is the honest uncertainty of any of them.

use crate::numerics::cube_root;

/// How two-phase friction is computed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum TwoPhaseFriction {
    /// One fluid with mixed density and McAdams viscosity.
    Homogeneous,
    /// Müller-Steinhagen & Heck (1986), the default.
    #[default]
    MullerSteinhagenHeck,
}

/// Density and viscosity of each phase at one place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Phases {
    /// Saturated (or subcooled) liquid density.
    pub liquid_density_kg_m3: f64,
    /// Saturated (or superheated) vapour density.
    pub vapor_density_kg_m3: f64,
    /// Liquid dynamic viscosity.
    pub liquid_viscosity_pa_s: f64,
    /// Vapour dynamic viscosity.
    pub vapor_viscosity_pa_s: f64,
}

/// The tube's inside: what friction needs of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bore {
    /// Inside diameter.
    pub diameter_m: f64,
    /// Sand-grain roughness.
    pub roughness_m: f64,
}

/// Darcy friction factor for any Reynolds number, laminar through rough turbulent.
///
/// `f = 8 [(8/Re)^12 + (A + B)^-1.5]^(1/12)`,
/// `A = (2.457 ln(1 / ((7/Re)^0.9 + 0.27 ε/d)))^16`, `B = (37530/Re)^16`
///
/// # Valid
/// All Re > 0; relative roughness 0 to 0.05. Zero flow returns infinity times nothing: callers
/// multiply by `G²`, so it is taken at Re = 1e-6 at least.
/// # Accuracy
/// Within 1.5 % of Colebrook in turbulent flow.
/// # Source
/// S. W. Churchill, "Friction-factor equation spans all fluid-flow regimes", Chemical
/// Engineering 84 (1977) 91–92.
/// # Example
/// Re 1000: 64/1000 = 0.064. Re 1e5, ε/d 1e-4: 0.01846.
pub fn darcy_friction_factor(reynolds: f64, relative_roughness: f64) -> f64 {
    let re = reynolds.max(1e-6);
    let rough = 0.27 * relative_roughness;
    let a = (-2.457 * ((7.0 / re).powf(0.9) + rough).ln()).powi(2).powi(8);
    let b = (37530.0 / re).powi(16);
    // (8/Re)^12 overflows below Re 1e-25 only; the floor above keeps it finite.
    let sum = a + b;
    let turbulent = 1.0 / (sum * sum.sqrt());
    8.0 * cube_root((8.0 / re).powi(12) + turbulent).sqrt().sqrt()
}

/// Pressure gradient of one phase alone: `f G² v / (2 d)`, Pa/m.
fn single_phase_gradient(mass_flux_kg_m2s: f64, bore: Bore, density_kg_m3: f64, viscosity_pa_s: f64) -> f64 {
    let reynolds = mass_flux_kg_m2s * bore.diameter_m / viscosity_pa_s;
    let f = darcy_friction_factor(reynolds, bore.roughness_m / bore.diameter_m);
    f * mass_flux_kg_m2s * mass_flux_kg_m2s / (2.0 * bore.diameter_m * density_kg_m3)
}

/// Frictional pressure gradient, Pa/m (positive), for any vapour mass fraction.
///
/// - `mass_flux_kg_m2s`: mass flow over the bore's area
/// - `vapor_ratio`: vapour mass fraction, taken within 0 and 1; at the ends the one phase alone
///
/// # Source
/// Homogeneous: `1/ρ = x/ρ_v + (1−x)/ρ_l`; McAdams, Woods & Heroman, Trans. ASME 64 (1942):
/// `1/μ = x/μ_v + (1−x)/μ_l`. Separate: H. Müller-Steinhagen, K. Heck, "A simple friction
/// pressure drop correlation for two-phase flow in pipes", Chem. Eng. Process. 20 (1986) 297–308:
/// `(a + 2 (b − a) x)(1−x)^(1/3) + b x³` with all-liquid `a` and all-vapour `b`.
/// # Accuracy
/// Methods differ from 384 to 1084 Pa/m on one published air-water case.
pub fn friction_gradient_pa_m(
    model: TwoPhaseFriction,
    mass_flux_kg_m2s: f64,
    bore: Bore,
    vapor_ratio: f64,
    phases: &Phases,
) -> f64 {
    let x = vapor_ratio.clamp(0.0, 1.0);
    let liquid = || {
        single_phase_gradient(
            mass_flux_kg_m2s,
            bore,
            phases.liquid_density_kg_m3,
            phases.liquid_viscosity_pa_s,
        )
    };
    let vapor = || {
        single_phase_gradient(mass_flux_kg_m2s, bore, phases.vapor_density_kg_m3, phases.vapor_viscosity_pa_s)
    };
    if x == 0.0 {
        return liquid();
    }
    if x == 1.0 {
        return vapor();
    }
    match model {
        TwoPhaseFriction::Homogeneous => {
            let density = 1.0 / (x / phases.vapor_density_kg_m3 + (1.0 - x) / phases.liquid_density_kg_m3);
            let viscosity =
                1.0 / (x / phases.vapor_viscosity_pa_s + (1.0 - x) / phases.liquid_viscosity_pa_s);
            single_phase_gradient(mass_flux_kg_m2s, bore, density, viscosity)
        }
        TwoPhaseFriction::MullerSteinhagenHeck => {
            let (a, b) = (liquid(), vapor());
            (a + 2.0 * (b - a) * x) * cube_root(1.0 - x) + b * x * x * x
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn within(got: f64, expected: f64, ratio: f64) {
        assert!((got / expected - 1.0).abs() <= ratio, "got {got}, expected {expected}");
    }

    /// Churchill and exact Colebrook values: fluids 1.3.1 (`Churchill_1977`, `Clamond`).
    #[test]
    fn friction_factors_of_a_public_library() {
        for (re, rough, churchill, colebrook) in [
            (1e5, 1e-4, 0.0184626, 0.0185139),
            (1e5, 0.0, 0.0178749, 0.0179898),
            (1e4, 0.0, 0.0310021, 0.0308830),
            (1e6, 1e-4, 0.0135082, 0.0134414),
            (1e5, 1e-3, 0.0223432, 0.0221745),
            (5e4, 2e-3, 0.0267721, 0.0265056),
            (1e4, 1e-3, 0.0326902, 0.0323818),
        ] {
            within(darcy_friction_factor(re, rough), churchill, 1e-4);
            within(darcy_friction_factor(re, rough), colebrook, 0.015);
        }
        within(darcy_friction_factor(3000.0, 1e-3), 0.0436915, 1e-4);
    }

    #[test]
    fn laminar_flow_is_hagen_poiseuille() {
        within(darcy_friction_factor(1000.0, 0.0), 0.064, 1e-4);
        within(darcy_friction_factor(1.0, 0.0), 64.0, 1e-6);
        assert!(darcy_friction_factor(0.0, 0.0).is_finite());
    }

    #[test]
    fn the_factor_has_no_jump_between_laminar_and_turbulent() {
        let mut last = darcy_friction_factor(1500.0, 1e-3);
        for step in 1..=400 {
            let next = darcy_friction_factor(1500.0 + 10.0 * f64::from(step), 1e-3);
            assert!((next / last - 1.0).abs() < 0.02);
            last = next;
        }
    }

    /// fluids 1.3.1 `two_phase` on 0.6 kg/s, x 0.1, 50 mm bore, smooth: 793.45 and 569.59 Pa/m
    /// (with exact Colebrook factors; Churchill's are within 1 %).
    #[test]
    fn two_phase_gradients_of_a_public_library() {
        let phases = Phases {
            liquid_density_kg_m3: 915.0,
            vapor_density_kg_m3: 2.67,
            liquid_viscosity_pa_s: 180e-6,
            vapor_viscosity_pa_s: 14e-6,
        };
        let bore = Bore { diameter_m: 0.05, roughness_m: 0.0 };
        let flux = 0.6 / (std::f64::consts::FRAC_PI_4 * 0.05 * 0.05);
        let gradient = |model| friction_gradient_pa_m(model, flux, bore, 0.1, &phases);
        within(gradient(TwoPhaseFriction::MullerSteinhagenHeck), 793.45, 0.01);
        within(gradient(TwoPhaseFriction::Homogeneous), 569.59, 0.01);
    }

    /// fluids 1.3.1 with CoolProp 8.0.0: R-134a 25 °C, 0.02 kg/s, x 0.2, 4.8 mm × 1.5 m smooth.
    #[test]
    fn two_phase_gradients_in_a_refrigerant_hose() {
        let phases = Phases {
            liquid_density_kg_m3: 1206.712,
            vapor_density_kg_m3: 32.35,
            liquid_viscosity_pa_s: 1.9488752721668687e-4,
            vapor_viscosity_pa_s: 1.1692819954785453e-5,
        };
        let bore = Bore { diameter_m: 0.0048, roughness_m: 0.0 };
        let flux = 0.02 / (std::f64::consts::FRAC_PI_4 * 0.0048 * 0.0048);
        let drop = |model| 1.5 * friction_gradient_pa_m(model, flux, bore, 0.2, &phases);
        within(drop(TwoPhaseFriction::MullerSteinhagenHeck), 32090.6, 0.01);
        within(drop(TwoPhaseFriction::Homogeneous), 22936.3, 0.01);
    }
}
