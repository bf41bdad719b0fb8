//! Which fastenings to draw: by lot from each zone and metal, and a few on purpose.

use std::collections::BTreeSet;

use super::drawn::At;
use super::lot::Lot;
use super::targeted::targeted;
use super::{Aim, Confidence, Group, Reading, Rounds};
use crate::audit::Survey;
use crate::hull::CrossingId;
use crate::joint::Kind;

/// How many to draw of each zone and metal.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Amount {
    /// So many more.
    Count(u32),
    /// As many more as show, all of them good, that no more than this share is bad.
    Show(f64),
}

/// What to draw.
#[derive(Clone, Debug)]
pub struct Proposal<'r> {
    /// Of each zone and metal, by lot.
    pub picks: Vec<Pick<'r>>,
    /// Those of all groups in rounds.
    pub rounds: Rounds,
    /// On purpose, in rounds of their own.
    pub targeted: Vec<Aim>,
    /// The same in rounds.
    pub targeted_rounds: Rounds,
}

/// What to draw of one zone and metal.
#[derive(Clone, Debug)]
pub struct Pick<'r> {
    /// Of what.
    pub group: &'r Group,
    /// How many are wanted; `None` where so many were bad that the share cannot be shown.
    pub wanted: Option<u32>,
    /// Which; all that stand where fewer do than are wanted.
    pub holes: Vec<At>,
    /// The share that could be bad if all of these are good; `None` where nothing is drawn.
    pub would_show: Option<f64>,
    /// A plank to lift instead, where it is held by nails or rivets.
    pub lift: Option<Lift>,
}

/// A plank to lift, chosen by lot.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lift {
    /// The plank.
    pub plank: Vec<CrossingId>,
    /// How many nails and rivets of the group it shows.
    pub shows: usize,
}

/// Proposes what to draw next. The same seed proposes the same as long as the record is the same.
pub fn propose<'r>(
    survey: &Survey<'_>,
    reading: &'r Reading,
    amount: Amount,
    confidence: Confidence,
    seed: u32,
) -> Proposal<'r> {
    let planks: Vec<Vec<CrossingId>> = survey
        .hull
        .strakes()
        .iter()
        .flat_map(|strake| survey.planks(strake))
        .map(|plank| plank.crossings.iter().chain(&plank.keel).copied().collect())
        .collect();
    let picks: Vec<Pick<'r>> = reading
        .groups
        .iter()
        .map(|group| pick(survey, group, &planks, amount, confidence, seed))
        .collect();
    let by_lot: BTreeSet<At> = picks.iter().flat_map(|pick| &pick.holes).copied().collect();
    let targeted = targeted(survey, seed, &by_lot);
    let aimed: Vec<At> = targeted
        .iter()
        .flat_map(|aim| &aim.holes)
        .copied()
        .collect();
    Proposal {
        rounds: Rounds::new(survey, &by_lot.into_iter().collect::<Vec<At>>()),
        targeted_rounds: Rounds::new(survey, &aimed),
        picks,
        targeted,
    }
}

fn pick<'r>(
    survey: &Survey<'_>,
    group: &'r Group,
    planks: &[Vec<CrossingId>],
    amount: Amount,
    confidence: Confidence,
    seed: u32,
) -> Pick<'r> {
    let wanted = match amount {
        Amount::Count(count) => Some(count),
        Amount::Show(share) => group.draw.more_good_to_show(share, confidence),
    };
    let part = [group.zone.name(), group.metal_name()];
    let mut lot = Lot::new(seed, &part);
    let holes = lot.draw(&group.standing, wanted.unwrap_or(0) as usize);
    let after = holes.iter().fold(group.draw, |draw, _| draw.and_one(false));
    let would_show = after.most_bad_share(confidence);
    let lift = (!holes.is_empty())
        .then(|| lift(survey, group, planks, holes.len(), &mut lot))
        .flatten();
    Pick {
        group,
        wanted,
        holes,
        would_show,
        lift,
    }
}

/// Whether drawing one hurts the plank more than lifting it.
const fn is_nail_or_rivet(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::BoatNail | Kind::AnnularNail | Kind::ClenchedNail | Kind::Rivet
    )
}

/// A plank that shows as many nails and rivets of the group as were to be drawn, or the most of
/// any.
fn lift(
    survey: &Survey<'_>,
    group: &Group,
    planks: &[Vec<CrossingId>],
    wanted: usize,
    lot: &mut Lot,
) -> Option<Lift> {
    let nails: Vec<CrossingId> = group
        .standing
        .iter()
        .filter(|(id, number)| {
            let hole = survey.state.holes(*id).get(number.index());
            hole.is_some_and(|hole| is_nail_or_rivet(survey.fastening(hole).kind))
        })
        .map(|(id, _)| *id)
        .collect();
    // Those standing come in the order of their crossings.
    let on = |id: &CrossingId| {
        nails.partition_point(|nail| nail <= id) - nails.partition_point(|nail| nail < id)
    };
    let shows = |plank: &Vec<CrossingId>| plank.iter().map(on).sum::<usize>();
    let shown: Vec<(usize, &Vec<CrossingId>)> =
        planks.iter().map(|plank| (shows(plank), plank)).collect();
    let most = shown.iter().map(|(shows, _)| *shows).max()?.min(wanted);
    let enough: Vec<&(usize, &Vec<CrossingId>)> = shown
        .iter()
        .filter(|(shows, _)| *shows >= most.max(1))
        .collect();
    lot.one(&enough).map(|(shows, plank)| Lift {
        plank: (*plank).clone(),
        shows: *shows,
    })
}
