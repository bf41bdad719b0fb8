//! Where bad fastenings are likeliest: a list of its own, which says nothing of the rest.

use std::collections::BTreeSet;

use super::drawn::At;
use super::lot::Lot;
use crate::audit::Survey;
use crate::hull::{CrossingId, JointKind, Member, Side, StrakesFrom};
use crate::record::{FasteningId, Found, HoleState};
use crate::tables::{Basis, Status};

/// How many are proposed for each reason. A choice made here.
const MOST: usize = 3;

/// Why a place is looked at on purpose.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Reason {
    /// Beside one that was found bad.
    NearBad,
    /// In the strake next to the keel.
    Garboard,
    /// Where a plank ends on stem, post or transom.
    HoodEnd,
    /// Where two planks meet end to end.
    Butt,
    /// Where other metal is in or on the wood.
    Hardware,
}

impl Reason {
    const ALL: [Self; 5] = [
        Self::NearBad,
        Self::Garboard,
        Self::HoodEnd,
        Self::Butt,
        Self::Hardware,
    ];

    /// In words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::NearBad => "beside bad ones",
            Self::Garboard => "garboards",
            Self::HoodEnd => "hood ends",
            Self::Butt => "butts",
            Self::Hardware => "at hardware",
        }
    }

    /// What it rests on.
    pub const fn basis(self) -> Basis {
        const PLACES: &str = "4-K, places to draw; medium confidence, the same in survey reports";
        match self {
            Self::NearBad => Basis::on(
                "ELT",
                Status::Read,
                "the bad ones lay together, in three planks",
            ),
            Self::Garboard | Self::HoodEnd | Self::Butt => {
                Basis::on("NVIC", Status::Memory, PLACES)
            }
            Self::Hardware => Basis::on(
                "NVIC",
                Status::Transcribed,
                "3-E: unlike metals close together",
            ),
        }
    }
}

/// What to draw for one reason.
#[derive(Clone, Debug)]
pub struct Aim {
    /// The reason.
    pub reason: Reason,
    /// How many are relied on there.
    pub there: usize,
    /// Which to draw.
    pub holes: Vec<At>,
}

/// Places to look at on purpose, none of them in `taken`: in the wettest zone there is, by lot.
/// What was driven as part of the log is new, and left alone.
pub(super) fn targeted(survey: &Survey<'_>, seed: u32, taken: &BTreeSet<At>) -> Vec<Aim> {
    let mut taken = taken.clone();
    let bad = found_bad(survey);
    let built: BTreeSet<FasteningId> = survey.book.sets().iter().map(|set| set.fastening).collect();
    let mut aims = Vec::new();
    for reason in Reason::ALL {
        let there: Vec<At> = crossings(survey, reason, &bad)
            .into_iter()
            .filter(|id| survey.asks_about(*id))
            .flat_map(|id| {
                let holes = survey.state.numbered(id);
                holes.map(move |(number, hole)| ((id, number), hole))
            })
            .filter(|(_, hole)| {
                hole.state() == HoleState::ReliedOn && built.contains(&hole.fastening)
            })
            .map(|(at, _)| at)
            .collect();
        let mut left: Vec<At> = there
            .iter()
            .copied()
            .filter(|at| !taken.contains(at))
            .collect();
        left = Lot::new(seed, &["targeted", reason.words()]).draw(&left, left.len());
        left.sort_by_key(|(id, _)| survey.hull.crossing(*id).zone);
        left.truncate(MOST);
        if left.is_empty() {
            continue;
        }
        taken.extend(&left);
        aims.push(Aim {
            reason,
            there: there.len(),
            holes: left,
        });
    }
    aims
}

/// The crossings at which a bad one was ever found.
fn found_bad(survey: &Survey<'_>) -> BTreeSet<CrossingId> {
    let mut bad = BTreeSet::new();
    survey
        .book
        .trace(survey.hull, Some(survey.day), &mut |change| {
            if change.after.found.each().any(Found::is_bad) {
                bad.insert(change.crossing);
            }
        });
    bad
}

fn crossings(
    survey: &Survey<'_>,
    reason: Reason,
    bad: &BTreeSet<CrossingId>,
) -> BTreeSet<CrossingId> {
    let hull = survey.hull;
    match reason {
        Reason::NearBad => bad
            .iter()
            .flat_map(|id| {
                let along = hull.neighbours_along(*id);
                let across = hull.neighbours_across(*id);
                std::iter::once(*id).chain(along).chain(across)
            })
            .collect(),
        Reason::Garboard => [Side::Port, Side::Starboard]
            .into_iter()
            .filter_map(|side| {
                let of_side = hull.strakes().iter().filter(|s| s.id.side == side);
                let whole = of_side.filter(|s| s.id.number.is_plain());
                match hull.numbering.strakes {
                    StrakesFrom::Keel => whole.min_by_key(|s| s.id.number),
                    StrakesFrom::Sheer => whole.max_by_key(|s| s.id.number),
                }
            })
            .flat_map(|strake| strake.crossings().map(|(id, _)| id))
            .collect(),
        Reason::HoodEnd => hull
            .crossing_ids()
            .filter(|id| hull.crossing(*id).member.is_hood_end())
            .collect(),
        Reason::Butt => {
            let butts = hull
                .joints
                .iter()
                .filter(|joint| matches!(joint.kind, JointKind::Butt { .. }));
            let declared = butts.flat_map(|joint| joint.crossings.iter().copied());
            let blocks = hull
                .crossing_ids()
                .filter(|id| matches!(hull.crossing(*id).member, Member::Butt(..)));
            let butts = declared.chain(blocks);
            butts.filter(|id| survey.has_joint(*id)).collect()
        }
        Reason::Hardware => hull
            .hardware
            .iter()
            .flat_map(|hardware| hardware.crossings.iter().copied())
            .collect(),
    }
}
