//! Whether a method of recovery suits a system. Common practice, no source, unless named.
//!
//! Nothing here forbids a method: these are reasons to think again. How fast each method is, is
//! for the job over time to say.

use uom::si::f64::{Mass, MassDensity, Volume};
use uom::si::mass::kilogram;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::volume::cubic_meter;

use crate::units::factors::POUND_KG;

/// Below this charge push-pull is not worth its set-up: 15 lb (7 kg). From memory: 10 to 20 lb are
/// named.
pub const PUSH_PULL_FROM_KG: f64 = 15.0 * POUND_KG;
/// A receiver is filled to this share at most.
const RECEIVER_FILL_RATIO: f64 = 0.8;

/// A way to recover.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum RecoveryMethod {
    /// Vapour only.
    #[default]
    Vapor,
    /// Liquid as long as there is some, then vapour.
    LiquidThenVapor,
    /// Vapour from the cylinder pushes the system's liquid over; then vapour.
    PushPull,
}

/// What the system is like.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct SystemTraits {
    /// Low and high of the charge.
    pub charge: Option<(Mass, Mass)>,
    /// It has a connection below the liquid's level; unknown if nobody said.
    pub liquid_port: Option<bool>,
    /// It has a reversing valve, as heat pumps do.
    pub reversing_valve: bool,
    /// It has a suction accumulator.
    pub accumulator: bool,
    /// Inside volume of its receiver.
    pub receiver: Option<Volume>,
    /// Push-pull below this charge is not worth while.
    pub push_pull_from: Option<Mass>,
}

/// A reason to think again.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Unsuited {
    /// No liquid to draw.
    #[error("the system has no liquid connection: {method} needs one")]
    NoLiquidPort {
        /// The method, in words.
        method: &'static str,
    },
    /// Little charge.
    #[error("push-pull is hardly worth its set-up below {from_lb:.0} lb; the charge is {charge_lb:.0} lb")]
    SmallCharge {
        /// The threshold, lb.
        from_lb: f64,
        /// The charge, lb.
        charge_lb: f64,
    },
    /// The charge may be too little.
    #[error(
        "push-pull is hardly worth its set-up below {from_lb:.0} lb; the charge may be as little as {low_lb:.0} lb"
    )]
    PerhapsSmallCharge {
        /// The threshold, lb.
        from_lb: f64,
        /// The low end of the charge, lb.
        low_lb: f64,
    },
    /// Nobody knows the charge.
    #[error("push-pull is hardly worth its set-up below {from_lb:.0} lb, and the charge is not known")]
    UnknownCharge {
        /// The threshold, lb.
        from_lb: f64,
    },
    /// A heat pump's reversing valve.
    #[error("a reversing valve between the connections can keep push-pull from moving the liquid")]
    ReversingValve,
    /// An accumulator.
    #[error("liquid collects in the accumulator, where push-pull does not reach it")]
    Accumulator,
    /// A small receiver.
    #[error(
        "the receiver holds {holds_lb:.0} lb of liquid at most, less than the {from_lb:.0} lb that push-pull \
         is worth while for"
    )]
    SmallReceiver {
        /// At 80 % full, lb.
        holds_lb: f64,
        /// The threshold, lb.
        from_lb: f64,
    },
}

/// Reasons to think again about a method; `liquid_density` is the liquid's in the system.
///
/// # Source
/// Common practice, no source.
/// # Example
/// Push-pull on 12 lb with a threshold of 15 lb: one reason, the small charge.
pub fn unsuited(method: RecoveryMethod, system: &SystemTraits, liquid_density: MassDensity) -> Vec<Unsuited> {
    let mut reasons = Vec::new();
    let in_words = match method {
        RecoveryMethod::Vapor => return reasons,
        RecoveryMethod::LiquidThenVapor => "liquid recovery",
        RecoveryMethod::PushPull => "push-pull",
    };
    if system.liquid_port == Some(false) {
        reasons.push(Unsuited::NoLiquidPort { method: in_words });
    }
    if method == RecoveryMethod::PushPull {
        reasons.extend(push_pull(system, liquid_density));
    }
    reasons
}

