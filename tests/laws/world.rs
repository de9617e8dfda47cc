//! Random jobs as documents: any refrigerant from near vacuum to near its critical point, any
//! order of parts, machines large and small.

use narrows::flow::{FlowError, Medium, Point};
use narrows::fluid::{self, FluidError, Refrigerant};
use narrows::job::{self, JobError, OperatingPoint, Setup};
use narrows::machine::MachineError;
use narrows::scenario::{Document, read, resolve};
use proptest::prelude::*;

/// A part of the path by its numbers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Piece {
    Hole { bore_mm: f64, coefficient: f64, recovery: f64 },
    Hose { bore_mm: f64, length_m: f64, rise_ratio: f64 },
    Gauges { seats: u32, bore_mm: f64 },
    Valve { kv: f64 },
    Drier { kv: f64, area_left: f64 },
}

impl Piece {
    /// As it stands in a file.
    fn text(self) -> String {
        match self {
            Self::Hole { bore_mm, coefficient, recovery } => format!(
                "BallValve(bore: \"{bore_mm} mm\", discharge_coefficient: \"{coefficient}\", pressure_recovery: \"{recovery}\")"
            ),
            Self::Hose { bore_mm, length_m, rise_ratio } => format!(
                "Hose(bore: \"{bore_mm} mm\", length: \"{length_m} m\", rise: \"{} m\")",
                rise_ratio * length_m
            ),
            Self::Gauges { seats, bore_mm } => format!("GaugeSet(seats: {seats}, bore: \"{bore_mm} mm\")"),
            Self::Valve { kv } => format!("Valve(flow_coefficient: \"{kv} Kv\")"),
            Self::Drier { kv, area_left } => {
                format!("FilterDrier(flow_coefficient: \"{kv} Kv\", area_left: \"{area_left}\")")
            }
        }
    }

    /// Its bore times `share`, or what passes as much less.
    pub fn scaled(self, share: f64) -> Self {
        match self {
            Self::Hole { bore_mm, coefficient, recovery } => {
                Self::Hole { bore_mm: share * bore_mm, coefficient, recovery }
            }
            Self::Hose { bore_mm, length_m, rise_ratio } => {
                Self::Hose { bore_mm: share * bore_mm, length_m, rise_ratio }
            }
            Self::Gauges { seats, bore_mm } => Self::Gauges { seats, bore_mm: share * bore_mm },
            Self::Valve { kv } => Self::Valve { kv: share * kv },
            Self::Drier { kv, area_left } => Self::Drier { kv: share * kv, area_left },
        }
    }

    /// A longer hose; one more seat; another part stays.
    pub fn longer(self, times: f64) -> Self {
        match self {
            Self::Hose { bore_mm, length_m, rise_ratio } => {
                Self::Hose { bore_mm, length_m: times * length_m, rise_ratio: rise_ratio / times }
            }
            Self::Gauges { seats, bore_mm } => Self::Gauges { seats: (seats + 1).min(6), bore_mm },
            other => other,
        }
    }
}

/// What the port draws.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Draws {
    Liquid,
    Vapour,
    Both { vapour_share: f64 },
}

/// How the machine condenses.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Condenses {
    /// At this share of the critical temperature.
    At { warmth: f64 },
    /// By a conductance in W/K to air at this share of the critical temperature.
    Conductance { w_k: f64 },
}

/// One job.
#[derive(Debug, Clone, PartialEq)]
pub struct World {
    pub refrigerant: &'static str,
    /// Temperature of the system over the critical one.
    pub warmth: f64,
    pub draws: Draws,
    pub pieces: Vec<Piece>,
    /// Parts of a second connection's own, and how many of `pieces` come before the meeting.
    pub second: Option<(Vec<Piece>, usize)>,
    pub cfm: f64,
    pub clearance: f64,
    pub exponent: Option<f64>,
    pub condenses: Condenses,
    /// Temperature of the air over the critical one.
    pub air: f64,
    pub delayed: bool,
    pub separate: bool,
}

/// Why a world has no operating point.
#[derive(Debug, Clone, PartialEq)]
pub enum Why {
    /// The document says what cannot be.
    Faults(String),
    /// There is no point.
    NoPoint(JobError),
}

