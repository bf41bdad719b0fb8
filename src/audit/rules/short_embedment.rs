//! # short-embedment
//!
//! **Looks for** wood screws that reach too little into the member behind the plank.
//!
//! **Why.** A screw holds by the thread in the frame. What is asked for is what the planking
//! rule's own screw would have under the same bung: min(*L* of the rule + depth of the head −
//! plank, depth of the member − 1/8 in), so that a screw kept short by a shallow frame is not
//! called short.
//!
//! **Limits.** `embedment for stop` 0.5 of that, in wet zones; `embedment for mend` 0.8; `embedment
//! for watch` 0.9. A screw that does not reach the frame at all is a stop anywhere. Choices made here;
//! no published figure is known.
//!
//! **Severity.** Stop, mend or watch by these limits.
//!
//! **Sources.** Herreshoff screw table, as reprinted by a fastener supplier (public
//! transcription); the building standard's six diameters are told by `pick` and never held
//! against a screw, since every planking screw of the table misses them.
//!
//! **What to do.** Draw it and drive one of the rule's length; ask `refasten pick` with the place
//! for the holes. Check the plank's thickness and the bung's depth in hull.yaml first: an eighth
//! of an inch in either decides.

use crate::audit::situation::{self, Situation};
use crate::audit::{Hits, Rule, Saying, Severity, Survey};
use crate::joint::{judge, limits};
use crate::tables::{Basis, Status};

pub(in crate::audit) const RULE: Rule = Rule {
    name: "short-embedment",
    file: include_str!("short_embedment.rs"),
    limits: &[
        limits::EMBEDMENT_STOP,
        limits::EMBEDMENT_MEND,
        limits::EMBEDMENT_WATCH,
        limits::POINT_MARGIN,
    ],
    sources: &[Basis::on("HST", Status::Transcribed, "lengths")],
    check,
};

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    situation::each(survey, hits, judged);
}

fn judged(of: &Situation<'_>) -> Option<Saying> {
    let seat = of.screw().and_then(|_| of.seat())?;
    let row = of.row().filter(|_| of.is_relied_on())?;
    let limits = of.survey.limits;
    let asked = judge::asked_embedment(row.length, &seat, limits);
    let severity = Severity::of(judge::embedment(&seat, asked, of.zone, limits).verdict)?;
    let embedment = seat.embedment();
    let says = if seat.reaches() {
        let (embedment, asked) = (of.shown(embedment), of.shown(asked));
        format!("{embedment} in the frame where {asked} is asked for")
    } else {
        "does not reach the frame".to_owned()
    };
    let saying = Saying::new(severity, says, "draw it and drive one of the rule's length")
        .figure("embedment_mm", embedment.mm())
        .figure("asked_mm", asked.mm());
    Some(saying)
}
