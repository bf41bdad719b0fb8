//! Is it enough? Each figure of a seat against the limit that judges it.
//!
//! `pick` asks before a fastening is driven, the audit afterwards; both ask here.

use super::dowel::tip;
use super::limits::{self, Bound, Limits};
use super::wastage::{Duty, Left};
use super::{Kind, Seat, Zone};
use crate::tables::{Family, Head, Metal};
use crate::units::Length;

/// What is to be said of something.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Verdict {
    /// Nothing.
    Ok,
    /// Worth an eye.
    Watch,
    /// To be put right this haul-out.
    Mend,
    /// Not before relaunch.
    Stop,
}

impl Verdict {
    /// The word used in files and output.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Ok => "ok",
            Self::Watch => "watch",
            Self::Mend => "mend",
            Self::Stop => "stop",
        }
    }
}

/// What is to be said of a figure, and the limit that says it: the one it misses, or the first
/// that it would miss.
#[derive(Clone, Copy, Debug)]
pub struct Judgement {
    /// What is to be said.
    pub verdict: Verdict,
    /// By which limit.
    pub bound: Bound,
}

/// Judges by the worst of the limits that are missed, else by the one that would be missed first.
pub(super) fn judge<const N: usize>(steps: [(Verdict, Bound, bool); N], first: Bound) -> Judgement {
    steps
        .into_iter()
        .filter(|(.., missed)| *missed)
        .max_by_key(|(verdict, ..)| *verdict)
        .map_or(
            Judgement {
                verdict: Verdict::Ok,
                bound: first,
            },
            |(verdict, bound, _)| Judgement { verdict, bound },
        )
}

/// The embedment that a rule asks for: min(rule's *L* + own *c* − *t*, *m* − cover), so that a
/// screw kept short by a shallow member is not called short.
pub fn asked_embedment(rule_length: Length, seat: &Seat, limits: &Limits) -> Length {
    let by_rule = rule_length + seat.head_depth - seat.plank;
    match seat.member {
        Some(member) => by_rule.min(member - limits.bound(limits::POINT_MARGIN).length()),
        None => by_rule,
    }
}

/// What a fastening driven blind should have in the member where no planking rule speaks of its
/// kind, and the limit that says so; never more than a shallow member has room for. `None` for
/// kinds that nothing is asked of.
///
/// - Nails: as if 2 planks long (2 to 2.5, from memory).
/// - Lag screws: 4 *D* besides the tip of 2 *D* (NDS-2018 12.1.4.6, public transcription).
pub fn asked_of_kind(
    kind: Kind,
    diameter: Option<Length>,
    seat: &Seat,
    limits: &Limits,
) -> Option<(Length, Bound)> {
    let (asked, bound) = match kind {
        Kind::BoatNail | Kind::AnnularNail => {
            let bound = limits.bound(limits::NAIL_LENGTH);
            let long = seat.plank * i64::from(bound.count());
            (long + seat.head_depth - seat.plank, bound)
        }
        Kind::LagScrew => {
            let bound = limits.bound(limits::LAG_PENETRATION);
            let diameter = diameter?;
            (
                diameter.part(bound.diameters()) + tip(kind, diameter),
                bound,
            )
        }
        _ => return None,
    };
    let room = seat
        .member
        .map(|member| member - limits.bound(limits::POINT_MARGIN).length());
    Some((room.map_or(asked, |room| asked.min(room)), bound))
}

/// The same as [`embedment`] for kinds that a weaker ground speaks of: a stop only where the
/// member is not reached at all.
pub fn embedment_of_kind(seat: &Seat, asked: Length, zone: Zone, limits: &Limits) -> Judgement {
    let judged = embedment(seat, asked, zone, limits);
    match judged.verdict {
        Verdict::Stop if seat.reaches() => Judgement {
            verdict: Verdict::Mend,
            bound: limits.bound(limits::EMBEDMENT_MEND),
        },
        _ => judged,
    }
}

