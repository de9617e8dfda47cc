//! Where the power comes from: a panel whose voltage was read, a service with impedance, or a
//! generator.
//!
//! Sinusoidal and single phase. A generator's regulator is taken as a droop in proportion to
//! load while running and as a transient reactance while a motor starts.

use uom::si::electric_potential::volt;
use uom::si::electrical_resistance::ohm;
use uom::si::f64::{ElectricPotential, ElectricalResistance, Frequency, Power};
use uom::si::frequency::hertz;
use uom::si::power::watt;

use super::error::{PowerError, checked};
use super::phasor::Phasor;

/// The source that feeds the branch circuit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Supply {
    open_circuit_v: f64,
    frequency_hz: f64,
    source: Source,
}

/// What stands behind the open-circuit voltage.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Source {
    /// The voltage at the panel was read and is held, whatever is drawn.
    HeldPanel,
    /// Service conductors and transformer.
    Service(SourceImpedance),
    /// An engine or battery generator.
    Generator(Generator),
}

/// Resistance and reactance in front of the panel, both conductors together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SourceImpedance {
    resistance_ohm: f64,
    reactance_ohm: f64,
}

/// A generator by its two ratings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Generator {
    continuous_va: f64,
    surge_va: f64,
    sag_ratio: f64,
    transient_reactance_ratio: f64,
}

impl Supply {
    /// A panel at a voltage that does not move, 60 Hz.
    ///
    /// # Errors
    /// Voltage outside 80 to 280 V.
    pub fn held_panel(voltage: ElectricPotential) -> Result<Self, PowerError> {
        Self::new(voltage, Frequency::new::<hertz>(60.0), Source::HeldPanel)
    }

    /// A source with its open-circuit (no-load) voltage.
    ///
    /// # Errors
    /// Voltage outside 80 to 280 V, frequency outside 45 to 65 Hz.
    pub fn new(
        open_circuit: ElectricPotential,
        frequency: Frequency,
        source: Source,
    ) -> Result<Self, PowerError> {
        Ok(Self {
            open_circuit_v: checked("supply voltage", open_circuit.get::<volt>(), "V", 80.0, 280.0)?,
            frequency_hz: checked("supply frequency", frequency.get::<hertz>(), "Hz", 45.0, 65.0)?,
            source,
        })
    }

    /// Voltage with nothing drawn.
    pub fn open_circuit(&self) -> ElectricPotential {
        ElectricPotential::new::<volt>(self.open_circuit_v)
    }

    /// Frequency.
    pub fn frequency(&self) -> Frequency {
        Frequency::new::<hertz>(self.frequency_hz)
    }

    /// What stands behind the voltage.
    pub fn source(&self) -> &Source {
        &self.source
    }

    pub(crate) fn open_circuit_v(&self) -> f64 {
        self.open_circuit_v
    }

    pub(crate) fn frequency_hz(&self) -> f64 {
        self.frequency_hz
    }

    /// Impedance while running steadily.
    pub(crate) fn running_impedance(&self) -> Phasor {
        match self.source {
            Source::HeldPanel => Phasor::ZERO,
            Source::Service(z) => Phasor::new(z.resistance_ohm, z.reactance_ohm),
            Source::Generator(g) => Phasor::real(g.sag_ratio * self.generator_base_ohm(g)),
        }
    }

    /// Impedance during the first cycles of a motor start.
    pub(crate) fn starting_impedance(&self) -> Phasor {
        match self.source {
            Source::Generator(g) => {
                Phasor::new(0.0, g.transient_reactance_ratio * self.generator_base_ohm(g))
            }
            _ => self.running_impedance(),
        }
    }

    fn generator_base_ohm(&self, generator: Generator) -> f64 {
        self.open_circuit_v * self.open_circuit_v / generator.continuous_va
    }
}

impl SourceImpedance {
    /// Checks an impedance of the service, both conductors together.
    ///
    /// # Errors
    /// Resistance or reactance outside 0 to 5 Ω.
    pub fn new(
        resistance: ElectricalResistance,
        reactance: ElectricalResistance,
    ) -> Result<Self, PowerError> {
        Ok(Self {
            resistance_ohm: checked("source resistance", resistance.get::<ohm>(), "ohm", 0.0, 5.0)?,
            reactance_ohm: checked("source reactance", reactance.get::<ohm>(), "ohm", 0.0, 5.0)?,
        })
    }

    /// A small building's 120 V service: 0.02 Ω and 0.02 Ω, about 1 V at 40 A.
    ///
    /// Common practice, no source.
    pub fn typical_service() -> Self {
        Self { resistance_ohm: 0.02, reactance_ohm: 0.02 }
    }
}

impl Generator {
    /// A generator by its continuous and surge ratings in volt-amperes.
    ///
    /// Voltage sags 5 % at its continuous rating; transient reactance 0.25 of its base
    /// impedance. Both common practice for small sets, no source.
    ///
    /// # Errors
    /// Ratings outside 100 VA to 200 kVA, or a surge rating below the continuous one.
    pub fn new(continuous: Power, surge: Power) -> Result<Self, PowerError> {
        let continuous_va =
            checked("generator continuous rating", continuous.get::<watt>(), "VA", 100.0, 200e3)?;
        let surge_va = checked("generator surge rating", surge.get::<watt>(), "VA", 100.0, 400e3)?;
        if surge_va < continuous_va {
            return Err(PowerError::SurgeBelowContinuous { surge_va, continuous_va });
        }
        Ok(Self { continuous_va, surge_va, sag_ratio: 0.05, transient_reactance_ratio: 0.25 })
    }

    /// The same generator with its sag at continuous load and its transient reactance, both as a
    /// ratio of its rated voltage and base impedance.
    ///
    /// # Errors
    /// Sag outside 0 to 0.3, reactance outside 0 to 1.
    pub fn with_sag(self, sag_ratio: f64, transient_reactance_ratio: f64) -> Result<Self, PowerError> {
        Ok(Self {
            sag_ratio: checked("generator sag", sag_ratio, "of its voltage", 0.0, 0.3)?,
            transient_reactance_ratio: checked(
                "generator transient reactance",
                transient_reactance_ratio,
                "of its base impedance",
                0.0,
                1.0,
            )?,
            ..self
        })
    }

    pub(crate) fn continuous_va(&self) -> f64 {
        self.continuous_va
    }

    pub(crate) fn surge_va(&self) -> f64 {
        self.surge_va
    }
}