impl Why {
    /// The machine would pull its inlet below the table: less passes than any figure.
    pub fn is_below_table(&self) -> bool {
        let too_high = matches!(self, Self::NoPoint(JobError::Flow(FlowError::NothingPasses { .. })));
        too_high || matches!(self, Self::NoPoint(JobError::BelowTable { .. }))
    }

    /// The condenser is too small for so much.
    pub fn is_too_much(&self) -> bool {
        matches!(self, Self::NoPoint(JobError::Machine(MachineError::CannotCondense { .. })))
    }

    /// The weight of what falls brings its pressure above the table.
    pub fn is_above_table(&self) -> bool {
        let Self::NoPoint(JobError::Flow(FlowError::Fluid(error))) = self else { return false };
        matches!(error, FluidError::AboveRange { quantity: "pressure", .. })
    }

    /// What arrives is so little that the machine draws nothing from it.
    pub fn draws_nothing(&self) -> bool {
        matches!(self, Self::NoPoint(JobError::DrawsNothing { .. }))
    }

    /// A reason that a sound question may have.
    pub fn may_be(&self) -> bool {
        let faults = matches!(self, Self::Faults(_));
        // A source so warm that no air cools it below the critical point.
        let fluid = matches!(
            self,
            Self::NoPoint(
                JobError::Fluid(FluidError::AboveRange { .. }) | JobError::Machine(MachineError::Fluid(_))
            )
        );
        self.is_above_table()
            || self.is_below_table()
            || self.is_too_much()
            || self.draws_nothing()
            || faults
            || fluid
    }
}

impl World {
    pub fn critical_k(&self) -> f64 {
        self.properties().critical_temperature_k()
    }

    pub fn properties(&self) -> std::sync::Arc<Refrigerant> {
        Refrigerant::load(self.refrigerant).unwrap()
    }

    /// Temperature of the system, K.
    pub fn source_k(&self) -> f64 {
        let refrigerant = self.properties();
        let floor_k = refrigerant
            .saturation_at_pressure(1.02 * refrigerant.lowest_pressure_pa())
            .unwrap()
            .dew_temperature_k;
        let top_k = 0.9999 * refrigerant.highest_saturation_temperature_k();
        (self.warmth * self.critical_k()).clamp(floor_k.min(top_k), top_k)
    }

    fn air_k(&self) -> f64 {
        (self.air * self.critical_k()).clamp(200.0, 350.0)
    }

    /// The file.
    pub fn text(&self) -> String {
        let list = |pieces: &[Piece]| pieces.iter().map(|piece| piece.text() + ", ").collect::<String>();
        let (port, share) = match self.draws {
            Draws::Liquid => ("liquid", String::new()),
            Draws::Vapour => ("vapour", String::new()),
            Draws::Both { vapour_share } => ("both", format!("vapour_share: \"{vapour_share}\", ")),
        };
        let exponent = self.exponent.map_or("from properties".to_owned(), |n| n.to_string());
        let condenser = match self.condenses {
            Condenses::At { warmth } => {
                let kelvin = (warmth * self.critical_k()).clamp(200.0, 400.0);
                format!("condensing_temperature: \"{kelvin} K\"")
            }
            Condenses::Conductance { w_k } => format!("conductance: \"{w_k} W/K\""),
        };
        let second = self.second.as_ref().map_or(String::new(), |(own, joins)| {
            format!("second_port: (parts: [{}], joins_before: {joins}),", list(own))
        });
        format!(
            "(narrows: 1, title: \"drawn\", refrigerant: \"{}\",\n\
             source: (temperature: \"{} K\", port: {port}, {share}),\n\
             ambient: (temperature: \"{air} K\"),\n\
             machine: (displacement: \"{} cfm\", clearance: \"{}\", loss_factor: \"0.95\", \
             polytropic_exponent: \"{exponent}\", condenser: ({condenser}), takes_liquid: true,\n\
             motor: (kind: electronic, rated_voltage: \"115 V\", rated_current: \"12 A\", shaft_power: \"1 hp\")),\n\
             cylinder: (temperature: \"{air} K\"),\n\
             method: (flashing: {}, two_phase_friction: {}),\n\
             supply: (voltage: \"120 V\"),\n\
             kits: [(name: \"A\", parts: [{}], {second})])",
            self.refrigerant,
            self.source_k(),
            self.cfm,
            self.clearance,
            if self.delayed { "delayed" } else { "equilibrium" },
            if self.separate { "mueller_steinhagen_heck" } else { "homogeneous" },
            list(&self.pieces),
            air = self.air_k(),
        )
    }

