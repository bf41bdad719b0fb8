//! Four writers at one boat, killed at any instant and started again: what was acknowledged is there
//! once and whole, and what was not is there once and whole or not at all.
//!
//! `REFASTEN_TEST_APPENDS=4000 cargo test --release --test faults killed -- --nocapture` does so
//! until that many are acknowledged, and prints what was counted.

use std::collections::HashMap;
use std::fs;
use std::io;
use std::path::Path;
use std::process::{Child, Stdio};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;
use std::time::Duration;

use super::boat::{Dice, Ran, boat, refasten, refasten_after, run};

const WRITERS: u64 = 4;
/// As many as are written to one folder: the log is read whole for each of them.
const OF_A_FOLDER: usize = 100;
/// Rows of a sheet that is imported.
const ROWS: usize = 30;

/// What the writers write.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Work {
    Entries,
    Plans,
    Sheets,
}

impl Work {
    const fn file(self) -> &'static str {
        match self {
            Self::Entries | Self::Sheets => "log.yaml",
            Self::Plans => "plan.yaml",
        }
    }
}

/// What became of everything that was tried.
#[derive(Debug, Default)]
struct Count {
    acknowledged: usize,
    killed: usize,
    /// Of those that were killed, how many are there all the same, and how many sheets in part.
    killed_but_there: usize,
    in_part: usize,
    /// Lines that were cut short, and how often they were mended.
    torn: usize,
    repaired: usize,
}

/// One attempt to write: its mark in every line it would write, and whether it was acknowledged.
struct Attempt {
    mark: String,
    lines: usize,
    acknowledged: bool,
}

/// One writer: starts the program again and again, and kills it at random.
struct Writer<'a> {
    work: Work,
    folder: &'a Path,
    number: u64,
    dice: Dice,
    count: Count,
    attempts: Vec<Attempt>,
}

impl Writer<'_> {
    fn write_until(&mut self, enough: usize, acknowledged: &AtomicUsize) -> io::Result<()> {
        while acknowledged.load(Ordering::Relaxed) < enough {
            let mark = format!("@{}-{}@", self.number, self.attempts.len());
            let ran = self.attempt(&mark)?;
            let done = ran.code == Some(0);
            match ran.code {
                Some(0) => {
                    acknowledged.fetch_add(1, Ordering::Relaxed);
                    self.count.acknowledged += 1;
                }
                None => self.count.killed += 1,
                Some(2) if ran.stderr.contains("`check --repair` mends it") => self.repair()?,
                Some(code) => panic!("exit {code}: {}", ran.stderr),
            }
            self.attempts.push(Attempt {
                mark,
                lines: if self.work == Work::Sheets { ROWS } else { 1 },
                acknowledged: done,
            });
        }
        Ok(())
    }

    /// Starts the program once, and lets it end or not.
    fn attempt(&mut self, mark: &str) -> io::Result<Ran> {
        // Some lines are longer than a page of memory, and so are written in parts.
        let cut = cfg!(unix) && self.dice.under(16) == 0;
        let long = match self.work {
            Work::Sheets => 40,
            _ if cut || self.dice.under(8) == 0 => 9000,
            _ => 10,
        };
        let note = format!("{mark}{}", "x".repeat(long));
        let place = format!("P{} F{}", self.number + 1, 1 + self.dice.under(9));
        let sheet = self.folder.with_extension(format!("{}.csv", self.number));
        let sheet = sheet.to_string_lossy();
        let words: Vec<&str> = match self.work {
            Work::Entries => vec!["log", "checked", &place, "--note", &note],
            Work::Plans => vec![
                "pick",
                &place,
                "--into-plan",
                "--metal",
                "silicon bronze",
                "--note",
                &note,
            ],
            Work::Sheets => {
                let rows =
                    (0..ROWS).map(|row| format!("2026-10-19,checked,{place},{row} {note}\n"));
                let rows: String = rows.collect();
                fs::write(&*sheet, format!("date,did,place,note\n{rows}"))?;
                vec!["import", &sheet]
            }
        };
        let log = self.folder.join(self.work.file());
        let len = log.metadata().map_or(0, |known| known.len());
        let mut command = match cut {
            // The system kills what writes beyond this limit, in the middle of its writing.
            true => {
                let blocks = (len + self.dice.under(9000)) / 512 + 1;
                refasten_after(&format!("ulimit -f {blocks};"), self.folder, &words)
            }
            false => refasten(self.folder, &words),
        };
        let child = command
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()?;
        match self.dice.under(3) {
            0 if !cut => self.kill_at_random(child),
            1 if !cut => kill_at_the_first_byte(child, &log, len),
            _ => child.wait_with_output().map(Ran::from),
        }
    }

    /// Kills it at any instant of the time it takes, or somewhat after.
    fn kill_at_random(&mut self, mut child: Child) -> io::Result<Ran> {
        thread::sleep(Duration::from_micros(self.dice.under(20_000)));
        child.kill()?;
        child.wait_with_output().map(Ran::from)
    }

    /// Does what the program says is to be done about a torn line; is killed at times, too.
    fn repair(&mut self) -> io::Result<()> {
        let words = ["check", "--repair", "--replace"];
        let child = refasten(self.folder, &words)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()?;
        let ran = match self.dice.under(3) {
            0 => self.kill_at_random(child)?,
            _ => Ran::from(child.wait_with_output()?),
        };
        match ran.code {
            Some(0) if ran.stdout.contains("is replaced") => self.count.repaired += 1,
            // Another writer mended it first, or it was killed.
            Some(0) | None => {}
            Some(code) => panic!("exit {code}: {}", ran.stderr),
        }
        Ok(())
    }
}

