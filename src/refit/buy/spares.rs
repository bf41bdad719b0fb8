//! How many more than are needed: what the log tells of those that were lost, and a floor.

use std::collections::BTreeMap;

use crate::hull::Hull;
use crate::joint::{Bound, Kind, Limits};
use crate::record::{Book, Content, Deed, FasteningId, Hole, What};
use crate::tables::Limit;
use crate::text::FileId;
use crate::units::{Day, whole};

const FLOOR: &Limit = Limit::get("spare fastenings");
const TO_GO_BY: &Limit = Limit::get("fastenings to go by");

/// What the log tells of fastenings of one kind that were driven in it: how many were lost, that
/// is drawn, broken, or found spun, sheared or without a head within a year of being driven. Drawn
/// for a look they are not lost.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Lost {
    /// How many were driven.
    pub driven: u32,
    /// How many of them were lost.
    pub lost: u32,
}

/// The spares that are bought with what is needed.
#[derive(Clone, Debug)]
pub struct Spares {
    lost: BTreeMap<Kind, Lost>,
    /// The share that is bought at the least.
    pub floor: Bound,
    /// How many must have been driven before the log is gone by.
    pub to_go_by: Bound,
}

impl Spares {
    /// Reads the log up to the end of a day.
    pub fn of(hull: &Hull, book: &Book, limits: &Limits, day: Day) -> Self {
        let mut lost: BTreeMap<Kind, Lost> = BTreeMap::new();
        let drove = |id: FasteningId| {
            let fastening = book.fastening(id);
            (fastening.kind, fastening.driven.latest())
        };
        book.trace(hull, Some(day), &mut |change| {
            let What::Done { deed, .. } = &change.entry.what else {
                return;
            };
            if let Deed::Driven(driving) = deed {
                if !driving.temporary {
                    lost.entry(driving.kind).or_default().driven += 1;
                }
                return;
            }
            let Some(before) = change.before.filter(Hole::is_relied_on) else {
                return;
            };
            // What stood there before the log began was not driven in it.
            if book.fastening(before.fastening).origin.file == FileId::Hull {
                return;
            }
            let (kind, on) = drove(before.fastening);
            let young = on.is_some_and(|on| change.entry.date.years_since(on) == 0);
            let gone = !matches!(change.after.content, Content::InPlace(_));
            if young && deed.sample().is_none() && (gone || !change.after.is_relied_on()) {
                lost.entry(kind).or_default().lost += 1;
            }
        });
        Self {
            lost,
            floor: limits.bound(FLOOR),
            to_go_by: limits.bound(TO_GO_BY),
        }
    }

    /// What the log tells of a kind.
    pub fn lost(&self, kind: Kind) -> Lost {
        self.lost.get(&kind).copied().unwrap_or_default()
    }

    /// Whether enough of a kind were driven for the log to be gone by.
    pub fn goes_by_log(&self, kind: Kind) -> bool {
        self.lost(kind).driven >= self.to_go_by.count().max(1)
    }

    /// Spares for so many fastenings of a kind: by the log, where enough were driven, and no fewer
    /// than the floor.
    pub fn fastenings(&self, kind: Kind, needed: u64) -> u64 {
        let lost = self.lost(kind);
        let by_log = match self.goes_by_log(kind) {
            true => needed
                .saturating_mul(u64::from(lost.lost))
                .div_ceil(u64::from(lost.driven.max(1))),
            false => 0,
        };
        by_log.max(self.at_least(needed))
    }

    /// Spares by the floor alone, rounded up.
    pub fn at_least(&self, needed: u64) -> u64 {
        // A tenth of 30 is 3, whatever a float makes of it.
        const HAIR: f64 = 1e-9;
        let spares = (needed as f64 * self.floor.share() - HAIR).ceil();
        u64::try_from(whole(spares)).unwrap_or(0)
    }
}
