//! Runs one law over random cases and counts what came of them.

use proptest::prelude::*;
use proptest::test_runner::{RngSeed, TestCaseError, TestError, TestRunner};
use std::cell::Cell;
use std::env;
use std::fmt::Debug;

/// Cases of each law in the long form.
const LONG: u32 = 1_000;

/// What came of one case.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Came {
    /// There were answers, and the law held.
    Held,
    /// There was no answer, and a reason for it that may be.
    InWords,
}

/// Tries a law on random cases: `short` of them, or the long form's number. At least a share of
/// the cases must have answers, or the law would hold of nothing.
pub fn law<S: Strategy>(
    name: &str,
    short: u32,
    least_held: f64,
    cases: S,
    check: impl Fn(S::Value) -> Result<Came, TestCaseError>,
) where
    S::Value: Debug,
{
    let long = env::var("NARROWS_LAWS").is_ok_and(|form| form == "long");
    // Reads PROPTEST_CASES and PROPTEST_RNG_SEED.
    let by_environment = ProptestConfig::default();
    let count = match (long, env::var("PROPTEST_CASES")) {
        (false, _) => short,
        (true, Err(_)) => LONG,
        (true, Ok(_)) => by_environment.cases,
    };
    let rng_seed = match by_environment.rng_seed {
        RngSeed::Random => RngSeed::Fixed(20),
        given => given,
    };
    let config = ProptestConfig { cases: count, rng_seed, failure_persistence: None, ..by_environment };
    let (tried, held) = (Cell::new(0_u32), Cell::new(0_u32));
    let outcome = TestRunner::new(config).run(&cases, |case| {
        tried.set(tried.get() + 1);
        let came = check(case)?;
        held.set(held.get() + u32::from(came == Came::Held));
        Ok(())
    });
    println!("{name}: {} cases, {} with answers", tried.get(), held.get());
    match outcome {
        Ok(()) => {}
        Err(TestError::Fail(reason, case)) => panic!("{name}: {reason}\n{case:#?}"),
        Err(TestError::Abort(reason)) => panic!("{name}: given up, {reason}"),
    }
    let share = f64::from(held.get()) / f64::from(tried.get());
    assert!(share >= least_held, "{name}: only {share:.2} of the cases have an answer");
}
