//! What is timed, stage by stage, and how it is told.

use std::io::{self, Write};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use refasten::audit::{self, Rule, Survey};
use refasten::files::{Folder, Given, LOG_FILE, RawEntry, read, split_log};
use refasten::hull::fold;
use refasten::show;
use refasten::units::{Day, Units};

use crate::yardstick;

const TODAY: &str = "2024-11-25";

/// Times every stage at each size and prints a table: milliseconds, and how many times the
/// yardstick that is.
pub fn table(sizes: &[usize]) -> io::Result<()> {
    let columns: Vec<Vec<(&str, Duration)>> = sizes
        .iter()
        .map(|size| at(*size))
        .collect::<io::Result<_>>()?;
    print!("\n{:<34}", "best of several, in ms (× yardstick)");
    sizes.iter().for_each(|size| print!(" {size:>20}"));
    println!();
    let rows = columns.first().map_or(0, Vec::len);
    for row in 0..rows {
        for (at, column) in columns.iter().enumerate() {
            let (name, took) = column[row];
            let yardstick = column[0].1;
            if at == 0 {
                print!("{name:<36}");
            }
            let ratio = took.as_secs_f64() / yardstick.as_secs_f64();
            print!(
                " {:>11.2} {:>8}",
                took.as_secs_f64() * 1e3,
                format!("({ratio:.2}×)")
            );
        }
        println!();
    }
    Ok(())
}

/// Times every stage on one boat.
fn at(fastenings: usize) -> io::Result<Vec<(&'static str, Duration)>> {
    let folder = tempfile::tempdir()?;
    crate::write(folder.path(), fastenings)?;
    let times = if fastenings >= 1_000_000 { 5 } else { 9 };
    let best = |work: &mut dyn FnMut()| best_of(times, work);

    let today: Day = TODAY.parse().expect("a day");
    let text = std::fs::read_to_string(folder.path().join(LOG_FILE))?;
    let entries = read_log(&text);
    let json = yardstick::lines(&entries);
    assert!(yardstick::read(&json) == entries, "both read the same");

    let open = || Folder::open(folder.path()).expect("it was just written");
    let boat = open()
        .boat(today)
        .unwrap_or_else(|faults| panic!("{} faults, the first {:?}", faults.len(), faults.first()));
    let survey = || {
        let (hull, book) = (&boat.hull, &boat.book);
        Survey::new(hull, book, &boat.limits, &boat.accepted, today, Units::Inch)
    };
    let now = survey();
    let outcome = audit::audit(&now, Rule::all());
    let shown = show::audit::Audit {
        survey: &now,
        outcome: &outcome,
        place: None,
        only: &[],
    };
    let touched: Vec<_> = (0..boat.book.entries().len())
        .flat_map(|at| boat.book.crossings_of(at))
        .collect();
    println!(
        "{fastenings}: {} fastenings at {} crossings, {} entries at {} crossings, {} findings",
        outcome.standing.fastenings(),
        boat.hull.crossing_count(),
        entries.len(),
        touched.len(),
        outcome.findings.len(),
    );

    let mut sink = io::sink();
    let mut rows = vec![
        (
            "yardstick: serde_json, line by line",
            best(&mut || drop(yardstick::read(&json))),
        ),
        (
            "read the log into the same records",
            best(&mut || drop(read_log(&text))),
        ),
        (
            "read, build and play the boat",
            best(&mut || drop(open().boat(today))),
        ),
        (
            "state of a day",
            best(&mut || drop(boat.book.trace(&boat.hull, Some(today), &mut |_| {}))),
        ),
        (
            "audit by every rule",
            best(&mut || drop(audit::audit(&survey(), Rule::all()))),
        ),
        (
            "fold what the log touched",
            best(&mut || drop(fold(&boat.hull, touched.iter().copied()))),
        ),
        (
            "print the audit, every place",
            best(&mut || show::audit::text(&mut sink, 80.into(), &shown, true).expect("a sink")),
        ),
        (
            "print the audit as JSON",
            best(&mut || show::audit::json(&mut sink, &shown).expect("a sink")),
        ),
    ];
    rows.push((
        "`audit`, the whole command",
        best(&mut || run(folder.path(), &["audit"], 1)),
    ));
    let page = folder.path().join("report.html");
    let page = page.to_str().expect("a path of letters");
    rows.push((
        "`report`, the whole command",
        best(&mut || run(folder.path(), &["report", page], 0)),
    ));
    let log = folder.path().join(LOG_FILE);
    let place = format!("P1 F{CELL_FREE}");
    rows.push((
        "`log` of one entry",
        best(&mut || {
            run(folder.path(), &["log", "checked", &place], 0);
            let file = std::fs::OpenOptions::new()
                .write(true)
                .open(&log)
                .expect("the log");
            file.set_len(text.len() as u64).expect("the log as it was");
        }),
    ));
    if let Some(peak) = peak(folder.path())? {
        println!("{fastenings}: `audit` takes {peak} KiB of memory at the most");
    }
    Ok(rows)
}

/// The last frame of the first cell, where no job is.
const CELL_FREE: usize = crate::ship::CELL;

fn read_log(text: &str) -> Vec<RawEntry> {
    let mut faults = Vec::new();
    let pieces = split_log(text, &mut faults);
    let read = |piece| match read::<RawEntry>(piece, &mut faults) {
        Given::Is(raw) => Some(raw),
        _ => None,
    };
    pieces.iter().filter_map(read).collect()
}

fn best_of(times: usize, work: &mut dyn FnMut()) -> Duration {
    let each = (0..times).map(|_| {
        let began = Instant::now();
        work();
        began.elapsed()
    });
    each.min().unwrap_or_default()
}

fn command(program: &str, boat: &Path) -> Command {
    let mut command = Command::new(program);
    command
        .env("REFASTEN_TODAY", TODAY)
        .env("REFASTEN_BOAT", boat)
        .stdout(Stdio::null());
    command
}

/// Runs the program as a user would, and looks at how it ended.
fn run(boat: &Path, words: &[&str], code: i32) {
    let ended = command(env!("CARGO_BIN_EXE_refasten"), boat)
        .args(words)
        .status();
    assert_eq!(
        ended.expect("the program starts").code(),
        Some(code),
        "{words:?}"
    );
}

/// The most memory the audit holds at once, in KiB; `None` where this machine has no `time`.
fn peak(boat: &Path) -> io::Result<Option<u64>> {
    let mut time = command("/usr/bin/time", boat);
    time.args(["-f", "%M", env!("CARGO_BIN_EXE_refasten"), "audit"]);
    match time.stderr(Stdio::piped()).output() {
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
        Err(error) => Err(error),
        Ok(output) => {
            io::stdout().flush()?;
            let told = String::from_utf8_lossy(&output.stderr);
            Ok(told.lines().last().and_then(|last| last.parse().ok()))
        }
    }
}
