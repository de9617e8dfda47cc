//! Four ceilings over a printed rate: displacement, motor power, condenser, port bore.
//!
//! Each is what the rate could be at most if everything else were perfect. A rating above one of
//! them is not wrong; it needs evidence.

use uom::si::area::square_meter;
use uom::si::f64::{Area, MassRate, Power, Pressure, ThermalConductance, VolumeRate};
use uom::si::mass_rate::kilogram_per_second;
use uom::si::power::watt;
use uom::si::pressure::pascal;
use uom::si::thermal_conductance::watt_per_kelvin;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::volume_rate::cubic_meter_per_second;

use super::bench::Bench;
use super::blow_down::{BlowDown, blow_down};
use super::error::RatingError;
use super::test::{RatedTest, TestKind};
use crate::flow::{Flashing, FluidExpansion, Medium, Method, Point, critical};
use crate::machine::{Condenser, RecoveryMachine};

/// What sets a ceiling.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum CeilingKind {
    /// The volume swept.
    Displacement,
    /// The power of the motor.
    MotorPower,
    /// The heat that the condenser can reject.
    Condenser,
    /// The hole of the inlet port.
    PortBore,
}

impl CeilingKind {
    /// In words.
    pub fn label(self) -> &'static str {
        match self {
            Self::Displacement => "displacement",
            Self::MotorPower => "motor power",
            Self::Condenser => "condenser",
            Self::PortBore => "port bore",
        }
    }

    /// The word that programs read.
    pub fn tag(self) -> &'static str {
        match self {
            Self::Displacement => "displacement",
            Self::MotorPower => "motor_power",
            Self::Condenser => "condenser",
            Self::PortBore => "port_bore",
        }
    }
}

/// One ceiling over one rating.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ceiling {
    /// What sets it.
    pub kind: CeilingKind,
    /// Over which rating.
    pub over: TestKind,
    /// As printed.
    pub rated: MassRate,
    /// The most; none where what sets it is not known.
    pub most: Option<MassRate>,
}

impl Ceiling {
    /// Printed rate over ceiling.
    pub fn share_ratio(&self) -> Option<f64> {
        self.most.map(|most| self.rated.get::<kilogram_per_second>() / most.get::<kilogram_per_second>())
    }

    /// The printed rate lies above the ceiling.
    pub fn needs_evidence(&self) -> bool {
        self.share_ratio().is_some_and(|share| share > 1.0)
    }
}

/// What is known of the machine besides its rates.
#[derive(Debug, Clone, Copy)]
pub struct CeilingLimits<'a> {
    /// A machine for the duty: the fitted one.
    pub machine: &'a RecoveryMachine,
    /// How flow is computed.
    pub method: Method,
    /// Swept volume as printed, or as another rating asks for.
    pub displacement: Option<VolumeRate>,
    /// Power at the motor's shaft.
    pub motor: Option<Power>,
    /// Conductance of the condenser; the machine's own if left out.
    pub condenser: Option<ThermalConductance>,
    /// Hole of the inlet port.
    pub port: Option<Area>,
}

/// The four ceilings over one rating.
///
/// - Displacement: no loss and no clearance, closed form of the vapour test; liquid fills the
///   whole displacement.
/// - Motor: compression work of the test at the fitted machine's own discharge.
/// - Condenser: at the cut-out's saturation temperature; unknown where the condensing temperature
///   is simply given, or without a cut-out.
/// - Port: the largest flow of the bare hole at the test's states, equilibrium doubled for liquid,
///   since short holes pass 1.3 to 2 times that (open measurements on short tubes).
///
/// # Errors
/// As [`super::simulate`].
pub fn ceilings(limits: &CeilingLimits<'_>, test: &RatedTest) -> Result<Vec<Ceiling>, RatingError> {
    let source_k = test.source.get::<kelvin>();
    let cylinder = if test.kind == TestKind::HighTemperatureVapour { test.source } else { test.ambient };
    let bench = Bench::new(&test.refrigerant, limits.machine, limits.method, test.ambient, cylinder)?;
    let duty = duty(&bench, test, source_k)?;
    let swept = limits
        .displacement
        .map(|volume| duty.density_kg_m3 * duty.average_ratio * volume.get::<cubic_meter_per_second>());
    let motor = limits.motor.and_then(|power| over(power.get::<watt>(), duty.work_j_kg));
    let rejected_w = largest_heat_w(limits, test)?;
    let condenser = rejected_w.and_then(|watts| over(watts, duty.heat_j_kg));
    let port = match limits.port {
        Some(area) => Some(port_kg_s(&duty, test, area.get::<square_meter>())?),
        None => None,
    };
    let ceiling = |kind, most: Option<f64>| Ceiling {
        kind,
        over: test.kind,
        rated: test.rated,
        most: most.map(MassRate::new::<kilogram_per_second>),
    };
    Ok(vec![
        ceiling(CeilingKind::Displacement, swept),
        ceiling(CeilingKind::MotorPower, motor),
        ceiling(CeilingKind::Condenser, condenser),
        ceiling(CeilingKind::PortBore, port),
    ])
}

