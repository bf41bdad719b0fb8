//! The question before a screw is driven: which screw, which drills, which bung?
//!
//! An [`Ask`] goes in; [`answer`] gives an [`Answer`] or says what makes no sense.

mod alternatives;
mod answer;
mod ask;
mod check;
mod driven;
mod driven_length;
mod ground;
mod rule;
mod setting;
mod spread;
#[cfg(test)]
mod tests;
mod words;

pub use alternatives::{Alternative, Way};
pub use answer::{Answer, answer};
pub use ask::{Ask, Fixed, Refusal};
pub use check::Check;
pub use ground::{Ground, Spot};
pub use rule::Wanted;
pub use spread::Spread;