/// How far a fastening that holds by its ends stands out of the far side of the member: less than
/// nothing where it does not come through. `None` where the member's depth is not known.
pub fn stands_out(seat: &Seat) -> Option<Length> {
    Some(-seat.point_cover()?)
}

/// Embedment as a share of what the rule asks: under 0.5 a stop in wet zones, under 0.8 to be
/// mended, under 0.9 to be watched. A fastening that does not reach the member is a stop; that
/// needs no limit.
pub fn embedment(seat: &Seat, asked: Length, zone: Zone, limits: &Limits) -> Judgement {
    let (stop, mend, watch) = (
        limits.bound(limits::EMBEDMENT_STOP),
        limits.bound(limits::EMBEDMENT_MEND),
        limits.bound(limits::EMBEDMENT_WATCH),
    );
    if !seat.reaches() {
        return Judgement {
            verdict: Verdict::Stop,
            bound: stop,
        };
    }
    let under = |bound: Bound| seat.embedment() < asked.part(bound.share());
    judge(
        [
            (Verdict::Stop, stop, zone.is_wet() && under(stop)),
            (Verdict::Mend, mend, under(mend)),
            (Verdict::Watch, watch, under(watch)),
        ],
        watch,
    )
}

/// Embedment as a share of the rule's own, where the member is too shallow for that: under a half
/// to be mended (another way of fastening is wanted), under 0.9 to be watched. `None` where the
/// member has room for the rule's screw, or its depth is not known. A choice, no source.
pub fn shallow_member(seat: &Seat, rule_length: Length, limits: &Limits) -> Option<Judgement> {
    let (mend, watch) = (
        limits.bound(limits::EMBEDMENT_STOP),
        limits.bound(limits::EMBEDMENT_WATCH),
    );
    let by_rule = rule_length + seat.head_depth - seat.plank;
    if asked_embedment(rule_length, seat, limits) == by_rule {
        return None;
    }
    let under = |bound: Bound| seat.embedment() < by_rule.part(bound.share());
    Some(judge(
        [
            (Verdict::Mend, mend, under(mend)),
            (Verdict::Watch, watch, under(watch)),
        ],
        watch,
    ))
}

/// Wood of the member beyond the point: none is to be mended, under 1/8 in to be watched.
pub fn point(cover: Length, limits: &Limits) -> Judgement {
    let bound = limits.bound(limits::POINT_MARGIN);
    judge(
        [
            (Verdict::Mend, bound, cover < Length::ZERO),
            (Verdict::Watch, bound, cover < bound.length()),
        ],
        bound,
    )
}

/// Wood of the plank below a head: under a quarter of the plank is to be mended, under 0.4 to be
/// watched.
pub fn under_head(wood: Length, plank: Length, limits: &Limits) -> Judgement {
    let (mend, watch) = (
        limits.bound(limits::UNDER_HEAD_MEND),
        limits.bound(limits::UNDER_HEAD_WATCH),
    );
    let under = |bound: Bound| wood < plank.part(bound.share());
    judge(
        [
            (Verdict::Mend, mend, under(mend)),
            (Verdict::Watch, watch, under(watch)),
        ],
        watch,
    )
}

/// Thread in the plank: over a third of the wood under the head is to be watched, since it keeps
/// the screw from drawing the plank home.
pub fn thread_in_plank(seat: &Seat, limits: &Limits) -> Judgement {
    let bound = limits.bound(limits::THREAD_IN_PLANK);
    let over = seat.thread_in_plank() > seat.wood_under_head().part(bound.share());
    judge([(Verdict::Watch, bound, over)], bound)
}

/// Gauges over (or, below nought, under) the rule's: two under or three over to be watched.
pub fn gauges_off(off: i64, limits: &Limits) -> Judgement {
    let (under, over) = (
        limits.bound(limits::GAUGES_UNDER),
        limits.bound(limits::GAUGES_OVER),
    );
    judge(
        [
            (Verdict::Watch, under, -off >= under.gauges()),
            (Verdict::Watch, over, off >= over.gauges()),
        ],
        if off < 0 { under } else { over },
    )
}

