//! Options that every command takes, and what the surroundings say.

use std::ffi::OsString;
use std::io::IsTerminal;
use std::path::PathBuf;

use clap::builder::FalseyValueParser;
use clap::{Args, ValueEnum};

use crate::show::Layout;
use crate::text::Fault;
use crate::units::{Day, Units};

use super::Stopped;
use super::help::EVERYWHERE;

/// Set to have everything read aloud.
const PLAIN: &str = "REFASTEN_PLAIN";

/// Options of every command.
#[derive(Debug, Args)]
#[command(next_help_heading = EVERYWHERE)]
pub struct Globals {
    /// Folder of the boat; else the nearest with a hull.yaml, upward
    #[arg(
        long,
        global = true,
        value_name = "DIR",
        env = "REFASTEN_BOAT",
        hide_env_values = true
    )]
    pub boat: Option<PathBuf>,
    /// Print for people or for programs
    #[arg(long, global = true, value_enum, default_value_t = Format::Text)]
    pub format: Format,
    /// Units to print in, if not the boat's own
    #[arg(long, global = true, value_enum)]
    units: Option<UnitsTyped>,
    /// The day to take as today (2026-10-03); else the clock's
    #[arg(
        long,
        global = true,
        value_name = "DAY",
        env = "REFASTEN_TODAY",
        hide_env_values = true
    )]
    today: Option<Day>,
    /// Print to be read aloud by a screen reader
    ///
    /// Nothing is drawn, and tables are told row by row.
    #[arg(
        long,
        global = true,
        env = PLAIN,
        hide_env_values = true,
        value_parser = FalseyValueParser::new()
    )]
    plain: bool,
}

/// For whom to print.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// For people.
    Text,
    /// For programs.
    Json,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
enum UnitsTyped {
    Inch,
    Metric,
}

impl Globals {
    /// The units asked for, if any were.
    pub fn units(&self) -> Option<Units> {
        self.units.map(|typed| match typed {
            UnitsTyped::Inch => Units::Inch,
            UnitsTyped::Metric => Units::Metric,
        })
    }

    /// The day to take as today.
    ///
    /// # Errors
    /// When none is given and the clock of the machine stands before the year 1000.
    pub fn today(&self) -> Result<Day, Stopped> {
        self.today
            .or_else(|| {
                let date = jiff::ZonedDateTime::now().date();
                Day::new(date.year(), date.month(), date.day())
            })
            .ok_or_else(|| {
                Fault::new(None, "the clock of this machine is not set")
                    .help("give the day with --today")
                    .into()
            })
    }

    /// How text is laid out that goes there.
    pub(super) fn layout(&self, to: &impl IsTerminal) -> Layout {
        layout(self.plain, to)
    }
}

/// The same for a command line that could not be read.
pub(super) fn layout_of(args: &[OsString], to: &impl IsTerminal) -> Layout {
    let typed = args.iter().any(|arg| arg == "--plain");
    let set = std::env::var(PLAIN).is_ok_and(|set| {
        let no = ["", "0", "f", "false", "n", "no", "off"];
        !no.contains(&set.to_lowercase().as_str())
    });
    layout(typed || set, to)
}

fn layout(plain: bool, to: &impl IsTerminal) -> Layout {
    Layout {
        width: width(),
        plain,
        colour: !plain && colour(to),
    }
}

/// Columns to print in: `COLUMNS`, else the terminal's, else 80.
fn width() -> u16 {
    const LEAST: u16 = 40;
    const MOST: u16 = 160;
    let columns = std::env::var("COLUMNS")
        .ok()
        .and_then(|columns| columns.trim().parse().ok());
    let stdout = std::io::stdout();
    columns
        .or_else(|| {
            stdout
                .is_terminal()
                .then(|| terminal_size::terminal_size_of(&stdout))
                .flatten()
                .map(|(width, _)| width.0)
        })
        .unwrap_or(80)
        .clamp(LEAST, MOST)
}

/// Whether to print in colour there: on a terminal that knows how, unless `NO_COLOR` says no.
fn colour(to: &impl IsTerminal) -> bool {
    let set = |name| std::env::var_os(name).is_some_and(|value| !value.is_empty());
    let dumb = std::env::var_os("TERM").is_some_and(|term| term == "dumb");
    to.is_terminal() && !dumb && !set("NO_COLOR")
}
