//! # frame-hole-open
//!
//! **Looks for** holes in frames and beams that stand open under a plank whose own hole is closed:
//! plugged over, or with a stub in it.
//!
//! **Why.** Water that gets behind the plank finds the hole, and the frame rots where no one sees
//! it. Later the hole can only be reached by opening the plank again.
//!
//! **Limits.** None: one open hole is enough. Where the plank's hole is open too, `open-hole`
//! tells it, and this rule is quiet: closing or using the hole from outside takes both in one go.
//!
//! **Severity.** Mend.
//!
//! **Sources.** US Army TB 55-1900-201-45/1, 2-8b: where there is no room for extra fastenings,
//! plug the old holes in the frame, then drive new of equivalent strength.
//!
//! **What to do.** Open the plank's plug or draw the stub, glue a dowel into the frame and log it
//! with `doweled`; then drive or plug. A frame hole that was doweled but not logged wants the
//! missing entry only.

use crate::audit::{Counted, Hits, Rule, Saying, Severity, Survey};
use crate::record::{Content, FrameSide, PlankSide};
use crate::tables::{Basis, Status};

pub(in crate::audit) const RULE: Rule = Rule {
    name: "frame-hole-open",
    file: include_str!("frame_hole_open.rs"),
    limits: &[],
    sources: &[Basis::on("TB201", Status::Read, "2-8b")],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    // Where the plank is off everybody sees them.
    let planked = survey
        .alike()
        .filter(|(at, _)| !survey.state.is_off(at.crossing.id));
    for (at, alike) in planked {
        let holes = at.holes.iter();
        let hidden = holes.filter(|hole| is_hidden(hole.content)).count();
        if hidden > 0 {
            let saying = Saying::new(
                Severity::Mend,
                "holes stand open in the frame behind a closed plank",
                "dowel the frame, or log the dowels if they are in",
            )
            .counting(Counted::Holes);
            hits.at_each(&alike.all, hidden, saying);
        }
    }
}

/// Whether the frame's hole is open and the plank's is not.
fn is_hidden(content: Content) -> bool {
    content.frame_side() == FrameSide::Open && content.plank_side() != PlankSide::Open
}