/// A bung over a head: under the smallest head the standard allows is to be mended, under the
/// largest by more than 1/64 in to be watched.
pub fn bung_diameter(bung: Length, head: &Head, limits: &Limits) -> Judgement {
    let bound = limits.bound(limits::BUNG_UNDER_HEAD);
    let under_smallest = head.smallest.is_some_and(|smallest| bung < smallest);
    judge(
        [
            (Verdict::Mend, bound, under_smallest),
            (Verdict::Watch, bound, head.largest - bung > bound.length()),
        ],
        bound,
    )
}

/// A bung's depth: under 1/8 in to be watched.
pub fn bung_shallow(depth: Length, limits: &Limits) -> Judgement {
    let bound = limits.bound(limits::BUNG_LEAST);
    judge([(Verdict::Watch, bound, depth < bound.length())], bound)
}

/// A bung's depth: over a third of the plank to be watched.
pub fn bung_deep(depth: Length, plank: Length, limits: &Limits) -> Judgement {
    let bound = limits.bound(limits::BUNG_MOST);
    judge(
        [(Verdict::Watch, bound, depth > plank.part(bound.share()))],
        bound,
    )
}

/// Least embedment of a wood screw in the building standard, 6 *D* with the point. Every planking
/// screw of the Herreshoff table is under it and holds, so it is told and never held against one.
pub fn standard_embedment(shank: Length, limits: &Limits) -> Length {
    shank.part(limits.bound(limits::SIX_DIAMETERS).diameters())
}

/// Whether a metal loses its zinc where salt water wets it: to be mended where it is relied on.
pub fn brass_in_salt(metal: &Metal, zone: Zone, salt: bool, relied_on: bool) -> Verdict {
    graded(metal.dealloys && zone.is_wet() && salt, relied_on)
}

/// Stainless steel shut off from oxygen under water: to be mended where it is relied on.
pub fn stainless_underwater(metal: &Metal, zone: Zone, relied_on: bool) -> Verdict {
    let stainless = metal.family == Family::Stainless;
    graded(stainless && zone == Zone::Underwater, relied_on)
}

/// Steel supplied without zinc: to be mended where it is wet and relied on, else to be watched.
/// Wrought iron is not steel.
pub fn bare_steel(metal: &Metal, zone: Zone, relied_on: bool) -> Verdict {
    let bare = metal.family == Family::Steel && metal.coating.is_none();
    graded(bare, relied_on && zone.is_wet())
}

/// What is left of a measured fastening: by the share of its section that has gone, and of its
/// diameter. `counts` where it is wet and relied on, so that it can stop a relaunch.
pub fn wasted(left: Left, counts: bool, limits: &Limits) -> Judgement {
    let stop = limits.bound(limits::SECTION_STOP);
    let mend = limits.bound(limits::SECTION_MEND);
    let watch = limits.bound(limits::DIAMETER_WATCH);
    let section = 1.0 - left.share(Duty::Section);
    let lost = |lost: f64, bound: Bound| lost + ROUNDING >= bound.share();
    judge(
        [
            (Verdict::Stop, stop, counts && lost(section, stop)),
            (Verdict::Mend, mend, lost(section, mend)),
            (Verdict::Watch, watch, lost(1.0 - left.diameter(), watch)),
        ],
        watch,
    )
}

/// What a share may be short of its limit by the rounding of the arithmetic alone.
const ROUNDING: f64 = 1e-9;

fn graded(is_so: bool, grave: bool) -> Verdict {
    match (is_so, grave) {
        (false, _) => Verdict::Ok,
        (true, false) => Verdict::Watch,
        (true, true) => Verdict::Mend,
    }
}

#[cfg(test)]
mod tests;
