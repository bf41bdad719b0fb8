//! The order of the house: every figure has a source and a status, every test belongs somewhere.

// A test may stop at once and means its numbers; to clippy what helps a test is no test.
#![allow(
    clippy::cast_possible_truncation,
    clippy::cast_possible_wrap,
    clippy::cast_sign_loss,
    clippy::expect_used,
    clippy::float_cmp,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::print_stderr,
    clippy::print_stdout,
    clippy::string_slice,
    clippy::unwrap_used
)]

#[path = "../../tables/make/mod.rs"]
mod make;

mod files;
mod format;
mod house;
mod laws;
mod tables;
