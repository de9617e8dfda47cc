//! A recovery machine: compressor, condenser, cut-out and motor, as written.

use super::{Band, Door, Hole, Motor};
use crate::fluid::SafetyClass;
use crate::units::{Measure, Typed, TypedPressure};
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use uom::si::f64::{Ratio, ThermalConductance, ThermodynamicTemperature, VolumeRate};

/// Exponent of the compressor's re-expansion and compression.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum PolytropicExponent {
    /// The vapour's own isentropic exponent; written `"from properties"`.
    #[default]
    FromProperties,
    /// A fixed number, 1.01 to 2.
    Given(Typed<Ratio>),
}

impl PolytropicExponent {
    const FROM_PROPERTIES: &'static str = "from properties";

    /// As it stands in a file or a field.
    pub fn as_typed(&self) -> &str {
        match self {
            Self::FromProperties => Self::FROM_PROPERTIES,
            Self::Given(typed) => typed.as_typed(),
        }
    }
}

impl Serialize for PolytropicExponent {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.as_typed())
    }
}

impl<'de> Deserialize<'de> for PolytropicExponent {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text =
            crate::units::text_or_number(deserializer, "an exponent, as \"1.1\" or \"from properties\"")?;
        if text.trim().replace(['_', '-'], " ").eq_ignore_ascii_case(Self::FROM_PROPERTIES) {
            return Ok(Self::FromProperties);
        }
        Typed::parse(&text).map(Self::Given).map_err(|_| {
            serde::de::Error::custom(format!(
                "{text:?} is no exponent; say a number, as 1.1, or \"from properties\""
            ))
        })
    }
}

/// How the condenser holds the discharge: exactly one of the two.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Condenser {
    /// Condenses at this temperature whatever the load.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub condensing_temperature: Option<Typed<ThermodynamicTemperature>>,
    /// Heat conductance to the ambient air.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub conductance: Option<Typed<ThermalConductance>>,
}

/// What the motor has to carry.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PowerLoad {
    /// Its rated torque: the planning case.
    #[default]
    Nameplate,
    /// What the compressor asks at the operating point.
    Duty,
}

/// Refrigerant safety classes (ASHRAE 34) a machine can be marked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[expect(missing_docs, reason = "the names are the standard's own")]
pub enum SuitableClass {
    A1,
    A2L,
    A2,
    A3,
    B1,
    B2L,
}

impl From<SuitableClass> for SafetyClass {
    fn from(class: SuitableClass) -> Self {
        match class {
            SuitableClass::A1 => Self::A1,
            SuitableClass::A2L => Self::A2L,
            SuitableClass::A2 => Self::A2,
            SuitableClass::A3 => Self::A3,
            SuitableClass::B1 => Self::B1,
            SuitableClass::B2L => Self::B2L,
        }
    }
}

/// A recovery machine.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Machine {
    /// What its owner calls it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,
    /// The shelf machine it was copied from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,
    /// Swept volume per time at rated speed.
    pub displacement: Typed<VolumeRate>,
    /// How well it is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub displacement_band: Option<Band<Typed<VolumeRate>>>,
    /// Dead volume over swept volume.
    pub clearance: Typed<Ratio>,
    /// How well it is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub clearance_band: Option<Band<Typed<Ratio>>>,
    /// What leakage and heating leave of the ideal capacity.
    pub loss_factor: Typed<Ratio>,
    /// How well it is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub loss_factor_band: Option<Band<Typed<Ratio>>>,
    /// Exponent of re-expansion.
    #[serde(default)]
    pub polytropic_exponent: PolytropicExponent,
    /// Compression work over shaft work; [`super::MECHANICAL_EFFICIENCY`] if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mechanical_efficiency: Option<Typed<Ratio>>,
    /// The machine's own inlet as a hole; none if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub inlet_throttle: Option<Hole>,
    /// How the discharge is held.
    pub condenser: Condenser,
    /// Pressure at which the machine stops itself.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cut_out: Option<TypedPressure>,
    /// Whether it may be fed liquid.
    #[serde(default)]
    pub takes_liquid: bool,
    /// Safety classes it is marked for.
    #[serde(default)]
    pub suitable_for: Vec<SuitableClass>,
    /// Whether it is marked for low-pressure refrigerants (40 CFR 82.152: below 45 psia at 104 °F).
    #[serde(default)]
    pub takes_low_pressure: bool,
    /// Its motor.
    pub motor: Motor,
    /// What the motor has to carry.
    #[serde(default)]
    pub power_load: PowerLoad,
}

impl Machine {
    pub(crate) fn check(&self, door: &mut Door<'_>) {
        door.range(
            "displacement",
            &self.displacement,
            1e-7..=1.0,
            "0.0003 to 2100 cfm (0.0001 L/s to 1 m3/s)",
        );
        door.band("displacement_band", self.displacement_band.as_ref());
        door.range("clearance", &self.clearance, 0.0..=0.5, "0 to 50 %");
        door.band("clearance_band", self.clearance_band.as_ref());
        door.range("loss_factor", &self.loss_factor, 0.05..=1.0, "0.05 to 1");
        door.band("loss_factor_band", self.loss_factor_band.as_ref());
        if let PolytropicExponent::Given(exponent) = &self.polytropic_exponent {
            door.range("polytropic_exponent", exponent, 1.01..=2.0, "an exponent of 1.01 to 2");
        }
        door.optional("mechanical_efficiency", self.mechanical_efficiency.as_ref(), 0.1..=1.0, "0.1 to 1");
        if let Some(throttle) = &self.inlet_throttle {
            throttle.check(&mut door.at("inlet_throttle"));
        }
        self.condenser.check(&mut door.at("condenser"));
        if let Some(cut_out) = &self.cut_out
            && !(2e5..=2e7).contains(&cut_out.absolute(uom::si::f64::Pressure::from_si(101_325.0)).si())
        {
            door.fault(
                "cut_out",
                format!("{cut_out} is out of range; expected 15 to 2885 psig (2 to 200 bar(a))"),
            );
        }
        self.motor.check(&mut door.at("motor"));
    }
}

impl Condenser {
    fn check(&self, door: &mut Door<'_>) {
        match (&self.condensing_temperature, &self.conductance) {
            (Some(_), Some(_)) => door.fault(
                "conductance",
                "a condensing temperature and a conductance are both given; set one of them to none",
            ),
            (None, None) => door.fault(
                "condensing_temperature",
                "neither a condensing temperature nor a conductance is given; say condensing_temperature, as 100 degF, or conductance, as 60 W/K",
            ),
            _ => {}
        }
        door.optional(
            "condensing_temperature",
            self.condensing_temperature.as_ref(),
            200.0..=400.0,
            "−100 to 260 degF (−73 to 127 degC)",
        );
        door.optional("conductance", self.conductance.as_ref(), 0.1..=1e5, "0.1 to 100000 W/K");
    }
}