/// Kills it as soon as it, or another writer, has written something.
fn kill_at_the_first_byte(mut child: Child, log: &Path, len: u64) -> io::Result<Ran> {
    while child.try_wait()?.is_none() {
        if log.metadata().is_ok_and(|known| known.len() != len) {
            child.kill()?;
            break;
        }
    }
    child.wait_with_output().map(Ran::from)
}

/// Lets four writers loose on one folder until enough is acknowledged, and looks at what is there.
fn four_writers(work: Work, seed: u64, enough: usize, count: &mut Count) -> io::Result<()> {
    let folder = boat()?;
    let acknowledged = AtomicUsize::new(0);
    let done = thread::scope(|scope| {
        let writers: Vec<_> = (0..WRITERS)
            .map(|number| {
                let mut writer = Writer {
                    work,
                    folder: folder.path(),
                    number,
                    dice: Dice::new(seed * WRITERS + number),
                    count: Count::default(),
                    attempts: Vec::new(),
                };
                let acknowledged = &acknowledged;
                scope.spawn(move || writer.write_until(enough, acknowledged).map(|()| writer))
            })
            .collect();
        let done = writers.into_iter().map(|writer| writer.join().unwrap());
        done.collect::<io::Result<Vec<Writer<'_>>>>()
    })?;
    let check = |words: &[&str]| run(&mut refasten(folder.path(), words));
    if check(&["check"])?.code != Some(0) {
        check(&["check", "--repair", "--replace"])?;
        count.repaired += 1;
    }
    let ran = check(&["check"])?;
    assert_eq!(ran.code, Some(0), "it cannot be mended: {}", ran.stderr);
    let text = fs::read_to_string(folder.path().join(work.file()))?;
    let found = whole_lines(work, &text, count);
    for writer in &done {
        let of = &writer.count;
        count.acknowledged += of.acknowledged;
        count.killed += of.killed;
        count.repaired += of.repaired;
        for attempt in &writer.attempts {
            let there = found.get(attempt.mark.as_str()).copied().unwrap_or(0);
            if attempt.acknowledged {
                assert_eq!(there, attempt.lines, "{} was acknowledged", attempt.mark);
            } else {
                assert!(there <= attempt.lines, "{} is there twice", attempt.mark);
                count.killed_but_there += usize::from(there == attempt.lines);
                count.in_part += usize::from(there > 0 && there < attempt.lines);
            }
        }
        let _ = fs::remove_file(
            folder
                .path()
                .with_extension(format!("{}.csv", writer.number)),
        );
    }
    Ok(())
}

