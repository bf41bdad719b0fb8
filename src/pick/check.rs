//! One answer weighed check by check.

use super::{Ask, Wanted};
use crate::joint::{Judgement, Limits, Plug, Seat, Verdict, judge};
use crate::tables::Screw;
use crate::units::Length;

/// One thing that was looked at, and what is to be said of it.
#[derive(Clone, Debug)]
pub struct Check {
    /// Its name, as the audit calls the same thing.
    pub check: &'static str,
    /// What is to be said.
    pub verdict: Verdict,
    /// In words.
    pub says: String,
    /// The limit that judged, as it is printed; none where no number judges.
    pub limit: Option<String>,
    /// What the limit rests on.
    pub basis: String,
}

impl Check {
    pub(super) fn by(check: &'static str, judged: Judgement, says: String) -> Self {
        Self {
            check,
            verdict: judged.verdict,
            says,
            limit: Some(judged.bound.is.to_string()),
            basis: judged.bound.basis(),
        }
    }
}

/// What a screw in its seat is weighed by: everything that another screw might do better.
pub(super) fn of_screw(
    ask: &Ask,
    wanted: Option<&Wanted>,
    screw: &Screw,
    seat: &Seat,
    plug: &Plug,
) -> Vec<Check> {
    let limits = &ask.limits;
    let mut checks = Vec::new();
    reach(ask, wanted, seat, limits, &mut checks);
    under_head(ask, seat, limits, &mut checks);
    if let Some(wanted) = wanted {
        let off = screw.sizes_above(wanted.screw);
        let says = match off {
            0 => format!("{} is the rule's gauge", screw.name()),
            off => format!(
                "{} is {} {} the rule's {}",
                screw.name(),
                sizes(off.abs()),
                if off < 0 { "under" } else { "over" },
                wanted.screw.name()
            ),
        };
        checks.push(Check::by(
            "gauge-off-rule",
            judge::gauges_off(off, limits),
            says,
        ));
    }
    bung(ask, screw, plug, limits, &mut checks);
    checks
}

fn sizes(n: i64) -> String {
    match n {
        1 => "1 size".to_owned(),
        n => format!("{n} sizes"),
    }
}

/// Does it reach far enough, and not too far?
fn reach(
    ask: &Ask,
    wanted: Option<&Wanted>,
    seat: &Seat,
    limits: &Limits,
    checks: &mut Vec<Check>,
) {
    let shown = |length: Length| length.shown(ask.units);
    let embedment = seat.embedment();
    let asked = match wanted {
        Some(wanted) => judge::asked_embedment(wanted.length, seat, limits),
        None => Length::ZERO,
    };
    let says = if !seat.reaches() {
        format!("does not reach the {}", ask.on)
    } else if asked > Length::ZERO {
        format!(
            "{} in the {}, {:.0} % of the {} asked for",
            shown(embedment),
            ask.on,
            100.0 * embedment.over(asked),
            shown(asked)
        )
    } else {
        format!(
            "{} in the {}; no rule asks for a figure",
            shown(embedment),
            ask.on
        )
    };
    let judged = judge::embedment(seat, asked, ask.zone, limits);
    checks.push(Check::by("short-embedment", judged, says));
    if let Some(wanted) = wanted
        && let Some(judged) = judge::shallow_member(seat, wanted.length, limits)
    {
        let by_rule = wanted.length + seat.head_depth - seat.plank;
        let says = format!(
            "the {} has no room for the rule's {}: this has {:.0} % of it",
            ask.on,
            shown(by_rule),
            100.0 * embedment.max(Length::ZERO).over(by_rule)
        );
        checks.push(Check::by("frame-shallow", judged, says));
    }
    if let Some(cover) = seat.point_cover() {
        let says = if cover < Length::ZERO {
            format!("the point comes {} through the {}", shown(-cover), ask.on)
        } else {
            format!("{} of {} beyond the point", shown(cover), ask.on)
        };
        checks.push(Check::by(
            "point-through",
            judge::point(cover, limits),
            says,
        ));
    }
}

/// Is there wood enough under the head, and is it free of thread?
fn under_head(ask: &Ask, seat: &Seat, limits: &Limits, checks: &mut Vec<Check>) {
    let shown = |length: Length| length.shown(ask.units);
    if let Some(wood) = seat.wood_below_cone() {
        let says = if wood > Length::ZERO {
            format!("{} of plank below the head's cone", shown(wood))
        } else {
            "no plank left below the head's cone".to_owned()
        };
        checks.push(Check::by(
            "thin-under-head",
            judge::under_head(wood, seat.plank, limits),
            says,
        ));
    }
    let judged = judge::thread_in_plank(seat, limits);
    let cure = match judged.verdict {
        Verdict::Ok => "",
        _ => "; the shank hole right through the plank cures it",
    };
    checks.push(Check::by(
        "thread-in-plank",
        judged,
        format!(
            "{} of thread in the plank{cure}",
            shown(seat.thread_in_plank())
        ),
    ));
}

/// Does the bung cover the head, deep enough and not too deep?
fn bung(ask: &Ask, screw: &Screw, plug: &Plug, limits: &Limits, checks: &mut Vec<Check>) {
    let Plug::Bung(bung) = plug else { return };
    let shown = |length: Length| length.shown(ask.units);
    if let Some(head) = &screw.head {
        let judged = judge::bung_diameter(bung.diameter, head, limits);
        let cure = match judged.verdict {
            Verdict::Ok => "",
            Verdict::Watch => "; try one screw in its hole first",
            Verdict::Mend | Verdict::Stop => "; the head does not go into the hole",
        };
        checks.push(Check::by(
            "bung-small",
            judged,
            format!(
                "{} bung over a head of up to {}{cure}",
                shown(bung.diameter),
                shown(head.largest)
            ),
        ));
    }
    if let Some(depth) = bung.depth {
        checks.extend(bung_depth(ask, depth, limits));
    }
}

/// Is the bung deep enough, and not too deep?
pub(super) fn bung_depth(ask: &Ask, depth: Length, limits: &Limits) -> [Check; 2] {
    let says = format!("bung {} deep", depth.shown(ask.units));
    let shallow = judge::bung_shallow(depth, limits);
    let deep = judge::bung_deep(depth, ask.plank, limits);
    [
        Check::by("bung-shallow", shallow, says.clone()),
        Check::by("bung-deep", deep, says),
    ]
}
