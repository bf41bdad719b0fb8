//! Lengths, areas, forces, strengths, potentials and dates: reading and printing them.

mod ages;
mod area;
mod day;
mod force;
mod length;
mod number;
mod potential;
mod season;
mod stress;
mod when;
mod whole;

pub use ages::Ages;
pub use area::Area;
pub use day::Day;
pub use force::Force;
pub use length::{Length, Units};
pub use potential::Potential;
pub use season::Season;
pub use stress::Stress;
pub use when::When;
pub use whole::{count, places, whole};
