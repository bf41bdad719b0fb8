//! A copy of the demo to spoil, and the program run beside it on the day it was made for.

use std::fs;
use std::path::Path;
use std::process::Command;

use super::boat::Ran;

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
        if file.path().is_dir() {
            copy(&file.path(), &to);
        } else {
            fs::copy(file.path(), to).unwrap();
        }
    }
}

/// Runs the program in a folder, on the boat in its `demo`.
pub fn run(folder: &Path, args: &[&str]) -> Ran {
    let mut command = Command::new(env!("CARGO_BIN_EXE_refasten"));
    command
        .args(args)
        .current_dir(folder)
        .env("REFASTEN_BOAT", "demo")
        .env("REFASTEN_TODAY", "2024-11-25")
        .env("COLUMNS", "80")
        .env_remove("REFASTEN_PLAIN")
        .env_remove("NO_COLOR");
    Ran::from(command.output().unwrap())
}
