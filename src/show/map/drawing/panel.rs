//! One panel of the drawing: planking, members, joints, waterline and marks.

use std::collections::BTreeMap;
use std::io;

use super::super::Map;
use super::super::laid::{Half, Lies, Panel};
use super::marks;
use super::paper::{Paper, Place};
use super::spots::Spots;
use super::text;
use crate::hull::{JointKind, Member, Side};
use crate::joint::Zone;
use crate::show::svg::{Element, Path, Svg};
use crate::units::{Length, whole};

/// A half of a panel on the paper.
pub(super) struct On<'p> {
    pub(super) half: &'p Half,
    place: &'p Place,
    pub(super) scale: f64,
    up: bool,
}

impl On<'_> {
    /// A place in the planking on the paper.
    pub(super) fn point(&self, [along, across]: [f64; 2]) -> [f64; 2] {
        let x = self.place.zero + along * self.scale;
        let y = match self.up {
            true => self.place.upper - across * self.scale,
            false => self.place.lower + across * self.scale,
        };
        [x, y]
    }

    /// A closed line through places in the planking.
    fn closed(&self, points: impl IntoIterator<Item = [f64; 2]>) -> Path {
        let mut path = Path::default();
        for (number, point) in points.into_iter().enumerate() {
            let [x, y] = self.point(point);
            path = if number == 0 {
                path.to(x, y)
            } else {
                path.line(x, y)
            };
        }
        path.closed()
    }

    /// The outline of a strake between two places along the boat.
    fn outline(&self, at: usize, from: f64, to: f64) -> Path {
        let edges = self.half.stack.edges(at, from, to);
        self.closed(edges.lower.into_iter().chain(edges.upper.into_iter().rev()))
    }
}

pub(super) fn draw(
    svg: &mut Svg<'_>,
    map: &Map<'_>,
    panel: &Panel,
    place: &Place,
    paper: &Paper,
    spots: &Spots<'_>,
) -> io::Result<()> {
    let f = paper.letter;
    let (fore, aft) = (
        place.zero + panel.from * paper.scale,
        place.zero + panel.to * paper.scale,
    );
    let head = match (panel.deck, &panel.upper) {
        (false, Some(_)) => "Port, from outside",
        (false, None) => "",
        (true, Some(_)) => "Deck from above, starboard half",
        (true, None) => "Deck from above",
    };
    text(svg, "head", [fore, place.top + f], "← Bow")?;
    text(svg, "head", [fore + 5.0 * f, place.top + f], head)?;
    text(svg, "end", [aft, place.top + f], "Stern →")?;
    let mut lines = vec![place.bottom - 1.9 * f];
    if panel.upper.is_some() {
        lines.push(place.top + 2.4 * f);
    }
    if panel.lower.is_none() {
        lines.remove(0);
    }
    if panel.upper.is_some() && panel.lower.is_some() {
        lines.push((place.upper + place.lower) / 2.0 + 0.3 * f);
    } else if panel.upper.is_none() {
        lines.push(place.top + 2.4 * f);
    }
    for y in lines {
        numbers(svg, panel, place, paper, y)?;
    }
    if let Some(lower) = &panel.lower {
        let name = match lower.side {
            Side::Starboard => "Starboard, from outside",
            Side::DeckPort => "Port half",
            _ => "",
        };
        text(svg, "head", [fore, place.bottom - 0.4 * f], name)?;
    }
    if panel.upper.is_some() && panel.lower.is_some() {
        let y = (place.upper + place.lower) / 2.0 + 0.3 * f;
        let name = if panel.deck { "Middle" } else { "Keel" };
        text(svg, "end", [fore - 0.6 * f, y], name)?;
    }
    for (half, up) in [(&panel.upper, true), (&panel.lower, false)] {
        if let Some(half) = half {
            let on = On {
                half,
                place,
                scale: paper.scale,
                up,
            };
            planking(svg, map, &on, paper)?;
            joints(svg, map, &on)?;
            waterline(svg, map, panel, &on)?;
            marks::draw(svg, &on, spots)?;
        }
    }
    Ok(())
}

