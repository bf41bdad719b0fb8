//! # too-many-open
//!
//! **Looks for** planking drawn at many frames at once while the planks still hang.
//!
//! **Why.** The planking keeps the hull in shape, frame by frame. Drawn at many frames at once it
//! works loose and the boat changes her shape on the shores. An owner who refastened a whole hull
//! drew, treated, doweled and drove three frames at a time and moved on.
//!
//! **Limits.** `open frames at once` 3: one owner's account of about 1,250 screws. Set the number
//! that your shores and your boat allow. A frame is open where at least one shell plank has a hole
//! standing open on it and nothing relied on. It is counted once for the whole boat, port and
//! starboard together. A plank that is off is not counted, nor a crossing that a temporary
//! fastening holds.
//!
//! **Severity.** Mend.
//!
//! **Sources.** An owner's account, 2013-14.
//!
//! **What to do.** Drive what is drawn before you draw more; clamp with temporary fastenings where
//! you cannot.

use std::collections::{BTreeMap, BTreeSet};

use crate::audit::{Counted, Hits, Rule, Saying, Severity, Survey, limits};
use crate::hull::{CrossingId, Member};
use crate::record::PlankSide;
use crate::tables::{Basis, Status};

pub(in crate::audit) const RULE: Rule = Rule {
    name: "too-many-open",
    file: include_str!("too_many_open.rs"),
    limits: &[limits::OPEN_FRAMES],
    sources: &[Basis::on(
        "owner 2013",
        Status::Read,
        "three frames at a time, so that planks stay on",
    )],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    let most = survey.limits.bound(limits::OPEN_FRAMES).count() as usize;
    // The whole boat counts, whatever part of her is asked about.
    let mut drawn: BTreeMap<CrossingId, usize> = BTreeMap::new();
    let mut frames = BTreeSet::new();
    for id in survey.hull.crossing_ids() {
        let crossing = survey.hull.crossing(id);
        let Member::Frame(number) = crossing.member else {
            continue;
        };
        let open = open_holes(survey, id);
        if open > 0 && !crossing.strake.id.side.is_deck() {
            frames.insert(number.value());
            drawn.insert(id, open);
        }
    }
    if frames.len() <= most {
        return;
    }
    let says = format!(
        "planking is drawn at {} frames at once, over {most}",
        frames.len()
    );
    let remedy = "drive what is drawn before more is drawn";
    let saying = Saying::new(Severity::Mend, says, remedy)
        .figure("frames", frames.len() as f64)
        .counting(Counted::Holes);
    for (id, open) in drawn {
        hits.at(id, open, saying.clone());
    }
}

/// How many holes stand open at a crossing at which nothing holds the plank.
fn open_holes(survey: &Survey<'_>, id: CrossingId) -> usize {
    let holes = survey.at(id).holes;
    let held = holes
        .iter()
        .any(|hole| hole.is_relied_on() || hole.has_metal() && survey.fastening(hole).temporary);
    let open = holes
        .iter()
        .filter(|hole| hole.content.plank_side() == PlankSide::Open);
    if held || survey.state.is_off(id) {
        0
    } else {
        open.count()
    }
}
