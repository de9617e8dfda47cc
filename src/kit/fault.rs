//! A fault in what was written: which field, and what is expected there.

use crate::units::{FlowCoefficient, Measure, Reference, Typed, TypedPressure};
use std::fmt;
use std::ops::RangeInclusive;
use uom::si::f64::{Length, Ratio};

/// One field that cannot be used as it stands.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Fault {
    /// The field, as `kits.A.parts.0.bore`.
    pub path: String,
    /// The thing, its value and what is expected.
    pub message: String,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.path, self.message)
    }
}

/// Collects the faults of everything beneath one path.
pub(crate) struct Door<'a> {
    path: String,
    faults: &'a mut Vec<Fault>,
}

impl<'a> Door<'a> {
    pub(crate) fn new(faults: &'a mut Vec<Fault>) -> Self {
        Self { path: String::new(), faults }
    }

    /// The door of a field beneath this one.
    pub(crate) fn at(&mut self, field: impl fmt::Display) -> Door<'_> {
        let path = self.join(&field);
        Door { path, faults: self.faults }
    }

    /// Reports a fault of a field beneath this one; of this one if `field` is empty.
    pub(crate) fn fault(&mut self, field: impl fmt::Display, message: impl Into<String>) {
        let path = self.join(&field);
        self.faults.push(Fault { path, message: message.into() });
    }

    /// The value, or nothing and a fault of a field beneath this one.
    pub(crate) fn keep<T, E: fmt::Display>(
        &mut self,
        field: impl fmt::Display,
        result: Result<T, E>,
    ) -> Option<T> {
        match result {
            Ok(value) => Some(value),
            Err(error) => {
                self.fault(field, error.to_string());
                None
            }
        }
    }

    /// Refuses a value outside `range` (in SI units); the sentence repeats what was typed and
    /// gives the range as `expected`.
    pub(crate) fn range<Q: Measure>(
        &mut self,
        field: &str,
        typed: &Typed<Q>,
        range: RangeInclusive<f64>,
        expected: &str,
    ) {
        if !range.contains(&typed.si()) {
            self.fault(field, format!("{typed} is out of range; expected {expected}"));
        }
    }

    /// The same for a value that may be left out.
    pub(crate) fn optional<Q: Measure>(
        &mut self,
        field: &str,
        typed: Option<&Typed<Q>>,
        range: RangeInclusive<f64>,
        expected: &str,
    ) {
        if let Some(typed) = typed {
            self.range(field, typed, range, expected);
        }
    }

    /// A band goes upwards, and has no end below zero.
    pub(crate) fn band<Q: Measure>(&mut self, field: &str, band: Option<&super::Band<Typed<Q>>>) {
        let Some(band) = band else { return };
        if band.low.si() < 0.0 || band.high.si() < band.low.si() {
            self.fault(
                field,
                format!("{} to {} is no band; expected low, then high, both above zero", band.low, band.high),
            );
        }
    }

    /// The bore of any part.
    pub(crate) fn bore(&mut self, bore: Option<&Typed<Length>>) {
        self.optional("bore", bore, 0.05e-3..=0.2, "a bore of 0.05 to 200 mm");
    }

    /// The pressure that a thing is made for, as marked on it.
    pub(crate) fn marked_pressure(&mut self, field: &str, marked: Option<&TypedPressure>, example: &str) {
        if let Some(marked) = marked.filter(|marked| marked.reference() == Reference::Vacuum) {
            self.fault(field, format!("{marked} is a vacuum; expected one as {example}"));
        }
    }

    /// F_L of any part.
    pub(crate) fn pressure_recovery(&mut self, factor: Option<&Typed<Ratio>>) {
        self.optional("pressure_recovery", factor, 0.3..=1.0, "a factor F_L of 0.3 to 1");
    }

    /// Kv or Cv of any part.
    pub(crate) fn flow_coefficient(&mut self, coefficient: Option<&Typed<FlowCoefficient>>) {
        self.optional("flow_coefficient", coefficient, 1e-4..=1e3, "0.0001 to 1000 Kv");
    }

    fn join(&self, field: &impl fmt::Display) -> String {
        let field = field.to_string();
        match (self.path.is_empty(), field.is_empty()) {
            (true, _) => field,
            (false, true) => self.path.clone(),
            (false, false) => format!("{}.{field}", self.path),
        }
    }
}
