//! Plank, member, bung and holes as they are drawn: their faces, their grain, their breaks.

use std::io;

use super::lie::{Lie, bored, is_tapered, lie};
use super::sheet::Sheet;
use crate::joint::{Hole, Plug};
use crate::pick::{Answer, Ask};
use crate::show::svg::{Element, Path, Svg};

/// A rectangle: left, right, top, bottom.
type Area = [f64; 4];

/// Draws plank and member with their grain.
pub(super) fn woods(svg: &mut Svg<'_>, sheet: &Sheet, ask: &Ask) -> io::Result<()> {
    let (left, right) = (sheet.middle - sheet.half, sheet.middle + sheet.half);
    let back = sheet.down(ask.plank.mm());
    let far = sheet.down(sheet.far);
    let plank = [left, right, sheet.top, back];
    let member = [left, right, back, far];
    filled(svg, "plank", plank)?;
    grain(svg, Lie::Along, plank)?;
    filled(svg, "member", member)?;
    grain(svg, lie(ask), member)?;
    for side in [left, right] {
        svg.shape(
            Element::new("path")
                .attr("class", "cut")
                .attr("d", ragged([side, sheet.top], [side, far]).data()),
        )?;
    }
    for (y, is_cut) in [
        (sheet.top, false),
        (back, false),
        (far, ask.member.is_none()),
    ] {
        let path = match is_cut {
            true => ragged([left, y], [right, y]),
            false => Path::default().to(left, y).line(right, y),
        };
        let class = if is_cut { "cut" } else { "face" };
        svg.shape(
            Element::new("path")
                .attr("class", class)
                .attr("d", path.data()),
        )?;
    }
    Ok(())
}

/// What was bored out, empty as yet.
pub(super) fn bored_out(svg: &mut Svg<'_>, sheet: &Sheet, answer: &Answer) -> io::Result<()> {
    for outline in outlines(sheet, answer) {
        svg.shape(
            Element::new("path")
                .attr("class", "void")
                .attr("d", outline.data()),
        )?;
    }
    Ok(())
}

/// The holes as they were bored, seen through what is in them.
pub(super) fn hole_edges(svg: &mut Svg<'_>, sheet: &Sheet, answer: &Answer) -> io::Result<()> {
    for outline in outlines(sheet, answer) {
        svg.shape(
            Element::new("path")
                .attr("class", "bored")
                .attr("d", outline.data()),
        )?;
    }
    Ok(())
}

/// What is over the head.
pub(super) fn plug(svg: &mut Svg<'_>, sheet: &Sheet, answer: &Answer) -> io::Result<()> {
    let heads = sheet.body.shaft.iter().map(|[_, out]| *out);
    let over_head = heads.fold(0.0, f64::max);
    let (class, radius) = match answer.plug {
        Plug::Bung(bung) => ("bung", bung.diameter.mm() / 2.0),
        Plug::Stopping => ("stopping", over_head),
        Plug::Unknown => ("unknown", over_head),
        Plug::None => return Ok(()),
    };
    let radius = radius * sheet.axis.scale;
    let area = [
        sheet.middle - radius,
        sheet.middle + radius,
        sheet.top,
        sheet.down(answer.seat.head_depth.mm()),
    ];
    filled(svg, class, area)?;
    if let Plug::Bung(_) = answer.plug {
        grain(svg, Lie::Along, area)?;
    }
    let [left, right, top, bottom] = area;
    let path = Path::default().to(left, top).line(left, bottom);
    let path = path.line(right, bottom).line(right, top);
    svg.shape(
        Element::new("path")
            .attr("class", "seam")
            .attr("d", path.data()),
    )
}

/// The breaks, over everything.
pub(super) fn breaks(svg: &mut Svg<'_>, sheet: &Sheet) -> io::Result<()> {
    let (left, right) = (
        sheet.middle - sheet.half - 6.0,
        sheet.middle + sheet.half + 6.0,
    );
    for middle in sheet.axis.breaks() {
        let y = sheet.top + middle;
        let edge = |down: f64| ragged([left, y + down], [right, y + down]);
        let band = Element::new("rect").attr("class", "gap").number("x", left);
        let band = band.number("y", y - 5.0).number("width", right - left);
        svg.shape(band.number("height", 10.0))?;
        for down in [-5.0, 5.0] {
            svg.shape(
                Element::new("path")
                    .attr("class", "cut")
                    .attr("d", edge(down).data()),
            )?;
        }
    }
    Ok(())
}

