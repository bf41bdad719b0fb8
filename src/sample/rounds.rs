//! Drawing a few frames at a time, so that she keeps her shape.

use std::collections::BTreeMap;

use super::drawn::At;
use super::limits::open_frames;
use crate::audit::Survey;
use crate::hull::{CrossingId, End, FramesFrom, Member};
use crate::record::PlankSide;

/// A frame or other member, both ends of a butt block taken as one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Site {
    along: (u8, i32),
    member: Member,
}

impl Site {
    /// The site that a crossing is on.
    pub(crate) fn of(survey: &Survey<'_>, crossing: CrossingId) -> Self {
        let member = match survey.hull.crossing(crossing).member {
            Member::Butt(number, _) => Member::Butt(number, End::Fwd),
            member => member,
        };
        let from_stern = survey.hull.numbering.frames == FramesFrom::Stern;
        Self {
            along: member.along(from_stern),
            member,
        }
    }

    /// The member; of a butt block its forward half.
    pub(crate) const fn member(&self) -> Member {
        self.member
    }
}

/// What to draw, in rounds. Something is back in every hole of a round before the next begins.
#[derive(Clone, Debug)]
pub struct Rounds {
    /// How many frames may stand open at once.
    pub limit: usize,
    /// Frames with an open hole in the plank before any is drawn.
    pub open: Vec<CrossingId>,
    /// How many frames they are on.
    pub open_frames: usize,
    /// How many frames each round opens at the most.
    pub at_once: usize,
    /// What each round draws.
    pub each: Vec<Vec<At>>,
}

impl Rounds {
    /// Spreads holes over rounds, each along the whole boat and none with two of one crossing.
    /// Frames that stand open already take up room; where they take all of it they must be closed
    /// first, and the rounds are as if they were.
    pub(super) fn new(survey: &Survey<'_>, holes: &[At]) -> Self {
        let limit = open_frames(survey.limits);
        let hull = survey.hull;
        let is_open = |id: &CrossingId| {
            let mut holes = survey.state.holes(*id).iter();
            holes.any(|hole| hole.content.plank_side() == PlankSide::Open)
        };
        let open: Vec<CrossingId> = hull.crossing_ids().filter(is_open).collect();
        let mut open_sites: Vec<Site> = open.iter().map(|id| Site::of(survey, *id)).collect();
        open_sites.sort_unstable();
        open_sites.dedup();
        let room = limit.saturating_sub(open_sites.len());
        let at_once = if room == 0 { limit } else { room };

        Self {
            limit,
            open,
            open_frames: open_sites.len(),
            at_once,
            each: spread(survey, holes, at_once),
        }
    }

    /// Whether no more may be drawn before something is closed.
    pub const fn must_close_first(&self) -> bool {
        self.open_frames >= self.limit
    }
}

/// Holes in rounds of so many sites. The first hole of each crossing comes before the second of
/// any, and each of these layers is dealt out over rounds of its own.
fn spread(survey: &Survey<'_>, holes: &[At], at_once: usize) -> Vec<Vec<At>> {
    let mut drawn_at: BTreeMap<CrossingId, usize> = BTreeMap::new();
    let mut layers: BTreeMap<usize, BTreeMap<Site, Vec<At>>> = BTreeMap::new();
    for at in holes {
        let layer = drawn_at.entry(at.0).or_default();
        let sites = layers.entry(*layer).or_default();
        sites.entry(Site::of(survey, at.0)).or_default().push(*at);
        *layer += 1;
    }
    let mut rounds = Vec::new();
    for sites in layers.into_values() {
        let count = sites.len().div_ceil(at_once);
        let mut of_layer = vec![Vec::new(); count];
        for (number, holes) in sites.into_values().enumerate() {
            if let Some(round) = of_layer.get_mut(number % count) {
                round.extend(holes);
            }
        }
        rounds.append(&mut of_layer);
    }
    rounds
}
