//! How far apart butts are kept.

use super::names;
use crate::text::Misread;
use crate::units::Length;

/// A published practice of keeping butts apart.
#[derive(Debug, PartialEq, Eq)]
pub struct ButtRule {
    /// Its name.
    pub name: &'static str,
    /// Other names of it.
    pub aliases: &'static [&'static str],
    /// Fewest frame spaces between butts in neighbouring strakes, on frames of a usual spacing;
    /// `None` where the practice counts by length alone.
    pub spaces: Option<u32>,
    /// Least distance between butts in neighbouring strakes; where there are also `spaces`, on
    /// unusual frames.
    pub apart: Length,
    /// The same with one strake between them; `None` where the practice does not say.
    pub one_between: Option<Length>,
    /// Fewest whole strakes between butts in one frame bay.
    pub strakes: u32,
}

include!(concat!(env!("OUT_DIR"), "/butts.rs"));

static FIRST: &ButtRule = names::first(BUTTS);

impl ButtRule {
    /// The practice used unless another is chosen: the government bulletin, the first row.
    #[expect(
        clippy::should_implement_trait,
        reason = "a reference to a row, not a new value"
    )]
    pub fn default() -> &'static Self {
        FIRST
    }

    /// The practice of this name.
    ///
    /// # Errors
    /// Where there is none; the help names the nearest, or all.
    pub fn find(name: &str) -> Result<&'static Self, Misread> {
        names::find("a practice for butts", "butts", name, BUTTS, |row| {
            (row.name, row.aliases)
        })
    }
}
