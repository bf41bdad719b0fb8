//! The fastenings that a hole has had, one after another.

use std::collections::{BTreeMap, BTreeSet};

use super::lay_sets::lay_sets_one_by_one;
use super::problem::Telling;
use super::{
    Book, Change, Content, Deed, Entry, FasteningId, FoundSet, FrameSide, Hole, SetId, What,
};
use crate::hull::{CrossingId, HoleNumber, Hull, Spot};
use crate::units::{Day, Length};

/// One fastening that a hole has had.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Generation {
    /// The fastening.
    pub fastening: FasteningId,
    /// Whether the hole had been doweled before it was driven.
    pub doweled: bool,
    /// What was found of it.
    pub found: FoundSet,
    /// What was measured of it, at the thinnest.
    pub measured: Option<Length>,
    /// How it came out, if it has.
    pub end: Option<End>,
}

/// How a fastening came to be gone from its hole.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum End {
    /// A set of the hull file came in its place.
    Replaced(SetId),
    /// It was drawn, broke, or was found missing: the number of the entry.
    Done(u32),
}

/// A hole, by its crossing and number.
type At = (CrossingId, HoleNumber);

/// Of each hole of some places the fastenings it has had up to the end of a day, the oldest first.
pub fn generations(
    book: &Book,
    hull: &Hull,
    spots: &[Spot],
    day: Day,
) -> BTreeMap<(CrossingId, HoleNumber), Vec<Generation>> {
    let asked = |at: At| {
        let spot = spots.binary_search_by_key(&at.0, |spot| spot.crossing);
        let spot = spot.ok().and_then(|spot| spots.get(spot));
        spot.is_some_and(|spot| spot.holes.has(at.1))
    };
    let mut holes: BTreeMap<At, Vec<Generation>> = BTreeMap::new();
    // Whatever is wrong was told when the book was built.
    let (mut faults, unsure) = (Vec::new(), BTreeSet::new());
    let mut telling = Telling {
        faults: &mut faults,
        unsure: &unsure,
    };
    let there = book.sets_on(day);
    let mut state = lay_sets_one_by_one(
        book,
        hull,
        |set| there.contains(&set.id),
        &mut telling,
        &mut |set, state| {
            for spot in &set.spots {
                for (number, hole) in state.numbered(spot.crossing) {
                    let at = (spot.crossing, number);
                    if asked(at) {
                        laid(holes.entry(at).or_default(), set.id, hole);
                    }
                }
            }
        },
    );
    book.play(
        hull,
        &mut state,
        Some(day),
        &mut |change| {
            let at = (change.crossing, change.number);
            if asked(at) {
                took(holes.entry(at).or_default(), &change);
            }
        },
        &mut telling,
    );
    holes
}

/// What a hole is after a set of the hull file was laid.
fn laid(generations: &mut Vec<Generation>, set: SetId, hole: &Hole) {
    let end = Some(End::Replaced(set));
    match generations.last_mut() {
        Some(last) if last.fastening == hole.fastening => {
            if hole.content == Content::GONE && last.end.is_none() {
                last.end = end;
            }
            return;
        }
        Some(last) => last.end = last.end.or(end),
        None => {}
    }
    generations.push(Generation::new(hole, false));
}

/// What a hole is after an entry changed it.
fn took(generations: &mut Vec<Generation>, change: &Change<'_>) {
    let What::Done { deed, .. } = &change.entry.what else {
        return;
    };
    if matches!(deed, Deed::Driven(_)) {
        let doweled = change
            .before
            .is_some_and(|before| before.content.frame_side() == FrameSide::Doweled);
        generations.push(Generation::new(&change.after, doweled));
        return;
    }
    let Some(last) = generations.last_mut() else {
        return;
    };
    last.found = change.after.found;
    if let Deed::Measured(diameter, _) = deed {
        last.measured = Some(
            last.measured
                .map_or(*diameter, |known| known.min(*diameter)),
        );
    }
    let was_whole = change.before.is_some_and(|before| before.is_whole());
    if was_whole && !change.after.is_whole() {
        last.end = Some(End::Done(change.entry.number));
    }
}

impl Generation {
    const fn new(hole: &Hole, doweled: bool) -> Self {
        Self {
            fastening: hole.fastening,
            doweled,
            found: hole.found,
            measured: None,
            end: None,
        }
    }

    /// The thickest one `before` it in the same hole since that was last doweled, where it is
    /// thicker itself and so its hole was enlarged; `None` where it is not, or its own size or none
    /// of theirs is known.
    pub fn enlarged_from(&self, book: &Book, before: &[Self]) -> Option<Length> {
        if self.doweled {
            return None;
        }
        let diameter = |one: &Self| book.fastening(one.fastening).size?.diameter();
        let mut thickest = None;
        for one in before.iter().rev() {
            thickest = thickest.max(diameter(one));
            if one.doweled {
                break;
            }
        }
        let (thickest, own) = (thickest?, diameter(self)?);
        (own > thickest).then_some(thickest)
    }
}

impl Book {
    /// The entry of this number.
    pub fn numbered(&self, number: u32) -> Option<&Entry> {
        let at = self
            .entries
            .binary_search_by_key(&number, |entry| entry.number);
        self.entries.get(at.ok()?)
    }
}
