//! Which fastenings to draw for a look, and what those drawn say of the rest.
//!
//! [`read`] takes from the log what was drawn by lot and what was aimed at, each zone and metal
//! by itself, and keeps them apart: only a lot speaks for the rest. [`propose`] draws the lots.

mod bound;
mod drawn;
mod limits;
mod lot;
mod propose;
mod read;
mod rounds;
mod targeted;

pub use bound::{Confidence, Draw};
pub(crate) use limits::open_frames;
pub use limits::{confidence, draw_by_lot, share_to_show};
pub use lot::default_seed;
pub use propose::{Amount, Lift, Pick, Proposal, propose};
pub use read::{Aimed, Group, Reading, read};
pub use rounds::Rounds;
pub(crate) use rounds::Site;
pub use targeted::{Aim, Reason};
