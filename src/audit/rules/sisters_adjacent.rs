//! # sisters-adjacent
//!
//! **Looks for** sisters on more frames side by side than two.
//!
//! **Why.** A sister is a repair of one frame that is hurt where its neighbours are not. Where frame
//! after frame needs one, it is the framing that is worn out: sisters end at the same height, and
//! the hull bends there.
//!
//! **Limits.** `sisters side by side` 2, on either side of the boat by itself. Every lettered frame
//! of the shell counts as a sister, `F12a` beside `F12`; the record does not tell it from a frame
//! that was added between two others. Where the letters are such frames, accept it in hull.yaml.
//! One that the log says was put in later is not counted before its day.
//!
//! **Severity.** Mend.
//!
//! **Sources.** US Army TB 55-1900-201-45/1, 2-15: only for isolated damage, and not for more than
//! two neighbouring frames.
//!
//! **What to do.** Renew frames in place of sisters, every second one at least.

use crate::audit::{Hits, Rule, Saying, Severity, Survey, limits};
use crate::tables::{Basis, Status};

pub(in crate::audit) const RULE: Rule = Rule {
    name: "sisters-adjacent",
    file: include_str!("sisters_adjacent.rs"),
    limits: &[limits::SISTERS],
    sources: &[Basis::on("TB201", Status::Read, "2-15a to 2-15d")],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    let most = survey.limits.bound(limits::SISTERS).count() as usize;
    let frames: Vec<_> = survey.sistered().into_iter().collect();
    let runs = frames.chunk_by(|((side, frame), _), ((next_side, next), _)| {
        side == next_side && u32::from(*next) == u32::from(*frame) + 1
    });
    for run in runs.filter(|run| run.len() > most) {
        let says = format!("sisters on {} frames side by side, over {most}", run.len());
        let remedy = "renew frames here in place of sisters";
        let saying = Saying::new(Severity::Mend, says, remedy).figure("frames", run.len() as f64);
        let sisters = run.iter().flat_map(|(_, frame)| frame.sisters.values());
        for id in sisters.flat_map(|lies| lies.values()) {
            hits.at(*id, 0, saying.clone());
        }
    }
}
