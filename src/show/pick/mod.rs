//! The answer of `pick`, for people and for programs.

mod json;
mod text;

pub use json::json;
pub use text::text;

use crate::joint::Bit;
use crate::units::Units;

/// What a bit is called in the shop.
fn bit_name(bit: Bit, units: Units) -> String {
    match bit {
        Bit::Drill(drill) => drill.name.to_owned(),
        Bit::Counterbore(diameter) => diameter.shown(units),
        Bit::Taper(screw) => format!("{} taper", screw.name()),
    }
}
