//! Command line in, exit code out.

use std::process::ExitCode;

fn main() -> ExitCode {
    refasten::cli::run(std::env::args_os())
}
