//! Which command a command line is about, though it could not be read, and how that is written.

use std::ffi::OsString;

use clap::Command as Line;

/// The first word of a command line, program name first, that names a command; `help` names none
/// itself. `None` where there is none, or where help on the whole is asked for before it.
pub(super) fn command<'l>(args: &[OsString], whole: &'l Line) -> Option<&'l Line> {
    let mut args = args.iter().skip(1).map(|arg| arg.to_str());
    while let Some(Some(arg)) = args.next() {
        match arg.strip_prefix("--") {
            Some("help") => return None,
            // The value of an option of every command is no command.
            Some(_) => {
                if takes_value(whole, arg) {
                    args.next();
                }
            }
            None if arg.starts_with("-h") => return None,
            None if arg.starts_with('-') || arg == "help" => {}
            None => return whole.find_subcommand(arg),
        }
    }
    None
}

/// Whether a command has the option `--name`, and its value is in the next word.
pub(super) fn takes_value(line: &Line, option: &str) -> bool {
    let Some(long) = option.strip_prefix("--") else {
        return false;
    };
    let mut known = line.get_arguments();
    known.any(|arg| arg.get_long() == Some(long) && arg.get_action().takes_values())
}

/// How a command is written: `refasten new DIR`; what may be left out stands in brackets, unless it
/// is missing.
pub(super) fn words(line: &Line, missing: &[String]) -> String {
    let mut words = format!("refasten {}", line.get_name());
    for arg in line.get_positionals() {
        let value = arg.get_value_names().and_then(|names| names.first());
        let value = value.map_or_else(|| arg.get_id().as_str(), |value| value.as_str());
        let needed = arg.is_required_set() || missing.iter().any(|missing| missing == value);
        words.push_str(&match needed {
            true => format!(" {value}"),
            false => format!(" [{value}]"),
        });
    }
    words
}

/// Where the options of a command are told.
pub(super) fn help_of(line: &Line) -> String {
    format!("`refasten {} --help` tells its options", line.get_name())
}

#[cfg(test)]
mod tests {
    use clap::CommandFactory;

    use super::*;

    fn named(line: &str) -> Option<String> {
        let args: Vec<OsString> = line.split(' ').map(OsString::from).collect();
        let whole = super::super::Typed::command();
        command(&args, &whole).map(|line| line.get_name().to_owned())
    }

    #[test]
    fn a_command_is_found_behind_the_options_of_all() {
        for line in [
            "refasten audit S3 --help",
            "refasten help audit",
            "refasten --boat show --plain audit show",
            "refasten --boat=show audit",
        ] {
            assert_eq!(named(line).as_deref(), Some("audit"), "{line}");
        }
        for line in [
            "refasten",
            "refasten --help audit",
            "refasten -h audit",
            "refasten adit",
        ] {
            assert_eq!(named(line), None, "{line}");
        }
    }
}
