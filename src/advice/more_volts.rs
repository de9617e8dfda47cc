//! What gives a motor more volts: a change of what loses most of them.

use crate::power::{LosesMost, Source};

/// A sentence that names what loses most and what helps there.
///
/// - `to_do`: what the motor fails to do, "start" or "run"
pub fn more_volts(loses_most: Option<LosesMost>, source: &Source, to_do: &str) -> String {
    match loses_most {
        Some(LosesMost::Supply) => {
            let (lost_in, larger) = match source {
                Source::Generator(_) => ("generator", "a larger generator"),
                Source::HeldPanel | Source::Service(_) => ("supply", "a larger supply"),
            };
            format!(
                "Most volts are lost in the {lost_in}: {larger}, or a machine that asks for less to {to_do}, helps."
            )
        }
        Some(LosesMost::Branch) => {
            "Most volts are lost in the branch circuit: another circuit, nearer to the \
             panel, helps. Fixed wiring belongs to a qualified person."
                .to_owned()
        }
        Some(LosesMost::Receptacle) => {
            "Most volts are lost in the receptacle's contacts: another receptacle helps.".to_owned()
        }
        Some(LosesMost::Cords) => "A shorter, thicker cord or a nearer receptacle helps.".to_owned(),
        None => format!("No volts are lost on the way: a machine that asks for less to {to_do} helps."),
    }
}