    /// What the door makes of the file.
    pub fn document(&self) -> Document {
        let text = self.text();
        read(&text).unwrap_or_else(|error| panic!("{error} in\n{text}"))
    }

    pub fn setup(&self) -> Result<Setup, Why> {
        let mut kits = resolve(&self.document()).map_err(|faults| {
            Why::Faults(faults.iter().map(ToString::to_string).collect::<Vec<_>>().join("; "))
        })?;
        Ok(kits.remove(0).setup)
    }

    pub fn point(&self) -> Result<OperatingPoint, Why> {
        job::solve(&self.setup()?).point.map_err(Why::NoPoint)
    }

    pub fn rate(&self) -> Result<f64, Why> {
        Ok(self.point()?.mass_flow.value)
    }

    /// The state at rest at the first port.
    pub fn source(&self) -> Result<Point, FlowError> {
        let refrigerant = self.properties();
        let saturated = match self.draws {
            Draws::Vapour => refrigerant.saturation_at_dew_temperature(self.source_k())?,
            Draws::Liquid | Draws::Both { .. } => {
                refrigerant.saturation_at_bubble_temperature(self.source_k())?
            }
        };
        let vapour_share = match self.draws {
            Draws::Liquid => 0.0,
            Draws::Vapour => 1.0,
            Draws::Both { vapour_share } => vapour_share,
        };
        let latent = saturated.vapor_enthalpy_j_kg - saturated.liquid_enthalpy_j_kg;
        let enthalpy = saturated.liquid_enthalpy_j_kg + vapour_share * latent;
        Ok(Medium::point(&*refrigerant, saturated.pressure_pa, enthalpy)?)
    }

    pub fn with(&self, pieces: Vec<Piece>) -> Self {
        Self { pieces, ..self.clone() }
    }

    /// Whether a hose rises or falls.
    pub fn is_sloped(&self) -> bool {
        let sloped = |piece: &Piece| matches!(piece, Piece::Hose { rise_ratio, .. } if *rise_ratio != 0.0);
        let second = self.second.iter().flat_map(|(own, _)| own);
        self.pieces.iter().chain(second).any(sloped)
    }

    /// To which share rates are known: they are found to 1e-7 of the flow; a sloped hose is stepped along its
    /// length, which settles to 2e-6 of the pressure.
    pub fn slack(&self) -> f64 {
        if self.is_sloped() { 4e-4 } else { 1e-6 }
    }

    /// The same with its falling hoses laid level.
    pub fn without_falls(&self) -> Self {
        let level = |piece| match piece {
            Piece::Hose { bore_mm, length_m, rise_ratio } => {
                Piece::Hose { bore_mm, length_m, rise_ratio: f64::max(rise_ratio, 0.0) }
            }
            other => other,
        };
        self.with(self.pieces.iter().copied().map(level).collect())
    }

    /// One part changed.
    pub fn changed(&self, index: usize, change: impl Fn(Piece) -> Piece) -> Self {
        let mut pieces = self.pieces.clone();
        if let Some(piece) = pieces.get_mut(index) {
            *piece = change(*piece);
        }
        self.with(pieces)
    }
}

fn designations() -> Vec<&'static str> {
    fluid::list().map(|listing| listing.designation).collect()
}

/// Blends with a wide glide, which boil over a span of temperatures.
const GLIDE: &[&str] = &["R-407C", "R-454C", "R-455A", "R-448A", "R-409A", "R-401A", "R-438A"];

pub fn refrigerant() -> impl Strategy<Value = &'static str> {
    prop_oneof![3 => prop::sample::select(designations()), 1 => prop::sample::select(GLIDE)]
}

/// Mostly usual; one in five near the critical point, one in five near the table's floor.
fn warmth() -> impl Strategy<Value = f64> {
    prop_oneof![3 => 0.65..0.87_f64, 1 => 0.87..1.0_f64, 1 => 0.35..0.65_f64]
}

