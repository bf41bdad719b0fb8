//! How a run ends when the machine, not the user, is the matter.

use std::process::{Command, Stdio};

fn pick() -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_refasten"));
    command.args(["pick", "--plank", "1in"]);
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

/// A variable that is set once for all must never keep the program from answering.
#[test]
fn whatever_the_surroundings_say_of_plain_print_is_understood() {
    let begins = |set: &str| {
        let mut command = pick();
        let plain = command.env("REFASTEN_PLAIN", set);
        let output = plain.output().unwrap();
        assert_eq!(output.status.code(), Some(0), "REFASTEN_PLAIN={set}");
        String::from_utf8(output.stdout).unwrap()
    };
    let (plain, drawn) = (begins("true"), begins(""));
    assert_ne!(plain, drawn);
    for set in ["1", "yes", "on"] {
        assert_eq!(begins(set), plain, "REFASTEN_PLAIN={set}");
    }
    for unset in ["0", "no", "false"] {
        assert_eq!(begins(unset), drawn, "REFASTEN_PLAIN={unset}");
    }
}
