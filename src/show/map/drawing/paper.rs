//! How large a drawing is, and where its parts lie on the paper.

use super::super::Map;
use super::super::laid::{Laid, Panel};
use super::spots::Grain;
use crate::hull::Member;
use crate::units::whole;

/// Narrowest and widest the planking is drawn, in pixels.
const NARROWEST: f64 = 1000.0;
const WIDEST: f64 = 3600.0;
/// Half the height of a mark, in pixels: as small as still reads on paper, and as large as it gets.
const GOOD: f64 = 3.6;
const LARGEST: f64 = 5.0;
/// The room that a mark wants, in halves of its height.
const APART: f64 = 2.7;
/// The most room a mark makes use of.
pub(super) const MOST_ROOM: f64 = LARGEST * APART;
/// The least size of writing that is read, in pixels.
const READ: f64 = 8.0;
/// Columns of the legend.
pub(super) const COLUMNS: usize = 4;

/// Where a panel lies.
#[derive(Clone, Copy, Debug)]
pub(super) struct Place {
    /// Where its place 0 along the boat is.
    pub(super) zero: f64,
    /// Its top, where its head stands.
    pub(super) top: f64,
    /// Where the upper half begins, growing upwards.
    pub(super) upper: f64,
    /// Where the lower half begins, growing downwards.
    pub(super) lower: f64,
    /// Its bottom.
    pub(super) bottom: f64,
}

/// The paper and its parts, in pixels.
#[derive(Clone, Debug)]
pub(super) struct Paper {
    pub(super) width: f64,
    pub(super) height: f64,
    pub(super) margin: f64,
    /// Size of the writing.
    pub(super) letter: f64,
    /// Of the names of strakes.
    pub(super) small: f64,
    /// Every which strake has room for its name.
    pub(super) named: u16,
    /// Pixels a millimetre.
    pub(super) scale: f64,
    pub(super) panels: Vec<Place>,
    /// Where the legend begins.
    pub(super) legend: f64,
}

impl Paper {
    pub(super) fn new(map: &Map<'_>, laid: &Laid, grain: Grain, classes: usize) -> Self {
        let lengths = laid.panels.iter().map(|panel| panel.to - panel.from);
        let length = lengths.fold(1.0, f64::max);
        // As large as makes a usual mark readable, within what paper there is.
        let usual = usual_room(map, laid, grain);
        let scale = (GOOD / usual).clamp(NARROWEST / length, WIDEST / length);
        let width = length * scale;
        let letter = (width / 95.0).clamp(12.0, 24.0);
        let margin = 1.5 * letter;
        let (mut top, mut panels) = (margin + 4.4 * letter, Vec::new());
        let gutter = 4.0 * letter;
        for panel in &laid.panels {
            let height = |half: &Option<super::super::laid::Half>| {
                half.as_ref()
                    .map_or(0.0, |half| half.stack.height() * scale)
            };
            let upper = top + 2.8 * letter + height(&panel.upper);
            let lower = upper
                + if panel.upper.is_some() {
                    2.2 * letter
                } else {
                    0.0
                };
            let bottom = lower + height(&panel.lower) + 3.0 * letter;
            panels.push(Place {
                zero: margin + gutter - panel.from * scale,
                top,
                upper,
                lower,
                bottom,
            });
            top = bottom + letter;
        }
        let widths = laid.panels.iter().flat_map(Panel::halves);
        let widths = widths
            .flat_map(|half| half.stack.runs())
            .map(|run| run.width);
        let narrowest = widths.fold(f64::INFINITY, f64::min) * scale;
        // Rows of marks, then of what else is drawn, then what was assumed, and the scale.
        let rows = classes.div_ceil(COLUMNS) + 3 + laid.assumed().len() + 4;
        Self {
            width: width + 2.0 * (margin + gutter),
            height: top + rows as f64 * 1.6 * letter + margin,
            margin,
            letter,
            small: (0.8 * narrowest).clamp(READ, 0.85 * letter),
            named: u16::try_from(whole((READ / narrowest).ceil().clamp(1.0, 999.0))).unwrap_or(1),
            scale,
            panels,
            legend: top,
        }
    }

    /// How large a mark may be, in a room so wide and high that it shares with others.
    pub(super) fn mark(room: [f64; 2], among: [f64; 2]) -> f64 {
        let fits = (room[0] / among[0]).min(room[1] / among[1]) / APART;
        // By quarters of a pixel, which are short to write.
        (fits.clamp(0.5, LARGEST) * 4.0).floor() / 4.0
    }
}

/// Half the height of a mark in a usual crossing, in millimetres of the boat.
fn usual_room(map: &Map<'_>, laid: &Laid, grain: Grain) -> f64 {
    let mut rooms: Vec<f64> = Vec::new();
    for half in laid.panels.iter().flat_map(Panel::halves) {
        for (run, row) in half.stack.runs().iter().zip(&half.rows) {
            for pair in row.crossings.windows(2) {
                let [one, next] = pair else { continue };
                let holes = match (grain, one.member) {
                    (_, Member::Keel(_) | Member::Butt(..)) => continue,
                    (Grain::Hole, _) => map.survey.at(one.id).holes.len().clamp(1, 4),
                    _ => 1,
                };
                let room = 0.75 * (next.along - one.along).abs().max(1.0);
                rooms.push(room.min(run.width / holes as f64) / APART);
            }
        }
    }
    rooms.sort_unstable_by(f64::total_cmp);
    let block = match grain {
        Grain::Block(side) => side as f64,
        _ => 1.0,
    };
    // Few are tighter than this one; those get smaller marks.
    rooms
        .get(rooms.len() / 10)
        .map_or(50.0, |room| room * block)
}
