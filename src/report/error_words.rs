//! Why there is no rate, in the reader's own units.

use uom::si::f64::Pressure;
use uom::si::pressure::pascal;

use crate::job::JobError;
use crate::units::{UnitSet, as_sentence};

/// One sentence; pressures as a gauge in this air shows them.
pub fn job_error_text(error: &JobError, units: UnitSet, ambient: Pressure) -> String {
    let pressure = |value: f64| units.pressure(Pressure::new::<pascal>(value), ambient);
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
        other => as_sentence(&other.to_string()),
    }
}
