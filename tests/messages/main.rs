//! Every message of a fault, on a page that shows the file or the command that makes it.

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

mod complete;
mod literals;
mod pages;
mod told;
