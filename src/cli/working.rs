//! A bar that says how far the work has come, while it takes long.

use std::fmt;
use std::io::{self, IsTerminal, Write};
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::thread::{self, JoinHandle};
use std::time::{Duration, Instant};

use super::Desk;

/// Work that takes no longer than this is not told of.
const SOON: Duration = Duration::from_secs(1);

/// Back to the beginning of the line, and nothing on it.
const ERASED: &str = "\r\u{1b}[K";

/// A step of the work: which it is, of how many, and what is done in it.
#[derive(Clone, Copy, Debug)]
struct Step {
    at: usize,
    of: usize,
    does: &'static str,
}

/// `[==  ] judging`: as many parts as there are steps, and those begun filled.
impl fmt::Display for Step {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        const PART: usize = 6;
        let (begun, of) = (self.at * PART, self.of * PART);
        write!(f, "[{:<of$}] {} …", "=".repeat(begun), self.does)
    }
}

/// Work going on. On a terminal that knows how, a bar on stderr says so after a second, and is
/// erased when this is dropped, before anything is printed.
pub(super) struct Working {
    steps: &'static [&'static str],
    teller: Option<(Sender<Step>, JoinHandle<()>)>,
}

impl Working {
    /// Begins the first of some steps, as `reading` and `judging`.
    pub(super) fn begin(desk: &Desk<'_>, steps: &'static [&'static str]) -> Self {
        let dumb = std::env::var_os("TERM").is_none_or(|term| term == "dumb");
        let silent = desk.layout.plain || dumb || !io::stderr().is_terminal();
        let teller = (!silent).then(|| {
            let (stages, told) = channel();
            let tells = move || tell(&told, SOON, &mut io::stderr());
            // Where there is no thread to be had, nothing is told.
            let teller = thread::Builder::new().spawn(tells).ok()?;
            Some((stages, teller))
        });
        let teller = teller.flatten();
        let working = Self { steps, teller };
        working.now(0);
        working
    }

    /// Goes on to another step.
    pub(super) fn now(&self, at: usize) {
        let Some((stages, _)) = &self.teller else {
            return;
        };
        if let Some(does) = self.steps.get(at) {
            let of = self.steps.len();
            // Where nobody listens any more, nothing is told.
            let _ = stages.send(Step {
                at: at + 1,
                of,
                does,
            });
        }
    }
}

impl Drop for Working {
    fn drop(&mut self) {
        if let Some((stages, teller)) = self.teller.take() {
            drop(stages);
            let _ = teller.join();
        }
    }
}

/// Tells steps as they come, once they have taken long, until there are no more.
fn tell(stages: &Receiver<Step>, soon: Duration, out: &mut impl Write) {
    let begun = Instant::now();
    let mut stage = None;
    loop {
        match stages.recv_timeout(soon.saturating_sub(begun.elapsed())) {
            Ok(next) => stage = Some(next),
            Err(RecvTimeoutError::Timeout) => break,
            Err(RecvTimeoutError::Disconnected) => return,
        }
    }
    let mut show = |line: &str| {
        // With stderr gone there is nobody left to tell.
        let _ = write!(out, "{ERASED}{line}").and_then(|()| out.flush());
    };
    if let Some(stage) = stage {
        show(&stage.to_string());
    }
    while let Ok(next) = stages.recv() {
        show(&next.to_string());
    }
    show("");
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Goes on to the next stage, and at last to none, each time something was shown.
    struct Terminal {
        shown: String,
        next: Vec<Step>,
        stages: Option<Sender<Step>>,
    }

    impl Write for Terminal {
        fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
            self.shown.push_str(&String::from_utf8_lossy(bytes));
            Ok(bytes.len())
        }

        fn flush(&mut self) -> io::Result<()> {
            match (self.next.pop(), &self.stages) {
                (Some(next), Some(stages)) => stages.send(next).map_err(io::Error::other)?,
                _ => self.stages = None,
            }
            Ok(())
        }
    }

    fn shown(soon: Duration, ends: bool) -> String {
        let (stages, told) = channel();
        let step = |at, does| Step { at, of: 2, does };
        stages.send(step(1, "reading")).unwrap();
        let mut terminal = Terminal {
            shown: String::new(),
            next: vec![step(2, "judging")],
            stages: (!ends).then_some(stages),
        };
        tell(&told, soon, &mut terminal);
        terminal.shown
    }

    #[test]
    fn what_takes_long_is_told_and_erased() {
        assert_eq!(
            shown(Duration::ZERO, false),
            "\r\u{1b}[K[======      ] reading …\r\u{1b}[K[============] judging …\r\u{1b}[K"
        );
    }

    #[test]
    fn what_is_done_at_once_is_not_told() {
        assert_eq!(shown(Duration::from_secs(3600), true), "");
    }
}
