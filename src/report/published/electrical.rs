//! Questions about conductors, motors and the roof cord.

use serde::Deserialize;
use uom::si::angular_velocity::revolution_per_minute;
use uom::si::electric_current::ampere;
use uom::si::electric_potential::volt;
use uom::si::electrical_resistance::ohm;
use uom::si::f64::{
    AngularVelocity, ElectricCurrent, ElectricPotential, Length, Power, ThermodynamicTemperature,
};
use uom::si::length::{inch, meter};
use uom::si::power::watt;
use uom::si::thermodynamic_temperature::degree_celsius;

use super::question::Ask;
use super::words;
use crate::power::{
    Awg, Branch, CodeLetter, Conditions, Conductor, Gauge, InductionStart, Load, LockedRotor, Metal, Motor,
    MotorKind, Nameplate, PowerPath, PowerPoint, Stranding, Supply, full_load_current, solve, voltage_drop,
};
use crate::presets::built_in_scenario;
use crate::report::solve_document;
use crate::scenario::{read, set};
use crate::units::factors::{FOOT_M, HORSEPOWER_W};

fn volts(value: f64) -> ElectricPotential {
    ElectricPotential::new::<volt>(value)
}

/// Resistance of a length of one copper conductor.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Resistance {
    gauge: String,
    #[serde(default)]
    solid: bool,
    celsius: f64,
    /// One conductor's length.
    meters: f64,
}

fn copper(gauge: &str, solid: bool) -> Result<Conductor, String> {
    let gauge: Gauge = gauge.parse().map_err(words)?;
    let stranding = if solid { Stranding::Solid } else { Stranding::Stranded };
    Ok(Conductor { gauge, metal: Metal::Copper, stranding })
}

impl Ask for Resistance {
    fn what(&self) -> String {
        let build = if self.solid { "solid" } else { "stranded" };
        format!("{} {build} copper at {} °C, {} m", self.gauge, self.celsius, self.meters)
    }

    fn unit(&self) -> &'static str {
        "Ω"
    }

    fn answer(&self) -> Result<f64, String> {
        let conductor = copper(&self.gauge, self.solid)?;
        let temperature = ThermodynamicTemperature::new::<degree_celsius>(self.celsius);
        let length = Length::new::<meter>(self.meters);
        Ok((conductor.resistance_per_length(temperature) * length).get::<ohm>())
    }
}

/// Diameter of a solid conductor.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SolidDiameter {
    awg: i64,
}

impl Ask for SolidDiameter {
    fn what(&self) -> String {
        format!("{} AWG, solid diameter", self.awg)
    }

    fn unit(&self) -> &'static str {
        "in"
    }

    fn answer(&self) -> Result<f64, String> {
        Awg::new(self.awg).map(|awg| awg.solid_diameter().get::<inch>()).map_err(words)
    }
}

/// Volts lost in a stranded copper cord, out and back, at a conductor temperature.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct CordDrop {
    gauge: String,
    meters: f64,
    celsius: f64,
    amps: f64,
}

impl Ask for CordDrop {
    fn what(&self) -> String {
        let Self { gauge, meters, celsius, amps } = self;
        format!("{amps} A through {meters:.2} m of {gauge} cord at {celsius} °C")
    }

    fn unit(&self) -> &'static str {
        "V"
    }

    fn answer(&self) -> Result<f64, String> {
        let temperature = ThermodynamicTemperature::new::<degree_celsius>(self.celsius);
        let per_length = copper(&self.gauge, false)?.resistance_per_length(temperature);
        let current = ElectricCurrent::new::<ampere>(self.amps);
        Ok(voltage_drop(current, per_length, Length::new::<meter>(self.meters)).get::<volt>())
    }
}

/// Full-load current of a single-phase motor.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FullLoadCurrent {
    horsepower: f64,
    volts: f64,
}

impl Ask for FullLoadCurrent {
    fn what(&self) -> String {
        format!("{:.3} hp at {} V", self.horsepower, self.volts)
    }

    fn unit(&self) -> &'static str {
        "A"
    }

    fn answer(&self) -> Result<f64, String> {
        let power = Power::new::<watt>(self.horsepower * HORSEPOWER_W);
        full_load_current(power, volts(self.volts)).map(|amps| amps.get::<ampere>()).map_err(words)
    }
}

/// One end of the band that a code letter stands for.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct LockedRotorAmps {
    code: char,
    horsepower: f64,
    volts: f64,
    upper: bool,
}

impl Ask for LockedRotorAmps {
    fn what(&self) -> String {
        let end = if self.upper { "most" } else { "least" };
        format!("code {}, {} hp, {} V, locked rotor at {end}", self.code, self.horsepower, self.volts)
    }

