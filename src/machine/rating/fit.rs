//! Displacement and inlet throttle from printed ratings.
//!
//! The vapour rating fixes the displacement, the liquid rating the throttle; each hardly moves the
//! other, so they are found in turn until both hold. Clearance, losses and condenser are the
//! template's.

use uom::si::area::square_meter;
use uom::si::f64::{Area, MassRate, Ratio, VolumeRate};
use uom::si::mass_rate::kilogram_per_second;
use uom::si::ratio::ratio;
use uom::si::volume_rate::cubic_meter_per_second;

use super::error::RatingError;
use super::test::{RatedTest, TestKind, simulate};
use crate::flow::{Method, Restriction};
use crate::machine::RecoveryMachine;
use crate::numerics::{RootError, Tolerance, find_root};

/// What a fit starts from.
#[derive(Debug, Clone, Copy)]
pub struct FitInput<'a> {
    /// Clearance, losses, exponent, condenser; and displacement and throttle where nothing fixes them.
    pub template: &'a RecoveryMachine,
    /// How flow through the inlet is computed.
    pub method: Method,
    /// The card.
    pub tests: &'a [RatedTest],
}

/// A machine that would pass its ratings.
#[derive(Debug, Clone, PartialEq)]
pub struct Fit {
    /// The machine with both fitted; without an inlet throttle where the two ratings conflict.
    pub machine: RecoveryMachine,
    /// The machine for liquid: the same, or with its inlet turned down where the ratings conflict.
    pub for_liquid: RecoveryMachine,
    /// Swept volume a second.
    pub displacement: VolumeRate,
    /// Effective area of the inlet, for liquid at least; none where nothing limits it.
    pub inlet_throttle: Option<Area>,
    /// The displacement was fitted, to this rating.
    pub displacement_from: Option<TestKind>,
    /// The throttle was fitted to the liquid rating.
    pub throttle_is_fitted: bool,
    /// The ratings that were fitted to, with the rate of the fitted machine.
    pub reproduces: Vec<Reproduced>,
    /// The other vapour and liquid ratings, with what the fitted machine would be given.
    pub predicts: Vec<Reproduced>,
    /// One fixed inlet does not explain vapour and liquid together.
    pub conflict: Option<ThrottleConflict>,
}

/// A rating and the machine's own rate in that test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reproduced {
    /// Which.
    pub kind: TestKind,
    /// As printed.
    pub rated: MassRate,
    /// As simulated; none where the machine does not finish the test.
    pub model: Option<MassRate>,
}

/// Vapour and liquid ratings that one fixed inlet cannot both give. The inlet then counts for
/// liquid only: opened for vapour, turned down for liquid.
#[derive(Debug, Clone, PartialEq)]
pub struct ThrottleConflict {
    /// Area that the liquid rating asks for.
    pub liquid_area: Area,
    /// Why the vapour rating is out of its reach.
    pub because: RatingError,
}

/// Rounds of displacement and throttle in turn.
const ROUNDS: usize = 20;
/// Both are found to this share.
const TOLERANCE: f64 = 1e-6;
/// The widest inlet that is tried, as a hole without loss: 30 mm.
const WIDEST_M2: f64 = 7e-4;