/// How many whole lines bear each mark. Everything else must be a comment, and numbers must rise.
fn whole_lines<'t>(work: Work, text: &'t str, count: &mut Count) -> HashMap<&'t str, usize> {
    let mut found = HashMap::new();
    let mut last = 0;
    for line in text.lines() {
        if line.starts_with("# torn: ") {
            count.torn += 1;
            continue;
        }
        if line.starts_with('#') {
            continue;
        }
        assert!(line.starts_with("- {") && line.ends_with('}'), "{line}");
        if work != Work::Plans {
            let number = line
                .strip_prefix("- {entry: ")
                .and_then(|rest| rest.split(',').next());
            let number: u32 = number.and_then(|number| number.parse().ok()).unwrap();
            assert!(number > last, "entry {number} after {last}");
            last = number;
        }
        let (start, end) = (line.find('@').unwrap(), line.rfind('@').unwrap());
        *found.entry(&line[start..=end]).or_default() += 1;
    }
    found
}

/// The same until so many are acknowledged, or as many as are asked for by hand.
fn killed(work: Work, name: &str, enough: usize) -> io::Result<Count> {
    let asked = std::env::var("REFASTEN_TEST_APPENDS").ok();
    let enough = asked.and_then(|asked| asked.parse().ok()).unwrap_or(enough);
    let mut count = Count::default();
    for seed in 0.. {
        let left = enough - count.acknowledged.min(enough);
        if left == 0 {
            break;
        }
        four_writers(work, seed, left.min(OF_A_FOLDER), &mut count)?;
    }
    println!("{name}: {count:?}");
    assert!(count.killed > 0, "none was killed: {count:?}");
    Ok(count)
}

#[test]
fn no_entry_is_lost_doubled_or_torn() -> io::Result<()> {
    let count = killed(Work::Entries, "entries", 100)?;
    assert_eq!(count.in_part, 0);
    // Where the system kills a writer in mid-write, lines are torn, and were mended.
    assert!(
        !cfg!(unix) || count.torn > 0 && count.repaired > 0,
        "{count:?}"
    );
    Ok(())
}

#[test]
fn no_line_of_a_plan_is_lost_doubled_or_torn() -> io::Result<()> {
    let count = killed(Work::Plans, "plans", 25)?;
    assert_eq!(count.in_part, 0);
    Ok(())
}

#[test]
fn no_row_of_a_sheet_is_lost_doubled_or_torn() -> io::Result<()> {
    killed(Work::Sheets, "sheets", 12).map(drop)
}

/// Rows that were written before the kill stand; to import the sheet again brings the others.
#[cfg(unix)]
#[test]
fn a_sheet_that_was_killed_in_mid_write_is_finished_by_its_new_rows() -> io::Result<()> {
    let folder = boat()?;
    let sheet = folder.path().join("sheet.csv");
    let row = |row: usize| format!("2026-10-19,checked,P1 F1,row {row} {}\n", "x".repeat(100));
    let rows: String = (0..ROWS).map(row).collect();
    fs::write(&sheet, format!("date,did,place,note\n{rows}"))?;
    let sheet = sheet.to_string_lossy();
    let words = ["import", &sheet, "--new-rows"];
    let ran = run(&mut refasten_after("ulimit -f 4;", folder.path(), &words))?;
    assert_eq!(ran.code, None, "{}", ran.stderr);
    let log = folder.path().join("log.yaml");
    assert_eq!(log.metadata()?.len(), 2048);
    let ran = run(&mut refasten(folder.path(), &words))?;
    assert_eq!(ran.code, Some(2), "{}", ran.stderr);
    for words in [&["check", "--repair", "--replace"][..], &words] {
        let ran = run(&mut refasten(folder.path(), words))?;
        assert_eq!(ran.code, Some(0), "{}", ran.stderr);
    }
    let text = fs::read_to_string(&log)?;
    for row in 0..ROWS {
        let of = |line: &&str| line.starts_with("- {") && line.contains(&format!("\"row {row} x"));
        assert_eq!(text.lines().filter(of).count(), 1, "row {row}");
    }
    assert_eq!(
        text.lines()
            .filter(|line| line.starts_with("# torn: "))
            .count(),
        1
    );
    Ok(())
}
