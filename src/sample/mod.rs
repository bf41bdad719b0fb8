//! Which fastenings to draw for a look, and what those drawn say of the rest.

mod bound;

pub use bound::{Confidence, Draw};
