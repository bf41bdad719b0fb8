//! Arithmetic of one fastening in one crossing: pure functions, each with its formula, units,
//! validity and source.

mod fastening;
mod grain;
mod zone;

pub use fastening::{Bung, Kind, Plug, Size};
pub use grain::Grain;
pub use zone::Zone;
