//! The shape of a fastening in its seat, in millimetres: depths below the plank's face, radii from
//! its axis. Diameters and lengths are the answer's; heads, nuts and roves whose sizes are not
//! published here are drawn by proportion, and [`Body::by_proportion`] says so.

use crate::joint::{Kind, Seat, Size};
use crate::pick::{Answer, Ask};
use crate::tables::{Screw, lag_root};
use crate::units::Length;

/// A depth and a radius.
pub(super) type Point = [f64; 2];

/// A fastening's shape.
#[derive(Debug, Default)]
pub(super) struct Body {
    /// Half its outline, from the head inward; the other half mirrors it.
    pub(super) shaft: Vec<Point>,
    /// Its thread or rings.
    pub(super) thread: Option<Thread>,
    /// Half outlines of what sits on the far end: washer and nut, rove and formed head.
    pub(super) ends: Vec<Vec<Point>>,
    /// The middle line of a point that was turned back, as depths and distances from the axis.
    pub(super) turned: Vec<Point>,
    /// Wedges of a trunnel: from which depth to which.
    pub(super) wedges: Vec<Point>,
    /// What is cut off once it is in: from which depth to which.
    pub(super) cut_off: Option<Point>,
    /// What was drawn by proportion, in words; nothing where all of it has a size.
    pub(super) by_proportion: &'static str,
}

/// A thread, or the rings of a nail.
#[derive(Debug)]
pub(super) struct Thread {
    pub(super) from: f64,
    pub(super) to: f64,
    /// Radius over the crests.
    pub(super) crest: f64,
    /// Radius at the root.
    pub(super) root: f64,
    /// From crest to crest.
    pub(super) pitch: f64,
    /// How much of its end runs out to a point.
    pub(super) tip: f64,
    /// Whether it climbs, as a thread does and rings do not.
    pub(super) climbs: bool,
}

/// The shape of the answer's fastening.
pub(super) fn body(ask: &Ask, answer: &Answer) -> Body {
    let seat = &answer.seat;
    let rod = Rod {
        radius: answer.diameter.mm() / 2.0,
        head: seat.head_depth.mm(),
        point: seat.point().mm(),
        far: seat.member.map(|member| (seat.plank + member).mm()),
    };
    match (ask.kind, answer.size) {
        (Kind::WoodScrew, Size::Screw { screw, .. }) => rod.wood_screw(screw, seat),
        (Kind::WoodScrew, _) => rod.drift(),
        (Kind::LagScrew, _) => rod.lag_screw(seat, answer.diameter),
        (Kind::BoatNail, _) => rod.boat_nail(),
        (Kind::AnnularNail, _) => rod.annular_nail(),
        (Kind::ClenchedNail, _) => rod.clenched_nail(),
        (Kind::Rivet, _) => rod.rivet(),
        (Kind::Bolt, _) => rod.bolt(),
        (Kind::Drift, _) => rod.drift(),
        (Kind::Trunnel, _) => rod.trunnel(),
    }
}

/// What every fastening has: a radius, and where its head, its point and the far face are.
struct Rod {
    radius: f64,
    head: f64,
    point: f64,
    far: Option<f64>,
}

impl Rod {
    /// How far it stands out on the far side, where it does.
    fn out(&self) -> Option<(f64, f64)> {
        let far = self.far?;
        (self.point > far).then_some((far, self.point - far))
    }

    /// A head in proportion to the shank, each step a depth and a radius in shanks' radii.
    fn headed(&self, steps: &[Point]) -> Vec<Point> {
        let steps = steps.iter();
        steps
            .map(|[down, out]| [self.head + down * self.radius, out * self.radius])
            .collect()
    }