/// The numbers of frames or beams, as many as there is room for.
fn numbers(
    svg: &mut Svg<'_>,
    panel: &Panel,
    place: &Place,
    paper: &Paper,
    y: f64,
) -> io::Result<()> {
    let plain = || {
        let all = panel.members.iter();
        all.filter_map(|(m, at)| Some((m.number().filter(|n| n.is_plain())?.value(), *at)))
    };
    let count = plain().count().max(2);
    let pitch = (panel.to - panel.from) * paper.scale / count as f64;
    let step = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000];
    let wide = 2.6 * paper.letter;
    let fits = step
        .into_iter()
        .find(|step| f64::from(*step) * pitch >= wide);
    let step = fits.unwrap_or(2000);
    let letter = if panel.deck { "B" } else { "F" };
    for (number, at) in plain() {
        if number.is_multiple_of(step) || number == 1 && step < 5 {
            let x = place.zero + at * paper.scale;
            text(svg, "number", [x, y], &format!("{letter}{number}"))?;
        }
    }
    Ok(())
}

/// Zones, members and edges of the strakes, with the names of these.
fn planking(svg: &mut Svg<'_>, map: &Map<'_>, on: &On<'_>, paper: &Paper) -> io::Result<()> {
    let hull = map.survey.hull;
    for (at, (run, row)) in on.half.stack.runs().iter().zip(&on.half.rows).enumerate() {
        let mut lies: Vec<_> = row.crossings.iter().collect();
        lies.retain(|lies| !matches!(lies.member, Member::Keel(_)));
        // A zone reaches halfway to the next crossing that is in another.
        let zones = lies.chunk_by(|a, b| hull.crossing(a.id).zone == hull.crossing(b.id).zone);
        let mut from = run.from;
        let mut rest = zones.peekable();
        while let Some(chunk) = rest.next() {
            let (Some(first), Some(last)) = (chunk.first(), chunk.last()) else {
                continue;
            };
            let next = rest.peek().and_then(|next| next.first());
            let to = next.map_or(run.to, |next| (last.along + next.along) / 2.0);
            let class = match hull.crossing(first.id).zone {
                Zone::Underwater => Some("underwater"),
                Zone::WindAndWater => Some("splash"),
                Zone::Inside => Some("inside"),
                Zone::Topsides | Zone::Deck => None,
            };
            if let Some(class) = class.filter(|_| to > from) {
                let shape = Element::new("path").attr("class", class);
                svg.shape(shape.attr("d", on.outline(at, from, to).data()))?;
            }
            from = to;
        }
    }
    let member = Element::new("path").attr("class", "member");
    svg.shape(member.attr("d", &members(map, on)))?;
    for (at, run) in on.half.stack.runs().iter().enumerate() {
        let edge = Element::new("path").attr("class", "edge");
        svg.shape(edge.attr("d", on.outline(at, run.from, run.to).data()))?;
        let middle = |x: f64| on.half.stack.across(at, x).iter().sum::<f64>() / 2.0;
        let drop = 0.35 * paper.small;
        let gap = 0.4 * paper.letter;
        // A point has no room for a name, nor have many thin strakes.
        for (class, at, gap, point) in [
            ("fore", run.from, -gap, run.point[0]),
            ("aft", run.to, gap, run.point[1]),
        ] {
            let [x, y] = on.point([at, middle(at)]);
            let number = run.id.number;
            let named =
                paper.named == 1 || number.is_plain() && number.value().is_multiple_of(paper.named);
            if point == 0.0 && named {
                text(svg, class, [x + gap, y + drop], &run.id.to_string())?;
            }
        }
    }
    Ok(())
}

/// The width of a member whose siding nobody knows, in millimetres.
const UNKNOWN_SIDING: f64 = 20.0;

