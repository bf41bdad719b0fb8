//! The boat herself: members, strakes, the crossings where they meet, and how places are written.

mod crossing;
mod fold;
mod holes;
mod member;
mod particulars;
mod place;
mod plank;
mod scantlings;
mod strake;
mod waterline;
mod whole;

pub use crossing::{Crossing, CrossingId, Spot};
pub use fold::{fold, fold_holes};
pub use holes::{HoleNumber, Holes};
pub use member::{End, Member, MemberKind, Number};
pub use particulars::{FramesFrom, Numbering, Particulars, StrakesFrom, Water};
pub use place::{MemberPick, MemberPicks, Place, Places, Run, Runs, Strakes};
pub use plank::{Block, Joint, JointKind, Plank};
pub use scantlings::Scantlings;
pub use strake::{Side, Sides, StrakeId};
pub use waterline::{Mark, Waterline};
pub use whole::{Hardware, HardwareParts, Hull, HullParts, Laid, Placed, Strake, ZoneRule};
