//! Depths below the plank's face as they are drawn: true to scale, with a break in what is long
//! and has nothing in it.

/// Maps depths in millimetres to steps of a drawing.
pub(super) struct Axis {
    /// Steps to a millimetre, outside the breaks.
    pub(super) scale: f64,
    gap: f64,
    stretches: Vec<Stretch>,
}

/// From one thing worth seeing to the next.
struct Stretch {
    from: f64,
    to: f64,
    at: f64,
    drawn: f64,
    is_broken: bool,
}

impl Axis {
    /// An axis through everything worth seeing, at a scale, in no more than `room` steps where
    /// breaks can bring it there. A break takes `gap` steps, and what is broken keeps three more.
    pub(super) fn new(worth: &[f64], scale: f64, room: f64, gap: f64) -> Self {
        let mut worth = worth.to_vec();
        worth.sort_by(f64::total_cmp);
        worth.dedup();
        let pairs = worth.iter().zip(worth.iter().skip(1));
        let long: Vec<f64> = pairs
            .clone()
            .map(|(from, to)| (to - from) * scale)
            .collect();
        let most = most(&long, room).max(4.0 * gap);
        let mut at = 0.0;
        let stretches = pairs.zip(&long).map(|((from, to), long)| {
            // A break that saves next to nothing is not worth its lines.
            let is_broken = *long > most + 2.0 * gap;
            let drawn = if is_broken { most } else { *long };
            let stretch = Stretch {
                from: *from,
                to: *to,
                at,
                drawn,
                is_broken,
            };
            at += drawn;
            stretch
        });
        Self {
            scale,
            gap,
            stretches: stretches.collect(),
        }
    }

    /// Where a depth is drawn.
    pub(super) fn at(&self, depth: f64) -> f64 {
        let holds = |stretch: &&Stretch| depth <= stretch.to;
        let Some(stretch) = self.stretches.iter().find(holds) else {
            let beyond = self.stretches.last().map_or(depth, |last| depth - last.to);
            return self.end() + beyond * self.scale;
        };
        let (before, after) = (
            (depth - stretch.from) * self.scale,
            (stretch.to - depth) * self.scale,
        );
        let half = (stretch.drawn - self.gap) / 2.0;
        if !stretch.is_broken || before <= half {
            stretch.at + before
        } else if after <= half {
            stretch.at + stretch.drawn - after
        } else {
            stretch.at + stretch.drawn / 2.0
        }
    }

    /// How long all of it is drawn.
    pub(super) fn end(&self) -> f64 {
        self.stretches
            .last()
            .map_or(0.0, |last| last.at + last.drawn)
    }

    /// Where a depth is drawn, moved aside where a break would hide it.
    pub(super) fn beside_breaks(&self, depth: f64) -> f64 {
        let at = self.at(depth);
        let hides = |middle: &f64| (at - middle).abs() < self.gap;
        self.breaks()
            .find(hides)
            .map_or(at, |middle| middle + 1.5 * self.gap)
    }

    /// The deepest thing worth seeing.
    pub(super) fn deepest(&self) -> f64 {
        self.stretches.last().map_or(0.0, |last| last.to)
    }

    /// The middle of each break.
    pub(super) fn breaks(&self) -> impl Iterator<Item = f64> {
        let broken = self.stretches.iter().filter(|stretch| stretch.is_broken);
        broken.map(|stretch| stretch.at + stretch.drawn / 2.0)
    }

    /// Whether a depth is left out by a break.
    pub(super) fn leaves_out(&self, depth: f64) -> bool {
        self.breaks()
            .any(|middle| (self.at(depth) - middle).abs() < self.gap / 2.0)
    }
}

/// The length that long stretches are cut to, so that all fit in the room; without end where they
/// fit as they are.
fn most(long: &[f64], room: f64) -> f64 {
    let mut rising = long.to_vec();
    rising.sort_by(f64::total_cmp);
    let mut left = room;
    for (at, long) in rising.iter().enumerate() {
        let share = left / (rising.len() - at) as f64;
        if *long > share {
            return share;
        }
        left -= long;
    }
    f64::INFINITY
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::Axis;

    #[test]
    fn what_is_long_and_empty_is_broken() {
        let axis = Axis::new(&[0.0, 10.0, 500.0, 510.0], 2.0, 200.0, 10.0);
        assert_eq!(axis.at(10.0), 20.0);
        assert_eq!(axis.at(20.0), 40.0);
        assert_eq!(axis.end(), 200.0);
        assert_eq!(axis.at(510.0) - axis.at(490.0), 40.0);
        assert_eq!(axis.breaks().collect::<Vec<_>>(), [100.0]);
        assert!(axis.leaves_out(200.0) && !axis.leaves_out(20.0));
    }

    proptest! {
        /// Deeper is never drawn higher; without a break all is true to scale, and with one it is
        /// so near every thing worth seeing.
        #[test]
        fn depths_stay_in_order_and_true(
            worth in prop::collection::vec(0.0..1500.0_f64, 2..9),
            scale in 0.3..14.0_f64,
            depths in prop::collection::vec(0.0..1500.0_f64, 2),
        ) {
            let axis = Axis::new(&worth, scale, 600.0, 10.0);
            let (a, b) = (depths[0].min(depths[1]), depths[0].max(depths[1]));
            prop_assert!(axis.at(a) <= axis.at(b) + 1e-9);
            if axis.breaks().next().is_none() {
                prop_assert!((axis.at(b) - axis.at(a) - (b - a) * scale).abs() < 1e-6);
            }
            for depth in &worth {
                prop_assert!(!axis.leaves_out(*depth));
            }
        }
    }
}
