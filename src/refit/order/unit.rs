//! Crossings that are opened together: those of one side at one member, hood ends and garboards in
//! halves.

use std::collections::{BTreeMap, BTreeSet};

use super::job::Job;
use crate::audit::Survey;
use crate::hull::{CrossingId, Hull, Member, Side, StrakeId, StrakesFrom};
use crate::record::PlankSide;
use crate::sample::Site;

/// When its turn is. Common practice, no source: the ends and the garboards hold the rest in
/// shape, so they come last and never all at once.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Turn {
    /// It stands open already.
    Open,
    /// Along the planks.
    Run,
    /// Hood ends and garboards, every other one.
    EndsFirstHalf,
    /// The rest of them.
    EndsSecondHalf,
}

/// Crossings of one side at one member.
#[derive(Clone, Debug)]
pub(super) struct Unit {
    pub(super) turn: Turn,
    /// Whether something there keeps her from being launched.
    pub(super) blocks: bool,
    pub(super) site: Site,
    pub(super) side: Side,
    pub(super) jobs: Vec<Job>,
}

impl Unit {
    pub(super) fn crossings(&self) -> impl Iterator<Item = CrossingId> + '_ {
        self.jobs.iter().map(|job| job.crossing)
    }

    /// How many fastenings and holes it touches.
    pub(super) fn size(&self) -> u32 {
        self.jobs.iter().map(Job::size).sum()
    }
}

/// Sorts jobs into units, in the order they lie.
pub(super) fn units(
    survey: &Survey<'_>,
    jobs: Vec<Job>,
    blocking: &BTreeSet<CrossingId>,
) -> Vec<Unit> {
    let hull = survey.hull;
    let garboards = garboards(hull);
    let mut second: BTreeSet<CrossingId> = BTreeSet::new();
    let mut units: BTreeMap<(Turn, bool, Site, Side), Vec<Job>> = BTreeMap::new();
    for job in jobs {
        let crossing = hull.crossing(job.crossing);
        let (member, side) = (crossing.member, crossing.strake.id.side);
        let parted = member.is_hood_end() || matches!(member, Member::Butt(..));
        let half = if parted {
            // Planks side by side never open at the same end.
            let mut beside = hull.neighbours_across(job.crossing);
            let half = beside.any(|id| id < job.crossing && !second.contains(&id));
            if half {
                second.insert(job.crossing);
            }
            half
        } else {
            member
                .number()
                .is_some_and(|number| number.value() % 2 == 1)
        };
        let last = member.is_hood_end() || garboards.contains(&crossing.strake.id);
        let turn = match (is_open(survey, job.crossing), last, half) {
            (true, ..) => Turn::Open,
            (_, false, _) => Turn::Run,
            (_, true, false) => Turn::EndsFirstHalf,
            (_, true, true) => Turn::EndsSecondHalf,
        };
        let key = (turn, parted && half, Site::of(survey, job.crossing), side);
        units.entry(key).or_default().push(job);
    }
    units
        .into_iter()
        .map(|((turn, _, site, side), jobs)| Unit {
            turn,
            blocks: jobs.iter().any(|job| blocking.contains(&job.crossing)),
            site,
            side,
            jobs,
        })
        .collect()
}

/// Whether a hole stands open in the plank at a crossing.
pub(super) fn is_open(survey: &Survey<'_>, id: CrossingId) -> bool {
    let mut holes = survey.state.holes(id).iter();
    holes.any(|hole| hole.content.plank_side() == PlankSide::Open)
}

/// The strake next to the keel on each side.
fn garboards(hull: &Hull) -> BTreeSet<StrakeId> {
    [Side::Port, Side::Starboard]
        .into_iter()
        .filter_map(|side| {
            let ids = hull.strakes().iter().map(|strake| strake.id);
            let whole = ids.filter(|id| id.side == side && id.number.is_plain());
            match hull.numbering.strakes {
                StrakesFrom::Keel => whole.min(),
                StrakesFrom::Sheer => whole.max(),
            }
        })
        .collect()
}
