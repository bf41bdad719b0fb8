//! Rounds of work: what may stand open at the same time, so that she keeps her shape.

use std::collections::{BTreeMap, BTreeSet};

use super::unit::{Turn, Unit};
use crate::audit::Survey;
use crate::hull::{CrossingId, Member, Side};
use crate::sample::Site;

/// Frames opened together lie at least so many apart: every third frame line rather than three in
/// a row. Common practice, no source.
const APART: u16 = 3;

/// Units that stand open together, all closed before the next round begins.
#[derive(Clone, Debug)]
pub(super) struct Round {
    pub(super) turn: Turn,
    pub(super) units: Vec<Unit>,
}

/// Deals units out into rounds. `room` is how many frames and other members a round may open.
pub(super) fn rounds(survey: &Survey<'_>, mut waiting: Vec<Unit>, room: usize) -> Vec<Round> {
    let ends = Ends::of(survey);
    let mut balance = Balance::default();
    let mut rounds: Vec<Round> = Vec::new();
    while let Some(turn) = waiting.iter().map(|unit| unit.turn).min() {
        let mut round = Opened::default();
        let mut units = Vec::new();
        loop {
            let next = waiting
                .iter()
                .enumerate()
                .filter(|(_, unit)| unit.turn == turn && round.has_room(survey, &ends, unit, room))
                .min_by_key(|(_, unit)| {
                    (!unit.blocks, balance.is_ahead(unit), unit.site, unit.side)
                });
            let Some((at, _)) = next else { break };
            let unit = waiting.remove(at);
            balance.take(&unit);
            round.take(&unit);
            units.push(unit);
        }
        if units.is_empty() {
            // A member that fits into no round by itself cannot be: an empty one has room.
            break;
        }
        rounds.push(Round { turn, units });
    }
    rounds
}

/// How much more was done to port than to starboard.
#[derive(Default)]
struct Balance(i64);

impl Balance {
    /// Whether a unit is on the side that is ahead already.
    fn is_ahead(&self, unit: &Unit) -> bool {
        self.0.signum() * Self::sign(unit.side) > 0
    }

    fn take(&mut self, unit: &Unit) {
        self.0 += Self::sign(unit.side) * i64::from(unit.size());
    }

    const fn sign(side: Side) -> i64 {
        match side {
            Side::Port | Side::DeckPort => 1,
            Side::Starboard | Side::DeckStarboard => -1,
            Side::Deck => 0,
        }
    }
}

/// What a round has opened so far.
#[derive(Default)]
struct Opened {
    sites: BTreeSet<Site>,
    crossings: BTreeSet<CrossingId>,
}

impl Opened {
    fn take(&mut self, unit: &Unit) {
        self.sites.insert(unit.site);
        self.crossings.extend(unit.crossings());
    }

    fn has_room(&self, survey: &Survey<'_>, ends: &Ends, unit: &Unit, room: usize) -> bool {
        // What stands open is closed, whatever it lies beside.
        if unit.turn == Turn::Open {
            return true;
        }
        let is_new = !self.sites.contains(&unit.site);
        if is_new && (self.sites.len() >= room || self.sites.iter().any(|s| near(s, &unit.site))) {
            return false;
        }
        let taken = |id: CrossingId| self.crossings.contains(&id);
        unit.crossings().all(|id| {
            let hull = survey.hull;
            let others = ends.others(id);
            let beside = !others.is_empty() && hull.neighbours_across(id).any(taken);
            !beside && !others.iter().copied().any(taken)
        })
    }
}

/// Whether two members lie so near each other that they are not opened together.
fn near(one: &Site, other: &Site) -> bool {
    match (one.member().number(), other.member().number()) {
        (Some(a), Some(b)) if is_beam(one) == is_beam(other) => {
            a.value().abs_diff(b.value()) < APART
        }
        _ => false,
    }
}

fn is_beam(site: &Site) -> bool {
    matches!(site.member(), Member::Beam(_))
}

/// The ends of planks: for each the other end of the plank, or of both planks that meet there.
struct Ends(BTreeMap<CrossingId, Vec<CrossingId>>);

impl Ends {
    fn of(survey: &Survey<'_>) -> Self {
        let mut ends: BTreeMap<CrossingId, Vec<CrossingId>> = BTreeMap::new();
        let strakes = survey.hull.strakes().iter();
        for plank in strakes.flat_map(|strake| survey.planks(strake)) {
            if let (Some(fore), Some(aft)) = (plank.crossings.first(), plank.crossings.last()) {
                ends.entry(*fore).or_default().push(*aft);
                ends.entry(*aft).or_default().push(*fore);
            }
        }
        Self(ends)
    }

    /// The other ends; nothing where no plank ends.
    fn others(&self, id: CrossingId) -> &[CrossingId] {
        self.0.get(&id).map_or(&[], Vec::as_slice)
    }
}