    fn unit(&self) -> &'static str {
        "A"
    }

    fn answer(&self) -> Result<f64, String> {
        let power = Power::new::<watt>(self.horsepower * HORSEPOWER_W);
        let code = CodeLetter::new(self.code).map_err(words)?;
        let (low, high) = code.locked_rotor_current(power, volts(self.volts));
        Ok(if self.upper { high } else { low }.get::<ampere>())
    }
}

#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Change {
    Current,
    Slip,
    Speed,
    StartingTorque,
    StartingCurrent,
}

/// What changes for a loaded induction motor (115 V, 12 A, 1725 rpm, locked 60 A) at a lower
/// voltage, in percent of what it is at rated voltage.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct LowVoltage {
    voltage_ratio: f64,
    power_factor: f64,
    figure: Change,
}

impl LowVoltage {
    fn at(&self, ratio: f64) -> Result<PowerPoint, String> {
        let amps = ElectricCurrent::new::<ampere>;
        let plate = Nameplate {
            power_factor_ratio: Some(self.power_factor),
            speed: Some(AngularVelocity::new::<revolution_per_minute>(1725.0)),
            ..Nameplate::new(volts(115.0), amps(12.0), LockedRotor::Current(amps(60.0)))
        };
        let kind = MotorKind::Induction(InductionStart::CapacitorStartCapacitorRun);
        let motor = Motor::new(kind, &plate).map_err(words)?;
        let no_length = Length::new::<meter>(0.0);
        let path = PowerPath {
            supply: Supply::held_panel(volts(115.0 * ratio)).map_err(words)?,
            branch: Branch::new(copper("12 AWG", true)?, no_length, amps(20.0)).map_err(words)?,
            cords: Vec::new(),
        };
        let air = ThermodynamicTemperature::new::<degree_celsius>(24.0);
        let conditions = Conditions::new(air).map_err(words)?;
        solve(&path, &motor, Load::Nameplate, &conditions).map_err(words)
    }

    fn figure_of(&self, point: &PowerPoint) -> Result<f64, String> {
        let running = point.running.point().ok_or("it does not run")?;
        Ok(match self.figure {
            Change::Current => running.current.get::<ampere>(),
            Change::Slip => running.slip_ratio.ok_or("no slip")?,
            Change::Speed => running.speed_ratio,
            Change::StartingTorque => point.starting.torque_ratio,
            Change::StartingCurrent => point.starting.current.get::<ampere>(),
        })
    }
}

impl Ask for LowVoltage {
    fn what(&self) -> String {
        let figure = match self.figure {
            Change::Current => "current",
            Change::Slip => "slip",
            Change::Speed => "full-load speed",
            Change::StartingTorque => "starting torque",
            Change::StartingCurrent => "starting current",
        };
        let percent = 100.0 * self.voltage_ratio;
        format!("induction motor at {percent} % voltage, power factor {}, {figure}", self.power_factor)
    }

    fn unit(&self) -> &'static str {
        "%"
    }

    fn answer(&self) -> Result<f64, String> {
        let [low, full] = [self.voltage_ratio, 1.0].map(|ratio| self.at(ratio));
        Ok(100.0 * (self.figure_of(&low?)? / self.figure_of(&full?)? - 1.0))
    }
}

#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Reading {
    RunningVolts,
    RunningAmps,
    StartingVolts,
    StartingTorque,
}

/// A 12 A motor on a roof at the end of one cord.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RoofCord {
    gauge: String,
    feet: f64,
    figure: Reading,
}

impl Ask for RoofCord {
    fn what(&self) -> String {
        let figure = match self.figure {
            Reading::RunningVolts => "running volts",
            Reading::RunningAmps => "running amps",
            Reading::StartingVolts => "starting volts",
            Reading::StartingTorque => "starting torque",
        };
        format!("12 A motor on {} {} ft, {figure}", self.gauge, self.feet)
    }

    fn unit(&self) -> &'static str {
        match self.figure {
            Reading::RunningVolts | Reading::StartingVolts => "V",
            Reading::RunningAmps => "A",
            Reading::StartingTorque => "%",
        }
    }

    fn answer(&self) -> Result<f64, String> {
        let text = built_in_scenario("long-cord").ok_or("the cord scenario is missing")?;
        let mut document = read(text).map_err(words)?;
        set(&mut document, "supply.cords.0.gauge", &self.gauge).map_err(words)?;
        set(&mut document, "supply.cords.0.length", &format!("{} m", self.feet * FOOT_M)).map_err(words)?;
        let solved = solve_document(&document).map_err(|faults| format!("{faults:?}"))?;
        let first = solved.into_iter().next().ok_or("no kit")?;
        let power = first.answer.power.map_err(words)?;
        let running = power.running.point().ok_or("it does not run")?;
        Ok(match self.figure {
            Reading::RunningVolts => running.voltage.get::<volt>(),
            Reading::RunningAmps => running.current.get::<ampere>(),
            Reading::StartingVolts => power.starting.voltage.get::<volt>(),
            Reading::StartingTorque => 100.0 * power.starting.torque_ratio,
        })
    }
}
