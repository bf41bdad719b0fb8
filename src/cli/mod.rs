//! The command line: options as they are typed, one file a command.
//!
//! Only this floor knows that there is a terminal, an environment and a clock. A command turns
//! what was typed into settings that are right, asks a question of the floors above, and hands
//! the answer to a printer.

mod answer;
mod audit;
mod boats;
mod buy;
mod check;
mod completions;
mod days;
mod drawing;
mod drop;
mod entry;
mod explain;
mod export;
mod first;
mod folder;
mod globals;
mod help;
mod history;
mod import;
mod into_plan;
mod log;
mod man;
mod map;
mod new;
mod pick;
mod pick_words;
mod refused;
mod report;
mod sample;
mod season;
mod sheet;
mod show;
mod tables;
mod then;
mod todo;
mod typed;
mod whose;
mod working;

use std::ffi::OsString;
use std::io::{self, BufWriter, Write};
use std::process::ExitCode;

use clap::error::ErrorKind;
use clap::{Parser, Subcommand};

use crate::files::Folder;
use crate::show::Layout;
use crate::text::{self, Clean, Fault, Texts};
use answer::{Answer, unprinted};
pub use globals::{Format, Globals};

/// Keeps the fastening record of an old carvel-planked timber boat.
///
/// An aid to a record, not a survey: it tells what the record shows and what is left to do.
#[derive(Debug, Parser)]
#[command(
    name = "refasten",
    version,
    after_help = "refasten pick --plank 7/8in --frame 2in --metal \"silicon bronze\"\nrefasten audit --format json"
)]
struct Typed {
    #[command(flatten)]
    globals: Globals,
    #[command(subcommand)]
    command: Option<Command>,
}

#[derive(Debug, Subcommand)]
enum Command {
    New(new::New),
    Pick(Box<pick::Pick>),
    Drop(drop::Drop),
    Log(Box<log::Log>),
    Show(show::Show),
    History(history::History),
    Map(map::Map),
    Audit(audit::Audit),
    Report(report::MakeReport),
    Buy(buy::Buy),
    Sample(sample::Sample),
    Sheet(sheet::MakeSheet),
    Explain(explain::Explain),
    Todo(todo::Todo),
    Import(import::Import),
    Export(export::Export),
    Tables(tables::Tables),
    Check(check::Check),
    Completions(completions::Completions),
    Man(man::Man),
}

impl Command {
    fn run(self, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
        match self {
            Self::Pick(pick) => pick.run(desk),
            Self::Check(check) => check.run(desk),
            Self::Drop(drop) => drop.run(desk),
            Self::Log(log) => log.run(desk),
            Self::Show(show) => show.run(desk),
            Self::History(history) => history.run(desk),
            Self::Map(map) => map.run(desk),
            Self::Audit(audit) => audit.run(desk),
            Self::Report(report) => report.run(desk),
            Self::Buy(buy) => buy.run(desk),
            Self::Sample(sample) => sample.run(desk),
            Self::Sheet(sheet) => sheet.run(desk),
            Self::Explain(explain) => explain.run(desk),
            Self::New(new) => new.run(desk),
            Self::Todo(todo) => todo.run(desk),
            Self::Import(import) => import.run(desk),
            Self::Export(export) => export.run(desk),
            Self::Tables(tables) => tables.run(desk),
            Self::Completions(completions) => completions.run(desk),
            Self::Man(man) => man.run(desk),
        }
    }
}

/// How a command ended well.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ended {
    /// Done: exit code 0.
    Done,
    /// Done, and something was found that asks for a look: exit code 1.
    Findings,
    /// The files of a boat are wrong, and that was the answer asked for: exit code 2.
    Faulty,
}

impl Ended {
    /// The worse of two ends.
    const fn worse(self, other: Self) -> Self {
        match (self, other) {
            (Self::Faulty, _) | (_, Self::Faulty) => Self::Faulty,
            (Self::Findings, _) | (_, Self::Findings) => Self::Findings,
            (Self::Done, Self::Done) => Self::Done,
        }
    }
}

/// Why a command did not end well.
#[derive(Debug)]
pub enum Stopped {
    /// What was typed or read is wrong, and nothing was written: exit code 2.
    Wrong(Vec<Fault>),
    /// The files of a boat are wrong, and nothing was written: exit code 2.
    Faulty(Box<Folder>, Vec<Fault>),
    /// The machine failed: exit code 3.
    Machine(io::Error),
}

