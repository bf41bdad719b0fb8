//! # thread-in-plank
//!
//! **Looks for** wood screws whose thread begins well up in the plank.
//!
//! **Why.** Thread in the plank holds the plank where it is and keeps the screw from drawing it home
//! against the frame. The plain shank should reach through.
//!
//! The thread is two thirds of an American screw, at least four shanks of it, and 0.6 of a British
//! or metric one. What of it does not find room in the frame is in the plank. Screws of the planking
//! table keep within the limit but for one: the No. 6 in 3/8 in plank under stopping, whose thread
//! cannot be shorter than four shanks. Of lag screws no length of thread is on record here; no other
//! kind has one to draw by.
//!
//! **Limits.** `thread in the plank` 1/3 of the wood under the head. A choice made here.
//!
//! **Severity.** Watch, of fastenings counted on to hold. A shank hole bored right through the plank
//! cures it, and the record does not say how it was bored.
//!
//! **Sources.** Common practice, no source: the plain shank reaches through the plank. Length of the
//! thread: the building standard, Table L3 (public transcription).
//!
//! **What to do.** Nothing where the shank hole goes right through the plank. Else bore it so when it
//! is next drawn, or drive a longer screw.

use crate::audit::situation::{self, Situation};
use crate::audit::{Hits, Rule, Saying, Severity, Survey};
use crate::joint::{judge, limits};
use crate::tables::{Basis, Status};

pub(in crate::audit) const RULE: Rule = Rule {
    name: "thread-in-plank",
    file: include_str!("thread_in_plank.rs"),
    limits: &[limits::THREAD_IN_PLANK],
    sources: &[
        Basis::practice("the plain shank reaches through the plank"),
        Basis::on("NDS", Status::Transcribed, "Table L3, length of the thread"),
    ],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    situation::each(survey, hits, judged);
}

fn judged(of: &Situation<'_>) -> Option<Saying> {
    of.screw().filter(|_| of.is_relied_on())?;
    let seat = of.seat()?;
    let severity = Severity::of(judge::thread_in_plank(&seat, of.survey.limits).verdict)?;
    let (thread, wood) = (seat.thread_in_plank(), seat.wood_under_head());
    let says = format!(
        "{} of thread in the {} of plank under the head",
        of.shown(thread),
        of.shown(wood)
    );
    let remedy = "bore the shank hole right through the plank when it is next drawn";
    let saying = Saying::new(severity, says, remedy)
        .figure("thread_in_plank_mm", thread.mm())
        .figure("wood_under_head_mm", wood.mm());
    Some(saying)
}
