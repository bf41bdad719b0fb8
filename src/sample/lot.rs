//! Drawing by lot, the same again for the same seed.

use crate::units::Day;

/// A drawer of lots. Its numbers are SplitMix64's, fixed for good: a lot that was drawn can be
/// drawn again by any later version.
#[derive(Clone, Debug)]
pub(super) struct Lot(u64);

/// The seed where none is given: made of the boat's name and the day, so that nobody chose it.
/// Six digits, to be written down.
pub fn default_seed(boat: &str, day: Day) -> u32 {
    (mixed(0, &[boat, &day.to_string()]) % 1_000_000) as u32
}

/// FNV-1a over a number and some words.
fn mixed(seed: u64, words: &[&str]) -> u64 {
    const PRIME: u64 = 0x0100_0000_01b3;
    let mut hash: u64 = 0xcbf2_9ce4_8422_2325;
    let bytes = words.iter().flat_map(|word| word.bytes().chain([0]));
    for byte in seed.to_le_bytes().into_iter().chain(bytes) {
        hash = (hash ^ u64::from(byte)).wrapping_mul(PRIME);
    }
    hash
}

impl Lot {
    /// A drawer for one part of the boat, so that what is drawn there does not hang on the rest.
    pub(super) fn new(seed: u32, part: &[&str]) -> Self {
        Self(mixed(u64::from(seed), part))
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// A number below `count`, each as likely as the other; nought where there is none.
    fn below(&mut self, count: usize) -> usize {
        let count = u64::try_from(count.max(1)).unwrap_or(u64::MAX);
        // Numbers of the last, broken round would favour the low ones.
        let whole = u64::MAX - u64::MAX % count;
        loop {
            let number = self.next();
            if number < whole {
                return usize::try_from(number % count).unwrap_or(0);
            }
        }
    }

    /// Draws some, or all where there are fewer, in the order they are drawn.
    pub(super) fn draw<T: Copy>(&mut self, from: &[T], count: usize) -> Vec<T> {
        let mut left = from.to_vec();
        (0..count.min(from.len()))
            .map(|_| left.swap_remove(self.below(left.len())))
            .collect()
    }

    /// Draws one; `None` where there is none.
    pub(super) fn one<'t, T>(&mut self, from: &'t [T]) -> Option<&'t T> {
        from.get(self.below(from.len()))
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::{Lot, default_seed};

    /// The reference sequence of SplitMix64 for the seed 1234567.
    #[test]
    fn the_numbers_are_those_of_the_reference() {
        let mut lot = Lot(1_234_567);
        for number in [
            6_457_827_717_110_365_317,
            3_203_168_211_198_807_973,
            9_817_491_932_198_370_423,
        ] {
            assert_eq!(lot.next(), number);
        }
    }

    #[test]
    fn a_lot_is_the_same_again_and_no_other_by_another_seed() {
        let all: Vec<u32> = (0..500).collect();
        let drawn = |seed, part: &str| Lot::new(seed, &[part]).draw(&all, 40);
        assert_eq!(drawn(7, "deck"), drawn(7, "deck"));
        assert_ne!(drawn(7, "deck"), drawn(8, "deck"));
        assert_ne!(drawn(7, "deck"), drawn(7, "inside"));
        let distinct: BTreeSet<u32> = drawn(7, "deck").into_iter().collect();
        assert_eq!(distinct.len(), 40);
        assert_eq!(Lot::new(7, &[]).draw(&all, 600).len(), 500);
        assert_eq!(Lot::new(7, &[]).one::<u32>(&[]), None);
    }

    /// Of 20,000 draws of 3 out of 12 each is drawn about 5,000 times; ten standard deviations
    /// either way (61 each).
    #[test]
    fn each_is_as_likely_as_the_other() {
        let all: Vec<usize> = (0..12).collect();
        let mut times = [0_u32; 12];
        for seed in 0..20_000 {
            for drawn in Lot::new(seed, &["underwater", "copper"]).draw(&all, 3) {
                times[drawn] += 1;
            }
        }
        assert!(
            times.iter().all(|times| (4_390..=5_610).contains(times)),
            "{times:?}"
        );
    }

    #[test]
    fn the_seed_is_of_the_boat_and_the_day() {
        let day = "2024-11-25".parse().unwrap();
        let seed = default_seed("Hesper Lass", day);
        assert!(seed < 1_000_000);
        assert_ne!(seed, default_seed("Hesper Lass", day.eve()));
        assert_ne!(seed, default_seed("Hesper", day));
    }
}
