//! Questions about the reference kits, through the document, as a person would ask them.

use serde::Deserialize;
use uom::si::mass_rate::pound_per_minute;
use uom::si::pressure::psi;

use super::question::Ask;
use super::words;
use crate::presets::built_in_scenario;
use crate::report::solve_document;
use crate::scenario::{read, set};

#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Figure {
    Rate,
    Inlet,
}

/// One kit of the reference scenario: R-410A at 75 °F.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ReferenceKit {
    kit: String,
    port: String,
    displacement: String,
    figure: Figure,
}

impl Ask for ReferenceKit {
    fn what(&self) -> String {
        let figure = match self.figure {
            Figure::Rate => "rate",
            Figure::Inlet => "inlet",
        };
        let Self { kit, port, displacement, .. } = self;
        format!("R-410A {port} 75 °F, kit {kit}, {displacement}, {figure}")
    }

    fn unit(&self) -> &'static str {
        match self.figure {
            Figure::Rate => "lb/min",
            Figure::Inlet => "psig",
        }
    }

    fn answer(&self) -> Result<f64, String> {
        let text = built_in_scenario("reference-kits").ok_or("the reference scenario is missing")?;
        let mut document = read(text).map_err(words)?;
        set(&mut document, "source.port", &self.port).map_err(words)?;
        set(&mut document, "machine.displacement", &self.displacement).map_err(words)?;
        let solved = solve_document(&document).map_err(|faults| format!("{faults:?}"))?;
        let solved = solved.into_iter().find(|it| it.kit.name == self.kit).ok_or("no such kit")?;
        let ambient = solved.kit.setup.ambient.pressure;
        let point = solved.answer.point.map_err(words)?;
        Ok(match self.figure {
            Figure::Rate => point.mass_flow.get::<pound_per_minute>(),
            Figure::Inlet => (point.machine_inlet_pressure - ambient).get::<psi>(),
        })
    }
}
