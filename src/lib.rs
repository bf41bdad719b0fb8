//! The house, floor by floor. Each floor uses only the floors above it in this list.

pub mod files;
pub mod tables;
pub mod text;
pub mod units;
