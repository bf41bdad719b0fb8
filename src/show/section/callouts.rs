//! What a drawing says of its parts: bung, head, shank, thread, holes and woods.

use super::body::Body;
use super::lie::{Lie, bored, is_tapered, lie};
use crate::joint::{Bit, Hole, Kind, Plug, Size, Verdict};
use crate::pick::{Answer, Ask};
use crate::show::pick::{stop, tool};
use crate::units::{Length, Units};

/// One part of the drawing and what is said of it.
#[derive(Debug)]
pub(super) struct Callout {
    /// The part.
    pub(super) key: &'static str,
    /// What it is called.
    pub(super) name: String,
    /// What else is said of it.
    pub(super) says: String,
    /// Where it is: a depth in millimetres.
    pub(super) at: f64,
    /// And how far from the axis, in millimetres; [`EDGE`] for the woods.
    pub(super) out: f64,
    /// Its figures, each by the attribute it is given in.
    pub(super) figures: Vec<(&'static str, Length)>,
    /// What is held against it, and by which check.
    pub(super) held: Option<(Verdict, &'static str)>,
}

/// As far from the axis as the wood is drawn.
pub(super) const EDGE: f64 = f64::INFINITY;

/// Everything there is to say, from the plank's face inward.
pub(super) fn callouts(ask: &Ask, answer: &Answer, body: &Body) -> Vec<Callout> {
    let speaker = Speaker { ask, answer, body };
    let mut all: Vec<Callout> = [
        speaker.plug(),
        speaker.head(),
        speaker.plank(),
        Some(speaker.shank()),
        speaker.thread(),
        speaker.far_end(),
        Some(speaker.member()),
    ]
    .into_iter()
    .flatten()
    .chain(speaker.holes())
    .collect();
    all.sort_by(|a, b| a.at.total_cmp(&b.at));
    all
}

struct Speaker<'a> {
    ask: &'a Ask,
    answer: &'a Answer,
    body: &'a Body,
}

impl Speaker<'_> {
    fn shown(&self, length: Length) -> String {
        length.shown(self.ask.units)
    }

    fn plug(&self) -> Option<Callout> {
        let depth = self.answer.seat.head_depth;
        let shown = self.shown(depth);
        let (name, says, wide, figures) = match self.answer.plug {
            Plug::Bung(bung) => (
                format!("bung {}", self.shown(bung.diameter)),
                format!("{shown} deep, its grain with the plank's"),
                bung.diameter.mm(),
                vec![("data-diameter-mm", bung.diameter)],
            ),
            Plug::Unknown => (
                "bung".to_owned(),
                format!("{shown} deep; no head is published to size it by"),
                self.answer.diameter.mm(),
                Vec::new(),
            ),
            Plug::Stopping => (
                "stopping".to_owned(),
                format!("{shown} over the head"),
                self.answer.diameter.mm(),
                Vec::new(),
            ),
            Plug::None => return None,
        };
        Some(Callout {
            key: "bung",
            name,
            says,
            at: depth.mm() * 0.35,
            out: wide * 0.25,
            figures,
            held: self.held(&["bung-small"]),
        })
    }

    fn head(&self) -> Option<Callout> {
        let (name, says, figures) = match (self.ask.kind, self.answer.size) {
            (Kind::WoodScrew, Size::Screw { screw, .. }) => match &screw.head {
                Some(head) => (
                    "flat head",
                    format!("up to {} across", self.shown(head.largest)),
                    vec![("data-largest-mm", head.largest)],
                ),
                None => (
                    "head",
                    "no size of it is published: measure it".to_owned(),
                    Vec::new(),
                ),
            },
            (Kind::Trunnel, _) => (
                "wedge",
                "across the plank's grain (common practice)".to_owned(),
                Vec::new(),
            ),
            _ => return None,
        };
        let (head, diameter) = (self.answer.seat.head_depth.mm(), self.answer.diameter.mm());
        let out = self.body.shaft.first().map_or(0.0, |[_, out]| out * 0.6);
        let (down, out) = match self.ask.kind {
            Kind::Trunnel => (diameter * 0.15, 0.0),
            _ => ((self.body.neck(diameter / 2.0) - head) * 0.3, out),
        };
        Some(Callout {
            key: "head",
            name: name.to_owned(),
            says,
            at: head + down,
            out,
            figures,
            held: None,
        })
    }

    fn plank(&self) -> Option<Callout> {
        let seat = &self.answer.seat;
        let wood = match self.ask.plank_wood {
            Some(wood) => format!("{}; grain along it", wood.name()),
            None => "wood not known; grain along it".to_owned(),
        };
        Some(Callout {
            key: "plank",
            name: "plank".to_owned(),
            says: wood,
            at: (seat.head_depth + seat.plank).mm() / 2.0,
            out: EDGE,
            figures: Vec::new(),
            held: None,
        })
    }

    fn member(&self) -> Callout {
        let (ask, seat) = (self.ask, &self.answer.seat);
        let (wood, far) = (ask.member_wood, seat.member.map(|depth| seat.plank + depth));
        let mut says = match wood {
            Some(wood) => format!("{}; ", wood.name()),
            None => "wood not known; ".to_owned(),
        };
        says.push_str(match lie(ask) {
            Lie::Across => "side grain, towards you",
            Lie::Along => "side grain, along the plank",
            Lie::Endwise => "end grain, along the fastening",
        });
        if far.is_none() {
            says.push_str("; depth not known: measure it");
        }
        let back = seat.plank.mm();
        let deepest = far.map_or(self.body.deepest() + 2.0, Length::mm);
        Callout {
            key: "member",
            name: ask.on.to_owned(),
            says,
            at: back + (deepest - back) * 0.85,
            out: EDGE,
            figures: Vec::new(),
            held: self.held(&["end-grain"]),
        }
    }

