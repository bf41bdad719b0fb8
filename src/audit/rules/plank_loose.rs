//! # plank-loose
//!
//! **Looks for** planks that are coming loose as a whole: neighbouring crossings bare or short one
//! after another, or a good share of the plank's fastenings not relied on.
//!
//! **Why.** Planks spring by the run. One weak crossing is carried by its neighbours; three in a
//! row leave a span the caulking can push out. In the *EL TORO II*, where three planks sprung, the
//! fastenings of those planks were gone and the rest of the hull looked good.
//!
//! **Limits.** `loose crossings in a row` 3; `plank loose for stop` over 1/5 of what was built into
//! the plank; `plank loose for mend` over 1/10. Choices made here; no published figure is known.
//! A plank runs from joint to joint. Along a garboard the frames and the keel rabbet are judged
//! each by itself, since one cannot hold for the other. Crossings with nothing recorded count
//! neither way and end a run. A share is only asked of a plank with at least as many recorded
//! crossings as make a run, and of which at least two are loose: one crossing alone is no pattern,
//! and `crossing-bare` or `crossing-short` has told it.
//!
//! **Severity.** Stop for crossings in a row, and for a share over a fifth; mend for a share over a
//! tenth. Each crossing is told once: in a row if it is in one, else by the share.
//!
//! **Sources.** US Army TB 55-1900-201-45/1, 2-8b, for loose planks as a sign; the *EL TORO II*
//! papers.
//!
//! **What to do.** Refasten the plank from end to end, a few frames at a time. If the fastenings
//! are of one age, draw some in the planks beside it: they are likely to be the same. The count
//! given is that of the missing ones.

use std::collections::BTreeMap;

use crate::audit::{Counted, Hits, Holding, Rule, Saying, Severity, Survey, limits};
use crate::hull::CrossingId;
use crate::tables::{Basis, Status};

/// Loose crossings below this number are no pattern.
const FEWEST_LOOSE: usize = 2;

const REMEDY: &str = "refasten the plank from end to end, a few frames at a time";

pub(in crate::audit) const RULE: Rule = Rule {
    name: "plank-loose",
    file: include_str!("plank_loose.rs"),
    limits: &[
        limits::LOOSE_IN_A_ROW,
        limits::PLANK_LOOSE_STOP,
        limits::PLANK_LOOSE_MEND,
    ],
    sources: &[
        Basis::on("TB201", Status::Read, "2-8b, planks loose when struck"),
        Basis::on("ELT", Status::Read, "three planks sprung"),
    ],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    // A joint on a frame lies in two planks; what is graver is said of it, once.
    let mut told: BTreeMap<CrossingId, Saying> = BTreeMap::new();
    for strake in survey.hull.strakes() {
        for plank in survey.planks(strake) {
            for lane in [&plank.crossings, &plank.keel] {
                for (id, saying) in of_lane(survey, lane) {
                    let graver = told
                        .get(&id)
                        .is_none_or(|known| saying.severity < known.severity);
                    if graver {
                        told.insert(id, saying);
                    }
                }
            }
        }
    }
    for (id, saying) in told {
        let saying = saying.counting(Counted::Short);
        hits.at(id, survey.holding(id).missing() as usize, saying);
    }
}

/// What is to be said of the crossings of one plank along its run, or along the keel.
fn of_lane(survey: &Survey<'_>, lane: &[CrossingId]) -> Vec<(CrossingId, Saying)> {
    if !lane.iter().any(|id| survey.holding(*id).is_loose()) {
        return Vec::new();
    }
    let row = survey.limits.bound(limits::LOOSE_IN_A_ROW).count() as usize;
    let held: Vec<(CrossingId, Holding)> =
        lane.iter().map(|id| (*id, survey.holding(*id))).collect();
    let by_share = by_share(survey, &held, row);
    let mut said = Vec::new();
    for run in held.chunk_by(|one, other| one.1.is_loose() == other.1.is_loose()) {
        if !run.first().is_some_and(|(_, holding)| holding.is_loose()) {
            continue;
        }
        let saying = if run.len() >= row.max(1) {
            let says = format!("{} crossings in a row are bare or short", run.len());
            let in_a_row = Saying::new(Severity::Stop, says, REMEDY);
            Some(in_a_row.figure("in_a_row", run.len() as f64))
        } else {
            by_share.clone()
        };
        if let Some(saying) = saying {
            said.extend(run.iter().map(|(id, _)| (*id, saying.clone())));
        }
    }
    said
}

/// What is to be said of a plank by the share of its fastenings that is missing.
fn by_share(survey: &Survey<'_>, held: &[(CrossingId, Holding)], row: usize) -> Option<Saying> {
    let recorded = || held.iter().map(|(_, h)| h).filter(|h| h.is_recorded());
    let loose = recorded().filter(|holding| holding.is_loose()).count();
    if recorded().count() < row || loose < FEWEST_LOOSE {
        return None;
    }
    let expected: u32 = recorded().map(|holding| holding.expected).sum();
    let missing: u32 = recorded().map(Holding::missing).sum();
    let share = f64::from(missing) / f64::from(expected.max(1));
    let over = |limit| share > survey.limits.bound(limit).share();
    let severity = if over(limits::PLANK_LOOSE_STOP) {
        Severity::Stop
    } else if over(limits::PLANK_LOOSE_MEND) {
        Severity::Mend
    } else {
        return None;
    };
    let says = format!("{missing} of the plank's {expected} fastenings are not relied on");
    let saying = Saying::new(severity, says, REMEDY)
        .figure("missing", f64::from(missing))
        .figure("expected", f64::from(expected));
    Some(saying)
}
