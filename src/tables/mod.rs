//! Typed reference tables and what every figure in them rests on.
//!
//! The rows live in `tables/*.yaml` and are made into static data by `tables/build.rs`; nothing
//! is parsed when the program starts.

mod basis;
mod drills;
mod lead_holes;
mod limits;
mod metals;
mod nails;
mod plank_rules;
mod screws;
mod woods;

pub use basis::{Basis, Source, Status};
pub use drills::{Drill, Series};
pub use lead_holes::LeadHole;
pub use limits::{Limit, Quantity};
pub use metals::{Family, Metal, Range, Water};
pub use nails::WireSystem;
pub use plank_rules::{PlankRow, PlankRule};
pub use screws::{GaugeSystem, Head, Screw};
pub use woods::{Gravity, Wood};
