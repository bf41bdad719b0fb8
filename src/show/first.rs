//! What to do first: of a boat that is there, or where there is none.

use std::io::{self, Write};

use super::help::rows;
use super::layout::Layout;
use super::logged::standing;
use super::numbers::counted;
use super::page::Page;
use crate::hull::Hull;
use crate::record::{Book, State};
use crate::units::Day;

/// A boat, as she stands at the end of a day.
#[derive(Clone, Copy, Debug)]
pub struct Aboard<'b> {
    /// Her hull.
    pub hull: &'b Hull,
    /// Her sets and entries.
    pub book: &'b Book,
    /// Her holes at the end of that day.
    pub state: &'b State,
    /// The day.
    pub day: Day,
}

/// What can be asked of a boat, and what each answers.
const ABOARD: [(&str, &str); 6] = [
    (
        "refasten audit",
        "what must be put right before she is relaunched",
    ),
    ("refasten todo", "what is left to do, in which order"),
    ("refasten map", "where it stands, strakes by frames"),
    (
        "refasten log",
        "the last entries; `refasten help log` tells how to add one",
    ),
    ("refasten sheet shed.html", "the page to take to the boat"),
    ("refasten --help", "every command"),
];

/// Which boat it is, how she stands, and what can be asked.
///
/// # Errors
///
/// What the writer gives.
pub fn aboard(out: &mut dyn Write, layout: Layout, aboard: &Aboard<'_>) -> io::Result<()> {
    let mut page = Page::new(out, layout);
    let (hull, book) = (aboard.hull, aboard.book);
    page.line(&format!("{} on {}", hull.boat, aboard.day))?;
    let tally = aboard.state.tally(hull.crossing_ids());
    let entries = match book.entries().last() {
        None => "the log is empty".to_owned(),
        Some(last) => {
            let count = u32::try_from(book.entries().len()).unwrap_or(u32::MAX);
            let entries = counted(count, "entry", "entries");
            format!("{entries} in the log, the last of {}", last.date)
        }
    };
    let holes = counted(tally.holes, "hole", "holes");
    let relied_on = counted(tally.relied_on, "fastening", "fastenings");
    page.line(&format!("{holes}, {relied_on} relied on; {entries}"))?;
    standing(hull, aboard.state, "now", &mut page)?;
    page.gap()?;
    rows(&mut page, &ABOARD)
}

/// What can be asked without a boat, and how to come by one.
const ELSEWHERE: [(&str, &str); 4] = [
    (
        "refasten pick --plank 7/8in --frame 2in",
        "the screw, and its drills",
    ),
    (
        "refasten new hesper-lass --demo",
        "an invented boat to try it on, half way through a refit",
    ),
    ("refasten new my-boat", "a folder for your own boat"),
    ("refasten --help", "every command"),
];

/// How to begin where there is no boat.
///
/// # Errors
///
/// What the writer gives.
pub fn elsewhere(out: &mut dyn Write, layout: Layout) -> io::Result<()> {
    let mut page = Page::new(out, layout);
    page.indented(
        "",
        "refasten keeps the fastening record of an old carvel-planked timber boat. There is none \
         in this folder or above it. To begin:",
    )?;
    page.gap()?;
    rows(&mut page, &ELSEWHERE)
}
