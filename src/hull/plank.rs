//! Planks and the joints between them.

use super::{CrossingId, Hull, Member, Strake};
use crate::tables::Wood;
use crate::text::Origin;
use crate::units::Length;

/// How two planks of a strake meet.
#[derive(Clone, Debug, PartialEq)]
pub enum JointKind {
    /// End to end, on a block between frames or on a frame.
    Butt {
        /// Thickness and wood of the block, where there is one.
        block: Option<Block>,
        /// Fastenings meant to be at each end.
        per_end: Option<u8>,
    },
    /// Cut on a slant.
    Scarf {
        /// Length over thickness.
        slope: Option<f64>,
        /// Whether it is glued.
        glued: Option<bool>,
    },
}

/// The block behind a butt.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Block {
    /// Its thickness.
    pub thickness: Option<Length>,
    /// Its wood.
    pub wood: Option<&'static Wood>,
}

/// A joint in a strake.
#[derive(Clone, Debug, PartialEq)]
pub struct Joint {
    /// Where it was written.
    pub origin: Origin,
    /// What it is.
    pub kind: JointKind,
    /// The crossings at it: both halves of one between frames, or the frame it falls on.
    pub crossings: Vec<CrossingId>,
}

/// One piece of planking between two joints or ends, as the crossings it lies on, from the bow.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Plank {
    /// Along its run: ends, frames, beams, butt blocks.
    pub crossings: Vec<CrossingId>,
    /// Along the keel rabbet, for a garboard.
    pub keel: Vec<CrossingId>,
}

impl Hull {
    /// The planks of a strake, from the bow, without the joints whose crossings are `absent` on
    /// the day. A joint on a frame belongs to the planks on both sides of it, which both lie there.
    pub fn planks(&self, strake: &Strake, absent: impl Fn(CrossingId) -> bool) -> Vec<Plank> {
        let mut planks = Vec::new();
        let mut plank = Plank {
            crossings: Vec::new(),
            keel: Vec::new(),
        };
        for (id, member) in strake.crossings() {
            let joint = !absent(id);
            if !joint && matches!(member, Member::Butt(..)) {
                continue;
            }
            match member {
                Member::Keel(_) => plank.keel.push(id),
                _ => plank.crossings.push(id),
            }
            let ends =
                matches!(member, Member::Butt(_, super::End::Fwd)) || joint && self.jointed_on(id);
            if ends {
                let next = Plank {
                    crossings: if matches!(member, Member::Butt(..)) {
                        Vec::new()
                    } else {
                        vec![id]
                    },
                    keel: Vec::new(),
                };
                planks.push(std::mem::replace(&mut plank, next));
            }
        }
        planks.push(plank);
        planks
    }

    /// Whether two planks meet on the member itself at this crossing.
    fn jointed_on(&self, id: CrossingId) -> bool {
        self.on_member.binary_search(&id).is_ok()
    }
}