    fn wood_screw(&self, screw: &Screw, seat: &Seat) -> Body {
        let mut shaft = Vec::new();
        let mut neck = self.head;
        if let Some(head) = &screw.head {
            let out = head.largest.mm() / 2.0;
            // A cone of 90 degrees where no height is published.
            neck += head.height.map_or((out - self.radius).max(0.0), Length::mm);
            shaft.push([self.head, out]);
        }
        let from = seat.thread_begins().mm().clamp(neck, self.point.max(neck));
        shaft.extend([[neck, self.radius], [from, self.radius]]);
        let inch = Length::from_64ths(64).mm();
        let threads = screw.threads_per_inch.map(|count| inch / f64::from(count));
        let pitch = screw.pitch.map(Length::mm).or(threads);
        Body {
            shaft,
            thread: Some(Thread {
                from,
                to: self.point,
                crest: self.radius,
                root: screw.root.mm() / 2.0,
                pitch: pitch.unwrap_or(self.radius * 0.8),
                tip: (4.0 * self.radius).min((self.point - from) / 2.0),
                climbs: true,
            }),
            by_proportion: match (&screw.head, pitch) {
                (None, _) => "no head of this gauge is published, so none is drawn",
                (_, None) => {
                    "no pitch of this thread is published; its turns are drawn by proportion"
                }
                _ => "",
            },
            ..Body::default()
        }
    }

    fn lag_screw(&self, seat: &Seat, diameter: Length) -> Body {
        let mut shaft = self.headed(&[[0.0, 1.5], [1.3, 1.5], [1.3, 1.0]]);
        let neck = self.head + 1.3 * self.radius;
        let from = seat.plank.mm().clamp(neck, self.point.max(neck));
        shaft.push([from, self.radius]);
        let root = lag_root(diameter).map_or(self.radius * 0.75, |root| root.mm() / 2.0);
        Body {
            shaft,
            thread: Some(Thread {
                from,
                to: self.point,
                crest: self.radius,
                root,
                pitch: self.radius * 0.8,
                tip: (2.0 * self.radius).min((self.point - from) / 2.0),
                climbs: true,
            }),
            by_proportion: "head and turns of the thread are drawn by proportion, and the thread from the plank's back: no sizes of theirs are published here",
            ..Body::default()
        }
    }

    /// Square, the same to past its middle, then down to a blunt point.
    fn boat_nail(&self) -> Body {
        let mut shaft = self.headed(&[[0.0, 0.4], [0.5, 1.8], [0.9, 1.8], [0.9, 1.0]]);
        let taper = self.head + 0.6 * (self.point - self.head);
        shaft.extend([[taper, self.radius], [self.point, self.radius * 0.35]]);
        Body {
            shaft,
            by_proportion: "head and point are drawn by proportion: no sizes of theirs are published here",
            ..Body::default()
        }
    }

    fn annular_nail(&self) -> Body {
        let mut shaft = self.headed(&[[0.0, 2.0], [0.5, 2.0], [0.5, 1.0]]);
        let from = self.head + 0.35 * (self.point - self.head);
        shaft.push([from, self.radius]);
        Body {
            shaft,
            thread: Some(Thread {
                from,
                to: self.point,
                crest: self.radius,
                root: self.radius * 0.85,
                pitch: self.radius * 0.7,
                tip: (3.0 * self.radius).min((self.point - from) / 2.0),
                climbs: false,
            }),
            by_proportion: "head and rings are drawn by proportion: no sizes of theirs are published here",
            ..Body::default()
        }
    }

    /// Its point laid over on the far face and its end turned back into the wood.
    fn clenched_nail(&self) -> Body {
        let mut shaft = self.headed(&[[0.0, 2.0], [0.5, 2.0], [0.5, 1.0]]);
        let mut turned = Vec::new();
        match self.out() {
            Some((far, out)) => {
                let laid = far + self.radius;
                shaft.push([laid, self.radius]);
                let back = (out * 0.35).min(6.0 * self.radius);
                let side = (out - back).max(self.radius);
                turned = vec![
                    [far - self.radius, 0.0],
                    [laid, 0.0],
                    [laid, side],
                    [far - back, side],
                ];
            }
            None => shaft.extend(self.pointed(1.0)),
        }
        Body {
            shaft,
            turned,
            by_proportion: "head and turned point are drawn by proportion: no sizes of theirs are published here",
            ..Body::default()
        }
    }

