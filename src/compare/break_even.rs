//! The charge above which push-pull repays its hose change, and its band.
//!
//! Looked for up to the document's own charge. Time to the level, without waiting to look again.

use super::bands::Band;
use super::choice::alone;
use super::draws::DrawPlan;
use super::error::CompareError;
use super::uncertain::drawn;
use super::whole_job::planned;
use crate::job::JobError;
use crate::job::over_time::{BreakEven, Target, break_even};
use crate::kit::Rules;
use crate::scenario::{Document, KitJob};
use crate::units::Measure;

/// Charges below this share of the document's are not looked at.
const SMALLEST_SHARE: f64 = 0.03;

/// Liquid then vapour against push-pull for one kit.
///
/// # Errors
/// A job cannot be followed.
pub fn methods_break_even(job: &KitJob) -> Result<BreakEven, JobError> {
    let mut setup = job.setup.clone();
    setup.target = Target::level(setup.target.level);
    let charge = setup.system.charge;
    let [liquid, pushed] = &job.others;
    break_even(&setup, liquid, pushed, (charge * SMALLEST_SHARE, charge))
}

/// The break-even over many draws.
#[derive(Debug, Clone, PartialEq)]
pub struct BreakEvenBand {
    /// How many draws were made.
    pub draws: usize,
    /// Of the charge, in kg, over the draws that have a break-even within the charge.
    pub charge: Option<Band>,
    /// Draws in which push-pull is no faster at any charge.
    pub never: usize,
    /// Draws in which it is faster at every charge.
    pub always: usize,
}

/// Draws of one kit's break-even under way.
pub struct BreakEvenDrawing<'a> {
    document: Document,
    plan: DrawPlan,
    rules: &'a Rules,
    charges_kg: Vec<f64>,
    never: usize,
    always: usize,
    made: usize,
}

impl<'a> BreakEvenDrawing<'a> {
    /// Nothing drawn yet.
    ///
    /// # Errors
    /// No such kit; the document describes no whole job.
    pub fn new(
        document: &Document,
        kit: &str,
        plan: DrawPlan,
        rules: &'a Rules,
    ) -> Result<Self, CompareError> {
        let document = alone(document, kit)?;
        planned(&document, rules)?;
        Ok(Self { document, plan, rules, charges_kg: Vec::new(), never: 0, always: 0, made: 0 })
    }

    /// How many draws were made.
    pub fn made(&self) -> usize {
        self.made
    }

    /// Makes one more draw; false if all are made.
    pub fn step(&mut self) -> bool {
        let Some(index) = self.plan.next(self.made) else { return false };
        self.made += 1;
        let Ok(planned) = planned(&drawn(&self.document, &self.plan, index), self.rules) else { return true };
        match planned.kits.first().map(methods_break_even) {
            Some(Ok(BreakEven::At { charge, .. })) => self.charges_kg.push(charge.si()),
            Some(Ok(BreakEven::First { .. })) => self.never += 1,
            Some(Ok(BreakEven::Second { .. })) => self.always += 1,
            Some(Err(_)) | None => {}
        }
        true
    }

    /// The band of what was drawn so far.
    pub fn band(&self) -> BreakEvenBand {
        let charge = Band::of(self.charges_kg.clone());
        BreakEvenBand { draws: self.made, charge, never: self.never, always: self.always }
    }
}
