//! Where everything of a drawing lies, as values, before anything is drawn.

use super::axis::Axis;
use super::body::{Body, body};
use super::callouts::{Callout, callouts};
use super::lie::bored;
use super::spans::{Span, columns, spans};
use super::spread::{Wanted, spread};
use super::words::{Hand, foot, head, wrapped};
use crate::joint::{Hole, Plug};
use crate::pick::{Answer, Ask};
use crate::units::{Length, Units};

const WIDE: f64 = 900.0;
const MARGIN: f64 = 18.0;
/// Where the labels of lengths end, and where the callouts begin.
const LENGTHS_END: f64 = 196.0;
const CALLOUTS_BEGIN: f64 = 588.0;
/// The first line of dimensions, and from one to the next.
const FIRST_LINE: f64 = 222.0;
const NEXT_LINE: f64 = 24.0;
/// The fastening's axis.
const MIDDLE: f64 = 432.0;
/// Steps that a drawing is to have from face to face, and that it may have.
const USUAL: f64 = 520.0;
const MOST: f64 = 620.0;
const BREAK: f64 = 12.0;
const BETWEEN_LABELS: f64 = 8.0;

/// A drawing's values.
pub(super) struct Sheet {
    pub(super) size: [f64; 2],
    /// Where the plank's face lies.
    pub(super) top: f64,
    /// The fastening's axis, and how far the wood goes on either side of it.
    pub(super) middle: f64,
    pub(super) half: f64,
    pub(super) axis: Axis,
    pub(super) body: Body,
    /// Where the member ends; with no depth on record, where the drawing does.
    pub(super) far: f64,
    /// Lines of dimensions, each a length and how far to the right.
    pub(super) lengths: Vec<(Span, f64)>,
    pub(super) labels: Vec<Label>,
    /// What belongs to no part.
    pub(super) texts: Vec<Text>,
    /// The bar of scale: a length, and where it begins.
    pub(super) bar: (Length, [f64; 2]),
}

/// A line of text: where its box begins, and how wide that is.
#[derive(Clone, Debug)]
pub(super) struct Text {
    pub(super) hand: Hand,
    pub(super) text: String,
    pub(super) at: [f64; 2],
    /// Whether it ends at `at` and not begins there.
    pub(super) ends: bool,
}

impl Text {
    /// Left, top, width and height.
    #[cfg(test)]
    pub(super) fn room(&self) -> [f64; 4] {
        let wide = self.hand.wide(&self.text);
        let left = if self.ends {
            self.at[0] - wide
        } else {
            self.at[0]
        };
        [left, self.at[1], wide, self.hand.lead()]
    }
}

