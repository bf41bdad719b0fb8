//! The lengths along the fastening that a drawing gives, each between two depths.

use crate::joint::{Kind, Plug, Verdict};
use crate::pick::{Answer, Ask};
use crate::units::{Length, Units};

/// A length along the fastening, between two depths below the plank's face.
#[derive(Clone, Debug)]
pub(super) struct Span {
    /// What it is in the JSON, without `_mm`; of plank and member, which are not there, their name.
    pub(super) key: &'static str,
    /// What it is, for people.
    pub(super) name: String,
    /// Where it begins.
    pub(super) from: Length,
    /// Where it ends, deeper.
    pub(super) to: Length,
    /// Its figure: below nothing where the fastening comes through or falls short.
    pub(super) is: Length,
    /// What is held against it, and by which check.
    pub(super) held: Option<(Verdict, &'static str)>,
}

/// Every length along the fastening that has any, the chain from face to face first.
pub(super) fn spans(ask: &Ask, answer: &Answer) -> Vec<Span> {
    let seat = &answer.seat;
    let (face, head, back, point) = (Length::ZERO, seat.head_depth, seat.plank, seat.point());
    let far = seat.member.map(|member| back + member);
    let mut spans = Vec::new();
    let mut add = |key, name: &str, a: Length, b: Length, is: Length| {
        let (from, to) = (a.min(b), a.max(b));
        if from < to {
            spans.push(Span {
                key,
                name: name.to_owned(),
                from,
                to,
                is,
                held: held(ask.kind, answer, key),
            });
        }
    };
    let over = match answer.plug {
        Plug::Stopping => "stopping",
        Plug::Bung(_) | Plug::Unknown | Plug::None => "bung",
    };
    add("head_depth", over, face, head, head);
    // Under a head that lies flush is the whole plank.
    if head > face {
        let is = seat.wood_under_head();
        add("wood_under_head", "plank under the head", head, back, is);
    }
    let comes_through = far.is_some_and(|far| point > far);
    let embedment = seat.embedment();
    // What goes through on purpose is in the whole of the member.
    let is_whole = ask.kind.goes_through() && far.is_some_and(|far| point >= far);
    if !is_whole {
        let name = match () {
            () if embedment < Length::ZERO => format!("short of the {}", ask.on),
            () if comes_through => "beyond the plank".to_owned(),
            () => format!("in the {}", ask.on),
        };
        add("embedment", &name, back, point, embedment);
    }
    if let (Some(far), Some(cover)) = (far, seat.point_cover()) {
        let name = match () {
            () if cover >= Length::ZERO => "beyond the point".to_owned(),
            () if ask.kind.goes_through() => "stands out".to_owned(),
            () => format!("through the {}", ask.on),
        };
        add("point_cover", &name, point, far, cover);
    }
    add("plank", "plank", face, back, seat.plank);
    if let (Some(far), Some(member)) = (far, seat.member) {
        add("member", ask.on, back, far, member);
    }
    add("length", "length", head, point, seat.length);
    spans
}

/// The worst that is held against a length.
fn held(kind: Kind, answer: &Answer, key: &str) -> Option<(Verdict, &'static str)> {
    let by: &[&str] = match key {
        "head_depth" => &["bung-shallow", "bung-deep"],
        "wood_under_head" => &["thin-under-head"],
        // What holds by its ends is short where it does not come out.
        "point_cover" if kind.holds_by_its_ends() => &["short-embedment"],
        "point_cover" => &["point-through"],
        "embedment" if !kind.holds_by_its_ends() => &["short-embedment", "frame-shallow"],
        _ => &[],
    };
    let held = answer
        .checks
        .iter()
        .filter(|check| by.contains(&check.check) && check.verdict > Verdict::Ok);
    held.map(|check| (check.verdict, check.check))
        .max_by_key(|(verdict, _)| *verdict)
}

/// The spans side by side in columns, so that no two in a column share a depth.
pub(super) fn columns(spans: Vec<Span>) -> Vec<Vec<Span>> {
    let mut columns: Vec<Vec<Span>> = Vec::new();
    for span in spans {
        let is_free = |column: &&mut Vec<Span>| {
            column
                .iter()
                .all(|other| other.to <= span.from || span.to <= other.from)
        };
        match columns.iter_mut().find(is_free) {
            Some(column) => column.push(span),
            None => columns.push(vec![span]),
        }
    }
    columns
}

impl Span {
    /// Its figure, for people: how far it comes through or falls short is no less than nothing.
    pub(super) fn shown(&self, units: Units) -> String {
        self.is.max(-self.is).shown(units)
    }
}