/// Fits a machine to its card.
///
/// # Errors
/// - [`RatingError::NothingToFit`] without vapour and liquid ratings;
/// - [`RatingError::NoDisplacement`], [`RatingError::NoThrottle`] where nothing gives a rating;
/// - else as [`simulate`].
pub fn fit(input: &FitInput<'_>) -> Result<Fit, RatingError> {
    let find = |kind| input.tests.iter().find(|test| test.kind == kind);
    let vapour = find(TestKind::Vapour).or_else(|| find(TestKind::HighTemperatureVapour));
    let liquid = find(TestKind::Liquid);
    let mut conflict = None;
    let mut turned_down = None;
    let machine = match (vapour, liquid) {
        (None, None) => return Err(RatingError::NothingToFit),
        (Some(vapour), None) => with_displacement_for(input, *input.template, vapour)?,
        (None, Some(liquid)) => with_throttle_for(input, *input.template, liquid)?,
        (Some(vapour), Some(liquid)) => match both(input, vapour, liquid) {
            Ok(machine) => machine,
            Err(because @ RatingError::NoDisplacement { .. }) => {
                let open = with_displacement_for(input, without_throttle(*input.template), vapour)?;
                let throttled = with_throttle_for(input, open, liquid)?;
                conflict = Some(ThrottleConflict { liquid_area: area_of(&throttled), because });
                turned_down = Some(throttled);
                open
            }
            Err(error) => return Err(error),
        },
    };
    let for_liquid = turned_down.unwrap_or(machine);
    let fitted = |test: &RatedTest| {
        test.kind == TestKind::Liquid || vapour.is_some_and(|vapour| vapour.kind == test.kind)
    };
    let of = |test: &RatedTest| {
        let machine = if test.kind == TestKind::Liquid { &for_liquid } else { &machine };
        Reproduced { kind: test.kind, rated: test.rated, model: simulate(machine, input.method, test).ok() }
    };
    let rates = |wanted: bool| {
        input
            .tests
            .iter()
            .filter(|test| test.kind != TestKind::PushPull && fitted(test) == wanted)
            .map(of)
            .collect::<Vec<_>>()
    };
    Ok(Fit {
        machine,
        for_liquid,
        displacement: machine.compressor.displacement(),
        inlet_throttle: for_liquid.inlet_throttle.map(|throttle| throttle.effective_area()),
        displacement_from: vapour.map(|test| test.kind),
        throttle_is_fitted: liquid.is_some(),
        reproduces: rates(true),
        predicts: rates(false),
        conflict,
    })
}

fn both(
    input: &FitInput<'_>,
    vapour: &RatedTest,
    liquid: &RatedTest,
) -> Result<RecoveryMachine, RatingError> {
    let mut machine = with_displacement_for(input, without_throttle(*input.template), vapour)?;
    let mut last = (0.0, 0.0);
    for _ in 0..ROUNDS {
        machine = with_throttle_for(input, machine, liquid)?;
        machine = with_displacement_for(input, machine, vapour)?;
        let next = (displacement_m3_s(&machine), area_of(&machine).get::<square_meter>());
        if (next.0 / last.0 - 1.0).abs() < TOLERANCE && (next.1 / last.1 - 1.0).abs() < TOLERANCE {
            break;
        }
        last = next;
    }
    Ok(machine)
}

fn without_throttle(machine: RecoveryMachine) -> RecoveryMachine {
    RecoveryMachine { inlet_throttle: None, ..machine }
}

fn displacement_m3_s(machine: &RecoveryMachine) -> f64 {
    machine.compressor.displacement().get::<cubic_meter_per_second>()
}

fn area_of(machine: &RecoveryMachine) -> Area {
    Area::new::<square_meter>(
        machine.inlet_throttle.map_or(0.0, |throttle| throttle.effective_area().get::<square_meter>()),
    )
}

/// The simulated rate; zero where the machine does not finish the test.
fn rate_kg_s(input: &FitInput<'_>, machine: &RecoveryMachine, test: &RatedTest) -> Result<f64, RatingError> {
    match simulate(machine, input.method, test) {
        Ok(rate) => Ok(rate.get::<kilogram_per_second>()),
        Err(RatingError::Stalls { .. }) => Ok(0.0),
        Err(error) => Err(error),
    }
}

/// `ln(simulated/printed)`, bounded where the simulated rate is zero.
fn miss(rate_kg_s: f64, rated_kg_s: f64) -> f64 {
    (rate_kg_s / rated_kg_s).max(1e-6).ln()
}

/// The machine with the displacement that gives a vapour rating.
fn with_displacement_for(
    input: &FitInput<'_>,
    machine: RecoveryMachine,
    test: &RatedTest,
) -> Result<RecoveryMachine, RatingError> {
    let rated_kg_s = test.rated.get::<kilogram_per_second>();
    let sized = |log_m3_s: f64| -> Result<RecoveryMachine, RatingError> {
        let displacement = VolumeRate::new::<cubic_meter_per_second>(log_m3_s.exp());
        Ok(RecoveryMachine { compressor: machine.compressor.with_displacement(displacement)?, ..machine })
    };
    let at = |log_m3_s: f64| -> Result<f64, RatingError> {
        Ok(miss(rate_kg_s(input, &sized(log_m3_s)?, test)?, rated_kg_s))
    };
    let start = displacement_m3_s(&machine).clamp(1e-6, 0.5).ln();
    let Some(ends) = bracket(start, (1e-7_f64.ln(), 1.0_f64.ln()), at)? else {
        let most_kg_s = rate_kg_s(input, &sized(0.0)?, test)?;
        return Err(RatingError::NoDisplacement { rated_kg_s, most_kg_s });
    };
    sized(root_of(at, ends)?)
}

