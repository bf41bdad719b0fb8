//! The marks of a half of a panel, in the room that each crossing has.

use std::collections::BTreeMap;
use std::io;

use super::super::laid::Lies;
use super::super::{Class, counts};
use super::panel::On;
use super::paper::Paper;
use super::spots::Spots;
use crate::hull::Member;
use crate::show::svg::{Element, Svg};

/// The room that the marks of a crossing have: its edges across the planking, and how wide and high
/// it is on the paper. Marks in the keel rabbet stand along the edge of their plank.
struct Room {
    bottom: f64,
    top: f64,
    size: [f64; 2],
}

/// How much of a garboard is left to the keel rabbet.
const RABBET: f64 = 0.22;
/// How much of the way to its neighbours a crossing may fill.
const FILL: f64 = 0.75;

impl Room {
    fn of(on: &On<'_>, at: usize, lies: &Lies) -> Self {
        let row = on.half.rows.get(at).map_or(&[][..], |row| &row.crossings);
        let rabbet = |member| matches!(member, Member::Keel(_));
        let garboard = row.iter().any(|lies| rabbet(lies.member));
        let here = rabbet(lies.member);
        let lane = row
            .iter()
            .filter(|o| o.id != lies.id && rabbet(o.member) == here);
        let gaps = lane.map(|other| (other.along - lies.along).abs());
        let wide = gaps.fold(f64::INFINITY, f64::min);
        let [lower, upper] = on.half.stack.across(at, lies.along);
        let part = lower + RABBET * (upper - lower);
        let (bottom, top) = match (garboard, here) {
            (false, _) => (lower, upper),
            (true, true) => (lower, part),
            (true, false) => (part, upper),
        };
        let wide = if wide.is_finite() {
            FILL * wide
        } else {
            upper - lower
        };
        Self {
            bottom,
            top,
            size: [wide * on.scale, (top - bottom) * on.scale],
        }
    }
}

/// The marks, strake by strake, one path for each class.
pub(super) fn draw(svg: &mut Svg<'_>, on: &On<'_>, spots: &Spots<'_>) -> io::Result<()> {
    for (at, run) in on.half.stack.runs().iter().enumerate() {
        let mut drawn: BTreeMap<Class, (String, u32)> = BTreeMap::new();
        for (lies, spot) in spots.of(on.half, at, |lies| Room::of(on, at, lies).size) {
            let room = Room::of(on, at, &lies);
            let size = Paper::mark(room.size, spot.among);
            // Marks keep together about their member.
            let spread = room.size[0].min(spot.among[0] * 2.8 * size);
            let across = room.bottom + spot.at[1] * (room.top - room.bottom);
            let [x, y] = on.point([lies.along, across]);
            let x = x + (spot.at[0] - 0.5) * spread;
            // A tenth of a pixel is not seen, and is short to write.
            let [x, y] = [x, y].map(|at| (at * 10.0).round() / 10.0);
            let (data, count) = drawn.entry(spot.class).or_default();
            spot.class.mark().shape.write(data, [x, y], size);
            *count = count.saturating_add(spot.count);
        }
        if drawn.is_empty() {
            continue;
        }
        svg.open(Element::new("g").attr("data-strake", &run.id.to_string()))?;
        let said = drawn.iter().map(|(class, (_, count))| (*class, *count));
        let says = counts::in_short(said);
        svg.text(Element::new("title"), &format!("{}: {says}", run.id))?;
        for (class, (data, count)) in &drawn {
            let path = Element::new("path")
                .attr("class", class.mark().tint.name())
                .attr("data-mark", &class.label())
                .number("data-count", f64::from(*count));
            svg.shape(path.attr("d", data))?;
        }
        svg.close()?;
    }
    Ok(())
}
