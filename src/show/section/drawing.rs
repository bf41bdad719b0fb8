//! The section as an SVG drawing.

use std::io::{self, Write};

use super::metal;
use super::sheet::{Label, Sheet, Text};
use super::wood;
use super::words::{Hand, description};
use crate::pick::{Answer, Ask};
use crate::show::pick::called;
use crate::show::svg::{self, Element, Path, Svg};

const STYLE: [(&str, &str); 24] = [
    (
        "text",
        "font-family:Arial,Helvetica,'Liberation Sans',sans-serif;font-size:13px;fill:#1c1c1c",
    ),
    (".title", "font-size:18px;font-weight:bold"),
    (".bold", "font-weight:bold"),
    (".held", "font-weight:bold;fill:#a3150f"),
    (".plank", "fill:#f3dfbb"),
    (".member", "fill:#e2c08d"),
    (".bung", "fill:#fbf0d9"),
    (".stopping", "fill:#d9d6cf"),
    (".unknown", "fill:none;stroke:#1c1c1c;stroke-dasharray:2 3"),
    (
        ".grain",
        "fill:none;stroke:#a97f45;stroke-width:.9;stroke-linecap:round",
    ),
    (".face", "fill:none;stroke:#1c1c1c;stroke-width:1.6"),
    (".seam", "fill:none;stroke:#1c1c1c;stroke-width:1.1"),
    (".cut", "fill:none;stroke:#6b5637;stroke-width:1"),
    (".void", "fill:#fff"),
    (".gap", "fill:#fff"),
    (
        ".bored",
        "fill:none;stroke:#0b4fb3;stroke-width:1.3;stroke-dasharray:5 3",
    ),
    (
        ".metal",
        "fill:#cfd3d8;stroke:#1c1c1c;stroke-width:1.2;stroke-linejoin:round",
    ),
    (".pin", "stroke:#1c1c1c;stroke-width:1.2"),
    (".wedge", "fill:#b9854a"),
    (
        ".edge",
        "fill:none;stroke:#1c1c1c;stroke-linecap:round;stroke-linejoin:round",
    ),
    (
        ".core",
        "fill:none;stroke:#cfd3d8;stroke-linecap:round;stroke-linejoin:round",
    ),
    (".line", "fill:none;stroke:#4a4a4a;stroke-width:.8"),
    (
        ".faint",
        "fill:none;stroke:#4a4a4a;stroke-width:.7;stroke-dasharray:1 3",
    ),
    (".dot", "fill:#4a4a4a"),
];

/// Draws the section of an answer.
///
/// # Errors
/// When `out` fails.
pub fn svg(out: &mut dyn Write, ask: &Ask, answer: &Answer) -> io::Result<()> {
    let sheet = Sheet::of(ask, answer);
    let head = svg::Sheet {
        class: "section",
        title: &called(ask, answer),
        desc: &description(ask, answer),
        size: sheet.size,
        style: &STYLE,
    };
    let mut svg = Svg::begin(out, &head)?;
    wood::woods(&mut svg, &sheet, ask)?;
    wood::bored_out(&mut svg, &sheet, answer)?;
    wood::plug(&mut svg, &sheet, answer)?;
    depths(&mut svg, &sheet)?;
    metal::fastening(&mut svg, &sheet, ask.kind)?;
    wood::hole_edges(&mut svg, &sheet, answer)?;
    wood::breaks(&mut svg, &sheet)?;
    dimensions(&mut svg, &sheet)?;
    for label in &sheet.labels {
        labelled(&mut svg, label)?;
    }
    bar(&mut svg, &sheet)?;
    for text in &sheet.texts {
        written(&mut svg, text)?;
    }
    svg.finish()
}

impl Sheet {
    /// Where a depth in millimetres is drawn.
    pub(super) fn down(&self, depth: f64) -> f64 {
        self.top + self.axis.at(depth)
    }

