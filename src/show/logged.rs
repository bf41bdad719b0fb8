//! What entries changed, or would change, told right after they were written or tried.

use std::io::{self, Write};

use serde_json::{Value, json};

use super::changed::{self, Of};
use super::layout::Layout;
use super::page::Page;
use super::plans;
use crate::hull::{CrossingId, HoleNumber, Hull, fold, fold_holes};
use crate::record::{
    Book, Changed, Deed, Entry, Found, FoundSet, Hole, HoleState, PlankSide, State, Tally, What,
};
use crate::units::Units;

/// How many places a line names before it only counts them.
const MOST_PLACES: usize = 8;

/// Entries that were written or tried together, and the boat after them.
#[derive(Debug)]
pub struct Logged<'b> {
    /// The hull.
    pub hull: &'b Hull,
    /// Her book with the entries in it.
    pub book: &'b Book,
    /// The entries.
    pub entries: &'b [Entry],
    /// The holes that each of them changed.
    pub touched: &'b [Vec<(CrossingId, HoleNumber)>],
    /// The boat after the last entry.
    pub state: &'b State,
    /// All that is not as it was before them, where that is to be told.
    pub changed: Option<&'b [Changed]>,
    /// Whether they were only tried, and nothing was written.
    pub is_trial: bool,
    /// How sizes are shown.
    pub units: Units,
}

impl<'b> Logged<'b> {
    fn each(&self) -> impl Iterator<Item = (&'b Entry, &'b [(CrossingId, HoleNumber)])> {
        let touched = self.touched.iter().map(Vec::as_slice);
        self.entries.iter().zip(touched)
    }

    fn boat(&self) -> Tally {
        self.state.tally(self.hull.crossing_ids())
    }

    /// Crossings of the boat where a plank's hole stands open.
    fn open(&self) -> Vec<CrossingId> {
        open(self.hull, self.state)
    }

    /// Holes that an entry tells were found sound and that are not relied on all the same, with
    /// what was found there before.
    fn still_unsound(&self) -> Vec<(CrossingId, HoleNumber, FoundSet)> {
        let sound = |entry: &Entry| match &entry.what {
            What::Done { deed, .. } => {
                deed.found() == Some(Found::Sound) || matches!(deed, Deed::Hardened)
            }
            What::Struck { .. } => false,
        };
        let told = self.each().filter(|(entry, _)| sound(entry));
        let unsound = |(id, number): &(CrossingId, HoleNumber)| {
            let hole: &Hole = self.state.holes(*id).get(number.index())?;
            (hole.state() == HoleState::Unsound).then_some((*id, *number, hole.found))
        };
        told.flat_map(|(_, holes)| holes)
            .filter_map(unsound)
            .collect()
    }

    fn of(&self) -> Of<'b> {
        Of {
            hull: self.hull,
            book: self.book,
            units: self.units,
        }
    }
}

/// Crossings from which the plank is off.
fn off(hull: &Hull, state: &State) -> Vec<CrossingId> {
    hull.crossing_ids().filter(|id| state.is_off(*id)).collect()
}

/// Crossings where a plank's hole stands open.
fn open(hull: &Hull, state: &State) -> Vec<CrossingId> {
    let is_open = |id: &CrossingId| {
        let mut holes = state.holes(*id).iter();
        holes.any(|hole| hole.content.plank_side() == PlankSide::Open)
    };
    hull.crossing_ids().filter(is_open).collect()
}

/// Prints what changed and what stands open.
///
/// # Errors
/// When the writer fails.
pub fn text(logged: &Logged<'_>, out: &mut dyn Write, layout: Layout) -> io::Result<()> {
    let mut page = Page::new(out, layout);
    for (entry, holes) in logged.each() {
        let (number, date) = (entry.number, entry.date);
        let told = headline(logged.hull, entry, holes);
        page.line(&format!("entry {number} of {date}: {told}"))?;
    }
    unsound(logged, &mut page)?;
    if let Some(changed) = logged.changed {
        let has = |is_one| match (logged.is_trial, is_one) {
            (true, true) => "1 hole would change",
            (true, false) => "holes would change",
            (false, true) => "1 hole is not as it was",
            (false, false) => "holes are not as they were",
        };
        match changed.len() {
            0 if logged.is_trial => page.line("no hole would change")?,
            0 => page.line("no hole changes by it")?,
            1 => page.line(&format!("{}:", has(true)))?,
            count => page.line(&format!("{count} {}:", has(false)))?,
        }
        changed::text(logged.of(), changed, &mut page)?;
    }
    plans::text(
        &mut page,
        logged.hull,
        logged.book,
        logged.is_trial,
        logged.each(),
    )?;
    let now = if logged.is_trial { "then" } else { "now" };
    standing(logged.hull, logged.state, now, &mut page)?;
    match logged.is_trial {
        true => page.line("only tried: nothing was written"),
        false => Ok(()),
    }
}

