//! # weak-crossing
//!
//! **Looks for** crossings whose fastenings are all there or nearly so, but so worn together that
//! much less holds than was built there.
//!
//! **Why.** Two nails that have each lost a third of their section are no more than one and a third.
//! Planks spring by the run: a weak crossing is carried by its neighbours, three weak ones side by
//! side are not carried by anything.
//!
//! What is left is the sum over the fastenings counted on: of each the share of its section that
//! was measured, the square of the diameter's share, and all of one that nobody measured. It is
//! set against how many were built there. It is a measure of wear and loss against how she was
//! built, and says nothing of whether that was strong; a new fastening of another size counts
//! as one.
//!
//! **Limits.** `strength of a crossing for stop` under a half, at `weak neighbours` 3 crossings side by
//! side; `strength of a crossing for mend` under three quarters. Choices made here; no published
//! figure is known.
//!
//! **Severity.** Stop at neighbours in a row where it is wet (underwater, wind and water, deck);
//! mend elsewhere. Only wear that was measured makes a finding here: where the missing ones alone
//! bring a crossing below the limit, `crossing-bare`, `crossing-short` and `plank-loose` tell it, and
//! it counts here only as a neighbour in a row.
//!
//! **Sources.** Common practice, no source; section by the square of the diameter is derived. US
//! Army TB 55-1900-201-45/1, 2-8b, for additional fastenings where there is room.
//!
//! **What to do.** Drive additional fastenings, well placed, where there is room without weakening
//! the plank; where there is none, draw the old, dowel the holes and drive new of the same
//! strength.

use std::collections::BTreeSet;

use crate::audit::wear::Bearing;
use crate::audit::{Hits, Rule, Saying, Severity, Survey, limits};
use crate::hull::CrossingId;
use crate::joint::wastage::Duty;
use crate::tables::{Basis, Status};

pub(in crate::audit) const RULE: Rule = Rule {
    name: "weak-crossing",
    file: include_str!("weak_crossing.rs"),
    limits: &[
        limits::CROSSING_STOP,
        limits::CROSSING_MEND,
        limits::WEAK_NEIGHBOURS,
    ],
    sources: &[
        Duty::Section.basis(),
        Basis::on("TB201", Status::Read, "2-8b, additional fastenings"),
    ],
    check,
};

const REMEDY: &str = "add fastenings where there is room, or draw, dowel and drive new";

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    let bearings: Vec<Bearing> = survey
        .alike()
        .map(|(at, _)| survey.bearing(at.crossing.id))
        .collect();
    let bearing = |id: CrossingId| {
        let of_kind = bearings.get(survey.kinds().number(id)).copied();
        of_kind.unwrap_or_else(|| survey.bearing(id))
    };
    let in_a_row = in_a_row(survey, bearing);
    let mend = survey.limits.bound(limits::CROSSING_MEND).share();
    for at in survey.crossings() {
        let (id, bearing) = (at.crossing.id, bearing(at.crossing.id));
        let severity = if in_a_row.contains(&id) {
            Severity::Stop
        } else if bearing.holding.relied_on > 0 && worn_below(&bearing, mend) {
            Severity::Mend
        } else {
            continue;
        };
        let says = format!(
            "{:.0} % of what was built there is left{}",
            bearing.share() * 100.0,
            if severity == Severity::Stop {
                ", as at its neighbours"
            } else {
                ""
            },
        );
        let saying = Saying::new(severity, says, REMEDY)
            .figure("share_left", bearing.share())
            .figure("relied_on", f64::from(bearing.holding.relied_on))
            .figure("expected", f64::from(bearing.holding.expected));
        hits.at(id, bearing.holding.relied_on as usize, saying);
    }
}

/// Whether it is wear that takes a crossing below a share: without it there would be as much.
fn worn_below(bearing: &Bearing, share: f64) -> bool {
    bearing.share() < share && bearing.share_if_new() >= share
}

/// Wet crossings of which so many side by side keep less than the share for a stop, where wear
/// makes at least one of them so.
fn in_a_row(survey: &Survey<'_>, bearing: impl Fn(CrossingId) -> Bearing) -> BTreeSet<CrossingId> {
    let share = survey.limits.bound(limits::CROSSING_STOP).share();
    let row = survey.limits.bound(limits::WEAK_NEIGHBOURS).count() as usize;
    let mut found = BTreeSet::new();
    for strake in survey.hull.strakes() {
        for plank in survey.planks(strake) {
            for lane in [&plank.crossings, &plank.keel] {
                let is_weak = |id: CrossingId, bearing: &Bearing| {
                    bearing.holding.is_recorded()
                        && bearing.share() < share
                        && survey.hull.crossing(id).zone.is_wet()
                };
                if !lane.iter().any(|id| is_weak(*id, &bearing(*id))) {
                    continue;
                }
                let held = lane.iter().map(|id| (*id, bearing(*id)));
                let held: Vec<(CrossingId, Bearing, bool)> = held
                    .map(|(id, bearing)| (id, bearing, is_weak(id, &bearing)))
                    .collect();
                for run in held.chunk_by(|one, other| one.2 == other.2) {
                    let is_weak = run.first().is_some_and(|(.., weak)| *weak);
                    let is_worn = run.iter().any(|(_, bearing, _)| worn_below(bearing, share));
                    if is_weak && is_worn && run.len() >= row.max(1) {
                        found.extend(run.iter().map(|(id, ..)| *id));
                    }
                }
            }
        }
    }
    found
}
