//! `refasten new`: begins a boat's folder.

use std::io::{self, BufRead, IsTerminal, Write};
use std::path::{Path, PathBuf};

use clap::Args;
use serde_json::json;

use super::typed::Reading;
use super::{Desk, Ended, Format, Stopped};
use crate::files::{NewFile, NotBegun, begin, demo, starter};
use crate::hull::Mark;
use crate::text::{Clean, Fault, Misread};

/// The frames of the starter's boat at which the waterline is asked for.
const ASKED: [(&str, u16); 3] = [("the stem", 1), ("midships", 12), ("the stern", 24)];

/// The longest name of a boat, in letters.
const LONGEST_NAME: usize = 100;

/// Begin a boat's folder, with a commented example
///
/// Asks which strake is at the waterline at the stem, midships and the stern, unless it is told
/// with --waterline or nobody is there to answer. Never writes over a file.
#[derive(Debug, Args)]
#[command(after_help = "refasten new tern --waterline \"F1 6\" \"F12 5\" \"F24 6\"")]
pub(super) struct New {
    /// The folder; made where there is none
    #[arg(value_name = "DIR")]
    dir: PathBuf,
    /// Name of the boat; else that of the folder
    #[arg(long, value_name = "NAME")]
    name: Option<String>,
    /// Strakes at the waterline: "F1 9" "F22 7"
    #[arg(long, value_name = "MARK", num_args = 1..)]
    waterline: Vec<String>,
    /// Write the invented boat to try the program on
    #[arg(long, conflicts_with_all = ["name", "waterline"])]
    demo: bool,
}

impl New {
    pub(super) fn run(self, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
        let (name, files) = match self.demo {
            true => ("Hesper Lass".to_owned(), demo()),
            false => self.starter()?,
        };
        match begin(&self.dir, &files) {
            Ok(()) => {}
            Err(NotBegun::Exist(there)) => {
                let is = if there.len() == 1 { "is" } else { "are" };
                let fault = Fault::new(
                    None,
                    format!(
                        "{} {is} already in {}",
                        there.join(", "),
                        self.dir.display()
                    ),
                );
                return Err(fault.help("nothing was written; name a new folder").into());
            }
            // A file stands where the folder, or one above it, would have to be.
            Err(NotBegun::Refused(error))
                if matches!(
                    error.kind(),
                    io::ErrorKind::AlreadyExists | io::ErrorKind::NotADirectory
                ) =>
            {
                let says = format!("{} cannot be a folder: a file is there", self.dir.display());
                return Err(Fault::new(None, says).help("name a new folder").into());
            }
            Err(NotBegun::Refused(error)) => return Err(error.into()),
        }
        desk.done = Some(format!("{} is begun", self.dir.display()));
        let next = match self.demo {
            true => ("she is half way through a refit; what is left", "audit"),
            false => (
                "now put her own frames, strakes and sets into hull.yaml; as you go",
                "check",
            ),
        };
        told(desk, &self.dir, &name, &files, next)?;
        Ok(Ended::Done)
    }

    /// The owner's own boat: her name, and the files to begin with.
    fn starter(&self) -> Result<(String, Vec<NewFile>), Stopped> {
        let mut reading = Reading::default();
        let name = self.boat_name(&mut reading);
        let marks = self.marks(&mut reading);
        let name = reading.done(Some(name)).map_err(Stopped::Wrong)?;
        let stdin = io::stdin();
        let marks = if marks.is_empty() && stdin.is_terminal() && io::stderr().is_terminal() {
            ask(&mut stdin.lock(), &mut io::stderr().lock())?
        } else {
            marks
        };
        let files = starter(&name, &marks);
        Ok((name, files))
    }

