//! What forbids the use of a cylinder, and what should be known of it, in words.

use super::date::YearMonth;
use super::filling::NoLimit;
use crate::units::both_scales;
use crate::units::factors::POUND_KG;

/// Why a cylinder may not be filled.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum FillStop {
    /// Made to be filled once.
    #[error("{cylinder} is disposable: refilling it is forbidden")]
    Disposable {
        /// Its name.
        cylinder: String,
    },
    /// Damaged.
    #[error("{cylinder} is damaged: take it out of service")]
    Damaged {
        /// Its name.
        cylinder: String,
    },
    /// Its test has run out.
    #[error("{cylinder} was tested {tested}; the test ran out at the end of {until}, and it is {date}")]
    OutOfDate {
        /// Its name.
        cylinder: String,
        /// When it was tested.
        tested: YearMonth,
        /// Last month of the test.
        until: YearMonth,
        /// The day of the job.
        date: YearMonth,
    },
    /// Its stamp lies in the future.
    #[error(
        "{cylinder} says it was tested {tested}, after the day of the job ({date}); read the stamp again"
    )]
    TestedLater {
        /// Its name.
        cylinder: String,
        /// When it was tested.
        tested: YearMonth,
        /// The day of the job.
        date: YearMonth,
    },
    /// Something else is in it.
    #[error(
        "{cylinder} holds {holds}, not {refrigerant}: a mixture cannot be reclaimed, and its pressure is unknown"
    )]
    OtherRefrigerant {
        /// Its name.
        cylinder: String,
        /// What its owner says is in it.
        holds: String,
        /// The job's refrigerant.
        refrigerant: &'static str,
    },
    /// Fuller than allowed.
    #[error(
        "{cylinder} is over its filling limit by {over_lb:.1} lb ({:.2} kg): liquid can fill it when it \
         warms and burst it",
        over_lb * POUND_KG
    )]
    OverLimit {
        /// Its name.
        cylinder: String,
        /// By how much, lb.
        over_lb: f64,
    },
    /// No limit is known.
    #[error("{cylinder} has no known filling limit ({why})")]
    NoLimit {
        /// Its name.
        cylinder: String,
        /// Why.
        why: NoLimit,
    },
    /// The refrigerant needs a stronger cylinder.
    #[error("{cylinder} is too weak: {why}")]
    TooWeak {
        /// Its name.
        cylinder: String,
        /// Why.
        why: NoLimit,
    },
    /// Saturation where it stands is above its service pressure.
    #[error(
        "{cylinder} is made for {service_psig:.0} psig; {refrigerant} in it would stand at {saturation_psig:.0} psig"
    )]
    AboveServicePressure {
        /// Its name.
        cylinder: String,
        /// Stamped, psig.
        service_psig: f64,
        /// The job's refrigerant.
        refrigerant: &'static str,
        /// At the cylinder's temperature, psig.
        saturation_psig: f64,
    },
}

/// What should be known of a cylinder that may be filled.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum FillNote {
    /// Full to the limit.
    #[error("{cylinder} is full to its limit")]
    Full {
        /// Its name.
        cylinder: String,
    },
    /// The stamp was not read.
    #[error(
        "the water capacity of {cylinder} is not known: there is no limit to fill it to; read the stamp WC"
    )]
    NoWaterCapacity {
        /// Its name.
        cylinder: String,
    },
    /// Contents without a name.
    #[error(
        "{cylinder} holds something, and nothing says what; make sure that it is {refrigerant} and nothing else"
    )]
    ContentsUnsaid {
        /// Its name.
        cylinder: String,
        /// The job's refrigerant.
        refrigerant: &'static str,
    },
    /// No tare: no weight to stop at.
    #[error("the tare of {cylinder} is not known: there is no gross weight to stop at; read the stamp TW")]
    NoTare {
        /// Its name.
        cylinder: String,
    },
    /// The test cannot be judged.
    #[error(
        "{cylinder} was tested {tested}, good to the end of {until}; say the day of the job to have it checked"
    )]
    DateUnsaid {
        /// Its name.
        cylinder: String,
        /// When it was tested.
        tested: YearMonth,
        /// Last month of the test.
        until: YearMonth,
    },
    /// Nothing says when it was tested.
    #[error("nothing says when {cylinder} was tested; read the stamp")]
    TestUnsaid {
        /// Its name.
        cylinder: String,
    },
    /// Warm, its pressure passes what the code allows for its service pressure.
    #[error(
        "at {} {refrigerant} stands at {hot_psig:.0} psig, more than 5/4 of the {service_psig:.0} psig {cylinder} is \
         made for",
        both_scales(*hot_c)
    )]
    WeakWhenHot {
        /// Its name.
        cylinder: String,
        /// The job's refrigerant.
        refrigerant: &'static str,
        /// The hot temperature, °C.
        hot_c: f64,
        /// Saturation there, psig.
        hot_psig: f64,
        /// Stamped, psig.
        service_psig: f64,
    },
}
