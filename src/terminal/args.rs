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
    /// A scenario to open in the window: a file, or the name of a built-in one (reference-kits).
    pub file: Option<PathBuf>,
}

/// The terminal's commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Print the operating point of each kit of a scenario.
    Solve(ScenarioArguments),
    /// Follow each kit's whole job: time, phases, cylinders, level.
    Job(JobArguments),
    /// Print the kits side by side: what differs, what it is worth, and whether that is certain.
    Compare(CompareArguments),
    /// Print what counts in each kit, what counts most first, and what to change first.
    Rank(RankArguments),
    /// Solve over a range of one or two fields and print comma-separated values.
    Sweep(SweepArguments),
    /// Move the machine between system and receptacle: hose against cord, rate against volts.
    Place(PlaceArguments),
    /// Read a machine's printed ratings: the machine that would pass them, and what they lack.
    Rating(ScenarioArguments),
    /// Find the cause of a slow recovery from readings, or fit a site log.
    Diagnose(DiagnoseArguments),
    /// Write pages to print: customer, crew, comparison, class handout and key.
    Pages(PagesArguments),
    /// Run the published cases and print them; exit code 1 if one fails.
    Check(CheckArguments),
    /// Say what words of the trade mean.
    Words(WordsArguments),
}

/// Arguments of `job`.
#[derive(Debug, Args)]
pub struct JobArguments {
    /// The scenario.
    #[command(flatten)]
    pub scenario: ScenarioArguments,
    /// Print the curves as comma-separated values.
    #[arg(long, conflicts_with = "json")]
    pub csv: bool,
    /// How many draws the ranges are made of; 0 for none.
    #[arg(long, default_value_t = narrows::compare::DEFAULT_JOB_DRAWS, value_name = "COUNT")]
    pub draws: usize,
    /// The same seed gives the same ranges.
    #[arg(long, default_value_t = 1, value_name = "NUMBER")]
    pub seed: u32,
    /// Also find the charge above which push-pull repays its hose change.
    #[arg(long, conflicts_with = "csv")]
    pub break_even: bool,
}