fn push_pull(system: &SystemTraits, liquid_density: MassDensity) -> Vec<Unsuited> {
    let pounds = |mass: Mass| mass.get::<kilogram>() / POUND_KG;
    let from_lb = pounds(system.push_pull_from.unwrap_or(Mass::new::<kilogram>(PUSH_PULL_FROM_KG)));
    let mut reasons = Vec::new();
    match system.charge.map(|(low, high)| (pounds(low), pounds(high))) {
        None => reasons.push(Unsuited::UnknownCharge { from_lb }),
        Some((low_lb, high_lb)) if high_lb < from_lb => {
            reasons.push(Unsuited::SmallCharge { from_lb, charge_lb: 0.5 * (low_lb + high_lb) });
        }
        Some((low_lb, _)) if low_lb < from_lb => {
            reasons.push(Unsuited::PerhapsSmallCharge { from_lb, low_lb });
        }
        Some(_) => {}
    }
    if system.reversing_valve {
        reasons.push(Unsuited::ReversingValve);
    }
    if system.accumulator {
        reasons.push(Unsuited::Accumulator);
    }
    if let Some(receiver) = system.receiver {
        let holds_kg = RECEIVER_FILL_RATIO
            * receiver.get::<cubic_meter>()
            * liquid_density.get::<kilogram_per_cubic_meter>();
        let holds_lb = holds_kg / POUND_KG;
        if holds_lb < from_lb {
            reasons.push(Unsuited::SmallReceiver { holds_lb, from_lb });
        }
    }
    reasons
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lb(value: f64) -> Mass {
        Mass::new::<kilogram>(value * POUND_KG)
    }

    fn reasons(method: RecoveryMethod, system: SystemTraits) -> Vec<Unsuited> {
        unsuited(method, &system, MassDensity::new::<kilogram_per_cubic_meter>(1190.0))
    }

    fn large() -> SystemTraits {
        SystemTraits { charge: Some((lb(200.0), lb(200.0))), liquid_port: Some(true), ..Default::default() }
    }

    #[test]
    fn a_large_receiver_with_a_liquid_port_suits_every_method() {
        for method in [RecoveryMethod::Vapor, RecoveryMethod::LiquidThenVapor, RecoveryMethod::PushPull] {
            assert_eq!(reasons(method, large()), []);
        }
    }

    /// The threshold is common practice (10 to 20 lb); at exactly the threshold nothing is said.
    #[test]
    fn push_pull_on_a_small_charge_is_questioned() {
        let with = |low: f64, high: f64| {
            reasons(RecoveryMethod::PushPull, SystemTraits { charge: Some((lb(low), lb(high))), ..large() })
        };
        assert!(matches!(with(12.0, 12.0)[..], [Unsuited::SmallCharge { .. }]));
        assert!(matches!(with(13.0, 17.0)[..], [Unsuited::PerhapsSmallCharge { .. }]));
        assert_eq!(with(15.0, 15.0), []);
        let own =
            SystemTraits { charge: Some((lb(12.0), lb(12.0))), push_pull_from: Some(lb(10.0)), ..large() };
        assert_eq!(reasons(RecoveryMethod::PushPull, own), []);
        let unknown = SystemTraits { charge: None, ..large() };
        assert!(matches!(reasons(RecoveryMethod::PushPull, unknown)[..], [Unsuited::UnknownCharge { .. }]));
    }

    #[test]
    fn what_defeats_push_pull_is_named_and_vapour_is_never_questioned() {
        let system = SystemTraits {
            liquid_port: Some(false),
            reversing_valve: true,
            accumulator: true,
            // 0.8 · 5 L · 1190 kg/m³ = 4.76 kg = 10.5 lb
            receiver: Some(Volume::new::<cubic_meter>(5e-3)),
            ..large()
        };
        let all = reasons(RecoveryMethod::PushPull, system);
        assert!(matches!(
            all[..],
            [
                Unsuited::NoLiquidPort { .. },
                Unsuited::ReversingValve,
                Unsuited::Accumulator,
                Unsuited::SmallReceiver { holds_lb, .. }
            ] if (holds_lb - 10.494).abs() < 1e-3
        ));
        assert_eq!(reasons(RecoveryMethod::LiquidThenVapor, system).len(), 1);
        assert_eq!(reasons(RecoveryMethod::Vapor, system), []);
    }
}
