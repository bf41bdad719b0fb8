//! The help of the program and of its commands: the same page for `-h`, `--help` and `help`.
//!
//! A page holds the first paragraph of what each option says of itself; `refasten man` has all.

use std::ffi::OsString;
use std::io::{self, Write};

use clap::{Arg, Command as Line, CommandFactory};

use super::{Typed, whose};
use crate::show::Layout;
use crate::show::help::{self, Group, Help};

/// The heading of the options that go with every command.
pub(super) const EVERYWHERE: &str = "Options of every command";

/// Prints the help that a command line, program name first, asks for.
///
/// # Errors
/// What the writer gives.
pub(super) fn print(args: &[OsString], out: &mut dyn Write, layout: Layout) -> io::Result<()> {
    let mut whole = Typed::command();
    whole.build();
    let page = match whose::command(args, &whole) {
        Some(line) => of_command(line),
        None => of_program(&whole),
    };
    help::text(out, layout, &page)
}

/// The page of the program: what it is for, its commands, and what goes with all of them.
fn of_program(whole: &Line) -> Help {
    let commands = whole.get_subcommands();
    let commands = commands.filter(|line| line.get_name() != "help");
    let everywhere = whole.get_arguments().filter(|arg| !arg.is_hide_set());
    Help {
        says: paragraphs(whole),
        usage: "refasten COMMAND [OPTIONS]".to_owned(),
        groups: vec![
            Group {
                heading: "Commands; `refasten help COMMAND` tells of one".to_owned(),
                rows: commands
                    .map(|line| (line.get_name().to_owned(), styled(line.get_about())))
                    .collect(),
            },
            Group {
                heading: EVERYWHERE.to_owned(),
                rows: everywhere.map(row).collect(),
            },
        ],
        everywhere: variables(whole),
        examples: examples(whole),
    }
}

/// The variables of the environment that stand for an option.
fn variables(whole: &Line) -> String {
    let of = |arg: &Arg| Some((arg.get_env()?.to_str()?.to_owned(), typed(arg)));
    let (variables, options): (Vec<String>, Vec<String>) =
        whole.get_arguments().filter_map(of).unzip();
    format!(
        "In the environment, {} stand for {}.",
        listed(&variables, "and"),
        listed(&options, "and")
    )
}

/// The page of a command.
fn of_command(line: &Line) -> Help {
    let (everywhere, own): (Vec<&Arg>, Vec<&Arg>) = line
        .get_arguments()
        .filter(|arg| arg.get_id() != "help")
        .partition(|arg| arg.is_global_set());
    let mut groups: Vec<Group> = Vec::new();
    for arg in own {
        let heading = match (arg.get_help_heading(), arg.is_positional()) {
            (_, true) => "Arguments",
            (None, false) => "Options",
            (Some(heading), false) => heading,
        };
        match groups.iter_mut().find(|group| group.heading == heading) {
            Some(group) => group.rows.push(row(arg)),
            None => groups.push(Group {
                heading: heading.to_owned(),
                rows: vec![row(arg)],
            }),
        }
    }
    let everywhere: Vec<String> = everywhere.into_iter().map(typed).collect();
    let options = if groups.iter().any(|group| group.heading != "Arguments") {
        " [OPTIONS]"
    } else {
        ""
    };
    Help {
        says: paragraphs(line),
        usage: format!("{}{options}", whose::words(line, &[])),
        groups,
        everywhere: format!(
            "With every command: {}; see `refasten --help`.",
            listed(&everywhere, "and")
        ),
        examples: examples(line),
    }
}

/// What a command does, paragraph by paragraph.
fn paragraphs(line: &Line) -> Vec<String> {
    let says = styled(line.get_long_about().or_else(|| line.get_about()));
    says.split("\n\n").map(str::to_owned).collect()
}

/// The command lines that can be tried.
pub(super) fn examples(line: &Line) -> Vec<String> {
    let examples = styled(line.get_after_help());
    examples.lines().map(str::to_owned).collect()
}

fn styled(text: Option<&clap::builder::StyledStr>) -> String {
    text.map(ToString::to_string).unwrap_or_default()
}

/// An argument as it is typed, and what it does.
fn row(arg: &Arg) -> (String, String) {
    let short = arg.get_short().map(|letter| format!("-{letter}, "));
    let typed = format!("{}{}", short.unwrap_or_default(), typed(arg));
    let mut does = match arg.get_id().as_str() {
        "help" => "Print this page, or that of a command".to_owned(),
        "version" => "Print which version this is".to_owned(),
        _ => styled(arg.get_help()),
    };
    if arg.get_action().takes_values() {
        let values: Vec<String> = arg
            .get_possible_values()
            .iter()
            .map(|value| value.get_name().to_owned())
            .collect();
        if !values.is_empty() {
            does = format!("{does}: {}", listed(&values, "or"));
        }
        let defaults: Vec<String> = arg
            .get_default_values()
            .iter()
            .map(|value| value.to_string_lossy().into_owned())
            .collect();
        if !defaults.is_empty() {
            does = format!("{does} (else {})", listed(&defaults, "and"));
        }
    }
    (typed, does)
}

/// An argument as it is typed: `--plank LENGTH`, or `PLACE`.
fn typed(arg: &Arg) -> String {
    let value = arg.get_value_names().and_then(|names| names.first());
    let value = value.map_or_else(|| arg.get_id().as_str(), |value| value.as_str());
    match arg.get_long() {
        None => value.to_owned(),
        Some(long) if arg.get_action().takes_values() => format!("--{long} {value}"),
        Some(long) => format!("--{long}"),
    }
}

/// Some words as they are read: `a, b and c`.
fn listed(words: &[String], last: &str) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., end] => format!("{} {last} {end}", first.join(", ")),
    }
}
