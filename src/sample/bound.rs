//! What a few drawn by lot say of the rest: exact bounds, no approximation.
//!
//! The count of bad ones among those drawn follows the hypergeometric law; out of a lot without
//! end, the binomial. Both are summed outward from their most likely count, each term from the
//! one before, so nothing overflows and the error stays near 1e-12 for lots of a million.

use crate::units::whole;
/// How sure a bound is: more than nothing, less than certain.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Confidence(f64);

impl Confidence {
    /// A confidence; `None` unless it lies between 0 and 1 and is neither.
    pub fn new(share: f64) -> Option<Self> {
        (share > 0.0 && share < 1.0).then_some(Self(share))
    }

    /// As a share of one.
    pub const fn share(self) -> f64 {
        self.0
    }

    /// The chance of being wrong that is left.
    fn doubt(self) -> f64 {
        1.0 - self.0
    }
}

/// What came out of a draw by lot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Draw {
    lot: u32,
    drawn: u32,
    bad: u32,
}

/// Chances this far above the doubt count as equal to it: ten thousand times the rounding error,
/// and a five-millionth of the gap in the closest published case (0.049995 against 0.05).
const EQUAL: f64 = 1e-12;

impl Draw {
    /// So many of a lot were drawn and so many of these were bad; `None` where there are more
    /// drawn than there were, or more bad than drawn.
    pub const fn new(lot: u32, drawn: u32, bad: u32) -> Option<Self> {
        if drawn <= lot && bad <= drawn {
            Some(Self { lot, drawn, bad })
        } else {
            None
        }
    }

    /// A lot of which nothing was drawn yet.
    pub(super) fn of(lot: usize) -> Self {
        Self {
            lot: u32::try_from(lot).unwrap_or(u32::MAX),
            drawn: 0,
            bad: 0,
        }
    }

    /// With one more drawn; the same where all of the lot are drawn already.
    #[must_use]
    pub(super) const fn and_one(self, is_bad: bool) -> Self {
        if self.drawn == self.lot {
            return self;
        }
        Self {
            lot: self.lot,
            drawn: self.drawn + 1,
            bad: self.bad + is_bad as u32,
        }
    }

    /// How many were there.
    pub const fn lot(self) -> u32 {
        self.lot
    }

    /// How many were drawn.
    pub const fn drawn(self) -> u32 {
        self.drawn
    }

    /// How many of these were bad.
    pub const fn bad(self) -> u32 {
        self.bad
    }

    /// The most bad ones the whole lot can have had: the largest number with which so few bad
    /// ones would be drawn with a chance above the doubt. One-sided and exact, those drawn
    /// included; between the bad ones drawn and the lot.
    pub fn most_bad(self, confidence: Confidence) -> u32 {
        // No more can be bad than those not drawn and the bad ones drawn.
        let (mut least, mut most) = (self.bad, self.lot - (self.drawn - self.bad));
        while least < most {
            let middle = most - (most - least) / 2;
            if self.chance_of_so_few(middle) > confidence.doubt() + EQUAL {
                least = middle;
            } else {
                most = middle - 1;
            }
        }
        least
    }

    /// The same as a share of the lot; `None` where there was no lot, or nothing was drawn.
    pub fn most_bad_share(self, confidence: Confidence) -> Option<f64> {
        (self.drawn > 0).then(|| f64::from(self.most_bad(confidence)) / f64::from(self.lot))
    }

    /// The share that could be bad if the lot had no end (Clopper-Pearson, one-sided); everything
    /// where nothing was drawn.
    pub fn most_bad_share_without_end(self, confidence: Confidence) -> f64 {
        if self.bad == self.drawn {
            return 1.0;
        }
        let (mut least, mut most) = (0.0, 1.0);
        // Each step halves the span; sixty leave less than a double can tell apart.
        for _ in 0..60 {
            let middle = (least + most) / 2.0;
            if self.chance_without_end(middle) > confidence.doubt() {
                least = middle;
            } else {
                most = middle;
            }
        }
        (least + most) / 2.0
    }

