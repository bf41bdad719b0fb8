//! How a run ends when the machine, not the user, is the matter.

use std::process::{Command, Stdio};

fn pick() -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_refasten"));
    command.args(["pick", "--plank", "1in", "--format", "json"]);
    command.env_remove("REFASTEN_PLAIN");
    command
}

/// Whoever reads may have seen enough; that is no failure and needs no word.
#[test]
fn a_closed_pipe_is_a_quiet_end() {
    let mut child = pick()
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    let output = child.wait_with_output().unwrap();
    assert_eq!(output.status.code(), Some(0));
    assert!(output.stderr.is_empty());
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_is_told_and_ends_with_3() {
    let full = std::fs::OpenOptions::new()
        .write(true)
        .open("/dev/full")
        .unwrap();
    let output = pick().stdout(full).output().unwrap();
    assert_eq!(output.status.code(), Some(3));
    assert!(String::from_utf8_lossy(&output.stderr).starts_with("error: "));
}
