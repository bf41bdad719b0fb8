//! Bad files and failing disks: never a panic, never a lost or half-written entry.

// A test may stop at once, and means its numbers exactly.
#![allow(clippy::pedantic, clippy::restriction)]

mod boat;
mod endings;
mod full;
mod fuzzed;
mod hostile;
mod killed;
mod logging;
mod odd;
mod plans;
mod running;
mod sheets;
mod waiting;
mod writing;
