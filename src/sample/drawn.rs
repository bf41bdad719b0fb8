//! Fastenings that were drawn to judge the rest, as the log tells them.

use std::collections::BTreeMap;

use crate::audit::Survey;
use crate::hull::{CrossingId, HoleNumber};
use crate::joint::Zone;
use crate::record::{Deed, FasteningId, Found, FoundSet, Sample, What};
use crate::tables::Metal;
use crate::units::Day;

/// A hole of a crossing.
pub(super) type At = (CrossingId, HoleNumber);

/// What is judged together: what stands equally wet and is of one metal, `None` for one that is
/// not known.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stratum {
    pub(super) zone: Zone,
    pub(super) metal: Option<&'static Metal>,
}

impl Stratum {
    pub(super) fn of(survey: &Survey<'_>, crossing: CrossingId, fastening: FasteningId) -> Self {
        Self {
            zone: survey.hull.crossing(crossing).zone,
            metal: survey.book.fastening(fastening).metal,
        }
    }

    /// Strata sort by this: the wettest first, a metal that is not known last.
    pub(super) fn key(self) -> (Zone, bool, &'static str) {
        let name = self.metal.map_or("", |metal| metal.name);
        (self.zone, self.metal.is_none(), name)
    }
}

/// One that was drawn, broken in the drawing, or found bad and would not come.
#[derive(Clone, Copy, Debug)]
pub(super) struct Drawn {
    pub(super) day: Day,
    pub(super) at: At,
    pub(super) fastening: FasteningId,
    pub(super) sample: Sample,
    /// Whether it came out whole.
    broke: bool,
    /// What was found of it, in the wood, in the drawing or on the bench.
    found: FoundSet,
}

impl Drawn {
    /// Whether it counts as bad. One that broke does, whatever is told of it.
    pub(super) fn is_bad(&self) -> bool {
        self.broke || self.found.each().any(Found::is_bad)
    }

    /// Whether anything is told of how it was.
    pub(super) fn is_told(&self) -> bool {
        self.broke || self.found != FoundSet::NONE
    }
}

/// Everything drawn for a sample where is asked, since a day if one is given; strikes left out.
pub(super) fn drawn(survey: &Survey<'_>, since: Option<Day>) -> Vec<Drawn> {
    let mut drawn: Vec<Drawn> = Vec::new();
    let mut known: BTreeMap<(At, FasteningId), usize> = BTreeMap::new();
    survey
        .book
        .trace(survey.hull, Some(survey.day), &mut |change| {
            let at = (change.crossing, change.number);
            // What is measured on the bench is told of the one that was drawn.
            if let Some(earlier) = known
                .get(&(at, change.after.fastening))
                .and_then(|i| drawn.get_mut(*i))
            {
                earlier.found = change.after.found;
                return;
            }
            let What::Done { deed, .. } = &change.entry.what else {
                return;
            };
            let Some(sample) = deed.sample() else {
                return;
            };
            let broke = matches!(deed, Deed::Broken(..));
            let came_out = broke || matches!(deed, Deed::Pulled(..));
            // One that spins and will not come is bad all the same; of one that could not be got at
            // nothing is known, and it is none of the sample.
            if !came_out && !deed.found().is_some_and(Found::is_bad) {
                return;
            }
            let Some(before) = change.before else {
                return;
            };
            let day = change.entry.date;
            if !survey.asks_about(change.crossing) || since.is_some_and(|since| day < since) {
                return;
            }
            known.insert((at, before.fastening), drawn.len());
            drawn.push(Drawn {
                day,
                at,
                fastening: before.fastening,
                sample,
                broke,
                found: change.after.found,
            });
        });
    drawn
}
