//! Why there is no rate, in the reader's own units.

use uom::si::f64::{Mass, Power, Pressure, ThermodynamicTemperature};
use uom::si::mass::kilogram;
use uom::si::power::watt;
use uom::si::pressure::pascal;
use uom::si::thermodynamic_temperature::kelvin;

use crate::job::JobError;
use crate::machine::MachineError;
use crate::units::{UnitSet, as_sentence};

/// One sentence; pressures as a gauge in this air shows them.
pub fn job_error_text(error: &JobError, units: UnitSet, ambient: Pressure) -> String {
    let pressure = |value: f64| units.pressure(Pressure::new::<pascal>(value), ambient);
    let temperature = |value: f64| units.temperature(ThermodynamicTemperature::new::<kelvin>(value));
    let mass = |value: f64| units.mass(Mass::new::<kilogram>(value));
    match error {
        JobError::DrawsNothing { system_pa, discharge_pa, ultimate_pa } => format!(
            "No steady point: the machine draws nothing from {} against a discharge of {}. Against that it \
             reaches {} at best.",
            pressure(*system_pa),
            pressure(*discharge_pa),
            pressure(*ultimate_pa),
        ),
        JobError::CutOut { discharge_pa, cut_out_pa } => format!(
            "No steady point: the discharge needs {} and the high-pressure cut-out stops the machine at {}.",
            pressure(*discharge_pa),
            pressure(*cut_out_pa),
        ),
        JobError::BelowTable { floor_pa } => format!(
            "No steady point: the machine would pull its inlet below {}, the end of the property table.",
            pressure(*floor_pa),
        ),
        JobError::DischargeBlocked { .. } => {
            "No steady point: the discharge path cannot pass the flow into the cylinder at any pressure the \
             property table knows."
                .to_owned()
        }
        JobError::Machine(MachineError::CannotCondense { at_limit_w, limit_k, .. }) => format!(
            "The condenser is at its limit: it cannot condense above {}, next to the critical temperature, and \
             the {} that it rejects there are less than it is given. A larger condenser, a cooler place or less \
             flow helps.",
            temperature(*limit_k),
            units.power(Power::new::<watt>(*at_limit_w)),
        ),
        JobError::DoesNotFit { mass_kg, holds_kg, temperature_k } => format!(
            "{} do not fit: at {} the vessel is full of liquid at {}. A smaller charge or a larger volume is \
             expected.",
            mass(*mass_kg),
            temperature(*temperature_k),
            mass(*holds_kg),
        ),
        JobError::NoCylinder => {
            "There is no cylinder that may be filled; the Stop about each says why.".to_owned()
        }
        other => as_sentence(&other.to_string()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(error: JobError, units: UnitSet) -> String {
        job_error_text(&error, units, Pressure::new::<pascal>(101_325.0))
    }

    /// 136.078 kg are 300 lb, 36.287 kg 80 lb; 300 K are 80.33 °F and 26.85 °C.
    #[test]
    fn too_large_a_charge_is_said_in_the_units_of_the_reader() {
        let error = JobError::DoesNotFit { mass_kg: 136.078, holds_kg: 36.287, temperature_k: 300.0 };
        let pounds = said(error.clone(), UnitSet::US_TRADE);
        assert!(["300 lb", "80.0 lb", "80.3 °F"].iter().all(|one| pounds.contains(one)), "{pounds}");
        let kilograms = said(error, UnitSet::SI);
        assert!(["136 kg", "36.3 kg", "26.9 °C"].iter().all(|one| kilograms.contains(one)), "{kilograms}");
    }

    /// Near the critical temperature what is given and what goes off are the same to the last digit shown.
    #[test]
    fn a_condenser_at_its_limit_does_not_contradict_itself() {
        let error = MachineError::CannotCondense { heat_w: 548.3, at_limit_w: 548.1, limit_k: 300.0 };
        let text = said(error.into(), UnitSet::US_TRADE);
        assert_eq!(text.matches("548 W").count(), 1, "{text}");
        assert!(text.contains("80.3 °F") && text.contains("at its limit"), "{text}");
    }
}
