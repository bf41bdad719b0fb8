//! Bad files and failing disks: never a panic, never a lost or half-written entry.

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

mod boat;
mod full;
mod hostile;
mod killed;
mod logging;
mod odd;
mod plans;
mod sheets;
mod waiting;
mod writing;
