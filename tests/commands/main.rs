//! What each command answers, run as a person would run it.

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

#[path = "../support/console.rs"]
mod console;

mod audit;
mod buy;
mod check;
mod demo;
mod drawing;
mod ends;
mod explain;
mod log;
mod map;
mod pages;
mod pick;
mod pictures;
mod plan;
mod report;
mod run;
mod sample;
mod show;
mod spreadsheets;
mod time;
mod todo;
