//! `refasten completions`: what a shell needs to complete a command line.

use clap::{Args, CommandFactory};
use clap_complete::{Shell, generate};

use super::{Desk, Ended, Stopped, Typed};

/// Print what a shell needs to complete command lines
///
/// For bash put it into ~/.local/share/bash-completion/completions/refasten, for fish into
/// ~/.config/fish/completions/refasten.fish, for zsh as _refasten into a folder of its fpath;
/// elvish and powershell read it at their start.
#[derive(Debug, Args)]
#[command(after_help = "refasten completions bash")]
pub(super) struct Completions {
    /// The shell
    #[arg(value_enum)]
    shell: Shell,
}

impl Completions {
    pub(super) fn run(self, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
        let mut script = Vec::new();
        generate(self.shell, &mut Typed::command(), "refasten", &mut script);
        desk.out.write_all(&script)?;
        Ok(Ended::Done)
    }
}
