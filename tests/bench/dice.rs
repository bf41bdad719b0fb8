//! Chance that falls the same way for the same seed, on every machine and in every year.

/// `SplitMix64`.
pub struct Dice(u64);

impl Dice {
    pub const fn new(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// A number from 0 up to and without `end`.
    pub fn below(&mut self, end: usize) -> usize {
        (self.next() % end.max(1) as u64) as usize
    }

    /// A number from `from` up to and with `to`.
    pub fn between(&mut self, from: usize, to: usize) -> usize {
        from + self.below(to - from + 1)
    }

    /// True so many times in a hundred.
    pub fn percent(&mut self, percent: usize) -> bool {
        self.below(100) < percent
    }

    /// One of some things.
    pub fn pick<T: Copy>(&mut self, of: &[T]) -> T {
        of[self.below(of.len())]
    }

    pub fn shuffle<T>(&mut self, of: &mut [T]) {
        for at in (1..of.len()).rev() {
            of.swap(at, self.below(at + 1));
        }
    }
}
