//! Values that only entries have.

use std::str::FromStr;

use super::hull::few_words;
use crate::text::{Misread, digits};
use crate::units::Length;

/// What a metal was taken for, without the question mark that makes it a guess.
pub(super) fn guessed(text: &str) -> Option<String> {
    let guess = text.trim().strip_suffix('?')?.trim();
    (!guess.is_empty()).then(|| guess.to_owned())
}

/// A whole number, at least one: of an entry, or of fastenings.
pub(super) struct Above0(pub(super) u32);

impl FromStr for Above0 {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        let number = digits(text.trim()).filter(|n| *n > 0);
        number
            .map(Self)
            .ok_or_else(|| Misread::new(format!("`{}` is not a whole number above 0", text.trim())))
    }
}

/// The name of a plan: a few words.
pub(super) struct PlanName(pub(super) String);

impl FromStr for PlanName {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        few_words(text, "plan", "garboards spring").map(Self)
    }
}

/// What was measured of a fastening: there was some of it to measure.
pub(super) struct Diameter(pub(super) Length);

impl FromStr for Diameter {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        match text.parse()? {
            Length::ZERO => Err(Misread::new("nothing at all is not a diameter")
                .help("where the shank is gone, log it `broken`")),
            length => Ok(Self(length)),
        }
    }
}
