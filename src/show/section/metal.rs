//! The fastening as it is drawn: head, shank, thread, point, and what is on its far end.

use std::io;

use super::body::Thread;
use super::drawing::joined;
use super::sheet::Sheet;
use crate::joint::Kind;
use crate::show::svg::{Element, Path, Svg};

/// Draws the fastening of a sheet.
pub(super) fn fastening(svg: &mut Svg<'_>, sheet: &Sheet, kind: Kind) -> io::Result<()> {
    let body = &sheet.body;
    let class = if kind.is_metal() { "metal" } else { "bung pin" };
    if let Some([from, to]) = body.cut_off {
        let radius = body.shaft.last().map_or(0.0, |[_, out]| *out);
        shape(
            svg,
            "unknown",
            &sheet.mirrored(&[[from, radius], [to, radius]]),
        )?;
    }
    if let Some(thread) = &body.thread {
        threaded(svg, sheet, thread)?;
    }
    // The shank lies between, so that it and what is turned back show as one piece.
    turned(svg, sheet, "edge", 1.2)?;
    shape(svg, class, &sheet.mirrored(&body.shaft))?;
    turned(svg, sheet, "core", -1.2)?;
    for end in &body.ends {
        shape(svg, class, &sheet.mirrored(end))?;
    }
    for [outer, inner] in &body.wedges {
        let wide = (outer - inner).abs() * 0.14;
        shape(
            svg,
            "metal wedge",
            &sheet.mirrored(&[[*outer, wide], [*inner, 0.0]]),
        )?;
    }
    Ok(())
}

fn shape(svg: &mut Svg<'_>, class: &str, path: &Path) -> io::Result<()> {
    svg.shape(
        Element::new("path")
            .attr("class", class)
            .attr("d", path.data()),
    )
}

/// A thread, its turns crest by crest; where they would run together, its crest and root alone.
fn threaded(svg: &mut Svg<'_>, sheet: &Sheet, thread: &Thread) -> io::Result<()> {
    const FINEST: f64 = 2.4;
    let scale = sheet.axis.scale;
    if thread.pitch * scale < FINEST {
        let tip = thread.to - thread.tip;
        let half = |out: f64| [[thread.from, out], [tip, out], [thread.to, 0.0]];
        shape(svg, "metal", &sheet.mirrored(&half(thread.crest)))?;
        return shape(svg, "faint", &sheet.mirrored(&half(thread.root)));
    }
    // The far side of a thread is half a turn on; rings are level.
    let lag = if thread.climbs { 0.5 } else { 0.0 };
    let right = flank(sheet, thread, 0.0);
    let left = flank(sheet, thread, lag);
    let on =
        |[depth, out]: [f64; 2], way: f64| [sheet.middle + way * out * scale, sheet.down(depth)];
    let outline = right.iter().map(|point| on(*point, 1.0));
    let outline = outline.chain(left.iter().rev().map(|point| on(*point, -1.0)));
    shape(svg, "metal", &joined(outline).closed())?;
    // Crests across the front.
    let mut crests = Path::default();
    for turn in turns(thread) {
        let (a, b) = (
            thread.from + turn * thread.pitch,
            thread.from + (turn + lag) * thread.pitch,
        );
        if b < thread.to && !sheet.axis.leaves_out(a) && !sheet.axis.leaves_out(b) {
            let ([ax, ay], [bx, by]) = (
                on([a, thread.crest * taper(thread, a)], 1.0),
                on([b, thread.crest * taper(thread, b)], -1.0),
            );
            crests = crests.to(ax, ay).line(bx, by);
        }
    }
    shape(svg, "line", &crests)
}

fn turns(thread: &Thread) -> impl Iterator<Item = f64> {
    let turns = ((thread.to - thread.from) / thread.pitch).floor();
    (0..).map(f64::from).take_while(move |turn| *turn < turns)
}

/// One side of a thread: crest, root, crest, as far as the point.
fn flank(sheet: &Sheet, thread: &Thread, lag: f64) -> Vec<[f64; 2]> {
    let mut flank = vec![[thread.from, thread.root]];
    for turn in turns(thread) {
        for (share, out) in [(0.0, thread.crest), (0.5, thread.root)] {
            let depth = thread.from + (turn + lag + share) * thread.pitch;
            if depth < thread.to && !sheet.axis.leaves_out(depth) {
                flank.push([depth, out * taper(thread, depth)]);
            }
        }
    }
    flank.push([thread.to, 0.0]);
    flank
}

/// How much of its width a thread has at a depth: less and less towards the point.
fn taper(thread: &Thread, depth: f64) -> f64 {
    match thread.tip > 0.0 {
        true => ((thread.to - depth) / thread.tip).clamp(0.0, 1.0),
        false => 1.0,
    }
}

/// A point laid over and turned back: a line as thick as the shank and so much more.
fn turned(svg: &mut Svg<'_>, sheet: &Sheet, class: &str, more: f64) -> io::Result<()> {
    let body = &sheet.body;
    if body.turned.is_empty() {
        return Ok(());
    }
    let scale = sheet.axis.scale;
    let on = |[depth, out]: &[f64; 2]| [sheet.middle + out * scale, sheet.down(*depth)];
    let path = joined(body.turned.iter().map(on));
    let wide = body.shaft.last().map_or(1.0, |[_, out]| out * 2.0 * scale);
    let line = Element::new("path").attr("class", class);
    let line = line.number("stroke-width", (wide + more).max(0.6));
    svg.shape(line.attr("d", path.data()))
}