/// The machine with the inlet that gives a liquid rating.
fn with_throttle_for(
    input: &FitInput<'_>,
    machine: RecoveryMachine,
    test: &RatedTest,
) -> Result<RecoveryMachine, RatingError> {
    let rated_kg_s = test.rated.get::<kilogram_per_second>();
    // The template's inlet keeps its pressure recovery; a plain hole recovers nothing.
    let shape = match machine.inlet_throttle.or(input.template.inlet_throttle) {
        Some(throttle) => throttle,
        None => plain_hole()?,
    };
    let shape_m2 = shape.effective_area().get::<square_meter>();
    let opened = |log_m2: f64| -> Result<RecoveryMachine, RatingError> {
        let throttle = shape.with_open_ratio(Ratio::new::<ratio>(log_m2.exp() / shape_m2))?;
        Ok(RecoveryMachine { inlet_throttle: Some(throttle), ..machine })
    };
    let at = |log_m2: f64| -> Result<f64, RatingError> {
        Ok(miss(rate_kg_s(input, &opened(log_m2)?, test)?, rated_kg_s))
    };
    let limits = (1e-9_f64.ln(), WIDEST_M2.ln());
    let Some(ends) = bracket(shape_m2.clamp(1e-8, 1e-4).ln(), limits, at)? else {
        let most_kg_s = rate_kg_s(input, &opened(limits.1)?, test)?;
        return Err(RatingError::NoThrottle { rated_kg_s, most_kg_s });
    };
    opened(root_of(at, ends)?)
}

/// A square millimetre without recovery.
fn plain_hole() -> Result<Restriction, RatingError> {
    use uom::si::f64::{MassDensity, Pressure};
    use uom::si::mass_density::kilogram_per_cubic_meter;
    use uom::si::pressure::pascal;
    // 1 mm² passes √(2 ρ Δp) · 1e-6.
    Ok(Restriction::from_rated_flow(
        MassRate::new::<kilogram_per_second>(1e-6 * (2.0 * 1000.0 * 1e5_f64).sqrt()),
        MassDensity::new::<kilogram_per_cubic_meter>(1000.0),
        Pressure::new::<pascal>(1e5),
    )?)
}

type End = (f64, f64);

/// Two ends around the root of a rising function, stepping out from a start; none within the limits.
fn bracket(
    start: f64,
    (lowest, highest): (f64, f64),
    at: impl Fn(f64) -> Result<f64, RatingError>,
) -> Result<Option<(End, End)>, RatingError> {
    let mut near = (start, at(start)?);
    let mut step = 0.2_f64.max(near.1.abs().min(2.0) * 1.1);
    for _ in 0..60 {
        if near.1 == 0.0 {
            return Ok(Some((near, near)));
        }
        let x = (near.0 - step * near.1.signum()).clamp(lowest, highest);
        let next = (x, at(x)?);
        if next.1.is_sign_positive() != near.1.is_sign_positive() {
            return Ok(Some((near, next)));
        }
        if x == lowest || x == highest {
            return Ok(None);
        }
        near = next;
        step *= 1.6;
    }
    Ok(None)
}

fn root_of(at: impl Fn(f64) -> Result<f64, RatingError>, ends: (End, End)) -> Result<f64, RatingError> {
    let tolerance = Tolerance { absolute: 1e-9, relative: 0.0, residual: 1e-8 };
    match find_root(at, ends.0, ends.1, tolerance) {
        Ok(root) => Ok(root.x),
        Err(RootError::NotBracketed { low, .. }) => Ok(low),
        Err(RootError::Function(error)) => Err(error),
    }
}
