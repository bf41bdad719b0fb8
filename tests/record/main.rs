//! Laws of the record: how places, lengths and dates are read and printed, what can be done to a
//! fastening, and what every story of a boat must keep.

// A test may stop at once, and means its numbers exactly.
#![allow(clippy::pedantic, clippy::restriction)]

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
