//! What a person should know beside an answer.

/// An answer's footnote; `report` puts it into words.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Note {
    /// The refrigerant's properties are estimated (fitted mixing parameters).
    EstimatedProperties,
    /// Somewhere it is colder than the refrigerant's equation of state is valid for.
    ExtrapolatedProperties {
        /// It is valid from here on.
        below_k: f64,
    },
    /// A blend with glide: liquid is taken at its bubble point, vapour at its dew point, and the
    /// composition is taken to stay as charged.
    Glide {
        /// Bubble-to-dew temperature span at atmospheric pressure.
        glide_k: f64,
    },
    /// The system's pressure is above the discharge: refrigerant flows by itself.
    FlowsByItself,
    /// The machine draws liquid with vapour; its capacity is taken by volume.
    WetSuction {
        /// Mass fraction of vapour at the compressor.
        vapor_ratio: f64,
    },
    /// Liquid reaches a machine whose own inlet is not described: it is taken as wide open.
    OpenInlet,
    /// Friction of flashing flow is uncertain: published methods differ by a factor of two.
    TwoPhaseUncertain,
    /// The compressed gas would be hotter than the property table; its temperature is polytropic.
    DischargeTemperatureEstimated,
    /// One connection draws liquid and vapour at once with this share of vapour.
    MixedPort {
        /// Mass fraction of vapour assumed.
        vapor_ratio: f64,
    },
    /// Volts are for the nameplate load; the compressor takes this share of it at this point.
    NameplateLoad {
        /// Shaft power here over nameplate shaft power.
        duty_ratio: f64,
    },
    /// The motor would be asked for more than its nameplate at this point.
    DutyOverNameplate {
        /// Shaft power here over nameplate shaft power.
        duty_ratio: f64,
    },
}
