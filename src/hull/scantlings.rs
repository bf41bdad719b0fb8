//! The sizes and wood of a member, as far as a fastening meets it.

use crate::joint::Grain;
use crate::tables::Wood;
use crate::units::Length;

/// Sizes and wood of a member. `None` stands for what the owner cannot know.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scantlings {
    /// Width along the boat.
    pub siding: Option<Length>,
    /// What limits a fastening from outboard to inboard: moulding of a frame or beam, landing
    /// depth of an end, thickness of a butt block.
    pub depth: Option<Length>,
    /// Centre to centre, to the next of its kind.
    pub spacing: Option<Length>,
    /// The wood.
    pub wood: Option<&'static Wood>,
    /// How fastenings meet its grain.
    pub grain: Grain,
}
