//! Where things lie along the boat, counted in halves of a frame space.

use std::fmt;

use super::Survey;
use crate::hull::{Member, Strake};
use crate::units::Length;

/// A number of half frame spaces: where something lies along the boat, or how far apart two
/// things lie. A joint between two frames lies half a space past the lower number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct HalfSpaces(pub(super) i32);

impl HalfSpaces {
    /// So many whole spaces; more than there can be for a number beyond all frames.
    pub(super) fn whole(spaces: u32) -> Self {
        Self(i32::try_from(spaces).map_or(i32::MAX, |spaces| spaces.saturating_mul(2)))
    }

    /// Where a member lies; `None` for ends, which have no number.
    pub(super) fn of(member: Member) -> Option<Self> {
        let number = i32::from(member.number()?.value());
        Some(Self(match member {
            Member::Butt(..) => 2 * number + 1,
            _ => 2 * number,
        }))
    }

    /// How far apart two places lie.
    pub(super) const fn to(self, other: Self) -> Self {
        Self((self.0 - other.0).abs())
    }

    /// Whether two places so far apart lie in one frame bay, or on a frame and beside it.
    pub(super) const fn is_in_one_bay(self) -> bool {
        self.0 < 2
    }

    /// In frame spaces.
    pub(super) fn spaces(self) -> f64 {
        f64::from(self.0) / 2.0
    }
}

/// In words: `4 frame spaces`, `1/2 frame space`, `2-1/2 frame spaces`.
impl fmt::Display for HalfSpaces {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (whole, half) = (self.0 / 2, self.0 % 2 != 0);
        match (whole, half) {
            (0, true) => f.write_str("1/2")?,
            (whole, true) => write!(f, "{whole}-1/2")?,
            (whole, false) => write!(f, "{whole}")?,
        }
        f.write_str(if self.0 <= 2 && self.0 != 0 {
            " frame space"
        } else {
            " frame spaces"
        })
    }
}

/// The spacing of the frames that a strake crosses.
pub(super) struct Spacing {
    /// The number of the lowest frame.
    first: i32,
    /// From each frame to the next, from the lowest on; where a number is missing, as from the one
    /// below it.
    frames: Vec<Option<Length>>,
}

impl Spacing {
    /// That of a strake's frames.
    pub(super) fn of(survey: &Survey<'_>, strake: &Strake) -> Self {
        let frames = strake.crossings().filter_map(|(id, member)| match member {
            Member::Frame(number) if number.is_plain() => Some((number.value(), id)),
            _ => None,
        });
        let mut frames: Vec<_> = frames.collect();
        // From the bow they rise or fall.
        frames.sort_unstable();
        let first = frames.first().map_or(0, |(first, _)| *first);
        let mut all: Vec<Option<Length>> = Vec::with_capacity(frames.len());
        for (frame, id) in frames {
            let below = all.last().copied().flatten();
            all.resize(usize::from(frame - first), below);
            all.push(survey.hull.crossing(id).scantlings.spacing);
        }
        Self {
            first: first.into(),
            frames: all,
        }
    }

    /// The spacing from a frame to the next; beyond the last that is known of, as there.
    fn after(&self, frame: i32) -> Option<Length> {
        let last = self.frames.len().checked_sub(1)?;
        let at = usize::try_from(frame.saturating_sub(self.first)).unwrap_or(0);
        self.frames.get(at.min(last)).copied().flatten()
    }

    /// The spacings between two places, each with the halves of it that lie between them.
    fn between(
        &self,
        one: HalfSpaces,
        other: HalfSpaces,
    ) -> impl Iterator<Item = (i64, Option<Length>)> + '_ {
        let (from, to) = (one.0.min(other.0), one.0.max(other.0));
        (from.div_euclid(2)..=to.div_euclid(2)).filter_map(move |frame| {
            let halves = to.min(2 * frame + 2) - from.max(2 * frame);
            (halves > 0).then(|| (i64::from(halves), self.after(frame)))
        })
    }

    /// How far apart two places lie; `None` where a spacing between them is not known and
    /// `unknown` does not stand in for it.
    pub(super) fn distance(
        &self,
        one: HalfSpaces,
        other: HalfSpaces,
        unknown: Option<Length>,
    ) -> Option<Length> {
        self.between(one, other)
            .try_fold(Length::ZERO, |sum, (halves, spacing)| {
                Some(sum + spacing.or(unknown)?.share(halves, 2))
            })
    }

    /// Whether any spacing between two places is known to be out of a range.
    pub(super) fn is_out_of(
        &self,
        least: Length,
        most: Length,
        one: HalfSpaces,
        other: HalfSpaces,
    ) -> bool {
        let out = |spacing: Length| spacing < least || spacing > most;
        self.between(one, other)
            .any(|(_, spacing)| spacing.is_some_and(out))
    }
}
