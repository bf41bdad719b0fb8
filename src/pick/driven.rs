//! The answer for every kind but wood screws: nails, rivets, bolts, drifts, trunnels, lag screws.
//!
//! No published table gives their size by the plank, so the size is asked for; the length is worked
//! out where practice says how.

use super::alternatives::{Alternative, Way, fits};
use super::answer::{label, sideways};
use super::check::bung_depth;
use super::driven_length::{down, step, up, worked_length};
use super::{Answer, Ask, Check, Refusal, Spread, setting, words};
use crate::joint::{
    Borer, Bung, Dowel, Hold, Kind, Lateral, Plug, Seat, Size, Verdict, hold_kind, judge,
};
use crate::tables::{Family, Table, penny};
use crate::text::Misread;
use crate::units::Length;

/// A fastening set in the plank and member of a question.
struct Driven {
    size: Size,
    diameter: Length,
    seat: Seat,
    plug: Plug,
}

/// Answers for a kind that is no wood screw.
pub(super) fn answer(ask: &Ask) -> Result<Answer, Refusal> {
    let (size, diameter) = sized(ask)?;
    let (length, why) = match ask.fixed.length {
        Some(length) => (length, None),
        None => worked_length(ask, diameter)?,
    };
    let driven = Driven::new(ask, size.with_length(length), diameter);
    let checks = driven.checks(ask);
    let alternatives = around(ask, &driven);
    let mut remarks = Vec::new();
    if !fits(&checks) {
        remarks.push(words::misfit(&checks, &alternatives));
    }
    remarks.extend(why);
    remarks.extend(afterwards(ask));
    let stock = stock(ask, driven.size, diameter);
    if stock.is_none() && ask.kind != Kind::Trunnel {
        remarks.push(format!(
            "no list of what {}s are made in is on record here: ask for the next longer",
            ask.kind
        ));
    }
    if ask.member.is_none() && !ask.kind.goes_through() {
        remarks.push(format!(
            "the {0}'s depth is not known: measure it, so that the point does not come through",
            ask.on
        ));
    }
    let borer = Borer {
        kind: ask.kind,
        size: driven.size,
        diameter,
        metal: ask.metal,
        member: ask.member_wood,
        drills: &ask.drills,
    };
    let holes = borer.holes(&driven.seat, &driven.plug);
    let hold = driven.hold(ask);
    let lateral = match ask.kind {
        Kind::Trunnel => {
            Lateral::none("a trunnel is of wood: no sideways strength is published here")
        }
        kind => sideways(ask, diameter, &driven.seat, |stress| {
            Dowel::other(kind, diameter, stress)
        }),
    };
    let mut all = checks;
    all.extend(setting::checks(ask, diameter, &driven.seat));
    let mut sources: Vec<String> = holes
        .choices
        .iter()
        .map(|choice| format!("hole: {choice}"))
        .collect();
    sources.extend(words::strength_sources(
        ask, ask.kind, diameter, &hold, &lateral,
    ));
    Ok(Answer {
        size: driven.size,
        label: label(driven.size, ask.units),
        diameter,
        spread: Spread::of(ask, diameter),
        seat: driven.seat,
        stock,
        plug: driven.plug,
        holes,
        hold,
        lateral,
        checks: all,
        alternatives,
        remarks,
        sources,
    })
}

/// The size that was given, and its diameter.
fn sized(ask: &Ask) -> Result<(Size, Length), Refusal> {
    let refuse = |says: String, help: String| Refusal {
        option: "size",
        misread: Misread::new(says).help(help),
    };
    let Some(size) = ask.fixed.size else {
        return Err(refuse(
            format!("no table gives the size of {} by the plank", ask.kind.one()),
            format!(
                "give it in quotes, with a length or without: {}{}",
                ask.kind.size_form(),
                usual_rivets(ask.kind)
            ),
        ));
    };
    match size.diameter() {
        Some(diameter) => Ok((size, diameter)),
        None => Err(refuse(
            "no table here has this wire".to_owned(),
            "see `refasten tables wire-gauges`, or give its diameter: 0.144in".to_owned(),
        )),
    }
}

/// What the table of rivets says, as it stands there.
fn usual_rivets(kind: Kind) -> String {
    if kind != Kind::Rivet {
        return String::new();
    }
    let table = Table::find("rivets").ok();
    let rows = table.map_or(&[][..], |table| table.rows).iter();
    let rows: Vec<String> = rows
        .map(|row| row.iter().map(|cell| cell.text).collect::<Vec<_>>())
        .map(|cells| format!("{} SWG", cells.join(": ")))
        .collect();
    format!(
        "; common practice for planking of {} (no source)",
        rows.join(", ")
    )
}

/// What to do with the far end.
fn afterwards(ask: &Ask) -> Option<String> {
    let says = match ask.kind {
        Kind::Rivet => {
            "drive the rove on, which is slightly undersize, snip 1/8 in past it and head the nail over: a boat-repair site and Amateur Work vol. 6 (read)"
        }
        Kind::ClenchedNail => {
            "turn the point back across the frame's grain: common practice, no source"
        }
        Kind::Bolt => "counterbore by the washer under the head: common practice, no source",
        _ => return None,
    };
    Some(says.to_owned())
}

/// Whether it is made in that length: steel wire nails by the penny, nothing else is listed.
fn stock(ask: &Ask, size: Size, diameter: Length) -> Option<bool> {
    let steel = ask.metal.is_some_and(|metal| metal.family == Family::Steel);
    let wire = matches!(ask.kind, Kind::AnnularNail | Kind::ClenchedNail);
    (steel && wire && penny(diameter, size.length()).is_some()).then_some(true)
}

