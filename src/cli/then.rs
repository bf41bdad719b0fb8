//! Several entries in one command, parted by the word `then`.

use std::ffi::OsString;

use clap::{Command as Line, CommandFactory, Parser};

use super::entry::EntryTyped;
use super::{Command, Typed};

/// The word between entries. No place has it, nor the name of a strake, and a value that is this
/// word alone can be joined to its option: `--note=then`.
pub(super) const THEN: &str = "then";

/// An entry after the first.
#[derive(Debug, Parser)]
#[command(name = "refasten log … then", disable_help_flag = true)]
struct More {
    #[command(flatten)]
    entry: EntryTyped,
}

/// Reads a command line, program name first.
///
/// # Errors
/// What the reader of the command line says.
pub(super) fn parse(args: Vec<OsString>) -> Result<Typed, clap::Error> {
    let args = with_negatives_joined(args);
    let mut parts = args.split(|arg| arg == THEN);
    let first = parts.next().unwrap_or_default();
    let more: Vec<&[OsString]> = parts.collect();
    if more.is_empty() || !first.iter().any(|arg| arg == "log") {
        return Typed::try_parse_from(args);
    }
    let whole = options_of_the_whole();
    let (mut first, mut later) = (first.to_vec(), Vec::new());
    for part in more {
        let (of_whole, own) = apart(part, &whole);
        first.extend(of_whole);
        later.push(own);
    }
    let mut typed = Typed::try_parse_from(first)?;
    let Some(Command::Log(log)) = &mut typed.command else {
        return Typed::try_parse_from(args);
    };
    let name = std::iter::once(OsString::from("refasten log … then"));
    for own in later {
        let more = More::try_parse_from(name.clone().chain(own))?;
        log.more.push(more.entry);
    }
    Ok(typed)
}

/// A value below nothing belongs to the option before it: `--plank -1in` is then refused as a
/// length, and not as an option that there is not.
fn with_negatives_joined(args: Vec<OsString>) -> Vec<OsString> {
    let mut joined: Vec<OsString> = Vec::with_capacity(args.len());
    for arg in args {
        let below = arg.to_str().and_then(|arg| arg.strip_prefix('-'));
        let below =
            below.is_some_and(|rest| rest.starts_with(|c: char| c.is_ascii_digit() || c == '.'));
        let names = |arg: &OsString| {
            arg.to_str()
                .is_some_and(|arg| arg.len() > 2 && arg.starts_with("--") && !arg.contains('='))
        };
        match joined.last_mut().filter(|last| below && names(last)) {
            Some(option) => {
                option.push("=");
                option.push(arg);
            }
            None => joined.push(arg),
        }
    }
    joined
}

/// The options of `log` that are not of one entry, as they are typed, and whether each takes a
/// value.
fn options_of_the_whole() -> Vec<(String, bool)> {
    let options = |line: &Line| -> Vec<(String, bool)> {
        let long = line.get_arguments().filter_map(|arg| {
            let takes = arg.get_action().takes_values();
            Some((format!("--{}", arg.get_long()?), takes))
        });
        long.collect()
    };
    let mut line = Typed::command();
    line.build();
    let all = line.find_subcommand("log").map(options).unwrap_or_default();
    let own = options(&More::command());
    let mut whole: Vec<_> = all
        .into_iter()
        .filter(|option| !own.contains(option))
        .collect();
    whole.push(("-h".to_owned(), false));
    whole
}

/// Parts the options of the whole command from those of one entry.
fn apart(part: &[OsString], whole: &[(String, bool)]) -> (Vec<OsString>, Vec<OsString>) {
    let (mut of_whole, mut own) = (Vec::new(), Vec::new());
    let mut args = part.iter().cloned();
    while let Some(arg) = args.next() {
        let name = arg.to_str().unwrap_or_default();
        let (name, joined) = match name.split_once('=') {
            Some((name, _)) => (name, true),
            None => (name, false),
        };
        match whole.iter().find(|(option, _)| option == name) {
            Some((_, takes)) => {
                of_whole.push(arg.clone());
                if *takes && !joined {
                    of_whole.extend(args.next());
                }
            }
            None => own.push(arg),
        }
    }
    (of_whole, own)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn words(line: &str) -> Vec<OsString> {
        line.split(' ').map(OsString::from).collect()
    }

    /// The titles of the entries of a command line, and whether it is only a trial.
    fn titles(line: &str) -> Option<(Vec<String>, bool)> {
        match parse(words(line)).ok()?.command {
            Some(Command::Log(log)) => Some((log.titles(), log.dry_run)),
            _ => None,
        }
    }

    #[test]
    fn entries_are_parted_by_then_and_the_rest_is_of_the_whole() {
        let line = "refasten log pulled S3 F18 --found wasted then doweled S3 F18 --boat demo then \
                    plank off S3 F18 --dry-run --format=json";
        let expected = ["pulled S3 F18", "doweled S3 F18", "plank off S3 F18"];
        assert_eq!(
            titles(line),
            Some((expected.map(str::to_owned).to_vec(), true))
        );
        assert!(titles("refasten log pulled S3 F18 then doweled S3 F18 --plank 1in").is_none());
        assert!(titles("refasten log pulled S3 F18 --note=then --boat demo").is_some());
    }

    #[test]
    fn a_value_below_nothing_stays_with_its_option() {
        let joined = |line| with_negatives_joined(words(line));
        assert_eq!(
            joined("pick --plank -1in --frame 2in"),
            words("pick --plank=-1in --frame 2in")
        );
        assert_eq!(joined("log --off -.5in"), words("log --off=-.5in"));
        assert_eq!(joined("pick -1in"), words("pick -1in"));
        assert_eq!(joined("pick --plank=1in -1"), words("pick --plank=1in -1"));
        assert_eq!(joined("-- -1"), words("-- -1"));
    }
}