/// What an entry was, and where.
fn headline(hull: &Hull, entry: &Entry, holes: &[(CrossingId, HoleNumber)]) -> String {
    match &entry.what {
        What::Struck { strike, .. } => format!("struck out `{strike}`"),
        What::Done { deed, place, .. } if deed.is_to_wood() => {
            let place = hull.spoken(place.clone()).shown(MOST_PLACES);
            format!("{} {place}", entry.did())
        }
        What::Done { .. } => {
            let place = hull.spoken(fold_holes(hull, holes.iter().copied()));
            let place = place.shown(MOST_PLACES);
            let count = holes.len();
            let plural = if count == 1 { "" } else { "s" };
            format!("{} {place} ({count} hole{plural})", entry.did())
        }
    }
}

/// Says which of those told to be sound are not relied on all the same, and why.
fn unsound(logged: &Logged<'_>, page: &mut Page<'_>) -> io::Result<()> {
    let unsound = logged.still_unsound();
    let mut words: Vec<Vec<&str>> = unsound.iter().map(|(.., found)| bad(*found)).collect();
    words.sort_unstable();
    words.dedup();
    for found in words {
        let alike = unsound.iter().filter(|(.., of)| bad(*of) == found);
        let place = fold_holes(logged.hull, alike.map(|(id, number, _)| (*id, *number)));
        page.line(&format!(
            "still not relied on: {}, found {} before. A later look does not undo that: strike the \
             entry that found it if it was wrong, or draw the fastening and drive another",
            place.shown(MOST_PLACES),
            found.join(", ")
        ))?;
    }
    Ok(())
}

/// Those things found by which a fastening is no longer relied on.
fn bad(found: FoundSet) -> Vec<&'static str> {
    let alone = |found: &Found| FoundSet::NONE.with(*found);
    let bad = found.each().filter(|found| alone(found).is_unsound());
    bad.map(Found::word).collect()
}

/// What stands open in the whole boat.
pub(super) fn standing(
    hull: &Hull,
    state: &State,
    now: &str,
    page: &mut Page<'_>,
) -> io::Result<()> {
    let tally = state.tally(hull.crossing_ids());
    let (open, off) = (open(hull, state), off(hull, state));
    if !off.is_empty() {
        let places = fold(hull, off).shown(MOST_PLACES);
        page.line(&format!("planks off {now}: {places}"))?;
    }
    if open.is_empty() && tally.bungs_missing == 0 {
        return page.line(&format!("no hole stands open {now}, and no head is bare"));
    }
    if !open.is_empty() {
        let crossings = if open.len() == 1 {
            "1 crossing".to_owned()
        } else {
            format!("{} crossings", open.len())
        };
        page.line(&format!(
            "open {now}: {crossings}, {}",
            fold(hull, open).shown(MOST_PLACES)
        ))?;
    }
    if tally.bungs_missing > 0 {
        page.line(&format!("bare heads {now}: {}", tally.bungs_missing))?;
    }
    Ok(())
}

/// The same for other programs.
pub fn json(logged: &Logged<'_>) -> Value {
    let tally = logged.boat();
    let open = logged.open();
    let of_one = |(entry, holes): (&Entry, &[(CrossingId, HoleNumber)])| {
        let place = match &entry.what {
            What::Done { deed, place, .. } if deed.is_to_wood() => place.to_string(),
            _ => fold_holes(logged.hull, holes.iter().copied()).to_string(),
        };
        json!({
            "entry": entry.number,
            "date": entry.date.to_string(),
            "did": entry.did().word(),
            "place": place,
            "holes": holes.len(),
        })
    };
    let unsound = logged.still_unsound();
    let unsound = fold_holes(
        logged.hull,
        unsound.iter().map(|(id, number, _)| (*id, *number)),
    );
    let entries: Vec<Value> = logged.each().map(of_one).collect();
    let mut told = json!({
        "format": 1,
        "written": !logged.is_trial,
        "changed": logged.changed.map(|changed| changed::json(logged.of(), changed)),
        "still_unsound": unsound.to_string(),
        "plans": plans::json(logged.hull, logged.book, logged.each()),
        "standing": {
            "open_crossings": open.len(),
            "planks_off": fold(logged.hull, off(logged.hull, logged.state)).to_string(),
            "open": fold(logged.hull, open).to_string(),
            "bungs_missing": tally.bungs_missing,
        },
    });
    // What is told of one entry alone stands beside the rest as well.
    if let (Some(told), [Value::Object(one)]) = (told.as_object_mut(), entries.as_slice()) {
        told.extend(one.clone());
    }
    if let Some(told) = told.as_object_mut() {
        told.insert("entries".to_owned(), entries.into());
    }
    told
}
