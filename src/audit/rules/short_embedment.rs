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
    for at in survey.crossings() {
        for hole in at.relied_on() {
            let seated = survey.seated(&at.crossing, survey.fastening(hole));
            let (Some(seated), Some(row)) = (seated, survey.row(&at.crossing)) else {
                continue;
            };
            let asked = judge::asked_embedment(row.length, &seated.seat, survey.limits);
            let judged = judge::embedment(&seated.seat, asked, at.crossing.zone, survey.limits);
            let Some(severity) = Severity::of(judged.verdict) else {
                continue;
            };
            let embedment = seated.seat.embedment();
            let says = if seated.seat.reaches() {
                format!(
                    "{} in the frame where {} is asked for",
                    survey.shown(embedment),
                    survey.shown(asked)
                )
            } else {
                "does not reach the frame".to_owned()
            };
            let saying = Saying::new(severity, says, "draw it and drive one of the rule's length")
                .figure("embedment_mm", embedment.mm())
                .figure("asked_mm", asked.mm());
            hits.at(at.crossing.id, 1, saying);
        }
    }
}
