//! May she be relaunched, as far as this record goes?

use std::collections::BTreeMap;

use super::{Counts, Survey};
use crate::hull::{CrossingId, Places, fold};
use crate::joint::Zone;
use crate::record::FasteningId;

/// What the record says. It never says that a boat is sound.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// At least one finding that must be put right first.
    StopsOpen,
    /// None of those; that is all it says.
    NoStops,
    /// Too little is recorded to say even that.
    TooThin,
}

impl Verdict {
    pub(super) const fn of(counts: &Counts, thin: &[Thin]) -> Self {
        match (counts.stop, thin) {
            (1.., _) => Self::StopsOpen,
            (0, []) => Self::NoStops,
            (0, _) => Self::TooThin,
        }
    }

    /// The words for it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::StopsOpen => "stops open",
            Self::NoStops => "no stops in this record",
            Self::TooThin => "record too thin",
        }
    }
}

/// Why a record is too thin to judge by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Thin {
    /// She has no crossing at all, so that there is nothing to judge.
    NoPlanking,
    /// Shell crossings for which no set is declared and nothing was driven.
    NothingRecorded(Places),
    /// A set under water whose metal is not known and of which none was ever drawn.
    MetalNeverSeen {
        /// Its name.
        set: String,
        /// Where it is under water.
        place: Places,
    },
}

/// Everything that makes the record too thin.
pub(super) fn thin(survey: &Survey<'_>) -> Vec<Thin> {
    let mut empty: Vec<CrossingId> = Vec::new();
    let mut unseen: BTreeMap<FasteningId, Vec<CrossingId>> = BTreeMap::new();
    if survey.hull.crossing_ids().next().is_none() {
        return vec![Thin::NoPlanking];
    }
    for (at, alike) in survey.alike() {
        if at.holes.is_empty() && !at.crossing.strake.id.side.is_deck() {
            empty.extend(&alike.all);
        }
        if at.crossing.zone != Zone::Underwater {
            continue;
        }
        for hole in at.holes.iter().filter(|hole| hole.has_metal()) {
            let fastening = survey.fastening(hole);
            let unknown = fastening.kind.is_metal() && fastening.metal.is_none();
            if unknown && !survey.was_drawn(hole.fastening) {
                let crossings = unseen.entry(hole.fastening).or_default();
                crossings.extend(&alike.all);
            }
        }
    }
    let nothing = (!empty.is_empty()).then(|| Thin::NothingRecorded(fold(survey.hull, empty)));
    let unseen = unseen
        .into_iter()
        .map(|(fastening, crossings)| Thin::MetalNeverSeen {
            set: survey
                .book
                .set_name(survey.book.fastening(fastening).set)
                .to_owned(),
            place: fold(survey.hull, crossings),
        });
    nothing.into_iter().chain(unseen).collect()
}
