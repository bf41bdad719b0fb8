//! The order of the house: every figure has a source and a status, every test belongs somewhere.

#[path = "../../tables/make/mod.rs"]
mod make;

mod files;
mod format;
mod house;
mod laws;
mod tables;
