//! Where a thing was written, what was wrong with it, and how that is told.
//!
//! Everything that reads a word from a person gives back a [`Misread`] when it cannot; the
//! reader of the record around it turns that into a [`Fault`] that knows file and field.

mod cell;
mod clean;
mod digits;
mod draw;
mod fault;
mod locate;
mod misread;
mod nearest;
pub(crate) mod outline;
pub(crate) mod tokens;
mod words;

pub(crate) use cell::month_named;
pub use cell::{guard, unguard};
pub use clean::Clean;
pub(crate) use clean::is_unsafe;
pub(crate) use digits::digits;
pub use draw::{Spot, Texts, draw, in_order, spot, tell};
pub use fault::{Fault, FileId, Origin, Step};
pub use locate::locate;
pub use misread::Misread;
pub use nearest::nearest;
pub(crate) use words::words;
