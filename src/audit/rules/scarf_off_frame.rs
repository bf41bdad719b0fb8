//! # scarf-off-frame
//!
//! **Looks for** scarfs in planking that lie between frames and are not known to be glued.
//!
//! **Why.** Glue makes two planks one, and then a scarf may lie anywhere. Without it the thin ends
//! of the scarf hold only where a fastening goes through them into something, and that is the
//! frame.
//!
//! **Limits.** None.
//!
//! **Severity.** Watch.
//!
//! **Sources.** US Army TB 55-1900-201-45/1, 2-13a, speaks of scarfs glued, and at frames. That an
//! unglued one wants a frame under it is common practice, no source.
//!
//! **What to do.** If it is glued, say so with `glued: yes` in hull.yaml. If not, put a block
//! behind it and fasten both lips through it, and look whether the outer lip stands proud.

use crate::audit::{Hits, Rule, Saying, Severity, Survey};
use crate::hull::{JointKind, MemberKind};
use crate::tables::{Basis, Status};

pub(in crate::audit) const RULE: Rule = Rule {
    name: "scarf-off-frame",
    file: include_str!("scarf_off_frame.rs"),
    limits: &[],
    sources: &[
        Basis::on("TB201", Status::Read, "2-13a"),
        Basis::practice("a scarf without glue lies on a frame"),
    ],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    for joint in survey.joints().values() {
        let says = match joint.kind {
            JointKind::Scarf {
                glued: Some(false), ..
            } => "a scarf between frames, not glued",
            JointKind::Scarf { glued: None, .. } => {
                "a scarf between frames, and not known whether it is glued"
            }
            _ => continue,
        };
        for id in &joint.crossings {
            if survey.hull.crossing(*id).member.kind() == MemberKind::Butt {
                let remedy = "put a block behind it, or say that it is glued";
                hits.at(*id, 0, Saying::new(Severity::Watch, says, remedy));
            }
        }
    }
}
