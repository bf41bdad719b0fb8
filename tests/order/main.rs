//! The order of the house: every figure has a source and a status, every test belongs somewhere.

// A test may stop at once, and means its numbers exactly.
#![allow(clippy::pedantic, clippy::restriction)]

#[path = "../../tables/make/mod.rs"]
mod make;

mod files;
mod format;
mod house;
mod laws;
mod licences;
mod tables;