    /// How many more must be drawn, all of them good, until no more than this share of the lot
    /// can be bad. `None` where more were already bad.
    pub fn more_good_to_show(self, share: f64, confidence: Confidence) -> Option<u32> {
        // A share that comes out a hair under a whole number means that number.
        let may_be_bad = whole(share.clamp(0.0, 1.0) * f64::from(self.lot) + 1e-9);
        if i64::from(self.bad) > may_be_bad {
            return None;
        }
        let (mut least, mut most) = (0, self.lot - self.drawn);
        while least < most {
            let middle = least + (most - least) / 2;
            let drawn = Self {
                drawn: self.drawn + middle,
                ..self
            };
            if i64::from(drawn.most_bad(confidence)) <= may_be_bad {
                most = middle;
            } else {
                least = middle + 1;
            }
        }
        Some(least)
    }

    /// The chance to draw no more bad ones than these if the lot had so many; `all_bad` is at
    /// least the bad ones drawn, and leaves as many good ones as were drawn good.
    fn chance_of_so_few(self, all_bad: u32) -> f64 {
        let (lot, drawn, all_bad) = (
            f64::from(self.lot),
            f64::from(self.drawn),
            f64::from(all_bad),
        );
        let least = (drawn + all_bad - lot).max(0.0);
        let most = drawn.min(all_bad);
        let likeliest = ((drawn + 1.0) * (all_bad + 1.0) / (lot + 2.0)).floor();
        up_to(
            f64::from(self.bad),
            (least, likeliest.clamp(least, most), most),
            // The chance of one more bad one, against that of so many.
            |bad| {
                (all_bad - bad) * (drawn - bad)
                    / ((bad + 1.0) * (lot - all_bad - drawn + bad + 1.0))
            },
        )
    }

    /// The same out of a lot without end of which this share is bad, above 0 and below 1.
    fn chance_without_end(self, share: f64) -> f64 {
        let drawn = f64::from(self.drawn);
        let likeliest = ((drawn + 1.0) * share).floor().min(drawn);
        up_to(f64::from(self.bad), (0.0, likeliest, drawn), |bad| {
            (drawn - bad) / (bad + 1.0) * share / (1.0 - share)
        })
    }
}

