//! Where what is in the planking: a map for a terminal, a drawing to pin to the wall, and the same
//! for other programs.

mod across;
mod along;
mod cells;
mod class;
mod counts;
mod drawing;
mod json;
mod laid;
mod read;
mod screen;

pub use class::Class;
pub use drawing::{Dress, drawing, page_colours};
pub use json::json;
pub use read::{Ask, By, Map};
pub use screen::text;