/// Lines of text about one part, and the line that leads there.
pub(super) struct Label {
    /// The part.
    pub(super) key: &'static str,
    /// Its figures, each by the attribute it is given in.
    pub(super) figures: Vec<(&'static str, Length)>,
    pub(super) lines: Vec<Text>,
    /// From the label by way of an elbow to the part.
    pub(super) leader: [[f64; 2]; 3],
}

impl Sheet {
    /// Lays a drawing out.
    pub(super) fn of(ask: &Ask, answer: &Answer) -> Self {
        let body = body(ask, answer);
        let far = far(answer, &body);
        let radius = widest(answer, &body);
        let axis = axis(answer, &body, far, radius);
        let half = (radius * axis.scale + 40.0).clamp(80.0, 136.0);
        let mut texts = lines(&head(ask, answer), MARGIN, MARGIN);
        let below_head = texts.last().map_or(MARGIN, Text::below) + 12.0;
        let top = below_head + 30.0;
        let lengths = lengths(ask, answer);
        let mut labels = length_labels(&lengths, ask.units, &axis, top, below_head);
        labels.extend(part_labels(
            &callouts(ask, answer, &body),
            &axis,
            half,
            [top, below_head],
        ));
        let deepest = body.deepest().max(answer.seat.point().mm());
        let deepest = top + axis.at(far.max(deepest)) + 2.0;
        texts.push(centred("outside", below_head + 10.0));
        texts.push(centred("inside", deepest + 6.0));
        let bottom = labels
            .iter()
            .flat_map(|label| &label.lines)
            .map(Text::below)
            .fold(deepest + 26.0, f64::max)
            + 18.0;
        let bar = bar(ask.units, axis.scale);
        texts.push(Text {
            hand: Hand::Plain,
            text: bar.shown(ask.units),
            at: [MARGIN + bar.mm() * axis.scale + 10.0, bottom],
            ends: false,
        });
        texts.extend(lines(&foot(ask, answer, &body), MARGIN, bottom + 26.0));
        let tall = texts.last().map_or(bottom, Text::below) + MARGIN;
        Self {
            size: [WIDE, tall],
            top,
            middle: MIDDLE,
            half,
            axis,
            body,
            far,
            lengths,
            labels,
            texts,
            bar: (bar, [MARGIN, bottom + 8.0]),
        }
    }
}

impl Text {
    fn below(&self) -> f64 {
        self.at[1] + self.hand.lead()
    }
}

/// The holes of an answer that are known.
pub(super) fn holes(answer: &Answer) -> impl Iterator<Item = Hole> {
    let holes = &answer.holes;
    [holes.counterbore, holes.shank, holes.pilot]
        .into_iter()
        .flatten()
}

/// Where the member ends. With no depth on record it is drawn some way past all that is in it.
fn far(answer: &Answer, body: &Body) -> f64 {
    let seat = &answer.seat;
    match seat.member {
        Some(member) => (seat.plank + member).mm(),
        None => {
            let deepest = holes(answer).map(|hole| hole.depth.mm());
            1.15 * deepest.fold(body.deepest(), f64::max).max(seat.plank.mm())
        }
    }
}

/// The widest radius of anything drawn.
fn widest(answer: &Answer, body: &Body) -> f64 {
    let bung = match answer.plug {
        Plug::Bung(bung) => bung.diameter.mm(),
        Plug::Unknown | Plug::None | Plug::Stopping => 0.0,
    };
    let bored = holes(answer).map(|hole| bored(hole).mm());
    (bored.fold(bung, f64::max) / 2.0).max(body.widest())
}

fn axis(answer: &Answer, body: &Body, far: f64, radius: f64) -> Axis {
    let seat = &answer.seat;
    let diameter = answer.diameter.mm();
    let mut worth = vec![
        0.0,
        seat.head_depth.mm(),
        body.neck(diameter / 2.0),
        seat.plank.mm(),
        seat.point().mm(),
        far,
        body.deepest(),
    ];
    worth.extend(holes(answer).map(|hole| hole.depth.mm()));
    worth.extend(body.thread.iter().map(|thread| thread.from));
    let end = worth.iter().copied().fold(0.0, f64::max);
    // What lies far beyond the point is broken off, so that the fastening is seen.
    let near = end.min(1.7 * seat.point().mm());
    let least = (8.0 / diameter).max(18.0 / radius);
    let scale = (USUAL / near).max(least).min(14.0).min(96.0 / radius);
    Axis::new(&worth, scale, MOST, BREAK)
}

/// Every length with its line. The chain lies outermost, so that its leaders cross nothing.
fn lengths(ask: &Ask, answer: &Answer) -> Vec<(Span, f64)> {
    let columns = columns(spans(ask, answer)).into_iter().enumerate();
    columns
        .flat_map(|(at, column)| {
            let x = FIRST_LINE + at as f64 * NEXT_LINE;
            column.into_iter().map(move |span| (span, x))
        })
        .collect()
}

fn length_labels(
    lengths: &[(Span, f64)],
    units: Units,
    axis: &Axis,
    top: f64,
    least: f64,
) -> Vec<Label> {
    let room = LENGTHS_END - MARGIN;
    let mut wanted: Vec<_> = lengths
        .iter()
        .map(|(span, x)| {
            let middle = top + (axis.at(span.from.mm()) + axis.at(span.to.mm())) / 2.0;
            let mut said = vec![
                (Hand::Bold, span.shown(units)),
                (Hand::Plain, span.name.clone()),
            ];
            said.extend(held(span.held));
            (span, [*x, middle], said)
        })
        .collect();
    wanted.sort_by(|a, b| a.1[1].total_cmp(&b.1[1]));
    let written: Vec<_> = wanted.iter().map(|(_, _, said)| set(said, room)).collect();
    let tops = tops(
        &wanted.iter().map(|(_, at, _)| at[1]).collect::<Vec<_>>(),
        &written,
        least,
    );
    wanted
        .iter()
        .zip(written)
        .zip(tops)
        .map(|(((span, part, _), written), top)| Label {
            key: span.key,
            figures: vec![("data-mm", span.is)],
            leader: leader(
                [LENGTHS_END + 4.0, middle(&written, top)],
                LENGTHS_END + 12.0,
                *part,
            ),
            lines: placed(written, LENGTHS_END, top, true),
        })
        .collect()
}

fn part_labels(callouts: &[Callout], axis: &Axis, half: f64, [top, least]: [f64; 2]) -> Vec<Label> {
    let room = WIDE - MARGIN - CALLOUTS_BEGIN;
    let written: Vec<_> = callouts
        .iter()
        .map(|callout| {
            let mut said = vec![
                (Hand::Bold, callout.name.clone()),
                (Hand::Plain, callout.says.clone()),
            ];
            said.extend(held(callout.held));
            set(&said, room)
        })
        .collect();
    let parts: Vec<[f64; 2]> = callouts
        .iter()
        .map(|callout| {
            let out = (callout.out * axis.scale).min(half - 14.0);
            [MIDDLE + out, top + axis.beside_breaks(callout.at)]
        })
        .collect();
    let tops = tops(
        &parts.iter().map(|part| part[1]).collect::<Vec<_>>(),
        &written,
        least,
    );
    callouts
        .iter()
        .zip(written)
        .zip(tops)
        .zip(parts)
        .map(|(((callout, written), top), part)| Label {
            key: callout.key,
            figures: callout.figures.clone(),
            leader: leader(
                [CALLOUTS_BEGIN - 4.0, middle(&written, top)],
                CALLOUTS_BEGIN - 12.0,
                part,
            ),
            lines: placed(written, CALLOUTS_BEGIN, top, false),
        })
        .collect()
}

fn held(held: Option<(crate::joint::Verdict, &'static str)>) -> Option<(Hand, String)> {
    held.map(|(verdict, check)| (Hand::Held, format!("{}: {check}", verdict.name())))
}

/// What is said, in lines that fit the room.
fn set(said: &[(Hand, String)], room: f64) -> Vec<(Hand, String)> {
    said.iter()
        .flat_map(|(hand, text)| {
            let lines = wrapped(*hand, text, room).into_iter();
            lines.map(move |line| (*hand, line))
        })
        .collect()
}

fn tall(lines: &[(Hand, String)]) -> f64 {
    lines.iter().map(|(hand, _)| hand.lead()).sum()
}

/// Where the leader of a label meets it: at its first line.
fn middle(lines: &[(Hand, String)], top: f64) -> f64 {
    top + lines.first().map_or(0.0, |(hand, _)| hand.lead()) / 2.0
}

fn leader(from: [f64; 2], elbow: f64, to: [f64; 2]) -> [[f64; 2]; 3] {
    [from, [elbow, from[1]], to]
}

fn tops(middles: &[f64], written: &[Vec<(Hand, String)>], least: f64) -> Vec<f64> {
    let wanted: Vec<Wanted> = middles
        .iter()
        .zip(written)
        .map(|(middle, lines)| Wanted {
            middle: *middle,
            tall: tall(lines),
        })
        .collect();
    spread(&wanted, BETWEEN_LABELS, least)
}

fn placed(lines: Vec<(Hand, String)>, x: f64, top: f64, ends: bool) -> Vec<Text> {
    let mut at = top;
    lines
        .into_iter()
        .map(|(hand, text)| {
            let placed = Text {
                hand,
                text,
                at: [x, at],
                ends,
            };
            at = placed.below();
            placed
        })
        .collect()
}

/// Sentences across the whole width.
fn lines(said: &[(Hand, String)], x: f64, top: f64) -> Vec<Text> {
    placed(set(said, WIDE - 2.0 * MARGIN), x, top, false)
}

/// A word over or under the fastening.
fn centred(text: &str, top: f64) -> Text {
    Text {
        hand: Hand::Plain,
        text: text.to_owned(),
        at: [MIDDLE - 20.0, top],
        ends: false,
    }
}

/// The length that the bar of scale shows.
fn bar(units: Units, scale: f64) -> Length {
    let (first, step) = match units {
        Units::Inch => (Length::from_64ths(8), 2),
        Units::Metric => (Length::from_nm(5_000_000), 2),
    };
    let mut bar = first;
    while bar.mm() * scale < 50.0 {
        bar = bar * step;
    }
    bar
}