    fn shank(&self) -> Callout {
        let diameter = self.answer.diameter;
        let neck = self.body.neck(diameter.mm() / 2.0);
        let ends = match &self.body.thread {
            Some(thread) => thread.from,
            None => self.answer.seat.plank.mm().max(neck),
        };
        Callout {
            key: "shank",
            name: match self.ask.kind {
                Kind::Trunnel => format!("pin {}", self.shown(diameter)),
                Kind::BoatNail => format!("shank {} square", self.shown(diameter)),
                _ => format!("shank {}", self.shown(diameter)),
            },
            says: String::new(),
            at: neck + (ends - neck) * 0.3,
            out: diameter.mm() * 0.3,
            figures: vec![("data-diameter-mm", diameter)],
            held: self.held(&["gauge-off-rule"]),
        }
    }

    fn thread(&self) -> Option<Callout> {
        let thread = self.body.thread.as_ref()?;
        let seat = &self.answer.seat;
        let (name, says, figures) = match (self.ask.kind, self.answer.size) {
            (Kind::WoodScrew, Size::Screw { screw, .. }) => {
                let (inside, plank) = (seat.thread_in_member(), seat.thread_in_plank());
                let mut says = format!(
                    "root {}; {} of it in the {}",
                    self.shown(screw.root),
                    self.shown(inside),
                    self.ask.on
                );
                if plank > Length::ZERO {
                    says.push_str(&format!(", {} in the plank", self.shown(plank)));
                }
                (
                    format!("thread {}", self.shown(seat.thread)),
                    says,
                    vec![
                        ("data-root-mm", screw.root),
                        ("data-in-frame-mm", inside),
                        ("data-in-plank-mm", plank),
                    ],
                )
            }
            (Kind::AnnularNail, _) => ("rings".to_owned(), String::new(), Vec::new()),
            _ => ("thread".to_owned(), String::new(), Vec::new()),
        };
        Some(Callout {
            key: "thread",
            name,
            says,
            at: thread.from + (thread.to - thread.from) * 0.45,
            out: thread.crest * 0.8,
            figures,
            held: self.held(&["thread-in-plank"]),
        })
    }

    /// What is done at the far end of a fastening that comes through.
    fn far_end(&self) -> Option<Callout> {
        let seat = &self.answer.seat;
        let far = seat.plank + seat.member?;
        let (name, says) = match self.ask.kind {
            Kind::Rivet => ("rove", "driven on, the nail cut and headed over it"),
            Kind::Bolt => ("nut", "on a washer"),
            Kind::ClenchedNail => ("point", "turned back across the grain"),
            Kind::Trunnel => ("wedge", "and cut off flush"),
            _ => return None,
        };
        let is_out = seat.point() > far || self.ask.kind == Kind::Trunnel && seat.point() == far;
        let inward = match self.ask.kind {
            Kind::Trunnel => -self.answer.diameter.mm() * 0.15,
            _ => self.answer.diameter.mm() * 0.4,
        };
        is_out.then(|| Callout {
            key: "far_end",
            name: name.to_owned(),
            says: says.to_owned(),
            at: far.mm() + inward,
            out: match self.ask.kind {
                Kind::Trunnel => 0.0,
                _ => self.answer.diameter.mm() * 0.4,
            },
            figures: Vec::new(),
            held: None,
        })
    }

    fn holes(&self) -> impl Iterator<Item = Callout> {
        let (holes, seat) = (&self.answer.holes, &self.answer.seat);
        let is_tapered = is_tapered(self.answer);
        let through = match self.ask.kind {
            _ if is_tapered => "shank and pilot hole",
            Kind::BoatNail => "hole in the plank",
            Kind::Bolt | Kind::Trunnel => "hole right through",
            _ => "shank hole",
        };
        let above = holes
            .shank
            .map_or(seat.head_depth, |shank| shank.depth)
            .mm();
        let neck = self.body.neck(self.answer.diameter.mm() / 2.0);
        let pilot = holes.pilot.filter(|_| !is_tapered);
        [
            ("counterbore", "counterbore", holes.counterbore, 0.0, 0.75),
            ("shank_hole", through, holes.shank, neck, 0.75),
            (
                "pilot_hole",
                "pilot hole",
                pilot,
                above.min(seat.point().mm()),
                0.85,
            ),
        ]
        .into_iter()
        .filter_map(|(key, name, hole, from, share)| {
            let hole = hole?;
            let mut figures = vec![("data-exact-mm", hole.exact), ("data-depth-mm", hole.depth)];
            figures.extend(
                hole.bit
                    .and_then(Bit::diameter)
                    .map(|bit| ("data-bit-mm", bit)),
            );
            Some(Callout {
                key,
                name: name.to_owned(),
                says: self.bored(hole),
                at: from + (hole.depth.mm() - from) * share,
                out: bored(hole).mm() / 2.0,
                figures,
                held: None,
            })
        })
    }

    /// What to bore it with, and where to stop.
    fn bored(&self, hole: Hole) -> String {
        let unit = match self.ask.units {
            Units::Inch => "in",
            Units::Metric => "mm",
        };
        let with = match hole.bit {
            Some(bit) => tool(bit, self.ask.units),
            None => format!("no drill in these sets for {}", self.shown(hole.exact)),
        };
        format!(
            "{with}, stop at {} {unit}",
            stop(hole.depth, self.ask.units)
        )
    }

    fn held(&self, by: &[&str]) -> Option<(Verdict, &'static str)> {
        let checks = self.answer.checks.iter();
        let held = checks.filter(|check| by.contains(&check.check) && check.verdict > Verdict::Ok);
        held.map(|check| (check.verdict, check.check))
            .max_by_key(|(verdict, _)| *verdict)
    }
}
