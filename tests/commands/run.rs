//! Runs the program as a person would, and reads what it says.

use std::process::Command;

/// What a run said and how it ended.
pub struct Ran {
    /// What it printed.
    pub stdout: String,
    /// What it complained of.
    pub stderr: String,
    /// Its exit code.
    pub code: Option<i32>,
}

/// Runs `refasten` with these arguments, 80 columns wide, on a day that never changes.
pub fn refasten(args: &[&str]) -> Ran {
    let output = Command::new(env!("CARGO_BIN_EXE_refasten"))
        .args(args)
        .env("COLUMNS", "80")
        .env("REFASTEN_TODAY", "2026-10-20")
        .env_remove("REFASTEN_BOAT")
        .env_remove("REFASTEN_PLAIN")
        .output()
        .unwrap();
    Ran {
        stdout: String::from_utf8(output.stdout).unwrap(),
        stderr: String::from_utf8(output.stderr).unwrap(),
        code: output.status.code(),
    }
}