/// Mostly one phase; otherwise a mixture, also a hair from either end.
pub fn draws() -> impl Strategy<Value = Draws> {
    let near = (any::<bool>(), 2..12_i32).prop_map(|(dry, digits)| {
        let hair = 10_f64.powi(-digits);
        if dry { 1.0 - hair } else { hair }
    });
    let share = prop_oneof![0.0..=1.0_f64, near];
    prop_oneof![
        3 => Just(Draws::Vapour),
        2 => Just(Draws::Liquid),
        1 => share.prop_map(|vapour_share| Draws::Both { vapour_share }),
    ]
}

pub fn piece() -> impl Strategy<Value = Piece> {
    // Logarithms, so that narrow and wide are drawn alike.
    let log = |low: f64, high: f64| (low.ln()..high.ln()).prop_map(f64::exp);
    prop_oneof![
        3 => (log(0.6, 12.0), 0.4..1.0_f64, prop_oneof![Just(1.0), 0.4..1.0_f64])
            .prop_map(|(bore_mm, coefficient, recovery)| Piece::Hole { bore_mm, coefficient, recovery }),
        3 => (log(1.5, 20.0), log(0.05, 60.0), prop_oneof![4 => Just(0.0), 1 => -0.5..0.5_f64])
            .prop_map(|(bore_mm, length_m, rise_ratio)| Piece::Hose { bore_mm, length_m, rise_ratio }),
        1 => (1..4_u32, log(1.0, 8.0)).prop_map(|(seats, bore_mm)| Piece::Gauges { seats, bore_mm }),
        1 => log(0.01, 10.0).prop_map(|kv| Piece::Valve { kv }),
        1 => (log(0.02, 10.0), log(0.05, 1.0)).prop_map(|(kv, area_left)| Piece::Drier { kv, area_left }),
    ]
}

/// A few parts; every fourth time one of them comes again a hair wider or narrower, so that two
/// places choke at once.
pub fn pieces() -> impl Strategy<Value = Vec<Piece>> {
    let twin = (0..4_usize, -7.0..-1.0_f64, any::<bool>());
    (prop::collection::vec(piece(), 1..5), prop::option::weighted(0.25, twin)).prop_map(
        |(mut pieces, twin)| {
            if let Some((index, log, wider)) = twin {
                let hair = 10_f64.powf(log);
                let twin = pieces[index % pieces.len()];
                pieces.push(twin.scaled(if wider { 1.0 + hair } else { 1.0 - hair }));
            }
            pieces
        },
    )
}

/// A job with one connection.
pub fn world() -> impl Strategy<Value = World> {
    let condenses = prop_oneof![
        (0.75..0.93_f64).prop_map(|warmth| Condenses::At { warmth }),
        (20.0..400.0_f64).prop_map(|w_k| Condenses::Conductance { w_k }),
    ];
    let machine = (
        ((0.02_f64).ln()..(8.0_f64).ln()).prop_map(f64::exp),
        0.0..0.12_f64,
        prop::option::of(1.03..1.3_f64),
        condenses,
        0.68..0.8_f64,
    );
    (refrigerant(), warmth(), draws(), pieces(), machine, any::<bool>(), any::<bool>()).prop_map(
        |(refrigerant, warmth, draws, pieces, machine, delayed, separate)| {
            let (cfm, clearance, exponent, condenses, air) = machine;
            World {
                refrigerant,
                warmth,
                draws,
                pieces,
                second: None,
                cfm,
                clearance,
                exponent,
                condenses,
                air,
                delayed,
                separate,
            }
        },
    )
}

/// A job with two connections of one phase that meet behind the first parts.
pub fn two_ports() -> impl Strategy<Value = World> {
    (world(), prop::collection::vec(piece(), 1..3), any::<prop::sample::Index>()).prop_map(
        |(world, own, joins)| {
            let joins = 1 + joins.index(world.pieces.len());
            // Both phases at once through two connections are liquid through one and vapour through
            // the other: another question.
            let draws = if matches!(world.draws, Draws::Both { .. }) { Draws::Vapour } else { world.draws };
            World { second: Some((own, joins)), draws, ..world }
        },
    )
}