impl From<io::Error> for Stopped {
    fn from(error: io::Error) -> Self {
        Self::Machine(error)
    }
}

impl From<Fault> for Stopped {
    fn from(fault: Fault) -> Self {
        Self::Wrong(vec![fault])
    }
}

/// What every command is given: the options that hold for all of them, and where to print.
pub struct Desk<'a> {
    /// Options of every command.
    pub globals: &'a Globals,
    /// Where the answer goes.
    pub out: &'a mut dyn Write,
    /// How text is laid out there.
    pub layout: Layout,
    /// What was written to the disk and stands even where the answer cannot be printed: whoever does
    /// not hear of it would do it twice.
    pub done: Option<String>,
}

/// Runs one command line, program name first, and gives its exit code: 0 done, 1 findings, 2 the
/// input is wrong, 3 the machine failed.
pub fn run(args: impl IntoIterator<Item = OsString>) -> ExitCode {
    let args: Vec<OsString> = args.into_iter().collect();
    let typed = match then::parse(args.clone()) {
        Ok(typed) => typed,
        // Help and version come this way too, and end well.
        Err(error) if !error.use_stderr() => {
            let layout = globals::layout_of(&args, &io::stdout());
            let printed = match error.kind() {
                ErrorKind::DisplayHelp => help::print(&args, &mut io::stdout().lock(), layout),
                _ => error.print(),
            };
            return match printed {
                Err(failed) if failed.kind() != io::ErrorKind::BrokenPipe => {
                    fail(&unprinted(&failed).to_string())
                }
                _ => ExitCode::SUCCESS,
            };
        }
        Err(error) => {
            let layout = globals::layout_of(&args, &io::stderr());
            // With stderr gone there is nobody left to tell.
            let _ = tell(&[refused::fault(&error, &args)], &Texts::default(), layout);
            return ExitCode::from(2);
        }
    };
    let faults_on = typed.globals.layout(&io::stderr());
    let mut out = BufWriter::new(Answer::new(io::stdout().lock()));
    let mut desk = Desk {
        globals: &typed.globals,
        out: &mut out,
        layout: typed.globals.layout(&io::stdout()),
        done: None,
    };
    let ended = match typed.command {
        Some(command) => command.run(&mut desk),
        None => first::run(&mut desk),
    };
    let ended = ended.and_then(|ended| Ok(desk.out.flush().map(|()| ended)?));
    match ended {
        Ok(Ended::Done) => ExitCode::SUCCESS,
        Ok(Ended::Findings) => ExitCode::from(1),
        Ok(Ended::Faulty) => ExitCode::from(2),
        Err(Stopped::Wrong(faults)) => {
            // With stderr gone there is nobody left to tell.
            let _ = tell(&faults, &Texts::default(), faults_on);
            ExitCode::from(2)
        }
        Err(Stopped::Faulty(folder, faults)) => {
            let _ = tell(&faults, &folder.texts(), faults_on);
            ExitCode::from(2)
        }
        Err(Stopped::Machine(error)) => match desk.done {
            Some(done) => fail(&format!("{done}, but {error}")),
            None => fail(&error.to_string()),
        },
    }
}

/// Says how the machine failed.
fn fail(says: &str) -> ExitCode {
    // With stderr gone there is nobody left to tell.
    let _ = writeln!(io::stderr().lock(), "error: {}", Clean(says));
    ExitCode::from(3)
}

/// Prints everything that is wrong with what was typed or read.
fn tell(faults: &[Fault], texts: &Texts<'_>, layout: Layout) -> io::Result<()> {
    tell_to(&mut io::stderr().lock(), faults, texts, layout)
}

/// The same to anywhere.
fn tell_to(
    out: &mut dyn Write,
    faults: &[Fault],
    texts: &Texts<'_>,
    layout: Layout,
) -> io::Result<()> {
    if layout.plain {
        return text::tell(out, faults, texts);
    }
    text::draw(out, faults, texts, layout.width.into(), layout.colour)
}

#[cfg(test)]
mod tests {
    use clap::CommandFactory;

    #[test]
    fn the_options_of_every_command_are_consistent() {
        super::Typed::command().debug_assert();
    }
}
