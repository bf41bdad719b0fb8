//! Arithmetic of one fastening in one crossing.
//!
//! Nothing here knows a boat, a record or a command: plank, member, fastening and zone go in,
//! figures and verdicts come out. Every formula carries its units, its range and its source.

pub mod bung;
mod couple;
mod dowel;
mod grain;
mod hold;
mod holes;
pub mod judge;
mod kind;
mod kind_hold;
mod kind_holes;
mod lateral;
pub(crate) mod limits;
mod measured;
mod plug;
mod seat;
mod size;
pub mod spacing;
mod surface;
mod timber;
pub mod wastage;
pub mod withdrawal;
pub mod yield_limit;
mod zone;

pub use couple::{Couple, Stainless};
pub use dowel::{Dowel, dowel_bearing};
pub use grain::Grain;
pub use hold::{Hold, hold};
pub use holes::{Bit, Hole, Holes, Kit, Lead, Reach, bore};
pub use judge::{Judgement, Verdict};
pub use kind::Kind;
pub use kind_hold::hold_kind;
pub use kind_holes::Borer;
pub use lateral::{Lateral, Push, Woods, lateral};
pub use limits::{Bound, Limits};
pub use measured::{MeasuredLoss, beside_stainless};
pub use plug::{Bung, Plug};
pub use seat::Seat;
pub use size::Size;
pub(crate) use size::no_gauge;
pub use surface::{AreaRatio, surface};
pub use timber::{Stated, Timber, at_12_from_green, green_from_oven_dry};
pub use zone::Zone;
