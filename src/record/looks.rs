//! What looking has shown: what was drawn, and when each set was last looked at.

use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::hash::BuildHasherDefault;

use super::{Book, Change, Deed, Did, FasteningId, Found, FoundSet, SetId, What};
use crate::hull::{CrossingId, HoleNumber, Hull, Mix};
use crate::joint::Zone;
use crate::units::{Day, Length};

/// Everything that was drawn, measured or looked at up to a day.
#[derive(Clone, Debug, Default)]
pub struct Looks {
    /// The last day on which anything of a set was looked at in a zone.
    last: BTreeMap<(SetId, Zone), Day>,
    pieces: HashMap<(FasteningId, CrossingId, HoleNumber), Piece, BuildHasherDefault<Mix>>,
    /// Fastenings of which at least one has been drawn.
    seen: BTreeSet<FasteningId>,
    /// Crossings at which the frame was found split or soft, and the last day it was.
    damaged: BTreeMap<CrossingId, Day>,
}

/// One fastening that was drawn or measured.
#[derive(Clone, Debug, Default)]
struct Piece {
    drawn: bool,
    found: FoundSet,
    diameter: Option<Length>,
}

/// What was drawn of one description of fastening in one zone.
#[derive(Clone, Copy, Debug, Default)]
pub struct Drawn {
    /// How many.
    pub count: usize,
    /// How many of them were found wasted or necked.
    pub wasted: usize,
    /// The least diameter measured of any of them.
    pub thinnest: Option<Length>,
}

impl Looks {
    /// Takes in what an entry did to a hole.
    pub(super) fn take(&mut self, hull: &Hull, book: &Book, change: &Change<'_>) {
        let What::Done { deed, .. } = &change.entry.what else {
            return;
        };
        if matches!(deed.found(), Some(Found::FrameSplit | Found::WoodSoft)) {
            self.damaged.insert(change.crossing, change.entry.date);
        }
        let is_look = matches!(
            deed.did(),
            Did::Checked | Did::Measured | Did::Bared | Did::Pulled | Did::Broken
        );
        let Some(before) = change.before.filter(|_| is_look) else {
            return;
        };
        let fastening = before.fastening;
        if before.has_metal() {
            let zone = hull.crossing(change.crossing).zone;
            let of = (book.fastening(fastening).set, zone);
            self.last.insert(of, change.entry.date);
        }
        let key = (fastening, change.crossing, change.number);
        if let Deed::Measured(diameter, _) = deed {
            self.pieces.entry(key).or_default().diameter = Some(*diameter);
        }
        if matches!(deed, Deed::Pulled(..) | Deed::Broken(..)) {
            self.pieces.entry(key).or_default().drawn = true;
            self.seen.insert(fastening);
        }
        // What is told of one on the bench is told of the one that was drawn.
        if let Some(piece) = self.pieces.get_mut(&key) {
            piece.found = change.after.found;
        }
    }

    /// Whether at least one of a description has been drawn and seen.
    pub fn was_drawn(&self, fastening: FasteningId) -> bool {
        self.seen.contains(&fastening)
    }

    /// The last day on which the member at a crossing was found split or soft there.
    pub fn damaged(&self, id: CrossingId) -> Option<Day> {
        self.damaged.get(&id).copied()
    }

    /// The last day on which anything of a set was looked at in a zone.
    pub fn last(&self, set: SetId, zone: Zone) -> Option<Day> {
        self.last.get(&(set, zone)).copied()
    }

    /// What was drawn of each description of fastening, by zone.
    pub fn drawn(&self, hull: &Hull) -> BTreeMap<(FasteningId, Zone), Drawn> {
        let mut drawn: BTreeMap<_, Drawn> = BTreeMap::new();
        for ((fastening, crossing, _), piece) in self.pieces.iter().filter(|(_, p)| p.drawn) {
            let zone = hull.crossing(*crossing).zone;
            let all = drawn.entry((*fastening, zone)).or_default();
            all.count += 1;
            all.wasted += usize::from(is_wasted(piece.found));
            let thinner = |known: Length| piece.diameter.map_or(known, |new| known.min(new));
            all.thinnest = all.thinnest.map(thinner).or(piece.diameter);
        }
        drawn
    }
}

/// Whether it was found to have lost metal.
pub fn is_wasted(found: FoundSet) -> bool {
    let gone = |found| matches!(found, Found::Wasted | Found::Necked);
    found.each().any(gone)
}
