//! Laws of the record: how places, lengths and dates are read and printed, what can be done to a
//! fastening, and what every story of a boat must keep.

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
mod condition;
mod deeds;
mod entries;
mod example;
mod folding;
mod hulls;
mod lines;
mod make;
mod merging;
mod past;
mod places;
mod plans;
mod reading;
mod rounds;
mod sets;
mod sheets;
mod stories;
mod tales;
mod uncertain;
mod units;
