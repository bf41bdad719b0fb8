//! Plans: what is meant to be driven, and where.

use super::{HoleChoice, Relation};
use crate::hull::Places;
use crate::joint::{Kind, Plug, Size};
use crate::tables::Metal;
use crate::text::Origin;
use crate::units::Day;

/// One dated line of the plan.
#[derive(Clone, Debug, PartialEq)]
pub struct PlanLine {
    /// The plan it belongs to; several lines may share its name.
    pub plan: String,
    /// The day it was planned.
    pub date: Day,
    /// What is meant.
    pub intent: Intent,
    /// Who planned it.
    pub by: Option<String>,
    /// Anything else worth telling.
    pub note: Option<String>,
    /// Where it was written.
    pub origin: Origin,
}

/// What a line of the plan means to be done.
#[derive(Clone, Debug, PartialEq)]
pub enum Intent {
    /// New fastenings driven.
    Drive(Box<Planned>),
    /// What remains of the plan given up.
    Drop {
        /// Why.
        why: Option<String>,
    },
}

/// What is meant to be driven. `None` stands for what is not settled yet.
#[derive(Clone, Debug, PartialEq)]
pub struct Planned {
    /// Where.
    pub place: Places,
    /// How many at each crossing; `None` where the place names the holes.
    pub per_crossing: Option<u8>,
    /// Into which holes.
    pub hole: HoleChoice,
    /// Their kind.
    pub kind: Kind,
    /// Their metal.
    pub metal: Option<&'static Metal>,
    /// Their size.
    pub size: Option<Size>,
    /// What is to close the hole over them.
    pub plug: Plug,
    /// What becomes of what stands there. Where it names nothing, all of it is drawn.
    pub relation: Relation,
}

impl Relation {
    /// Whether it says nothing of any set.
    pub fn is_empty(&self) -> bool {
        self.replaces.is_empty() && self.leaves_in.is_empty() && self.adds_to.is_empty()
    }
}
