//! A log of any length for a ship: years of small jobs, scattered over her, each begun at its own
//! place and some left half done.

use std::fmt::Write;

use crate::dice::Dice;
use crate::ship::{CELL, Ship};

/// The last day anything was done.
const LAST_DAY: i64 = 20_051;
/// Days over which the jobs are spread.
const DAYS: usize = 9_000;

/// One line of the log before it has a number.
struct Line {
    day: i64,
    job: usize,
    step: usize,
    did: &'static str,
    place: String,
    rest: String,
    /// Whether this one strikes out the one before it of its job.
    strikes: bool,
}

/// The text of a log with so many entries, in the form the program writes.
pub fn log(ship: &Ship, entries: usize, seed: u64) -> String {
    let dice = &mut Dice::new(seed ^ 2);
    let mut cells = cells(ship);
    dice.shuffle(&mut cells);
    let mut lines: Vec<Line> = Vec::with_capacity(entries + 8);
    for (job, cell) in cells.into_iter().enumerate() {
        if lines.len() >= entries {
            break;
        }
        Job::at(ship, job, cell, dice).work(dice, &mut lines);
    }
    assert!(lines.len() >= entries, "the ship is too small for the log");
    lines.truncate(entries);
    lines.sort_by_key(|line| (line.day, line.job, line.step));
    let mut text = String::from("# refasten log 1\n");
    let mut last_of = vec![(0, String::new()); lines.iter().map(|l| l.job + 1).max().unwrap_or(0)];
    for (line, number) in lines.iter().zip(1..) {
        let date = date(line.day);
        let last = &mut last_of[line.job];
        let written = if line.strikes {
            writeln!(
                text,
                "- {{entry: {number}, date: {date}, did: struck, strikes: \"{} {}\", why: \"counted at the wrong frame\"}}",
                last.0, last.1
            )
        } else {
            writeln!(
                text,
                "- {{entry: {number}, date: {date}, did: {}, place: {}{}}}",
                line.did, line.place, line.rest
            )
        };
        written.expect("a string takes everything");
        *last = (number, format!("{} {}", line.did, line.place));
    }
    text
}

/// Where a job may be: the deck or a side of the shell, the strake, and the cell along it.
#[derive(Clone, Copy)]
struct Cell {
    planks: char,
    strake: usize,
    along: usize,
}

fn cells(ship: &Ship) -> Vec<Cell> {
    let of = |planks, along: usize| {
        (1..=ship.strakes).flat_map(move |strake| {
            (0..along / CELL).map(move |along| Cell {
                planks,
                strake,
                along,
            })
        })
    };
    of('P', ship.frames)
        .chain(of('S', ship.frames))
        .chain(of('D', ship.beams))
        .collect()
}

/// A few crossings side by side, and what stands there.
struct Job {
    number: usize,
    day: i64,
    strake: String,
    letter: char,
    from: usize,
    to: usize,
    /// The set that is worked on, and how many of it are at each crossing.
    set: String,
    each: usize,
    /// In thousandths of an inch.
    diameter: Option<usize>,
    /// Whether anything else stands there that stays.
    mixed: bool,
    by: &'static str,
}

impl Job {
    fn at(ship: &Ship, number: usize, cell: Cell, dice: &mut Dice) -> Self {
        let from = cell.along * CELL + dice.between(1, 3);
        let repair = ship.repair_at(cell.planks == 'P', cell.strake, cell.along);
        let repair = repair.filter(|_| cell.planks != 'D');
        let (set, each, diameter) = match (cell.planks, repair) {
            ('D', _) => ("deck".to_owned(), 1, Some(242)),
            (_, Some(repair)) => (repair.name.clone(), 2, repair.fastening.diameter),
            (_, None) => ("built".to_owned(), 2, Some(160)),
        };
        Self {
            number,
            day: LAST_DAY - 30 - dice.below(DAYS) as i64,
            strake: format!("{}{}", cell.planks, cell.strake),
            letter: if cell.planks == 'D' { 'B' } else { 'F' },
            from,
            to: from + dice.below(CELL - 3),
            set,
            each,
            diameter,
            mixed: repair.is_some_and(|repair| repair.fastening.relation != "replaces"),
            by: dice.pick(&["W. Tarrow", "N. Abara", "I. Quillon"]),
        }
    }

    fn work(&self, dice: &mut Dice, lines: &mut Vec<Line>) {
        let mut steps = match dice.below(100) {
            0..10 => self.looked(dice),
            10..20 => self.measured(dice),
            20..78 => self.renewed(dice),
            78..88 => self.broken(dice),
            88..94 if !self.mixed => self.planked(dice),
            _ => self.left(dice),
        };
        // One in five is not finished.
        if dice.percent(20) {
            steps.truncate(dice.between(1, steps.len()));
        }
        let mut day = self.day;
        for (step, (did, place, rest)) in steps.into_iter().enumerate() {
            let mut rest = rest;
            if did != "struck" {
                rest += &format!(", by: \"{}\"", self.by);
                if dice.percent(15) {
                    rest += dice.pick(&[
                        ", note: \"rust run in the paint, and the seam weeps\"",
                        ", note: \"epoxy, 9 degrees in the shed\"",
                        ", note: \"head came off: \\\"soft\\\" all through\"",
                        ", note: \"née 1931 – original\"",
                    ]);
                }
            }
            lines.push(Line {
                day,
                job: self.number,
                step,
                did,
                place,
                rest,
                strikes: did == "struck",
            });
            day += dice.below(4) as i64;
        }
    }