/// What a test asks per mass.
struct Duty {
    /// State at the port at the start.
    source: Point,
    density_kg_m3: f64,
    /// Average over starting rate at constant volume rate; 1 for a steady test.
    average_ratio: f64,
    work_j_kg: f64,
    heat_j_kg: f64,
}

fn duty(bench: &Bench<'_>, test: &RatedTest, source_k: f64) -> Result<Duty, RatingError> {
    let refrigerant = bench.refrigerant();
    if test.kind.is_vapour() {
        let run: BlowDown =
            blow_down(bench, source_k, test.final_vacuum.map(|p: Pressure| p.get::<pascal>()))?;
        let start = run.start;
        let saturation = refrigerant.saturation_at_pressure(run.start_pa)?;
        let end = refrigerant.state_pt(run.end_pa, saturation.dew_temperature_k)?;
        let ratio = end.density_kg_m3 / saturation.vapor_density_kg_m3;
        return Ok(Duty {
            source: refrigerant.point(run.start_pa, saturation.vapor_enthalpy_j_kg)?,
            density_kg_m3: saturation.vapor_density_kg_m3,
            average_ratio: match test.averaging {
                super::test::Averaging::WholeTest => (1.0 - ratio) / -ratio.ln(),
                super::test::Averaging::Start => 1.0,
            },
            work_j_kg: match test.averaging {
                super::test::Averaging::WholeTest => run.work_j_kg,
                super::test::Averaging::Start => start.work_j_kg,
            },
            heat_j_kg: run.heat_j_kg,
        });
    }
    let saturation = refrigerant.saturation_at_bubble_temperature(source_k)?;
    let source = refrigerant.point(saturation.pressure_pa, saturation.liquid_enthalpy_j_kg)?;
    let draw = bench.draw(source)?;
    // Push-pull compresses the vapour whose room the liquid takes, over the driving pressure; it
    // bypasses the condenser.
    let (work_j_kg, heat_j_kg) = match test.kind {
        TestKind::PushPull => {
            let vapor = refrigerant.point(saturation.pressure_pa, saturation.vapor_enthalpy_j_kg)?;
            let suction = bench.compressor().suction(refrigerant, vapor)?;
            let work = bench.compressor().shaft_work_j_kg(&suction, saturation.pressure_pa + PUSH_PA);
            (work * saturation.vapor_density_kg_m3 / saturation.liquid_density_kg_m3, 0.0)
        }
        _ => (draw.work_j_kg, draw.heat_w / draw.mass_flow_kg_s),
    };
    Ok(Duty {
        source,
        density_kg_m3: saturation.liquid_density_kg_m3,
        average_ratio: 1.0,
        work_j_kg,
        heat_j_kg,
    })
}

/// Rate that a power allows; none where the duty asks for none.
fn over(power_w: f64, per_mass_j_kg: f64) -> Option<f64> {
    (per_mass_j_kg > 0.0).then(|| power_w / per_mass_j_kg)
}

/// `UA (T_cut-out − T_ambient)`.
fn largest_heat_w(limits: &CeilingLimits<'_>, test: &RatedTest) -> Result<Option<f64>, RatingError> {
    let own = match limits.machine.condenser {
        Condenser::Conductance(conductance) => Some(conductance),
        Condenser::FixedTemperature(_) => None,
    };
    let (Some(conductance), Some(cut_out)) = (limits.condenser.or(own), limits.machine.cut_out) else {
        return Ok(None);
    };
    let limit_pa = cut_out.get::<pascal>().min(test.refrigerant.highest_pressure_pa());
    let hottest_k = test.refrigerant.saturation_at_pressure(limit_pa)?.bubble_temperature_k;
    Ok(Some(conductance.get::<watt_per_kelvin>() * (hottest_k - test.ambient.get::<kelvin>()).max(0.0)))
}

/// Short holes pass up to this multiple of the equilibrium flow of saturated liquid.
const SHORT_HOLE_RATIO: f64 = 2.0;

fn port_kg_s(duty: &Duty, test: &RatedTest, area_m2: f64) -> Result<f64, RatingError> {
    let refrigerant = &*test.refrigerant;
    let expansion = FluidExpansion::new(refrigerant, duty.source, Flashing::Equilibrium)?;
    let flux = critical(&expansion)?.mass_flux_kg_m2s;
    Ok(match test.kind {
        // A choked hole passes a constant volume of vapour, as a displacement does.
        TestKind::Vapour | TestKind::HighTemperatureVapour => area_m2 * flux * duty.average_ratio,
        TestKind::Liquid => SHORT_HOLE_RATIO * area_m2 * flux,
        // Pressed above saturation it does not flash: Bernoulli with the whole of a 200 kPa push.
        TestKind::PushPull => area_m2 * (2.0 * duty.density_kg_m3 * PUSH_PA).sqrt(),
    })
}

/// Driving pressure of push-pull, 30 psi. Common practice, no source.
const PUSH_PA: f64 = 2.07e5;
