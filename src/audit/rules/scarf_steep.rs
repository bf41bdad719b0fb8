//! # scarf-steep
//!
//! **Looks for** scarfs in planking that are short for the plank's thickness.
//!
//! **Why.** A short scarf has little glue and much end grain, which glue holds badly, and it bends
//! in a kink. A piece let in with scarfs is judged by this and not by where butts may fall.
//!
//! **Limits.** `scarf slope` 8, the length of the scarf over the thickness of the plank. This is
//! disputed: 6 is printed for clinker planking, 8 for plywood and for a repair of 18 in, 12 by
//! others for planking; 10 to 12 for spars. Set your own. A scarf of which no slope is written is
//! passed over.
//!
//! **Severity.** Mend.
//!
//! **Sources.** An owners' forum, 8:1 beside a butt block for a short repair, and 12:1 in another
//! thread. USCG NVIC 7-95, 5-F, from memory and not checked: 8:1 for plywood, 12:1 for solid
//! planking.
//!
//! **What to do.** Cut it again longer. If it is sound and you mean to keep it, accept it in
//! hull.yaml and look at it each haul-out.

use crate::audit::{Hits, Rule, Saying, Severity, Survey, limits};
use crate::hull::JointKind;
use crate::tables::{Basis, Status};

pub(in crate::audit) const RULE: Rule = Rule {
    name: "scarf-steep",
    file: include_str!("scarf_steep.rs"),
    limits: &[limits::SCARF_SLOPE],
    sources: &[
        Basis::on("owners forum", Status::Read, "12:1 in another thread"),
        Basis::on("NVIC", Status::Memory, "5-F; low confidence, not verified"),
    ],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    let least = survey.limits.bound(limits::SCARF_SLOPE).count();
    for joint in survey.joints().values() {
        let JointKind::Scarf {
            slope: Some(slope), ..
        } = *joint.kind
        else {
            continue;
        };
        if slope >= f64::from(least) {
            continue;
        }
        for id in &joint.crossings {
            let says =
                format!("a scarf {slope} times as long as the plank is thick, under {least}");
            let saying = Saying::new(Severity::Mend, says, "cut it again longer");
            hits.at(*id, 0, saying.figure("slope", slope));
        }
    }
}
