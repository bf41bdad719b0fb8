//! How wide holes are bored, and how the member's grain lies in the section.

use crate::joint::{Bit, Grain, Hole};
use crate::pick::{Answer, Ask};
use crate::units::Length;

/// How wide a hole is as it is bored.
pub(super) fn bored(hole: Hole) -> Length {
    hole.bit.and_then(Bit::diameter).unwrap_or(hole.exact)
}

/// Whether one taper bit bores shank hole and pilot.
pub(super) fn is_tapered(answer: &Answer) -> bool {
    let shank = answer.holes.shank.and_then(|hole| hole.bit);
    matches!(shank, Some(Bit::Taper(_)))
}

/// How a member's grain lies in a section along the plank.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Lie {
    /// Towards whoever looks: frames, beams, stem and sternpost cross the planks.
    Across,
    /// With the plank: butt blocks, keel and horn timber run as it does.
    Along,
    /// With the fastening, driven into end grain.
    Endwise,
}

/// How the member's grain lies here.
pub(super) fn lie(ask: &Ask) -> Lie {
    match (ask.grain, ask.on) {
        (Grain::End, _) => Lie::Endwise,
        (Grain::Side, "butt block" | "keel" | "horn timber") => Lie::Along,
        (Grain::Side, _) => Lie::Across,
    }
}