/// The outlines of the holes, each a closed path.
fn outlines(sheet: &Sheet, answer: &Answer) -> Vec<Path> {
    let holes = &answer.holes;
    // Under the head: it makes the rest of its own room.
    let head = sheet.body.neck(answer.diameter.mm() / 2.0);
    let straight = |hole: Hole, from: f64| {
        let radius = bored(hole).mm() / 2.0;
        sheet.mirrored(&[[from, radius], [hole.depth.mm(), radius]])
    };
    let mut outlines: Vec<Path> = Vec::new();
    outlines.extend(holes.counterbore.map(|hole| straight(hole, 0.0)));
    match holes.shank {
        Some(hole) if is_tapered(answer) => {
            let root = sheet.body.thread.as_ref().map_or(0.0, |thread| thread.root);
            let tip = holes.pilot.map_or(root, |pilot| pilot.exact.mm() / 2.0);
            outlines.push(sheet.mirrored(&[[head, hole.exact.mm() / 2.0], [hole.depth.mm(), tip]]));
        }
        shank => {
            outlines.extend(
                shank
                    .filter(|hole| hole.depth.mm() > head)
                    .map(|hole| straight(hole, head)),
            );
            let from = shank.map_or(head, |hole| hole.depth.mm());
            let pilot = holes.pilot.filter(|hole| hole.depth.mm() > from);
            outlines.extend(pilot.map(|hole| straight(hole, from)));
        }
    }
    outlines
}

fn filled(svg: &mut Svg<'_>, class: &str, [left, right, top, bottom]: Area) -> io::Result<()> {
    let area = Element::new("rect").attr("class", class).number("x", left);
    let area = area.number("y", top).number("width", right - left);
    svg.shape(area.number("height", bottom - top))
}

/// Lines of grain within an area, the same ones every time.
fn grain(svg: &mut Svg<'_>, lie: Lie, [left, right, top, bottom]: Area) -> io::Result<()> {
    // Steps between lines, and how far one swings.
    const STEP: f64 = 7.0;
    const SWING: f64 = 2.5;
    let mut path = Path::default();
    let (wide, tall) = (right - left, bottom - top);
    let lines = |room: f64| {
        (1..)
            .map(|n| f64::from(n) * STEP)
            .take_while(move |at| *at < room - 2.0)
    };
    let swing = |at: f64| SWING * (at * 1.7).sin();
    match lie {
        Lie::Along => {
            for at in lines(tall) {
                let (y, bend) = (top + at, swing(at).clamp(-(STEP / 3.0), STEP / 3.0));
                path = path.to(left + 3.0, y).curve(
                    [left + wide * 0.3, y + bend],
                    left + wide * 0.55,
                    y,
                );
                path = path.curve([left + wide * 0.8, y - bend], right - 3.0, y);
            }
        }
        Lie::Endwise => {
            for at in lines(wide) {
                let (x, bend) = (left + at, swing(at));
                path =
                    path.to(x, top + 3.0)
                        .curve([x + bend, top + tall * 0.3], x, top + tall * 0.55);
                path = path.curve([x - bend, top + tall * 0.8], x, bottom - 3.0);
            }
        }
        Lie::Across => {
            // Rings as a cut across them shows, with pores between.
            const SAG: f64 = 12.0;
            for at in lines(tall + SAG) {
                let y = |x: f64| top + at - SAG * (1.0 - (2.0 * (x - left) / wide - 1.0).powi(2));
                path = ring(path, y, [left + 3.0, right - 3.0, top + 2.0, bottom - 2.0]);
            }
        }
    }
    svg.shape(
        Element::new("path")
            .attr("class", "grain")
            .attr("d", path.data()),
    )
}

/// One ring, where it lies within the area: a line of short pores.
fn ring(mut path: Path, y: impl Fn(f64) -> f64, [left, right, top, bottom]: Area) -> Path {
    const PORE: f64 = 9.0;
    let pores = (0..).map(|n| left + f64::from(n) * (PORE + 3.0));
    for x in pores.take_while(|x| *x + PORE <= right) {
        let ends = [y(x), y(x + PORE)];
        if ends.iter().all(|y| (top..=bottom).contains(y)) {
            path = path.to(x, ends[0]).line(x + PORE, ends[1]);
        }
    }
    path
}

/// A line along which wood is cut off: it goes to and fro.
fn ragged(from: [f64; 2], to: [f64; 2]) -> Path {
    const STEP: f64 = 16.0;
    let (wide, tall) = (to[0] - from[0], to[1] - from[1]);
    let long = wide.hypot(tall).max(1.0);
    let steps = (long / STEP).ceil().max(1.0);
    // Square to the line.
    let aside = [-tall / long * 4.0, wide / long * 4.0];
    let mut path = Path::default().to(from[0], from[1]);
    let mut at = 0.0;
    let mut way = 1.0;
    while at < steps {
        let (mid, end) = ((at + 0.5) / steps, (at + 1.0) / steps);
        let pull = [
            from[0] + wide * mid + aside[0] * way,
            from[1] + tall * mid + aside[1] * way,
        ];
        path = path.curve(pull, from[0] + wide * end, from[1] + tall * end);
        at += 1.0;
        way = -way;
    }
    path
}
