//! A drawing or a page written to a file that was named, or to standard output.

use std::io::{self, Write};
use std::path::Path;

use super::{Format, Stopped};
use crate::files;
use crate::text::{Clean, Fault};

/// Where a drawing goes.
pub(super) enum Target<'a> {
    /// To standard output, in place of an answer.
    Output,
    /// To a file, beside the answer.
    File(&'a Path),
}

impl<'a> Target<'a> {
    /// Where `--drawing` sends it. A drawing takes the place of an older one, so only what is called
    /// a drawing is ever replaced: never a log by a slip of the finger.
    ///
    /// # Errors
    /// When it is not called `.svg`; when JSON was asked for as well as a drawing on standard output:
    /// one output holds one answer.
    pub(super) fn of(typed: Option<&'a Path>, format: Format) -> Result<Option<Self>, Stopped> {
        let Some(typed) = typed else { return Ok(None) };
        if typed == Path::new("-") {
            if format == Format::Json {
                let says = "--drawing: standard output cannot carry a drawing and JSON";
                let fault = Fault::new(None, says);
                return Err(fault.help("name a file for the drawing").into());
            }
            return Ok(Some(Self::Output));
        }
        let is_drawing = typed
            .extension()
            .is_some_and(|end| end.eq_ignore_ascii_case("svg"));
        if is_drawing {
            return Ok(Some(Self::File(typed)));
        }
        let says = format!("--drawing: {} is not called a drawing", typed.display());
        Err(Fault::new(None, says)
            .help("name a file that ends in .svg, or - for standard output")
            .into())
    }
}

/// Writes a drawing to a file, where it is to go to one, and gives the sentence that says so. It is
/// written as a whole: an older one is there until the new one is on the disk.
///
/// # Errors
/// When there is no such folder, or the machine fails.
pub(super) fn to_file(
    target: Option<&Target<'_>>,
    draw: impl FnOnce(&mut dyn Write) -> io::Result<()>,
) -> Result<Option<String>, Stopped> {
    let Some(Target::File(path)) = target else {
        return Ok(None);
    };
    let mut bytes = Vec::new();
    draw(&mut bytes)?;
    let was_there = path.exists();
    let name = path.display().to_string();
    put(path, "--drawing", &bytes)?;
    let name = Clean(&name).to_string();
    Ok(Some(match was_there {
        true => format!("Drawing: {name}, in place of the one that was there"),
        false => format!("Drawing: {name}"),
    }))
}

/// Puts bytes into a file that was named by this option, as a whole.
///
/// # Errors
/// When there is no such folder, or the machine fails.
pub(super) fn put(path: &Path, option: &str, bytes: &[u8]) -> Result<(), Stopped> {
    files::replace(path, bytes).map_err(|error| match error.kind() {
        io::ErrorKind::NotFound | io::ErrorKind::NotADirectory | io::ErrorKind::IsADirectory => {
            let name = path.display();
            let (says, help) = match error.kind() {
                io::ErrorKind::IsADirectory => (format!("{name} is a folder"), "name a file"),
                _ => (
                    format!("{name} is in a folder that is not there"),
                    "make the folder first, or name a file elsewhere",
                ),
            };
            Fault::new(None, format!("{option}: {says}"))
                .help(help)
                .into()
        }
        _ => Stopped::Machine(error),
    })
}