    fn place(&self) -> String {
        let Self {
            strake,
            letter,
            from,
            to,
            ..
        } = self;
        match from == to {
            true => format!("{strake} {letter}{from}"),
            false => format!("{strake} {letter}{from}-{to}"),
        }
    }

    /// One hole of the first crossing.
    fn hole(&self) -> String {
        let number = if self.mixed { 3 } else { 1 };
        format!("{} {}{}.{number}", self.strake, self.letter, self.from)
    }

    fn of_set(&self) -> String {
        format!(", set: \"{}\"", self.set)
    }

    fn counted(&self, dice: &mut Dice) -> String {
        match dice.percent(30) {
            true => format!(", count: {}", (self.to - self.from + 1) * self.each),
            false => String::new(),
        }
    }

    fn looked(&self, dice: &mut Dice) -> Vec<Step> {
        let found = dice.pick(&[
            "sound", "sound", "worn", "pitted", "slack", "spun", "necked",
        ]);
        let mut steps = vec![(
            "checked",
            self.place(),
            self.of_set() + &self.counted(dice) + &format!(", found: {found}"),
        )];
        match dice.below(4) {
            0 => steps.push(("hardened", self.place(), self.of_set())),
            1 => steps.push(("struck", String::new(), String::new())),
            _ => {}
        }
        steps
    }

    fn measured(&self, dice: &mut Dice) -> Vec<Step> {
        let Some(diameter) = self.diameter else {
            return self.renewed(dice);
        };
        let left = diameter * dice.between(60, 100) / 100;
        vec![
            ("bared", self.place(), self.of_set() + &self.counted(dice)),
            (
                "measured",
                self.hole(),
                self.of_set() + &format!(", diameter: {}in, found: worn", thousandths(left)),
            ),
            ("stopped", self.place(), self.of_set()),
        ]
        .into_iter()
        .filter(|step| self.letter == 'F' || step.0 != "stopped")
        .collect()
    }

    fn renewed(&self, dice: &mut Dice) -> Vec<Step> {
        let found = dice.pick(&["wasted", "necked", "pitted", "sound", "spun"]);
        let sample = dice.pick(&["", "", ", sample: targeted"]);
        let pulled = format!(
            "{}{}, found: {found}{sample}",
            self.of_set(),
            self.counted(dice)
        );
        let mut steps = vec![("pulled", self.place(), pulled)];
        if dice.percent(60) {
            steps.push(("doweled", self.place(), self.counted(dice)));
        }
        steps.push(("driven", self.place(), self.driving(dice, "same")));
        steps.push(("bunged", self.place(), String::new()));
        if dice.percent(15) {
            steps.push(("faired", self.place(), ", off: 1/32in".to_owned()));
        }
        steps
    }

    /// What new ones are of, by its job: half of them of bungs whose depth nobody wrote down.
    fn driving(&self, dice: &mut Dice, hole: &str) -> String {
        let is = dice.pick(&[
            "kind: wood screw, metal: silicon bronze, size: 14 x 1-3/4in, bung: 1/2in x 1/4in",
            "kind: wood screw, metal: silicon bronze, size: 14 x 2in, bung: 1/2in",
            "kind: wood screw, metal: silicon bronze, size: unknown, bung: 1/2in",
            "kind: wood screw, metal: 316 stainless steel, size: 12 x 1-3/4in, bung: 7/16in",
        ]);
        format!(
            ", set: \"job {}\", per crossing: {}, {is}, hole: {hole}",
            self.number, self.each
        )
    }

    fn broken(&self, dice: &mut Dice) -> Vec<Step> {
        let found = dice.pick(&["sheared", "head gone", "wasted"]);
        let told = format!("{}, stub: frame, found: {found}", self.of_set());
        let mut steps = vec![("broken", self.hole(), told)];
        match dice.percent(50) {
            true => {
                steps.push(("plugged", self.hole(), String::new()));
                let crossing = format!("{} {}{}", self.strake, self.letter, self.from);
                steps.push(("driven", crossing.clone(), self.driving(dice, "new")));
                steps.push(("bunged", crossing, String::new()));
            }
            false => {
                steps.push(("cleared", self.hole(), String::new()));
                steps.push(("doweled", self.hole(), String::new()));
            }
        }
        steps
    }

    fn planked(&self, dice: &mut Dice) -> Vec<Step> {
        let hung = ", thickness: 1-1/8in, wood: \"western larch\"".to_owned();
        vec![
            ("pulled", self.place(), self.of_set() + ", found: wasted"),
            ("plank off", self.place(), String::new()),
            ("plank hung", self.place(), hung),
            ("driven", self.place(), self.driving(dice, "same")),
            ("bunged", self.place(), String::new()),
        ]
    }

    fn left(&self, dice: &mut Dice) -> Vec<Step> {
        vec![
            ("left", self.place(), self.of_set() + ", found: seized"),
            ("driven", self.place(), self.driving(dice, "new")),
            ("bunged", self.place(), String::new()),
        ]
    }
}

/// What was done, where, and the other keys.
type Step = (&'static str, String, String);

fn thousandths(n: usize) -> String {
    format!("0.{n:03}")
}

/// The date so many days after 1970 began.
fn date(day: i64) -> jiff::civil::Date {
    let first = jiff::civil::date(1970, 1, 1);
    first.saturating_add(jiff::Span::new().days(day))
}
