//! The boat herself: members, strakes, the crossings where they meet, and how places are written.

mod build;
mod crossing;
mod fold;
mod holes;
mod lay;
mod member;
mod mix;
mod names;
mod particulars;
mod parts;
mod place;
mod place_runs;
mod place_words;
mod plank;
mod resolve;
mod scantlings;
mod strake;
mod waterline;
mod whole;

pub use crossing::{Crossing, CrossingId, Spot};
pub use fold::{fold, fold_holes};
pub use holes::{HoleNumber, Holes};
pub use member::{End, Member, MemberKind, Number};
pub use mix::Mix;
pub use names::StrakeName;
pub use particulars::{FramesFrom, Numbering, Particulars, StrakesFrom, Water};
pub use parts::{
    GravingParts, GravingPiece, Hardware, HardwareParts, HullParts, Laid, LaidNames, Placed,
    Practice, ZoneRule,
};
pub use place::{MemberPick, Place, Places, Run};
pub use place_words::{MemberPicks, Runs, Strakes};
pub use plank::{Block, Joint, JointKind, Plank};
pub use scantlings::Scantlings;
pub use strake::{Side, Sides, StrakeId};
pub use waterline::{Mark, Waterline};
pub use whole::{Hull, Strake};
