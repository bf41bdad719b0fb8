//! What is wrong with a command line that could not be read, in this program's own words.

use std::error::Error as _;
use std::ffi::OsString;

use clap::error::{ContextKind, ContextValue, Error, ErrorKind};
use clap::{Arg, Command as Line, CommandFactory};

use super::Typed;
use super::whose::{self, help_of, takes_value, words};
use crate::text::{Fault, Misread, nearest};

/// The fault of a command line, program name first.
pub(super) fn fault(error: &Error, args: &[OsString]) -> Fault {
    let mut whole = Typed::command();
    whole.build();
    let refused = Refused {
        error,
        args,
        command: whose::command(args, &whole),
        whole: &whole,
    };
    let (says, help) = refused.told();
    let fault = Fault::new(None, says);
    match help {
        Some(help) => fault.help(help),
        None => fault,
    }
}

/// A command line that could not be read.
struct Refused<'a> {
    error: &'a Error,
    args: &'a [OsString],
    whole: &'a Line,
    /// The command it is about, where it names one.
    command: Option<&'a Line>,
}

impl Refused<'_> {
    /// What is wrong, and what would be right.
    fn told(&self) -> (String, Option<String>) {
        let arg = self.one(ContextKind::InvalidArg).unwrap_or_default();
        let value = self.one(ContextKind::InvalidValue).unwrap_or_default();
        match self.error.kind() {
            ErrorKind::InvalidSubcommand => self.no_command(),
            ErrorKind::UnknownArgument => self.unknown(&arg),
            ErrorKind::InvalidValue if value.is_empty() => self.no_value(&arg),
            ErrorKind::InvalidValue => self.not_one_of(&arg, &value),
            ErrorKind::ValueValidation => self.misread(&arg, &value),
            ErrorKind::TooManyValues => {
                let help = format!("leave `={value}` out");
                (format!("{}: it takes no value", name(&arg)), Some(help))
            }
            ErrorKind::ArgumentConflict => self.conflict(&arg),
            ErrorKind::MissingRequiredArgument => self.missing(),
            ErrorKind::InvalidUtf8 => {
                let mut typed = self.args.iter().filter(|arg| arg.to_str().is_none());
                let arg = typed.next().map(|arg| arg.to_string_lossy());
                let says = format!("`{}` is not text in UTF-8", arg.unwrap_or_default());
                (says, None)
            }
            // Nothing else is asked of a command line here; the reader's own words, should it be.
            _ => {
                let says = self.error.to_string();
                let says = says.lines().next().unwrap_or_default();
                (says.trim_start_matches("error: ").to_owned(), None)
            }
        }
    }

    fn no_command(&self) -> (String, Option<String>) {
        let typed = self.one(ContextKind::InvalidSubcommand).unwrap_or_default();
        let known = self.whole.get_subcommands().map(Line::get_name);
        let help = match nearest(&typed, known) {
            Some(near) => format!("did you mean `{near}`?"),
            None => "`refasten --help` lists them".to_owned(),
        };
        (format!("there is no command `{typed}`"), Some(help))
    }

    /// An option that there is not, or a word too many.
    fn unknown(&self, typed: &str) -> (String, Option<String>) {
        let Some(long) = typed.strip_prefix("--") else {
            return match (typed.starts_with('-'), self.hyphened(typed)) {
                (true, Some(told)) => told,
                (true, None) => self.no_option(typed, None),
                (false, _) => self.word_too_many(typed),
            };
        };
        let known = self.line().get_arguments();
        let near = nearest(long, known.filter_map(Arg::get_long));
        let elsewhere: Vec<String> = self
            .whole
            .get_subcommands()
            .filter(|line| line.get_arguments().any(|arg| arg.get_long() == Some(long)))
            .map(|line| format!("`{}`", line.get_name()))
            .collect();
        let help = match (elsewhere.as_slice(), near) {
            ([], Some(near)) => Some(format!("did you mean --{near}?")),
            ([], None) => None,
            ([one], _) => Some(format!("it is an option of {one}")),
            ([first @ .., last], _) => {
                let first = first.join(", ");
                Some(format!("it is an option of {first} and {last}"))
            }
        };
        self.no_option(typed, help)
    }

    /// A letter that is no option, but may begin the value of the option before it.
    fn hyphened(&self, letter: &str) -> Option<(String, Option<String>)> {
        let typed: Vec<&str> = self.args.iter().filter_map(|arg| arg.to_str()).collect();
        let pair = typed
            .windows(2)
            .find(|pair| matches!(pair, [_, value] if value.starts_with(letter)))?;
        let [option, value] = pair else { return None };
        let says = format!("{option}: its value begins with a hyphen");
        takes_value(self.line(), option).then(|| {
            (
                says,
                Some(format!("join it with an equals sign: {option}={value}")),
            )
        })
    }

    fn no_option(&self, typed: &str, help: Option<String>) -> (String, Option<String>) {
        let (says, list) = match self.command {
            Some(line) => (
                format!("`{}` has no option {typed}", line.get_name()),
                help_of(line),
            ),
            None => (
                format!("there is no option {typed} that goes with every command"),
                "name the command first; `refasten --help` lists them".to_owned(),
            ),
        };
        (says, help.or(Some(list)))
    }

    fn word_too_many(&self, typed: &str) -> (String, Option<String>) {
        let Some(line) = self.command else {
            return (format!("`{typed}` is a word too many"), None);
        };
        let says = format!("`{typed}` is a word more than `{}` takes", line.get_name());
        let help = format!(
            "write `{}`, with quotation marks round words that belong together",
            words(line, &[])
        );
        (says, Some(help))
    }

    fn no_value(&self, arg: &str) -> (String, Option<String>) {
        let name = name(arg);
        let says = format!("{name}: its value is missing");
        let help = match self.valid().as_slice() {
            [] => self.about(&name),
            valid => Some(format!("one of {}", valid.join(", "))),
        };
        (says, help)
    }

    /// What an option is for, in the words of its help.
    fn about(&self, name: &str) -> Option<String> {
        let line = self.line();
        let long = name.strip_prefix("--");
        let mut known = line.get_arguments();
        let arg = known.find(|arg| long.is_some() && arg.get_long() == long)?;
        let value = arg.get_value_names()?.first()?;
        Some(format!("{name} {value}: {}", arg.get_help()?))
    }

    fn not_one_of(&self, arg: &str, value: &str) -> (String, Option<String>) {
        let valid = self.valid();
        let says = format!(
            "{}: `{value}` is not one of {}",
            name(arg),
            valid.join(", ")
        );
        let near = nearest(value, valid.iter().map(String::as_str));
        (says, near.map(|near| format!("did you mean `{near}`?")))
    }

    fn misread(&self, arg: &str, value: &str) -> (String, Option<String>) {
        let source = self.error.source();
        match source.and_then(|source| source.downcast_ref::<Misread>()) {
            Some(misread) => (
                format!("{}: {}", name(arg), misread.says),
                misread.help.clone(),
            ),
            None => (format!("{}: `{value}` cannot be read", name(arg)), None),
        }
    }

    fn conflict(&self, arg: &str) -> (String, Option<String>) {
        let others = self.all(ContextKind::PriorArg);
        if others.iter().all(|other| name(other) == name(arg)) {
            let says = format!("{} is given more than once", name(arg));
            return (says, Some("give it once".to_owned()));
        }
        let others: Vec<String> = others.iter().map(|other| name(other)).collect();
        let says = format!("{} does not go with {}", name(arg), others.join(" and "));
        (says, Some("give the one or the other".to_owned()))
    }

    fn missing(&self) -> (String, Option<String>) {
        let args = self.all(ContextKind::InvalidArg);
        let missing: Vec<String> = args.iter().map(|arg| name(arg)).collect();
        if let Some(asks) = self.who_asks_for(&args) {
            let says = format!("{asks} goes only with {}", missing.join(" and "));
            return (says, self.command.map(help_of));
        }
        let is = if missing.len() == 1 { "is" } else { "are" };
        let says = format!("{} {is} missing", missing.join(" and "));
        let written = self.command.map(|line| words(line, &missing));
        (says, written.map(|words| format!("write `{words}`")))
    }

    /// The first option of the command that, given alone, is refused for want of the same.
    fn who_asks_for(&self, missing: &[String]) -> Option<String> {
        let command = self.command?.get_name();
        let mut typed = self.args.iter().peekable();
        while let Some(arg) = typed.next() {
            let Some(option) = arg.to_str().filter(|arg| arg.starts_with("--")) else {
                continue;
            };
            let mut alone: Vec<OsString> = vec!["refasten".into(), command.into(), arg.clone()];
            let joined = option.contains('=');
            alone.extend(
                typed
                    .peek()
                    .filter(|_| !joined && takes_value(self.line(), option))
                    .copied()
                    .cloned(),
            );
            let Err(error) = self.whole.clone().try_get_matches_from(alone) else {
                continue;
            };
            let asks = matches!(error.get(ContextKind::InvalidArg),
                Some(ContextValue::Strings(others)) if others == missing);
            if asks && error.kind() == ErrorKind::MissingRequiredArgument {
                return Some(name(option));
            }
        }
        None
    }

    /// The values that would do.
    fn valid(&self) -> Vec<String> {
        self.all(ContextKind::ValidValue)
    }

    /// The command, or the whole where none is named.
    fn line(&self) -> &Line {
        self.command.unwrap_or(self.whole)
    }

    fn one(&self, kind: ContextKind) -> Option<String> {
        self.all(kind).into_iter().next()
    }

    fn all(&self, kind: ContextKind) -> Vec<String> {
        match self.error.get(kind) {
            Some(ContextValue::String(one)) => vec![one.clone()],
            Some(ContextValue::Strings(all)) => all.clone(),
            _ => Vec::new(),
        }
    }
}

/// The name of an option or of a place in the command: `--plank` of `--plank <LENGTH>`, `PLACE` of
/// `[PLACE]...`.
fn name(arg: &str) -> String {
    let first = match arg.starts_with('-') {
        true => arg.split([' ', '=']).next().unwrap_or(arg),
        false => arg.trim_end_matches("..."),
    };
    first.trim_matches(['<', '>', '[', ']']).to_owned()
}
