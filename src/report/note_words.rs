//! Notes beside an answer, in words.

use crate::job::Note;
use crate::power;
use crate::report::SolvedKit;
use crate::units::{as_sentence, both_scales};

/// Said of an operating point and of a job.
pub(super) const OPEN_INLET: &str = "The machine's own inlet is not described and taken as wide open. It often \
limits liquid: the liquid rating on its plate may be far lower.";

/// The same of both.
pub(super) fn extrapolated_text(below_k: f64) -> String {
    format!(
        "Properties are extrapolated below {}: the refrigerant's equation of state is not valid there.",
        both_scales(below_k - 273.15)
    )
}

/// A blend's glide, in both units.
pub(super) fn glide_text(glide_k: f64) -> String {
    format!("{:.1} °F ({glide_k:.1} K)", 1.8 * glide_k)
}

/// One note as a sentence.
pub fn note_text(note: &Note) -> String {
    match *note {
        Note::EstimatedProperties => {
            "Properties of this blend are estimated: mixing parameters were fitted, not measured.".to_owned()
        }
        Note::ExtrapolatedProperties { below_k } => extrapolated_text(below_k),
        Note::Glide { glide_k } => format!(
            "This blend boils over a glide of {}: liquid is taken at its bubble point, vapour at its \
             dew point, and its composition as charged.",
            glide_text(glide_k)
        ),
        Note::FlowsByItself => {
            "System pressure is above the discharge: refrigerant also flows by itself.".to_owned()
        }
        Note::WetSuction { vapor_ratio } => format!(
            "The machine draws liquid with the vapour ({:.0} % vapour by mass); its capacity is taken by volume, \
             its power is an estimate.",
            100.0 * vapor_ratio
        ),
        Note::OpenInlet => OPEN_INLET.to_owned(),
        Note::TwoPhaseUncertain => {
            "Liquid flashes on the way: published friction methods differ by up to a factor of two here."
                .to_owned()
        }
        Note::DischargeTemperatureEstimated => {
            "The compressed gas is hotter than the property table; its temperature is an estimate.".to_owned()
        }
        Note::MixedPort { vapor_ratio } => format!(
            "One connection draws liquid and vapour together; taken as {:.0} % vapour by mass.",
            100.0 * vapor_ratio
        ),
        Note::NameplateLoad { duty_ratio } => format!(
            "Volts and amps are for the nameplate load; at this point the compressor asks about {:.0} % of it.",
            100.0 * duty_ratio
        ),
        Note::DutyOverNameplate { duty_ratio } => format!(
            "The compressor asks {:.0} % of the motor's nameplate power at this point.",
            100.0 * duty_ratio
        ),
    }
}

/// Every note of a kit: of the flow and of the power path.
pub fn notes_of(solved: &SolvedKit) -> Vec<String> {
    let flow = solved.shown_point().map(|point| point.notes.as_slice()).unwrap_or_default();
    let power = solved.answer.power.as_ref().map(|power| power.notes.as_slice()).unwrap_or_default();
    let mut texts: Vec<String> = flow.iter().map(note_text).collect();
    texts.extend(power.iter().filter(|note| !is_caution(note)).map(|note| as_sentence(&note.to_string())));
    texts
}

/// A caution says it already.
fn is_caution(note: &power::Note) -> bool {
    matches!(note, power::Note::KeepGroundFaultProtection | power::Note::CoiledCord { .. })
}