    /// A half outline and its mirror image, closed.
    pub(super) fn mirrored(&self, half: &[[f64; 2]]) -> Path {
        let scale = self.axis.scale;
        let right = half
            .iter()
            .map(|[depth, out]| [self.middle + out * scale, self.down(*depth)]);
        let left = half.iter().rev();
        let left = left.map(|[depth, out]| [self.middle - out * scale, self.down(*depth)]);
        joined(right.chain(left)).closed()
    }
}

/// A line through points.
pub(super) fn joined(points: impl Iterator<Item = [f64; 2]>) -> Path {
    let mut path = Path::default();
    for (at, [x, y]) in points.enumerate() {
        path = if at == 0 {
            path.to(x, y)
        } else {
            path.line(x, y)
        };
    }
    path
}

fn drawn(svg: &mut Svg<'_>, class: &str, path: &Path) -> io::Result<()> {
    svg.shape(
        Element::new("path")
            .attr("class", class)
            .attr("d", path.data()),
    )
}

/// From the lines of dimensions to the wood, and faintly on to what is measured.
fn depths(svg: &mut Svg<'_>, sheet: &Sheet) -> io::Result<()> {
    let mut ends: Vec<(f64, f64)> = Vec::new();
    for (span, x) in &sheet.lengths {
        for depth in [span.from.mm(), span.to.mm()] {
            match ends
                .iter_mut()
                .find(|(other, _)| other.total_cmp(&depth).is_eq())
            {
                Some((_, least)) => *least = least.min(*x),
                None => ends.push((depth, *x)),
            }
        }
    }
    let edge = sheet.middle - sheet.half;
    for (depth, x) in ends {
        let y = sheet.down(depth);
        drawn(
            svg,
            "line",
            &Path::default().to(x - 5.0, y).line(edge - 3.0, y),
        )?;
        drawn(
            svg,
            "faint",
            &Path::default().to(edge, y).line(sheet.middle, y),
        )?;
    }
    Ok(())
}

fn dimensions(svg: &mut Svg<'_>, sheet: &Sheet) -> io::Result<()> {
    for (span, x) in &sheet.lengths {
        let (from, to) = (sheet.down(span.from.mm()), sheet.down(span.to.mm()));
        let mut path = Path::default().to(*x, from).line(*x, to);
        let head = ((to - from) / 3.0).min(6.0);
        for (tip, back) in [(from, from + head), (to, to - head)] {
            path = path.to(x - 2.5, back).line(*x, tip).line(x + 2.5, back);
        }
        drawn(svg, "line", &path)?;
    }
    Ok(())
}

fn labelled(svg: &mut Svg<'_>, label: &Label) -> io::Result<()> {
    let mut group = Element::new("g").attr("data-what", label.key);
    for (name, length) in &label.figures {
        group = group.attr(name, &length.mm().to_string());
    }
    svg.open(group)?;
    let [_, _, [x, y]] = label.leader;
    drawn(svg, "line", &joined(label.leader.into_iter()))?;
    let dot = Element::new("circle").attr("class", "dot").number("cx", x);
    svg.shape(dot.number("cy", y).number("r", 2.2))?;
    for text in &label.lines {
        written(svg, text)?;
    }
    svg.close()
}

fn bar(svg: &mut Svg<'_>, sheet: &Sheet) -> io::Result<()> {
    let (length, [x, y]) = sheet.bar;
    let end = x + length.mm() * sheet.axis.scale;
    let path = Path::default()
        .to(x, y - 4.0)
        .line(x, y + 4.0)
        .to(x, y)
        .line(end, y);
    let path = path.to(end, y - 4.0).line(end, y + 4.0);
    drawn(svg, "face", &path)
}

fn written(svg: &mut Svg<'_>, text: &Text) -> io::Result<()> {
    // Letters stand on a line a little above the foot of their box.
    let foot = text.at[1] + text.hand.lead() * 0.76;
    let mut element = Element::new("text")
        .number("x", text.at[0])
        .number("y", foot);
    if text.hand != Hand::Plain {
        element = element.attr("class", text.hand.class());
    }
    if text.ends {
        element = element.attr("text-anchor", "end");
    }
    svg.text(element, &text.text)
}