/// The chance of a count up to `count`, where counts run from the least over the likeliest to the
/// most, and `next` gives the chance of one more against that of a count.
fn up_to(count: f64, (least, likeliest, most): (f64, f64, f64), next: impl Fn(f64) -> f64) -> f64 {
    /// A term this small against the sum changes no digit of it, nor do all that follow.
    const NOTHING: f64 = 1e-25;
    let (mut below, mut above) = (0.0, 0.0);
    let mut add = |at: f64, weight: f64| {
        *(if at <= count { &mut below } else { &mut above }) += weight;
        weight > NOTHING
    };
    let (mut at, mut weight) = (likeliest, 1.0);
    while add(at, weight) && at < most {
        weight *= next(at);
        at += 1.0;
    }
    (at, weight) = (likeliest, 1.0);
    while at > least {
        at -= 1.0;
        weight /= next(at);
        if !add(at, weight) {
            break;
        }
    }
    below / (below + above)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::{Confidence, Draw};

    fn sure(share: f64) -> Confidence {
        Confidence::new(share).unwrap()
    }

    fn draws() -> impl Strategy<Value = Draw> {
        let lots = prop_oneof![1..60_u32, 1..5_000_u32, 1..=1_000_000_u32];
        (lots, any::<(u16, u16)>()).prop_map(|(lot, (drawn, bad))| {
            let part = |whole: u32, share: u16| {
                u32::try_from(u64::from(whole) * u64::from(share) / u64::from(u16::MAX)).unwrap()
            };
            let drawn = part(lot, drawn);
            Draw::new(lot, drawn, part(drawn, bad)).unwrap()
        })
    }

    fn confidences() -> impl Strategy<Value = Confidence> {
        (0.5..0.9999_f64).prop_map(sure)
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(300))]

        #[test]
        fn more_good_ones_lower_the_bound_and_more_bad_ones_raise_it(
            draw in draws(),
            confidence in confidences(),
            more in 1..50_u32,
        ) {
            let bound = draw.most_bad(confidence);
            if let Some(better) = Draw::new(draw.lot, draw.drawn.saturating_add(more), draw.bad) {
                prop_assert!(better.most_bad(confidence) <= bound);
                let (better, before) = (
                    better.most_bad_share_without_end(confidence),
                    draw.most_bad_share_without_end(confidence),
                );
                prop_assert!(better <= before + 1e-12);
            }
            if let Some(worse) = Draw::new(draw.lot, draw.drawn, draw.bad + more) {
                prop_assert!(worse.most_bad(confidence) >= bound);
            }
        }

        #[test]
        fn the_bound_lies_between_what_was_seen_and_what_can_be(
            draw in draws(),
            confidence in confidences(),
        ) {
            let bound = draw.most_bad(confidence);
            prop_assert!(draw.bad <= bound);
            prop_assert!(bound <= draw.lot - (draw.drawn - draw.bad));
            let census = Draw::new(draw.lot, draw.lot, draw.bad).unwrap();
            prop_assert_eq!(census.most_bad(confidence), draw.bad);
            let surer = sure(1.0 - (1.0 - confidence.share()) / 2.0);
            prop_assert!(draw.most_bad(surer) >= bound);
        }

        #[test]
        fn so_many_more_good_ones_show_the_share_and_one_fewer_does_not(
            draw in draws(),
            confidence in confidences(),
            share in 0.0..1.0_f64,
        ) {
            let may_be_bad = u32::try_from(crate::units::whole(share * f64::from(draw.lot))).unwrap();
            match draw.more_good_to_show(share, confidence) {
                None => prop_assert!(draw.bad > may_be_bad),
                Some(more) => {
                    let after = |more: u32| {
                        let drawn = Draw::new(draw.lot, draw.drawn + more, draw.bad).unwrap();
                        drawn.most_bad(confidence)
                    };
                    prop_assert!(after(more) <= may_be_bad);
                    prop_assert!(more == 0 || after(more - 1) > may_be_bad);
                }
            }
        }

        /// A draw with nothing bad has a closed form: 1 - doubt^(1/n).
        #[test]
        fn none_found_is_the_root_of_the_doubt(drawn in 1..2_000_u32, confidence in confidences()) {
            let draw = Draw::new(drawn, drawn, 0).unwrap();
            let exact = 1.0 - (1.0 - confidence.share()).powf(1.0 / f64::from(drawn));
            let found = draw.most_bad_share_without_end(confidence);
            prop_assert!((found - exact).abs() < 1e-10, "{} for {}", found, exact);
        }
    }

    #[test]
    fn what_cannot_be_is_refused() {
        assert_eq!(Draw::new(5, 6, 0), None);
        assert_eq!(Draw::new(5, 4, 5), None);
        for share in [0.0, 1.0, -0.1, 1.5, f64::NAN] {
            assert_eq!(Confidence::new(share), None);
        }
    }

    #[test]
    fn nothing_drawn_says_nothing() {
        let draw = Draw::new(40, 0, 0).unwrap();
        assert_eq!(draw.most_bad(sure(0.95)), 40);
        assert_eq!(draw.most_bad_share(sure(0.95)), None);
        assert_eq!(draw.most_bad_share_without_end(sure(0.95)), 1.0);
        let none = Draw::new(0, 0, 0).unwrap();
        assert_eq!(none.more_good_to_show(0.1, sure(0.95)), Some(0));
    }

    /// A chance exactly equal to the doubt is not above it: 1 of 20 drawn good leaves 19 with a
    /// chance of 1/20.
    #[test]
    fn a_chance_equal_to_the_doubt_is_not_above_it() {
        let draw = Draw::new(20, 1, 0).unwrap();
        assert_eq!(draw.most_bad(sure(0.95)), 18);
        let draw = Draw::new(10, 1, 0).unwrap();
        assert_eq!(draw.most_bad(sure(0.9)), 8);
    }

    /// 29 % of 100 is 29, though the product of the doubles falls short of it.
    #[test]
    fn a_share_that_means_a_whole_number_is_that_number() {
        let draw = Draw::new(100, 50, 29).unwrap();
        assert!(draw.more_good_to_show(0.29, sure(0.95)).is_some());
        assert!(draw.more_good_to_show(0.28, sure(0.95)).is_none());
    }
}