    /// What the boat is to be called.
    fn boat_name(&self, reading: &mut Reading) -> String {
        let of_folder = || {
            let folder = self.dir.file_name().unwrap_or_default();
            folder.to_string_lossy().into_owned()
        };
        let name = self.name.clone().unwrap_or_else(of_folder);
        let name = name.trim();
        if name.is_empty() {
            let misread = Misread::new("she has no name");
            reading.slip("--name", misread.help("like --name Tern"));
        } else if name.chars().count() > LONGEST_NAME {
            let says = format!("a name is at most {LONGEST_NAME} letters long");
            let misread = Misread::new(says);
            reading.slip("--name", misread.help("give the rest under `particulars`"));
        }
        name.to_owned()
    }

    /// The marks that were typed, one for each frame.
    fn marks(&self, reading: &mut Reading) -> Vec<Mark> {
        let mut marks: Vec<Mark> = Vec::new();
        for typed in &self.waterline {
            let Some(mark) = reading.option::<Mark>("--waterline", Some(typed)) else {
                continue;
            };
            if marks.iter().any(|other| other.frame == mark.frame) {
                let says = format!("F{} is given twice", mark.frame);
                let misread = Misread::new(says);
                reading.slip("--waterline", misread.help("one mark for each frame"));
            }
            marks.push(mark);
        }
        marks
    }
}

/// Asks for the strake at the waterline at three frames. An empty answer leaves one out; whoever
/// cannot be read is asked again.
fn ask(answers: &mut dyn BufRead, asks: &mut dyn Write) -> io::Result<Vec<Mark>> {
    writeln!(
        asks,
        "strakes are counted from the keel; press Enter for what you do not know"
    )?;
    let mut marks = Vec::new();
    for (place, frame) in ASKED {
        loop {
            write!(asks, "which strake is at the waterline at {place}? ")?;
            asks.flush()?;
            let mut answer = String::new();
            if answers.read_line(&mut answer)? == 0 {
                writeln!(asks)?;
                return Ok(marks);
            }
            let answer = answer.trim();
            if answer.is_empty() {
                break;
            }
            match format!("F{frame} {answer}").parse() {
                Ok(mark) => {
                    marks.push(mark);
                    break;
                }
                Err(_) => writeln!(asks, "a number like 7, or Enter")?,
            }
        }
    }
    Ok(marks)
}

fn told(
    desk: &mut Desk<'_>,
    dir: &Path,
    name: &str,
    files: &[NewFile],
    (next, command): (&str, &str),
) -> io::Result<()> {
    let dir = dir.display().to_string();
    let wrote: Vec<&str> = files.iter().map(|(name, _)| *name).collect();
    match desk.globals.format {
        Format::Json => {
            let begun = json!({"format": 1, "boat": name, "folder": dir, "wrote": wrote});
            serde_json::to_writer_pretty(&mut *desk.out, &begun)?;
            writeln!(desk.out)
        }
        Format::Text => {
            let dir = Clean(&dir);
            writeln!(desk.out, "{}: wrote into {dir}", Clean(name))?;
            for file in wrote {
                writeln!(desk.out, "  {file}")?;
            }
            writeln!(desk.out, "{next}:\n  refasten {command} --boat {dir}")
        }
    }
}

#[cfg(test)]
mod tests {
    use super::ask;

    fn asked(answers: &str) -> (Vec<String>, usize) {
        let mut asks = Vec::new();
        let marks = ask(&mut answers.as_bytes(), &mut asks).unwrap();
        let questions = String::from_utf8(asks).unwrap().matches('?').count();
        (marks.iter().map(ToString::to_string).collect(), questions)
    }

    #[test]
    fn three_questions_each_until_it_can_be_read() {
        let all = ["F1 9", "F12 7", "F24 8"].map(str::to_owned);
        assert_eq!(asked("9\n7\n8\n"), (all.to_vec(), 3));
        assert_eq!(asked("9\nseven\n0\n 7 \n8\n"), (all.to_vec(), 5));
        assert_eq!(asked("\n7\n"), (vec![all[1].clone()], 3));
        assert_eq!(asked(""), (vec![], 1));
    }
}
