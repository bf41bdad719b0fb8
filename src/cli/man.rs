//! `refasten man`: the manual pages, from the definitions that read the command line.

use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use clap::{Args, Command as Line, CommandFactory};
use clap_mangen::Man as Page;
use serde_json::json;

use super::drawing::put;
use super::{Desk, Ended, Format, Stopped, Typed, help};
use crate::text::{Clean, Fault, nearest};

/// Print the manual page of the program or of a command
///
/// Read it with `refasten man audit | man -l -`. It tells more of each option than --help.
#[derive(Debug, Args)]
#[command(after_help = "refasten man audit\nrefasten man --into man1")]
pub(super) struct Man {
    /// The command; else the program as a whole
    #[arg(value_name = "COMMAND")]
    command: Option<String>,
    /// Write all pages into this folder; made where there is none
    #[arg(long, value_name = "DIR", conflicts_with = "command")]
    into: Option<PathBuf>,
}

impl Man {
    pub(super) fn run(self, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
        let mut whole = Typed::command().disable_help_subcommand(true);
        whole.build();
        if let Some(folder) = &self.into {
            return all_into(folder, &whole, desk);
        }
        let line = match &self.command {
            None => &whole,
            Some(name) => whole.find_subcommand(name).ok_or_else(|| {
                let known = whole.get_subcommands().map(Line::get_name);
                let fault = Fault::new(None, format!("there is no command `{name}`"));
                fault.help(match nearest(name, known) {
                    Some(near) => format!("did you mean `{near}`?"),
                    None => "`refasten --help` lists them".to_owned(),
                })
            })?,
        };
        page(line, desk.out)?;
        Ok(Ended::Done)
    }
}

/// Writes the pages of the program and of every command into a folder.
fn all_into(folder: &Path, whole: &Line, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
    fs::create_dir_all(folder).map_err(|error| not_made(folder, &error))?;
    let mut wrote = Vec::new();
    for line in std::iter::once(whole).chain(whole.get_subcommands()) {
        let mut bytes = Vec::new();
        page(line, &mut bytes)?;
        let file = format!("{}.1", title(line));
        put(&folder.join(&file), "--into", &bytes)?;
        wrote.push(file);
    }
    let folder = folder.display().to_string();
    match desk.globals.format {
        Format::Json => {
            let told = json!({"format": 1, "folder": folder, "wrote": wrote});
            writeln!(desk.out, "{told:#}")?;
        }
        Format::Text => {
            writeln!(desk.out, "{}: wrote {} pages", Clean(&folder), wrote.len())?;
        }
    }
    Ok(Ended::Done)
}

/// Why a folder could not be made.
fn not_made(folder: &Path, error: &io::Error) -> Stopped {
    let name = folder.display();
    match error.kind() {
        io::ErrorKind::AlreadyExists | io::ErrorKind::NotADirectory => {
            let says = format!("--into: {name} cannot be a folder: a file is there");
            Fault::new(None, says).help("name a new folder").into()
        }
        kind => Stopped::Machine(io::Error::new(kind, format!("{name}: {error}"))),
    }
}

/// What the page of a command is called.
fn title(line: &Line) -> String {
    let name = line.get_display_name().unwrap_or(line.get_name());
    name.to_owned()
}

/// The page of the program or of a command, its examples under a heading of their own.
fn page(line: &Line, out: &mut dyn Write) -> io::Result<()> {
    let examples = help::examples(line);
    let mut line = line.clone().after_help("");
    if line.get_arguments().any(|arg| arg.get_id() == "help") {
        line = line.mut_arg("help", |arg| {
            arg.help("Print the help, short").long_help(None)
        });
    }
    let name = title(&line);
    let page = Page::new(line).title(name);
    page.render_title(out)?;
    page.render_name_section(out)?;
    page.render_synopsis_section(out)?;
    page.render_description_section(out)?;
    page.render_options_section(out)?;
    page.render_subcommands_section(out)?;
    let heading = if examples.len() == 1 {
        "EXAMPLE"
    } else {
        "EXAMPLES"
    };
    writeln!(out, ".SH {heading}\n.nf")?;
    for example in examples {
        // A hyphen that is typed, not one that is set.
        writeln!(out, "{}", example.replace('\\', "\\e").replace('-', "\\-"))?;
    }
    writeln!(out, ".fi")
}
