//! What looking has shown: what was drawn, and when each set was last looked at.

use std::collections::{BTreeMap, BTreeSet};

use crate::hull::{CrossingId, HoleNumber, Hull};
use crate::joint::Zone;
use crate::record::{Book, Change, Deed, Did, FasteningId, Found, FoundSet, SetId, What};
use crate::units::{Day, Length};

/// Everything that was drawn, measured or looked at up to a day.
#[derive(Debug, Default)]
pub(super) struct Looks {
    /// The last day on which anything of a set was looked at in a zone.
    last: BTreeMap<(SetId, Zone), Day>,
    pieces: BTreeMap<(FasteningId, CrossingId, HoleNumber), Piece>,
    /// Fastenings of which at least one has been drawn.
    seen: BTreeSet<FasteningId>,
}

/// One fastening that was drawn or measured.
#[derive(Debug, Default)]
struct Piece {
    drawn: bool,
    found: FoundSet,
    diameter: Option<Length>,
}

/// What was drawn of one description of fastening in one zone.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Drawn {
    /// How many.
    pub(super) count: usize,
    /// How many of them were found wasted or necked.
    pub(super) wasted: usize,
    /// The least diameter measured of any of them.
    pub(super) thinnest: Option<Length>,
}

impl Looks {
    /// Takes in what an entry did to a hole.
    pub(super) fn take(&mut self, hull: &Hull, book: &Book, change: &Change<'_>) {
        let (Some(before), What::Done { deed, .. }) = (change.before, &change.entry.what) else {
            return;
        };
        let is_look = matches!(
            deed.did(),
            Did::Checked | Did::Measured | Did::Bared | Did::Pulled | Did::Broken
        );
        if !is_look {
            return;
        }
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
    pub(super) fn was_drawn(&self, fastening: FasteningId) -> bool {
        self.seen.contains(&fastening)
    }

    /// The last day on which anything of a set was looked at in a zone.
    pub(super) fn last(&self, set: SetId, zone: Zone) -> Option<Day> {
        self.last.get(&(set, zone)).copied()
    }

    /// What was drawn of each description of fastening, by zone.
    pub(super) fn drawn(&self, hull: &Hull) -> BTreeMap<(FasteningId, Zone), Drawn> {
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
pub(super) fn is_wasted(found: FoundSet) -> bool {
    let gone = |found| matches!(found, Found::Wasted | Found::Necked);
    found.each().any(gone)
}