    fn rivet(&self) -> Body {
        let mut shaft = self.headed(&[[0.0, 2.0], [0.6, 1.7], [0.6, 1.0]]);
        let mut body = Body {
            by_proportion: "head and rove are drawn by proportion: no sizes of theirs are published here",
            ..Body::default()
        };
        match self.out() {
            Some((far, out)) => {
                let on = |down: f64, wide: f64| [far + down * self.radius, wide * self.radius];
                body.ends = vec![
                    vec![on(0.0, 2.2), on(0.3, 2.2), on(1.0, 1.2), on(1.0, 0.0)],
                    vec![on(1.0, 1.6), on(1.3, 1.5), on(1.8, 0.7), on(2.0, 0.0)],
                ];
                let headed = 2.0 * self.radius;
                shaft.push(on(1.0, 1.0));
                body.cut_off = (out > headed).then_some([far + headed, self.point]);
            }
            None => shaft.extend(self.pointed(1.0)),
        }
        Body { shaft, ..body }
    }

    fn bolt(&self) -> Body {
        let mut shaft = self.headed(&[[0.0, 1.5], [1.3, 1.5], [1.3, 1.0]]);
        shaft.push([self.point, self.radius]);
        let mut ends = Vec::new();
        if let Some((far, _)) = self.out() {
            let on = |down: f64, wide: f64| [far + down * self.radius, wide * self.radius];
            ends = vec![
                vec![on(0.0, 2.2), on(0.3, 2.2)],
                vec![on(0.3, 1.65), on(2.0, 1.65)],
            ];
        }
        Body {
            shaft,
            ends,
            by_proportion: "head, washer and nut are drawn by proportion: no sizes of theirs are published here",
            ..Body::default()
        }
    }

    fn drift(&self) -> Body {
        let mut shaft = self.headed(&[[0.0, 1.3], [0.4, 1.3], [0.8, 1.0]]);
        shaft.extend(self.pointed(2.0));
        Body {
            shaft,
            by_proportion: "its head and point are drawn by proportion: no sizes of theirs are published here",
            ..Body::default()
        }
    }

    /// A wooden pin, wedged outside, and inside too where it comes through; cut off flush.
    fn trunnel(&self) -> Body {
        let end = self.far.map_or(self.point, |far| far.min(self.point));
        let long = (3.0 * self.radius).min((end - self.head) / 3.0);
        let mut wedges = vec![[self.head, self.head + long]];
        if self.far.is_some_and(|far| self.point >= far) {
            wedges.push([end, end - long]);
        }
        Body {
            shaft: vec![[self.head, self.radius], [end, self.radius]],
            wedges,
            cut_off: (self.point > end).then_some([end, self.point]),
            by_proportion: "wedges are drawn by proportion: no sizes of theirs are published here",
            ..Body::default()
        }
    }

    /// The end of a nail or a rod, its point so many radii long.
    fn pointed(&self, long: f64) -> [Point; 2] {
        let begins = (self.point - long * self.radius * 2.0).max(self.head);
        [[begins, self.radius], [self.point, self.radius * 0.4]]
    }
}

impl Body {
    /// The widest radius of it.
    pub(super) fn widest(&self) -> f64 {
        let crest = self.thread.iter().map(|thread| thread.crest);
        let outlines = self.shaft.iter().chain(self.ends.iter().flatten());
        let turned = self.turned.iter();
        crest
            .chain(outlines.chain(turned).map(|[_, out]| *out))
            .fold(0.0, f64::max)
    }

    /// The deepest of it, what is cut off included.
    pub(super) fn deepest(&self) -> f64 {
        let outlines = self.shaft.iter().chain(self.ends.iter().flatten());
        let turned = self.turned.iter();
        let thick = self.shaft.last().map_or(0.0, |[_, out]| *out);
        let turned = turned.map(|[depth, _]| depth + thick);
        let depths = outlines.map(|[depth, _]| *depth).chain(turned);
        let thread = self.thread.iter().map(|thread| thread.to);
        let cut_off = self.cut_off.iter().map(|[_, to]| *to);
        depths.chain(thread).chain(cut_off).fold(0.0, f64::max)
    }

    /// Where its head ends, a shank of this radius beginning there.
    pub(super) fn neck(&self, radius: f64) -> f64 {
        let mut shaft = self.shaft.iter();
        shaft
            .find(|[_, out]| *out <= radius)
            .map_or(0.0, |[depth, _]| *depth)
    }
}
