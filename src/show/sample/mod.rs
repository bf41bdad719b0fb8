//! Printing samples: what to draw, and what those drawn say.

mod draw;
mod json;
mod read;

pub use draw::draw;
pub(super) use json::groups_json;
pub use json::{draw_json, read_json};
pub use read::read;
pub(super) use read::said;

use crate::audit::Survey;
use crate::hull::{CrossingId, HoleNumber, Places, fold_holes};
use crate::sample::{Confidence, Reading};
use crate::tables::{Basis, Status};

use super::places::in_short_words;

/// A sample, and by what it is judged.
#[derive(Debug)]
pub struct Sample<'a> {
    /// The boat on the day.
    pub survey: &'a Survey<'a>,
    /// What was drawn.
    pub reading: &'a Reading,
    /// Where, if not in the whole boat.
    pub place: Option<&'a Places>,
    /// How sure a bound is.
    pub confidence: Confidence,
    /// The bad share that is worth showing to be the most.
    pub share: f64,
}

/// What no sample says, however it comes out.
const NOT_SAID: [&str; 4] = [
    "A bound does not cover one bad strake: bad fastenings lie together, and a lot can miss them all. In EL TORO II they lay in three planks of a hull otherwise good.",
    "Only those drawn by lot speak for the rest. One that was aimed at, or chosen because it came easily, does not, whatever it is logged as.",
    "One that could not be reached is none of the sample: it makes it smaller, and the bound with it worse. One that breaks or spins is bad; draw no other in its place.",
    "Each bound is of one zone and one metal, on the eve of its first draw. It says nothing of the boat as a whole, nor of how long the good ones last.",
];

/// What these pages rest on.
const SOURCES: [(&str, Basis); 4] = [
    (
        "by lot, from each zone",
        Basis::on("TB201", Status::Read, "2-8a; it gives no number"),
    ),
    (
        "the bound",
        Basis::on(
            "E2334",
            Status::Read,
            "case 2: a sample of a lot with an end",
        ),
    ),
    (
        "clusters; lift a plank sooner than draw single nails",
        Basis::on("ELT", Status::Read, "item 134"),
    ),
    (
        "a lot without end",
        Basis::on("NIST", Status::Read, "7.2.4.2, one-sided"),
    ),
];

impl Sample<'_> {
    fn place(&self, holes: impl IntoIterator<Item = (CrossingId, HoleNumber)>) -> Places {
        in_short_words(&fold_holes(self.survey.hull, holes))
    }

    /// `95 %`
    pub(super) fn sure(&self) -> String {
        percent(self.confidence.share())
    }
}

/// A share to a tenth of a percent, without a tenth that is nought: `52.7 %`.
fn percent(share: f64) -> String {
    format!("{} %", (share * 1000.0).round() / 10.0)
}

/// The same, never less than it is: what could be bad is not made to look better.
fn percent_up(share: f64) -> String {
    format!("{} %", (share * 1000.0 - 1e-9).ceil().abs() / 10.0)
}

#[cfg(test)]
mod tests {
    use super::{percent, percent_up};

    #[test]
    fn what_could_be_bad_is_rounded_up() {
        assert_eq!(percent(0.95), "95 %");
        assert_eq!(percent(0.999), "99.9 %");
        assert_eq!(percent_up(0.1), "10 %");
        assert_eq!(percent_up(0.100_01), "10.1 %");
        assert_eq!(percent_up(1.0), "100 %");
        assert_eq!(percent_up(0.0), "0 %");
    }
}
