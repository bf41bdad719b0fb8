//! The refit ahead: what to buy for it, and in which order to do the work.

pub mod buy;
mod order;

pub use order::{Cover, Order, Pace, Round, Step, Turn, Work};
