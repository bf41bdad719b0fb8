//! What an entry changed, told right after it was written.

use std::io::{self, Write};

use serde_json::{Value, json};

use super::page::Page;
use crate::hull::{CrossingId, HoleNumber, Hull, fold, fold_holes};
use crate::record::{Entry, PlankSide, State, Tally, What};

/// How many places a line names before it only counts them.
const MOST_PLACES: usize = 8;

/// An entry that was written, and the boat after it.
#[derive(Debug)]
pub struct Logged<'b> {
    /// The hull.
    pub hull: &'b Hull,
    /// The entry.
    pub entry: &'b Entry,
    /// The holes it changed.
    pub holes: &'b [(CrossingId, HoleNumber)],
    /// The boat after the last entry.
    pub state: &'b State,
}

impl Logged<'_> {
    fn boat(&self) -> Tally {
        self.state.tally(self.hull.crossing_ids())
    }

    /// Crossings of the boat from which the plank is off.
    fn off(&self) -> Vec<CrossingId> {
        let ids = self.hull.crossing_ids();
        ids.filter(|id| self.state.is_off(*id)).collect()
    }

    /// Crossings of the boat where a plank's hole stands open.
    fn open(&self) -> Vec<CrossingId> {
        let is_open = |id: &CrossingId| {
            self.state
                .holes(*id)
                .iter()
                .any(|hole| hole.content.plank_side() == PlankSide::Open)
        };
        self.hull.crossing_ids().filter(is_open).collect()
    }
}

/// Prints what changed and what stands open.
pub fn text(logged: &Logged<'_>, out: &mut dyn Write, width: u16) -> io::Result<()> {
    let mut page = Page::new(out, width);
    let entry = logged.entry;
    match entry.place() {
        None => page.line(&format!(
            "entry {} of {}: {}",
            entry.number,
            entry.date,
            struck(entry)
        ))?,
        Some(place) if is_to_wood(entry) => page.line(&format!(
            "entry {} of {}: {} {place}",
            entry.number,
            entry.date,
            entry.did()
        ))?,
        Some(_) => {
            let place = fold_holes(logged.hull, logged.holes.iter().copied()).shown(MOST_PLACES);
            let count = logged.holes.len();
            let holes = if count == 1 {
                "1 hole".to_owned()
            } else {
                format!("{count} holes")
            };
            page.line(&format!(
                "entry {} of {}: {} {place} ({holes})",
                entry.number,
                entry.date,
                entry.did()
            ))?;
        }
    }
    let tally = logged.boat();
    let (open, off) = (logged.open(), logged.off());
    if !off.is_empty() {
        let places = fold(logged.hull, off).shown(MOST_PLACES);
        page.line(&format!("planks off now: {places}"))?;
    }
    if open.is_empty() && tally.bungs_missing == 0 {
        return page.line("no hole stands open now, and no head is bare");
    }
    if !open.is_empty() {
        let crossings = if open.len() == 1 {
            "1 crossing".to_owned()
        } else {
            format!("{} crossings", open.len())
        };
        page.line(&format!(
            "open now: {crossings}, {}",
            fold(logged.hull, open).shown(MOST_PLACES)
        ))?;
    }
    if tally.bungs_missing > 0 {
        page.line(&format!("bare heads now: {}", tally.bungs_missing))?;
    }
    Ok(())
}

fn is_to_wood(entry: &Entry) -> bool {
    matches!(&entry.what, What::Done { deed, .. } if deed.is_to_wood())
}

fn struck(entry: &Entry) -> String {
    match &entry.what {
        What::Struck { strike, .. } => format!("struck out `{strike}`"),
        What::Done { .. } => String::new(),
    }
}

/// The same for other programs.
pub fn json(logged: &Logged<'_>) -> Value {
    let entry = logged.entry;
    let tally = logged.boat();
    let open = logged.open();
    json!({
        "format": 1,
        "entry": entry.number,
        "date": entry.date.to_string(),
        "did": entry.did().word(),
        "place": fold_holes(logged.hull, logged.holes.iter().copied()).to_string(),
        "holes": logged.holes.len(),
        "standing": {
            "open_crossings": open.len(),
            "planks_off": fold(logged.hull, logged.off()).to_string(),
            "open": fold(logged.hull, open).to_string(),
            "bungs_missing": tally.bungs_missing,
        },
    })
}
