//! The house, floor by floor. Each floor uses only the floors above it in this list.

// Tests mean their numbers exactly, and know the texts they cut.
#![cfg_attr(test, allow(clippy::float_cmp, clippy::string_slice))]

pub mod text;

pub mod units;

pub mod tables;

pub mod joint;

pub mod hull;

pub mod record;

pub mod pick;

pub mod audit;

pub mod sample;

pub mod refit;

pub mod show;

pub mod files;

pub mod cli;
