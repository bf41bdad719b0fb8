//! The order of the work: what is left, in rounds that keep the boat's shape.
//!
//! Nothing here is a published rule but the number of frames open at once. The rest is common
//! practice, no source: never the ends of planks side by side, nor both ends of one plank; every
//! third frame line; port and starboard evenly; hood ends and garboards last, in halves; what is
//! glued waits a night.

mod job;
mod pace;
mod rounds;
mod steps;
mod unit;

use std::collections::BTreeSet;

use crate::audit::{self, Finding, Rule, Severity, Survey};
use crate::hull::CrossingId;
use crate::sample::{Site, open_frames};

use job::Job;
pub use pace::Pace;
pub use steps::{Cover, Step, Work};
pub use unit::Turn;
use unit::Unit;

/// What is left to do, in order.
#[derive(Debug)]
pub struct Order {
    /// Frames and other members that may stand open at once.
    pub limit: usize,
    /// Frames and other members that stand open now.
    pub open_now: Vec<CrossingId>,
    /// How many they are.
    pub open_sites: usize,
    /// Where a hole stands open, anywhere in her, and nothing is planned.
    pub unplanned: Vec<CrossingId>,
    /// What keeps her from being launched even once all of it is done.
    pub in_the_way: Vec<Finding>,
    /// What opens nothing and can be done at once.
    pub at_once: Vec<Step>,
    /// Rounds of work.
    pub rounds: Vec<Round>,
    /// What is planned and finds no place in a round, for so much stands open with nothing
    /// planned.
    pub must_wait: Vec<CrossingId>,
    /// How fast the work went.
    pub pace: Option<Pace>,
}

/// What is opened together, and closed before the next.
#[derive(Clone, Debug)]
pub struct Round {
    /// Why its turn is when it is.
    pub turn: Turn,
    /// Its crossings.
    pub crossings: Vec<CrossingId>,
    /// What of them keeps her from being launched.
    pub blocks: bool,
    /// Its steps, in order.
    pub steps: Vec<Step>,
}

impl Order {
    /// The order of what the plan has waiting on the day of the surveys, `now` as she is and
    /// `planned` as planned, both asked about the same crossings.
    pub fn of(now: &Survey<'_>, planned: &Survey<'_>) -> Self {
        let blocking = blocking(now);
        let asked = now.crossings().map(|at| at.crossing.id);
        let jobs: Vec<Job> = asked
            .filter_map(|id| Job::of(now, &planned.state, id))
            .collect();
        // The whole boat is held in shape, whatever part of her is asked about.
        let everywhere = || now.hull.crossing_ids();
        let open_now: Vec<CrossingId> = everywhere().filter(|id| unit::is_open(now, *id)).collect();
        let stays = |id: &CrossingId| !now.asks_about(*id) || unit::is_open(planned, *id);
        let stays_open: Vec<CrossingId> = open_now.iter().copied().filter(stays).collect();
        let sites = |ids: &[CrossingId]| -> BTreeSet<Site> {
            ids.iter().map(|id| Site::of(now, *id)).collect()
        };
        let unplanned = open_now.iter().copied();
        let unplanned = unplanned.filter(|id| unit::is_open(planned, *id)).collect();
        let open_sites = sites(&open_now).len();
        let limit = open_frames(now.limits);
        let room = limit.saturating_sub(sites(&stays_open).len());
        let at_once = steps::covering(now, jobs.iter());
        let working: Vec<Job> = jobs.into_iter().filter(Job::works).collect();
        let units = unit::units(now, working, &blocking);
        let (units, waits): (Vec<_>, Vec<_>) = units
            .into_iter()
            .partition(|unit| room > 0 || unit.turn == Turn::Open);
        Self {
            limit,
            open_now,
            open_sites,
            unplanned,
            in_the_way: stops(planned),
            at_once,
            rounds: rounds::rounds(now, units, room)
                .into_iter()
                .map(|round| Round {
                    turn: round.turn,
                    crossings: round.units.iter().flat_map(Unit::crossings).collect(),
                    blocks: round.units.iter().any(|unit| unit.blocks),
                    steps: steps::steps(now, &round.units),
                })
                .collect(),
            must_wait: waits.iter().flat_map(Unit::crossings).collect(),
            pace: Pace::of(now),
        }
    }

    /// How many fastenings and stubs are to be drawn in all rounds.
    pub fn to_draw(&self) -> u32 {
        self.sum(|work| matches!(work, Work::Draw | Work::Clear))
    }

    /// How many are to be driven in all rounds.
    pub fn to_drive(&self) -> u32 {
        self.sum(|work| matches!(work, Work::Drive { .. }))
    }

    /// The fewest days that the rounds take one after another, for what is glued waits a night.
    pub fn fewest_days(&self) -> u32 {
        let last = |round: &Round| {
            let steps = round.steps.iter().filter(|step| step.work != Work::Trim);
            steps.map(|step| u32::from(step.day)).max().unwrap_or(0)
        };
        self.rounds.iter().map(last).sum()
    }

    /// The working days that all of it takes, at a quick pace and at a slow one; `None` where the
    /// log has too little to go on.
    pub fn days(&self) -> Option<(u32, u32)> {
        let left = self.to_draw() + self.to_drive();
        let (quick, slow) = self.pace.as_ref()?.days_for(left);
        let fewest = self.fewest_days();
        Some((quick.max(fewest), slow.max(fewest)))
    }

    fn sum(&self, counts: impl Fn(Work) -> bool) -> u32 {
        let steps = self.rounds.iter().flat_map(|round| &round.steps);
        steps
            .filter(|step| counts(step.work))
            .map(|step| step.count)
            .sum()
    }
}

/// Findings that keep her from being launched and that nobody has accepted.
fn stops(survey: &Survey<'_>) -> Vec<Finding> {
    let findings = audit::audit(survey, Rule::all()).findings;
    let stops =
        |finding: &Finding| finding.saying.severity == Severity::Stop && finding.accepted.is_none();
    findings.into_iter().filter(stops).collect()
}

/// The crossings of these.
fn blocking(survey: &Survey<'_>) -> BTreeSet<CrossingId> {
    stops(survey)
        .iter()
        .filter_map(|finding| survey.hull.resolve(&finding.place).ok())
        .flatten()
        .map(|spot| spot.crossing)
        .collect()
}
