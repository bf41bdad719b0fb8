//! Typed reference tables and what every figure in them rests on.
//!
//! The rows live in `tables/*.yaml` and are made into static data by `tables/build.rs`; nothing
//! is parsed when the program starts.

mod all;
mod basis;
mod bolts;
mod bungs;
mod butts;
mod corrosion;
mod couples;
mod drills;
mod lead_holes;
mod limits;
mod metals;
mod nails;
mod names;
mod plank_rules;
mod screws;
mod spacing;
mod strengths;
mod woods;

pub use all::{Cell, Column, Table};
pub use basis::{Basis, Source, Status};
pub use bolts::lag_root;
pub use bungs::Bung;
pub use butts::ButtRule;
pub use corrosion::{Coating, Exposure, Rate};
pub use couples::MeasuredCouple;
pub use drills::{Drill, Series};
pub use lead_holes::LeadHole;
pub use limits::{Limit, Quantity};
pub use metals::{Family, Fit, Fits, Metal, Range, SERIES, Verdict};
pub use nails::{WireSystem, penny, thinner_wire, wire_diameter};
pub use plank_rules::{Nearest, PlankRow, PlankRule};
pub use screws::{GaugeSystem, Head, Screw};
pub use spacing::{SpacingOf, spacing};
pub use strengths::{Strength, bending_yield};
pub use woods::{Gravity, Wood};
