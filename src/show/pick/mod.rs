//! The answer of `pick`, for people and for programs.

mod holes;
mod json;
mod planned;
mod positions;
mod text;

pub(super) use holes::{stop, tool};
pub use json::json;
pub use planned::{Planned, planned};
pub use text::text;
pub(super) use text::{asked, called, hold_figures};

use crate::joint::Bit;
use crate::units::{Length, Units};

/// What a bit is called in the shop.
fn bit_name(bit: Bit, units: Units) -> String {
    match bit {
        Bit::Drill(drill) => drill.name.to_owned(),
        Bit::Counterbore(diameter) => diameter.shown(units),
        Bit::Taper(screw) => format!("{} taper", screw.name()),
    }
}

/// A length without its unit, which stands in the head of the column.
fn bare(length: Length, units: Units) -> String {
    let shown = length.shown(units);
    match shown.rsplit_once(' ') {
        Some((number, _)) => number.to_owned(),
        None => shown,
    }
}
