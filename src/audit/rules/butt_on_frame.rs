//! # butt-on-frame
//!
//! **Looks for** butts of shell planking that fall on a frame and have no block.
//!
//! **Why.** The ends of two planks share the width of one frame. Their fastenings stand close to
//! the ends and to each other, and the row of them weakens the frame. A block between two frames
//! gives each end its own wood.
//!
//! **Limits.** None. Deck planks, whose butts usually fall on beams, are passed over.
//!
//! **Severity.** Watch. The government bulletin leaves room for massive framing, and for light
//! construction with glued scarfs on the frames; a scarf is not a butt and is judged by the rules
//! for scarfs.
//!
//! **Sources.** US Army TB 55-1900-201-45/1, 2-13a. An owners' forum: doubled screws weaken a
//! narrow frame.
//!
//! **What to do.** When one of the two planks comes off, shift the butt between frames and put a
//! block behind it. On heavy sawn frames accept it in hull.yaml, with the reason.

use crate::audit::{Hits, Rule, Saying, Severity, Survey};
use crate::hull::{JointKind, MemberKind};
use crate::tables::{Basis, Status};

pub(in crate::audit) const RULE: Rule = Rule {
    name: "butt-on-frame",
    file: include_str!("butt_on_frame.rs"),
    limits: &[],
    sources: &[
        Basis::on("TB201", Status::Read, "2-13a"),
        Basis::on(
            "owners forum",
            Status::Read,
            "no butt on a narrow frame: doubled screws weaken it",
        ),
    ],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    for joint in survey.joints().values() {
        if !matches!(joint.kind, JointKind::Butt { .. }) {
            continue;
        }
        for id in &joint.crossings {
            let crossing = survey.hull.crossing(*id);
            let on_frame = crossing.member.kind() == MemberKind::Frame;
            if on_frame && !crossing.strake.id.side.is_deck() {
                let saying = Saying::new(
                    Severity::Watch,
                    "two planks butt on the frame itself",
                    "when a plank here comes off, shift the butt between frames onto a block",
                );
                hits.at(*id, 0, saying);
            }
        }
    }
}
