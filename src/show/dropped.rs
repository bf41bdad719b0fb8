//! What is given up of a plan, told right after that was written.

use std::io::{self, Write};

use serde_json::{Value, json};

use super::layout::Layout;
use super::numbers::grouped;
use super::page::Page;
use crate::hull::{CrossingId, Hull, fold};
use crate::record::{Intent, PlanLine, Stage};

/// How many places a line names before it only counts them.
const MOST_PLACES: usize = 8;

/// A plan that was given up.
#[derive(Debug)]
pub struct Dropped<'a> {
    /// The hull.
    pub hull: &'a Hull,
    /// The line that gives it up.
    pub line: &'a PlanLine,
    /// Where something of it was left to drive.
    pub left: &'a [Stage],
}

impl Dropped<'_> {
    fn count(&self) -> u32 {
        self.left.iter().map(|stage| u32::from(stage.left())).sum()
    }

    fn crossings(&self) -> impl Iterator<Item = CrossingId> {
        self.left.iter().map(|stage| stage.spot.crossing)
    }
}

/// Prints what was given up, and where.
///
/// # Errors
/// When the writer fails.
pub fn text(dropped: &Dropped<'_>, out: &mut dyn Write, layout: Layout) -> io::Result<()> {
    let mut page = Page::new(out, layout);
    page.line(&format!(
        "plan `{}` is given up, with {} left to drive at {}",
        dropped.line.plan,
        grouped(dropped.count()),
        fold(dropped.hull, dropped.crossings()).shown(MOST_PLACES)
    ))?;
    page.line("what was driven for it stays in the log")
}

/// The same for other programs.
pub fn json(dropped: &Dropped<'_>) -> Value {
    let line = dropped.line;
    let why = match &line.intent {
        Intent::Drop { why } => why.as_deref(),
        Intent::Drive(_) => None,
    };
    json!({
        "format": 1,
        "plan": line.plan,
        "date": line.date.to_string(),
        "given_up": dropped.count(),
        "place": fold(dropped.hull, dropped.crossings()).to_string(),
        "why": why,
        "by": line.by,
        "note": line.note,
    })
}
