//! Figures against the publications they come from, the source named beside each.

// A test may stop at once, and means its numbers exactly.
#![allow(clippy::pedantic, clippy::restriction)]

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
