//! What stands under the drawing: what its marks are, what else is drawn, and its scale.

use std::collections::BTreeMap;
use std::io;

use super::super::along::Spacings;
use super::super::counts::Count;
use super::super::laid::Laid;
use super::super::{Class, Map};
use super::paper::{COLUMNS, Paper};
use super::spots::Grain;
use super::text;
use crate::hull::JointKind;
use crate::joint::Zone;
use crate::show::numbers::grouped;
use crate::show::svg::{Element, Path, Svg};
use crate::units::Units;

pub(super) fn draw(
    svg: &mut Svg<'_>,
    map: &Map<'_>,
    laid: &Laid,
    counts: &BTreeMap<Class, Count>,
    paper: &Paper,
    grain: Grain,
) -> io::Result<()> {
    let f = paper.letter;
    let line = 1.6 * f;
    let mut y = paper.legend + f;
    y = scale(svg, map, laid, paper, y)?;
    text(
        svg,
        "head",
        [paper.margin, y],
        &format!("Marks, counted in {}", map.by.counted()),
    )?;
    let column = (paper.width - 2.0 * paper.margin) / COLUMNS as f64;
    for (at, (class, count)) in counts.iter().enumerate() {
        let (row, cell) = (at / COLUMNS, at % COLUMNS);
        let x = paper.margin + cell as f64 * column;
        let here = y + (row as f64 + 1.0) * line;
        let mut data = String::new();
        let size = 0.5 * f;
        class
            .mark()
            .shape
            .write(&mut data, [x + size, here - 0.35 * f], size);
        let mark = Element::new("path").attr("class", class.mark().tint.name());
        svg.shape(mark.attr("d", &data))?;
        let says = format!("{}: {}", class.label(), grouped(count.of(map.by)));
        text(svg, "", [x + 1.6 * f, here], &says)?;
    }
    y += (counts.len().div_ceil(COLUMNS) as f64 + 1.0) * line;
    let mut x = paper.margin;
    for (class, says) in drawn(map) {
        let middle = y - 0.35 * f;
        let path = Path::default();
        let path = match class {
            "joint" => path
                .to(x + 0.8 * f, middle - 0.6 * f)
                .line(x + 0.8 * f, middle + 0.6 * f),
            "scarf" => path
                .to(x, middle + 0.6 * f)
                .line(x + 1.6 * f, middle - 0.6 * f),
            "water" => path.to(x, middle).line(x + 2.4 * f, middle),
            _ => path
                .to(x, middle - 0.5 * f)
                .line(x + 1.6 * f, middle - 0.5 * f)
                .line(x + 1.6 * f, middle + 0.5 * f)
                .line(x, middle + 0.5 * f)
                .closed(),
        };
        svg.shape(
            Element::new("path")
                .attr("class", class)
                .attr("d", path.data()),
        )?;
        text(svg, "", [x + 2.8 * f, y], says)?;
        x += (4.6 + 0.56 * says.len() as f64) * f;
    }
    y += 0.3 * f;
    let mut says = laid.assumed();
    says.insert(
        0,
        format!(
            "{}Where a hole lies within its crossing is not on record: hole 1 is drawn nearest the keel, on deck the middle.",
            grain.says()
        ),
    );
    for sentence in says {
        y += line;
        text(svg, "", [paper.margin, y], &sentence)?;
    }
    y += line;
    text(
        svg,
        "",
        [paper.margin, y],
        "An aid to a record, not a survey.",
    )
}

/// What is drawn beside the marks: its class and its name.
fn drawn(map: &Map<'_>) -> Vec<(&'static str, &'static str)> {
    let hull = map.survey.hull;
    let mut drawn = Vec::new();
    let mut zones: Vec<Zone> = Vec::new();
    for at in map.survey.crossings() {
        if !zones.contains(&at.crossing.zone) {
            zones.push(at.crossing.zone);
        }
    }
    zones.sort_unstable();
    for zone in zones {
        match zone {
            Zone::Underwater => drawn.push(("underwater", "underwater")),
            Zone::WindAndWater => drawn.push(("splash", "wind and water")),
            Zone::Inside => drawn.push(("inside", "inside")),
            Zone::Topsides | Zone::Deck => {}
        }
    }
    if !hull.has_no_waterline() {
        drawn.push(("water", "waterline"));
    }
    let has = |butt: bool| {
        let mut kinds = hull.joints.iter().map(|joint| &joint.kind);
        kinds.any(|kind| matches!(kind, JointKind::Butt { .. }) == butt)
    };
    if has(true) {
        drawn.push(("joint", "butt"));
    }
    if has(false) {
        drawn.push(("scarf", "scarf"));
    }
    drawn.push(("member", "frame or beam"));
    drawn
}

/// A bar of a round length; none where nobody knows how far members lie apart.
fn scale(svg: &mut Svg<'_>, map: &Map<'_>, laid: &Laid, paper: &Paper, y: f64) -> io::Result<f64> {
    let known = |panel: &super::super::laid::Panel| panel.spacings != Spacings::Unknown;
    if !laid.panels.iter().any(known) {
        return Ok(y);
    }
    let f = paper.letter;
    let (unit, name) = match map.survey.units {
        Units::Inch => (304.8, "ft"),
        Units::Metric => (1000.0, "m"),
    };
    let most = 0.25 * paper.width / paper.scale / unit;
    let rounds = [
        0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0,
    ];
    let long = rounds
        .into_iter()
        .rev()
        .find(|long| *long <= most)
        .unwrap_or(0.5);
    let wide = long * unit * paper.scale;
    let x = paper.margin;
    let path = Path::default()
        .to(x, y - 0.5 * f)
        .line(x, y + 0.1 * f)
        .line(x + wide, y + 0.1 * f)
        .line(x + wide, y - 0.5 * f);
    svg.shape(
        Element::new("path")
            .attr("class", "joint")
            .attr("d", path.data()),
    )?;
    let says = format!("{long} {name}, along the boat and across the planks");
    text(svg, "", [x + wide + f, y + 0.1 * f], &says)?;
    Ok(y + 2.2 * f)
}
