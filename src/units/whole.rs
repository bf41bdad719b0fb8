//! Whole numbers made of others, without losing head or sign on the way.

/// How many there are; the most that can be said stands for any more. No list comes near it, for at
/// most 20 million holes are read.
pub fn count(of: usize) -> u32 {
    u32::try_from(of).unwrap_or(u32::MAX)
}

/// The whole part of a number. One out of range becomes the nearest end of the range, and what is
/// no number 0.
#[expect(
    clippy::cast_possible_truncation,
    reason = "such a cast keeps to the ends of the range"
)]
pub const fn whole(of: f64) -> i64 {
    of as i64
}

/// The same of how many places of a row are meant: columns, letters. Less than none is none.
pub fn places(of: f64) -> usize {
    usize::try_from(whole(of).max(0)).unwrap_or(usize::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ends_of_the_range_stand_for_what_is_beyond() {
        assert_eq!(count(20_000_000), 20_000_000);
        assert_eq!(count(usize::MAX), u32::MAX);
        for (of, is) in [
            (2.999, 2),
            (-2.999, -2),
            (f64::INFINITY, i64::MAX),
            (-1e300, i64::MIN),
            (f64::NAN, 0),
        ] {
            assert_eq!(whole(of), is, "{of}");
        }
        assert_eq!(places(-0.6), 0);
        assert_eq!(places(7.5), 7);
    }
}
