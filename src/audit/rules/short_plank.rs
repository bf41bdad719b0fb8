//! # short-plank
//!
//! **Looks for** short planks in the shell, new ones and what is left of old ones beside them.
//!
//! **Why.** A short piece lies on few frames, and its fastenings crowd at its ends; it cannot be
//! drawn round a curve and works loose. The bulletin refuses short lengths because they do not
//! hold fastenings.
//!
//! **Limits.** `shortest plank` 6 frame spaces; `shortest plank in length` 60 in, for special
//! cases. A plank runs from joint to joint; the stem or another end counts as one space beyond the
//! last frame. A glued scarf makes two pieces one: a short piece glued in with scarfs is judged by
//! `scarf-steep` and not here. A strake without a joint is as long as it was built, however short.
//! Deck planks are passed over.
//!
//! **Severity.** Mend where the plank, or the one beside it, was hung in this record; watch as
//! found. A plank of too few frame spaces that is 60 in or longer is watched: a special case.
//!
//! **Sources.** US Army TB 55-1900-201-45/1, 2-12b to 2-12d; the number of the first of these is
//! inferred from its neighbours.
//!
//! **What to do.** Take off more of the old plank and hang a longer one, with its butts clear of
//! the others. Or let the piece in with glued scarfs on the frames.

use crate::audit::lengthwise::{HalfSpaces, Spacing};
use crate::audit::{Hits, Rule, Saying, Severity, Survey, limits};
use crate::hull::CrossingId;
use crate::tables::{Basis, Status};

pub(in crate::audit) const RULE: Rule = Rule {
    name: "short-plank",
    file: include_str!("short_plank.rs"),
    limits: &[limits::SHORTEST_PLANK, limits::SHORTEST_LENGTH],
    sources: &[Basis::on("TB201", Status::Read, "2-12b to 2-12d")],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    let glued = survey.glued();
    let strakes = survey.hull.strakes().iter();
    for strake in strakes.filter(|strake| !strake.id.side.is_deck()) {
        let pieces = survey.pieces(strake, &glued);
        if pieces.len() < 2 {
            continue;
        }
        let spacing = Spacing::of(survey, strake);
        for (at, piece) in pieces.iter().enumerate() {
            let beside = |at: usize| pieces.get(at).is_some_and(|piece| piece.hung);
            let beside = at.checked_sub(1).is_some_and(beside) || beside(at + 1);
            let hung = piece.hung || beside;
            let Some(saying) = saying(survey, &spacing, &piece.crossings, hung) else {
                continue;
            };
            hits.at_each(&piece.crossings, 0, saying);
        }
    }
}

fn saying(
    survey: &Survey<'_>,
    spacing: &Spacing,
    crossings: &[CrossingId],
    hung: bool,
) -> Option<Saying> {
    let (from, to) = survey.run_of(crossings)?;
    let least = survey.limits.bound(limits::SHORTEST_PLANK).count();
    let runs = from.to(to);
    if runs >= HalfSpaces::whole(least) {
        return None;
    }
    let enough = survey.limits.bound(limits::SHORTEST_LENGTH).length();
    let special = spacing
        .distance(from, to, None)
        .is_some_and(|length| length >= enough);
    let severity = match (hung, special) {
        (true, false) => Severity::Mend,
        _ => Severity::Watch,
    };
    let mut says = format!("a plank of {runs}, under {least}");
    if special {
        says += &format!("; it is {} or longer, a special case", survey.shown(enough));
    }
    let remedy = match severity {
        Severity::Watch => "when it next comes off, hang a longer one",
        _ => "hang a longer one, or let it in with glued scarfs on the frames",
    };
    let saying = Saying::new(severity, says, remedy);
    Some(saying.figure("frame_spaces", runs.spaces()))
}