/// The members in their siding, each in one piece over the strakes that touch on it.
fn members(map: &Map<'_>, on: &On<'_>) -> String {
    let mut pieces: BTreeMap<Member, Vec<([f64; 2], f64, f64)>> = BTreeMap::new();
    for (at, row) in on.half.rows.iter().enumerate() {
        for lies in &row.crossings {
            if !matches!(lies.member, Member::Frame(_) | Member::Beam(_)) {
                continue;
            }
            let [lower, upper] = on.half.stack.across(at, lies.along);
            let piece = pieces.entry(lies.member).or_default();
            match piece.last_mut() {
                Some((across, ..)) if lower - across[1] < 1e-6 => across[1] = upper,
                _ => {
                    let siding = map.survey.hull.crossing(lies.id).scantlings.siding;
                    let siding = siding.map_or(UNKNOWN_SIDING, Length::mm);
                    piece.push(([lower, upper], lies.along, siding));
                }
            }
        }
    }
    let mut data = String::new();
    for ([lower, upper], along, siding) in pieces.into_values().flatten() {
        let (fore, aft) = (along - siding / 2.0, along + siding / 2.0);
        let corners = [[fore, lower], [aft, lower], [aft, upper], [fore, upper]];
        data += on.closed(corners).data();
    }
    data
}

/// Butts as strokes across the plank, scarfs aslant over their length.
fn joints(svg: &mut Svg<'_>, map: &Map<'_>, on: &On<'_>) -> io::Result<()> {
    let hull = map.survey.hull;
    for joint in &hull.joints {
        for (at, row) in on.half.rows.iter().enumerate() {
            let mut here = row.crossings.iter();
            // A joint may be at both halves of a block, or in many strakes, or at many frames.
            let there: Vec<_> = here
                .by_ref()
                .filter(|lies| joint.crossings.binary_search(&lies.id).is_ok())
                .filter(|lies| map.survey.has_joint(lies.id))
                .collect();
            let alike = |a: &&Lies, b: &&Lies| {
                let number = |m: Member| m.number();
                matches!(a.member, Member::Butt(..)) && number(a.member) == number(b.member)
            };
            for pair in there.chunk_by(|a, b| alike(a, b)) {
                let x = pair.iter().map(|lies| lies.along).sum::<f64>() / pair.len().max(1) as f64;
                let (class, reach) = match &joint.kind {
                    JointKind::Butt { .. } => ("joint", 0.0),
                    JointKind::Scarf { slope, .. } => {
                        let thick = pair
                            .first()
                            .and_then(|lies| map.survey.state.thickness(hull, lies.id));
                        let long = thick.map_or(20.0, Length::mm) * slope.unwrap_or(8.0);
                        ("scarf", long / 2.0)
                    }
                };
                let [lower, upper] = on.half.stack.across(at, x);
                let ([x1, y1], [x2, y2]) =
                    (on.point([x - reach, lower]), on.point([x + reach, upper]));
                let path = Path::default().to(x1, y1).line(x2, y2);
                svg.shape(
                    Element::new("path")
                        .attr("class", class)
                        .attr("d", path.data()),
                )?;
            }
        }
    }
    Ok(())
}

/// The waterline, through the middle of its strake at each frame.
fn waterline(svg: &mut Svg<'_>, map: &Map<'_>, panel: &Panel, on: &On<'_>) -> io::Result<()> {
    let hull = map.survey.hull;
    if panel.deck || hull.has_no_waterline() {
        return Ok(());
    }
    let middle = |number: u16, x: f64| {
        let mut runs = on.half.stack.runs().iter();
        let at = runs.position(|r| r.id.number.is_plain() && r.id.number.value() == number)?;
        let run = on.half.stack.runs().get(at)?;
        (run.from..=run.to)
            .contains(&x)
            .then(|| on.half.stack.across(at, x).iter().sum::<f64>() / 2.0)
    };
    let mut path = Path::default();
    let mut down = false;
    for (member, x) in &panel.members {
        let height = hull.waterline_at(*member).and_then(|height| {
            let below = u16::try_from(whole(height)).ok()?;
            let lower = middle(below, *x)?;
            let share = height - f64::from(below);
            match share > 0.0 {
                true => Some(lower + share * (middle(below + 1, *x)? - lower)),
                false => Some(lower),
            }
        });
        let Some(height) = height else {
            down = false;
            continue;
        };
        let [x, y] = on.point([*x, height]);
        path = if down { path.line(x, y) } else { path.to(x, y) };
        down = true;
    }
    if path.data().is_empty() {
        return Ok(());
    }
    svg.shape(
        Element::new("path")
            .attr("class", "water")
            .attr("d", path.data()),
    )
}
