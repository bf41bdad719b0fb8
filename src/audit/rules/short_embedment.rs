//! # short-embedment
//!
//! **Looks for** fastenings that reach too little into the member behind the plank, each kind by
//! what it holds by.
//!
//! **Why.** A screw holds by the thread in the frame. What is asked for is what the planking
//! rule's own screw would have under the same bung: min(*L* of the rule + depth of the head −
//! plank, depth of the member − 1/8 in), so that a screw kept short by a shallow frame is not
//! called short.
//!
//! A boat nail or annular nail is asked for the depth of one twice as long as the plank is thick;
//! a lag screw for 4 diameters and its tip of 2 more; neither for more than a shallow frame has.
//! Of drifts and trunnels it is only asked that they reach the frame. A clenched nail, a rivet or
//! a bolt holds by its two ends: one that does not come out on the far side of a frame, a beam or
//! a butt block holds nothing.
//!
//! Where length, plank or depth of the head is not known, nothing is said, but for one thing: a
//! fastening no longer than the frame is deep does not come through it, however deep its head.
//!
//! **Limits.** `embedment for stop` 0.5 of what is asked for, in wet zones; `embedment for mend`
//! 0.8; `embedment for watch` 0.9: choices made here, no published figure is known. `nail length` 2
//! planks, from memory. `lag penetration` 4 diameters.
//!
//! **Severity.** Stop, mend or watch by these limits, of fastenings counted on to hold; nails and
//! lag screws are a mend at the most, for what is asked of them is not so well grounded. What does
//! not reach the frame, or should come through it and does not, is a stop anywhere.
//!
//! **Sources.** Herreshoff screw table, as reprinted by a fastener supplier (public
//! transcription); the building standard's six diameters are told by `pick` and never held
//! against a screw, since every planking screw of the table misses them. Nails: boatbuilding texts,
//! from memory. Lag screws: NDS-2018 12.1.4.6 (public transcription).
//!
//! **What to do.** Check the plank's thickness, the frame's depth and the bung's in hull.yaml
//! first: an eighth of an inch in any decides. Then draw it and drive one that is long enough; ask
//! `refasten pick` with the place for the length and the holes.

use crate::audit::situation::{self, Situation};
use crate::audit::{Hits, Rule, Saying, Severity, Survey};
use crate::joint::{Kind, Seat, judge, limits};
use crate::tables::{Basis, Status};
use crate::units::Length;

pub(in crate::audit) const RULE: Rule = Rule {
    name: "short-embedment",
    file: include_str!("short_embedment.rs"),
    limits: &[
        limits::EMBEDMENT_STOP,
        limits::EMBEDMENT_MEND,
        limits::EMBEDMENT_WATCH,
        limits::POINT_MARGIN,
        limits::NAIL_LENGTH,
        limits::LAG_PENETRATION,
    ],
    sources: &[
        Basis::on("HST", Status::Transcribed, "lengths"),
        Basis::on("boatbuilding texts", Status::Memory, "lengths of nails"),
        Basis::on("NDS", Status::Transcribed, "12.1.4.6, lag screws"),
    ],
    check,
};

const NO_REACH: &str = "does not reach the frame";

fn check(survey: &Survey<'_>, hits: &mut Hits<'_>) {
    situation::each(survey, hits, judged);
}

fn judged(of: &Situation<'_>) -> Option<Saying> {
    let kind = of.fastening.kind;
    if !of.is_relied_on() {
        None
    } else if kind.holds_by_its_ends() {
        through(of)
    } else if kind == Kind::WoodScrew {
        let seat = of.screw().and_then(|_| of.seat())?;
        let asked = judge::asked_embedment(of.row()?.length, &seat, of.survey.limits);
        let verdict = judge::embedment(&seat, asked, of.zone, of.survey.limits).verdict;
        let remedy = "draw it and drive one of the rule's length";
        Some(short(of, &seat, asked, Severity::of(verdict)?, remedy))
    } else {
        blind(of)
    }
}

/// A fastening driven blind that no planking rule speaks of.
fn blind(of: &Situation<'_>) -> Option<Saying> {
    let seat = of.seat()?;
    let (kind, diameter) = (of.fastening.kind, of.fastening.size?.diameter());
    let limits = of.survey.limits;
    let asked = judge::asked_of_kind(kind, diameter, &seat, limits);
    let asked = asked.map_or(Length::ZERO, |(asked, _)| asked);
    let verdict = judge::embedment_of_kind(&seat, asked, of.zone, limits).verdict;
    let remedy = "draw it and drive a longer one";
    Some(short(of, &seat, asked, Severity::of(verdict)?, remedy))
}

fn short(
    of: &Situation<'_>,
    seat: &Seat,
    asked: Length,
    severity: Severity,
    remedy: &str,
) -> Saying {
    let embedment = seat.embedment();
    let says = if seat.reaches() {
        let (embedment, asked) = (of.shown(embedment), of.shown(asked));
        format!("{embedment} in the frame where {asked} is asked for")
    } else {
        NO_REACH.to_owned()
    };
    Saying::new(severity, says, remedy)
        .figure("embedment_mm", embedment.mm())
        .figure("asked_mm", asked.mm())
}

/// A fastening that holds by its two ends.
fn through(of: &Situation<'_>) -> Option<Saying> {
    let member = of.member.filter(|_| of.comes_through)?;
    // With its head at the very back of the plank it would come furthest.
    let known = of.seat();
    let seat = known.or_else(|| of.seat_under(of.plank?))?;
    if judge::stands_out(&seat)? > Length::ZERO {
        return None;
    }
    let says = match known {
        Some(seat) if !seat.reaches() => NO_REACH.to_owned(),
        Some(seat) => format!(
            "does not come through the frame: {} in {} of it",
            of.shown(seat.embedment()),
            of.shown(member)
        ),
        None => format!(
            "does not come through the frame: {} long, and the frame is {} deep",
            of.shown(seat.length),
            of.shown(member)
        ),
    };
    let remedy = "check the frame's depth, then draw it and drive one that comes through";
    let saying = Saying::new(Severity::Stop, says, remedy)
        .figure("embedment_mm", seat.embedment().mm())
        .figure("asked_mm", member.mm());
    Some(saying)
}
