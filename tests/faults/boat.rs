//! A boat's folder to spoil, and the program run on it in surroundings that never change.

use std::fs;
use std::io;
use std::path::Path;
use std::process::{Command, Output};

pub const HULL: &str = "\
refasten: 1
boat: Test
frames:
  - {number: 1-9, siding: 1-3/8in, moulding: 1-3/4in, wood: white oak}
strakes:
  - {planks: P1-4, across: F1-9, thickness: 7/8in, wood: Douglas-fir}
sets:
  - {set: built, place: P1-4 F1-9, per crossing: 2, kind: wood screw, metal: silicon bronze, size: 14 x 1-3/4in, driven: 1990}
";

/// A boat's folder with nothing in its log.
pub fn boat() -> io::Result<tempfile::TempDir> {
    let folder = tempfile::tempdir()?;
    fs::write(folder.path().join("hull.yaml"), HULL)?;
    Ok(folder)
}

/// The same with one entry in its log.
pub fn boat_with_a_log() -> io::Result<tempfile::TempDir> {
    let folder = boat()?;
    let ran = run(&mut refasten(folder.path(), &["log", "checked", "P1 F1"]))?;
    assert_eq!(ran.code, Some(0), "{}", ran.stderr);
    Ok(folder)
}

/// The program, told to do this to the boat of a folder. Nothing of the surroundings gets in.
pub fn refasten(folder: &Path, words: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_refasten"));
    command.args(words);
    settle(&mut command, folder);
    command
}

/// The same started by a shell, which runs `before` first.
#[cfg(unix)]
pub fn refasten_after(before: &str, folder: &Path, words: &[&str]) -> Command {
    let mut command = Command::new("sh");
    command
        .args(["-c", &format!("{before} exec \"$0\" \"$@\"")])
        .arg(env!("CARGO_BIN_EXE_refasten"))
        .args(words);
    settle(&mut command, folder);
    command
}

fn settle(command: &mut Command, folder: &Path) {
    command
        .env("REFASTEN_BOAT", folder)
        .env("REFASTEN_TODAY", "2026-10-20")
        .env("COLUMNS", "80")
        .env_remove("REFASTEN_PLAIN")
        .env_remove("NO_COLOR");
}

/// What a run said and how it ended; no code where it was killed.
pub struct Ran {
    pub code: Option<i32>,
    pub stdout: String,
    pub stderr: String,
}

impl From<Output> for Ran {
    fn from(output: Output) -> Self {
        Self {
            code: output.status.code(),
            stdout: String::from_utf8_lossy(&output.stdout).into_owned(),
            stderr: String::from_utf8_lossy(&output.stderr).into_owned(),
        }
    }
}

/// Runs it to its end.
pub fn run(command: &mut Command) -> io::Result<Ran> {
    command.output().map(Ran::from)
}

/// Every file of a folder and what is in it, but for the lock.
pub fn all_of(folder: &Path) -> io::Result<Vec<(String, Vec<u8>)>> {
    let mut all = Vec::new();
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        let name = entry.file_name().to_string_lossy().into_owned();
        if name != ".refasten.lock" && entry.metadata()?.is_file() {
            all.push((name, fs::read(entry.path())?));
        }
    }
    all.sort();
    Ok(all)
}

/// A stream of numbers that is the same every time.
pub struct Dice(u64);

impl Dice {
    pub const fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// A number under `sides`.
    pub fn under(&mut self, sides: u64) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        (z ^ (z >> 31)) % sides
    }
}
