//! Bad files and failing disks: never a panic, never a lost or half-written entry.

// A test may stop at once, and means its numbers exactly.
#![allow(clippy::pedantic, clippy::restriction)]

mod boat;
mod demo;
mod endings;
mod full;
#[path = "../fuzz/bodies/mod.rs"]
mod fuzz;
mod fuzzed;
mod hostile;
mod killed;
mod logging;
mod odd;
mod plans;
mod sheets;
mod spoilt;
mod waiting;
mod words;
mod writing;
