//! What can be typed behind `narrows`.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};
use narrows::units::UnitSet;

/// What hoses, fittings, valve cores, gauge sets, filter-driers and extension cords cost a
/// refrigerant recovery. Without arguments, opens the window.
#[derive(Debug, Parser)]
#[command(name = "narrows", version, about, args_conflicts_with_subcommands = true)]
pub struct Arguments {
    /// What to do.
    #[command(subcommand)]
    pub command: Option<Command>,
    /// A scenario to open in the window.
    pub file: Option<PathBuf>,
}

/// The terminal's commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Print the operating point of each kit of a scenario.
    Solve(SolveArguments),
    /// Read a machine's printed ratings: the machine that would pass them, and what they lack.
    Rating(SolveArguments),
    /// Find the cause of a slow recovery from readings, or fit a site log.
    Diagnose(DiagnoseArguments),
    /// Run the published cases and print them; exit code 1 if one fails.
    Check(CheckArguments),
}

/// Arguments of `solve`.
#[derive(Debug, Args)]
pub struct SolveArguments {
    /// A scenario file, the name of a built-in scenario (reference-kits), or - for standard input.
    pub file: String,
    /// Print for programs: SI units, absolute pressures.
    #[arg(long)]
    pub json: bool,
    /// Change a field before solving: kits.A.parts.0.bore="2.6 mm". Repeatable.
    #[arg(long = "set", value_name = "PATH=VALUE")]
    pub set: Vec<String>,
    /// Units of the table.
    #[arg(long, value_enum, default_value = "us")]
    pub units: Units,
}

/// Arguments of `diagnose`.
#[derive(Debug, Args)]
pub struct DiagnoseArguments {
    /// The document, and how the answer is printed.
    #[command(flatten)]
    pub common: SolveArguments,
    /// A site log as comma-separated values: time (min), weight (lb), system_pressure (psig), …
    #[arg(long, value_name = "CSV")]
    pub log: Option<std::path::PathBuf>,
}

/// Arguments of `check`.
#[derive(Debug, Args)]
pub struct CheckArguments {
    /// Print for programs.
    #[arg(long)]
    pub json: bool,
}

/// Units of tables.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub enum Units {
    /// lb/min, psig, °F, ft.
    Us,
    /// kg/min, bar(g), °C, m.
    Si,
}

impl From<Units> for UnitSet {
    fn from(units: Units) -> Self {
        match units {
            Units::Us => Self::UsTrade,
            Units::Si => Self::Si,
        }
    }
}
