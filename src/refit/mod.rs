//! The refit ahead: in which order to do the work.

mod order;

pub use order::{Cover, Order, Pace, Round, Step, Turn, Work};