/// A step shorter and a step longer, and where neither fits, the length that practice asks for.
fn around(ask: &Ask, driven: &Driven) -> Vec<Alternative> {
    let step = step(ask.units);
    let length = driven.size.length();
    let shorter = up(length - step, step).min(length - Length::from_nm(1));
    let longer = down(length + step, step);
    let other = |way, length: Length| {
        let size = driven.size.with_length(length);
        let other = Driven::new(ask, size, driven.diameter);
        let checks = other.checks(ask).into_iter();
        Alternative {
            way,
            size,
            label: label(size, ask.units),
            stock: stock(ask, size, driven.diameter),
            embedment: other.seat.embedment(),
            design: other.hold(ask).design,
            fails: checks.filter(|check| check.verdict > Verdict::Ok).collect(),
        }
    };
    let mut found: Vec<Alternative> = [(Way::Shorter, shorter), (Way::Longer, longer)]
        .into_iter()
        .filter(|(_, length)| *length > driven.diameter)
        .map(|(way, length)| other(way, length))
        .collect();
    if !fits(&driven.checks(ask))
        && !found.iter().any(Alternative::fits)
        && let Ok((worked, _)) = worked_length(ask, driven.diameter)
    {
        let further = other(Way::Further, worked);
        found.extend(further.fits().then_some(further));
    }
    found
}

impl Driven {
    fn new(ask: &Ask, size: Size, diameter: Length) -> Self {
        let head_depth = ask.head_depth();
        let plug = match ask.fixed.bung {
            _ if !ask.is_bunged() && head_depth > Length::ZERO => Plug::Stopping,
            _ if !ask.is_bunged() => Plug::None,
            Some(diameter) => Plug::Bung(Bung {
                diameter,
                depth: Some(head_depth),
            }),
            None => Plug::Unknown,
        };
        Self {
            size,
            diameter,
            seat: Seat {
                plank: ask.plank,
                head_depth,
                length: size.length(),
                member: ask.member,
                head_height: None,
                thread: Length::ZERO,
            },
            plug,
        }
    }

    fn hold(&self, ask: &Ask) -> Hold {
        let (wood, grain) = (ask.member_wood, ask.grain);
        hold_kind(
            ask.kind,
            self.diameter,
            ask.metal,
            &self.seat,
            wood,
            grain,
            ask.zone,
        )
    }

    /// What it is weighed by: everything that another length might do better.
    fn checks(&self, ask: &Ask) -> Vec<Check> {
        let mut checks = vec![self.reach(ask)];
        let (seat, limits) = (&self.seat, &ask.limits);
        let shown = |length: Length| length.shown(ask.units);
        if let (Some(cover), false) = (seat.point_cover(), ask.kind.goes_through()) {
            let says = match cover < Length::ZERO {
                true => format!("the point comes {} through the {}", shown(-cover), ask.on),
                false => format!("{} of {} beyond the point", shown(cover), ask.on),
            };
            checks.push(Check::by(
                "point-through",
                judge::point(cover, limits),
                says,
            ));
        }
        if ask.kind != Kind::Trunnel {
            let wood = seat.wood_under_head();
            checks.push(Check::by(
                "thin-under-head",
                judge::under_head(wood, seat.plank, limits),
                format!("at most {} of plank under the head", shown(wood)),
            ));
        }
        if let Plug::Bung(Bung {
            diameter,
            depth: Some(depth),
        }) = self.plug
        {
            let verdict = match diameter < self.diameter {
                true => Verdict::Mend,
                false => Verdict::Ok,
            };
            checks.push(Check {
                check: "bung-small",
                verdict,
                says: format!(
                    "{} bung over a shank of {}; no head is published",
                    shown(diameter),
                    shown(self.diameter)
                ),
                limit: None,
                basis: "no fastening goes into a hole narrower than its shank".to_owned(),
            });
            checks.extend(bung_depth(ask, depth, limits));
        }
        checks
    }

    /// Does it reach far enough? What holds by its ends comes through.
    fn reach(&self, ask: &Ask) -> Check {
        let (seat, limits) = (&self.seat, &ask.limits);
        let shown = |length: Length| length.shown(ask.units);
        if ask.kind.holds_by_its_ends() {
            let out = judge::stands_out(seat);
            let (verdict, says) = match out {
                Some(out) if out <= Length::ZERO => (
                    Verdict::Stop,
                    format!("does not come through the {}", ask.on),
                ),
                Some(out) => (
                    Verdict::Ok,
                    format!("stands out {} on the far side", shown(out)),
                ),
                None => (
                    Verdict::Watch,
                    format!(
                        "the {}'s depth is not known: measure it, it must come through",
                        ask.on
                    ),
                ),
            };
            return Check {
                check: "short-embedment",
                verdict,
                says,
                limit: None,
                basis: "it holds by its two ends".to_owned(),
            };
        }
        let asked = judge::asked_of_kind(ask.kind, Some(self.diameter), seat, limits);
        let embedment = seat.embedment();
        let says = match asked {
            _ if !seat.reaches() => format!("does not reach the {}", ask.on),
            Some((asked, bound)) => format!(
                "{} in the {}, {} asked for ({}: {})",
                shown(embedment),
                ask.on,
                shown(asked),
                bound.limit.name,
                bound.basis()
            ),
            None => format!(
                "{} in the {}; no rule asks for a figure",
                shown(embedment),
                ask.on
            ),
        };
        let asked = asked.map_or(Length::ZERO, |(asked, _)| asked);
        Check::by(
            "short-embedment",
            judge::embedment_of_kind(seat, asked, ask.zone, limits),
            says,
        )
    }
}
