//! Figures against the publications they come from, the source named beside each.

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

mod butts;
mod cells;
mod drills;
mod lateral;
mod lead_holes;
mod metals;
mod nails;
mod plank_rules;
mod sampling;
mod screws;
mod spacing;
mod strengths;
mod wastage;
mod withdrawal;
mod woods;
