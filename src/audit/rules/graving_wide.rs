//! # graving-wide
//!
//! **Looks for** graving pieces, let into the face of a plank, that are too wide for it or not
//! known to be glued.
//!
//! **Why.** A graving piece replaces wood that the plank's own fastenings held through. Narrow and
//! glued, the plank still holds it; wide, it takes the plank's strength with it, and a loose one
//! lifts and lets water behind it.
//!
//! **Limits.** `widest graving piece` a third of the plank's width. A width or a plank's width that
//! is not known is not judged.
//!
//! **Severity.** Watch.
//!
//! **Sources.** An owners' forum gives a third of the width; no rule of a society is known. The
//! bulletin normally refuses short lengths let in, since they do not hold fastenings (US Army TB
//! 55-1900-201-45/1, 2-12b, the number inferred from its neighbours). That it is glued is common
//! practice, no source.
//!
//! **What to do.** Where it holds, look at it each haul-out. Where it is wide or loose, scarf in a
//! longer piece or hang a new plank.

use crate::audit::{Hits, Rule, Saying, Severity, Survey, limits};
use crate::hull::GravingPiece;
use crate::tables::{Basis, Status};
use crate::units::Length;

pub(in crate::audit) const RULE: Rule = Rule {
    name: "graving-wide",
    file: include_str!("graving_wide.rs"),
    limits: &[limits::WIDEST_GRAVING],
    sources: &[
        Basis::on("owners forum", Status::Read, "under a third of the width"),
        Basis::on("TB201", Status::Read, "2-12b"),
        Basis::practice("a graving piece is glued in"),
    ],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    for piece in &survey.hull.graving_pieces {
        for id in &piece.crossings {
            let plank = survey.hull.crossing(*id).strake.width;
            // A plank hung in the log is new, and has no old piece in it.
            if survey.state.hung(*id).is_none()
                && let Some(saying) = saying(survey, piece, plank)
            {
                hits.at(*id, 0, saying);
            }
        }
    }
}

fn saying(survey: &Survey<'_>, piece: &GravingPiece, plank: Option<Length>) -> Option<Saying> {
    let most = survey.limits.bound(limits::WIDEST_GRAVING).share();
    let wide = piece
        .width
        .zip(plank)
        .filter(|(width, plank)| *width > plank.part(most));
    let (says, remedy) = match (wide, piece.glued) {
        (Some((width, plank)), _) => (
            format!(
                "a graving piece {} wide in a plank of {}",
                survey.shown(width),
                survey.shown(plank)
            ),
            "scarf in a longer piece, or hang a new plank",
        ),
        (None, Some(false)) => (
            "a graving piece that is not glued".to_owned(),
            "glue it in, or scarf in a longer piece",
        ),
        (None, _) => return None,
    };
    Some(Saying::new(Severity::Watch, says, remedy))
}