/// What every command about a scenario takes.
#[derive(Debug, Args)]
pub struct ScenarioArguments {
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

/// Arguments of `compare`.
#[derive(Debug, Args)]
pub struct CompareArguments {
    /// The scenario.
    #[command(flatten)]
    pub scenario: ScenarioArguments,
    /// Up to four kits, the first as what the others are compared with: A,C. All if left out.
    #[arg(long, value_delimiter = ',', value_name = "NAMES")]
    pub kits: Vec<String>,
    /// What the ranges are made of.
    #[command(flatten)]
    pub ranges: RangeArguments,
}

/// How ranges are drawn.
#[derive(Debug, Args)]
pub struct RangeArguments {
    /// How many draws the ranges are made of; 0 for none. A power of two spreads them best.
    #[arg(long, default_value_t = narrows::compare::DEFAULT_DRAWS, value_name = "COUNT")]
    pub draws: usize,
    /// How many of them follow the whole job, too; 0 for none, and on pages no minutes of changes then.
    #[arg(long, default_value_t = narrows::compare::DEFAULT_JOB_DRAWS, value_name = "COUNT")]
    pub job_draws: usize,
    /// The same seed gives the same ranges.
    #[arg(long, default_value_t = 1, value_name = "NUMBER")]
    pub seed: u32,
}

/// Arguments of `rank`.
#[derive(Debug, Args)]
pub struct RankArguments {
    /// The scenario.
    #[command(flatten)]
    pub scenario: ScenarioArguments,
    /// The kits to rank: A,C. All if left out.
    #[arg(long, value_delimiter = ',', value_name = "NAMES")]
    pub kits: Vec<String>,
    /// What a change costs: by its row, kits.A.parts.0=25, or by what it is in any kit,
    /// stem-quarter=25. Repeatable, any currency; the document's own prices hold for the rest.
    #[arg(long = "price", value_name = "ID=PRICE")]
    pub prices: Vec<String>,
    /// What a minute of work costs.
    #[arg(long, value_name = "PRICE")]
    pub minute_price: Option<f64>,
    /// How many draws the ranges of gains are made of; 0 for none.
    #[arg(long, default_value_t = 256, value_name = "COUNT")]
    pub draws: usize,
    /// How many of them follow whole jobs, for ranges of the minutes; each follows some dozens, so
    /// none unless asked for.
    #[arg(long, default_value_t = 0, value_name = "COUNT")]
    pub job_draws: usize,
    /// The same seed gives the same ranges.
    #[arg(long, default_value_t = 1, value_name = "NUMBER")]
    pub seed: u32,
}

/// Arguments of `sweep`.
#[derive(Debug, Args)]
pub struct SweepArguments {
    /// The scenario.
    #[command(flatten)]
    pub scenario: ScenarioArguments,
    /// A field and its range: kits.A.parts.1.length="5 ft..50 ft:10", ten values, both ends among
    /// them. Give it twice for a grid; join fields that move together with &.
    #[arg(long = "vary", value_name = "PATH=FROM..TO[:STEPS]", required = true)]
    pub vary: Vec<String>,
    /// The kits to solve: A,C. All if left out.
    #[arg(long, value_delimiter = ',', value_name = "NAMES")]
    pub kits: Vec<String>,
}

/// Arguments of `place`.
#[derive(Debug, Args)]
pub struct PlaceArguments {
    /// The scenario.
    #[command(flatten)]
    pub scenario: ScenarioArguments,
    /// The kits to move the machine of: A,C. All if left out.
    #[arg(long, value_delimiter = ',', value_name = "NAMES")]
    pub kits: Vec<String>,
    /// The hose that gives way: its place (parts.1), name or shelf entry. The longest in front of the
    /// machine if left out.
    #[arg(long, value_name = "HOSE")]
    pub hose: Option<String>,
    /// The cord that gives way, the first one from the receptacle is 1. The longest if left out.
    #[arg(long, value_name = "NUMBER")]
    pub cord: Option<usize>,
    /// How many places, both ends among them; today's comes on top.
    #[arg(long, default_value_t = narrows::compare::DEFAULT_PLACES, value_name = "COUNT")]
    pub steps: usize,
    /// The hose gets no shorter: "3 ft", or 1 m where hoses are in metres, if left out.
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
    pub shortest_hose: Option<String>,
    /// The cord gets no shorter: plugged straight in, "0 ft", if left out.
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
    pub shortest_cord: Option<String>,
    /// How many draws say whether another place is really faster; 0 for none.
    #[arg(long, default_value_t = 256, value_name = "COUNT")]
    pub draws: usize,
    /// The same seed gives the same answer.
    #[arg(long, default_value_t = 1, value_name = "NUMBER")]
    pub seed: u32,
}

/// Arguments of `diagnose`.
#[derive(Debug, Args)]
pub struct DiagnoseArguments {
    /// The document, and how the answer is printed.
    #[command(flatten)]
    pub scenario: ScenarioArguments,
    /// A site log as comma-separated values: time (min), weight (lb), system_pressure (psig), …
    #[arg(long, value_name = "CSV")]
    pub log: Option<std::path::PathBuf>,
}

/// Arguments of `pages`.
#[derive(Debug, Args)]
pub struct PagesArguments {
    /// The scenario.
    #[command(flatten)]
    pub scenario: ScenarioArguments,
    /// The folder to put them into.
    #[arg(long, value_name = "DIR")]
    pub out: std::path::PathBuf,
    /// The kit that customer, crew and class pages are about. The first if left out.
    #[arg(long, value_name = "NAME")]
    pub kit: Option<String>,
    /// Overwrite pages that are there already.
    #[arg(long)]
    pub force: bool,
    /// What the ranges are made of.
    #[command(flatten)]
    pub ranges: RangeArguments,
}

/// Arguments of `check`.
#[derive(Debug, Args)]
pub struct CheckArguments {
    /// Print for programs.
    #[arg(long)]
    pub json: bool,
}

/// Arguments of `words`.
#[derive(Debug, Args)]
pub struct WordsArguments {
    /// Only those that this stands in. All if left out.
    pub text: Vec<String>,
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
            Units::Us => Self::US_TRADE,
            Units::Si => Self::SI,
        }
    }
}
