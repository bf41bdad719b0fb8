//! Running the program on a folder of its own.

use std::fs;
use std::path::Path;
use std::process::Command;

/// What a run said and how it ended.
pub struct Ran {
    /// What it printed.
    pub stdout: String,
    /// What it complained of.
    pub stderr: String,
    /// Its exit code; none where it was killed, as a panic of the released program is.
    pub code: Option<i32>,
}

/// A folder with a copy of the demo in it, as `demo`.
pub fn demo() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    let from = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo");
    copy(&from, &folder.path().join("demo"));
    folder
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir(to).unwrap();
    for file in fs::read_dir(from).unwrap() {
        let file = file.unwrap();
        let to = to.join(file.file_name());
        match file.path().is_dir() {
            true => copy(&file.path(), &to),
            false => drop(fs::copy(file.path(), to).unwrap()),
        }
    }
}

/// Runs the program in a folder, on the boat in its `demo`.
pub fn run(folder: &Path, args: &[&str]) -> Ran {
    let output = Command::new(env!("CARGO_BIN_EXE_refasten"))
        .args(args)
        .current_dir(folder)
        .env("REFASTEN_BOAT", "demo")
        .env("REFASTEN_TODAY", "2024-11-25")
        .env("COLUMNS", "80")
        .env_remove("REFASTEN_PLAIN")
        .output()
        .unwrap();
    Ran {
        stdout: String::from_utf8(output.stdout).unwrap(),
        stderr: String::from_utf8(output.stderr).unwrap(),
        code: output.status.code(),
    }
}
