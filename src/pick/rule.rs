//! What a planking rule wants for a plank, in the gauges that are used.

use super::Ask;
use crate::tables::{GaugeSystem, PlankRule, Screw};
use crate::units::Length;

/// What a planking rule wants.
#[derive(Clone, Copy, Debug)]
pub struct Wanted {
    /// The rule's screw, or the one nearest to it in shank in the gauges that are used.
    pub screw: &'static Screw,
    /// The length: the rule's own, but for metric screws the nearest they come in.
    pub length: Length,
    /// The bung to use of those that the rule prints, where the screw is the rule's own.
    pub bung: Option<Length>,
    /// The plank that the rule's row is for.
    pub row_plank: Length,
}

impl Wanted {
    /// Whether the rule has a row for this very thickness.
    pub fn is_exact(&self, plank: Length) -> bool {
        self.row_plank == plank
    }
}

/// What the rule of the question wants; `None` where it has no row near the plank.
///
/// A rule that gives only a ratio of length to plank takes its gauge from the default table, and
/// its length is the shortest in stock that satisfies it.
pub(super) fn wanted(ask: &Ask) -> Option<Wanted> {
    let rows = if ask.rule.rows.is_empty() {
        PlankRule::default()
    } else {
        ask.rule
    };
    let row = rows.row(ask.plank)?.row;
    let own = Screw::by_gauge(GaugeSystem::American, row.gauge)?;
    let screw = own.nearest_in(ask.gauges)?;
    let length = match ask.rule.least_ratio {
        Some((over, under)) if ask.rule.rows.is_empty() => {
            let least = ask.plank.share(over, under);
            let stock = screw.stock_lengths();
            stock
                .iter()
                .copied()
                .find(|length| *length >= least)
                .or_else(|| stock.last().copied())
                .unwrap_or(least)
        }
        _ if ask.gauges == GaugeSystem::Metric => {
            // Where no range is published the length still comes by 5 mm.
            nearest(&screw.stock_lengths(), row.length)
                .unwrap_or_else(|| row.length.nearest(Length::from_nm(5_000_000)))
        }
        _ => row.length,
    };
    Some(Wanted {
        screw,
        length,
        bung: (ask.gauges == GaugeSystem::American).then_some(row.bung),
        row_plank: row.plank,
    })
}

/// The length nearest to the one wanted; the longer of two equally near.
fn nearest(lengths: &[Length], wanted: Length) -> Option<Length> {
    lengths
        .iter()
        .copied()
        .min_by_key(|length| ((*length - wanted).nm().abs(), -length.nm()))
}
