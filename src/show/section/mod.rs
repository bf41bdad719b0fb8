//! The section drawing of a picked fastening: plank and member cut along its axis, as a picture
//! and in text. Laid out as values first ([`sheet`]), then drawn.

mod axis;
mod body;
mod callouts;
mod drawing;
mod lie;
mod metal;
mod sheet;
mod spans;
mod spread;
mod text;
mod wood;
mod words;

pub use drawing::svg;
pub(super) use text::text;

#[cfg(test)]
mod tests;
