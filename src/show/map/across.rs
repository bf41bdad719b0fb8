//! Where strakes lie across the planking laid flat, in millimetres from the keel or, on deck, from
//! where its numbers begin.

use crate::hull::StrakeId;

/// A strake before it is stacked on those beside it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Run {
    /// Which it is.
    pub(super) id: StrakeId,
    /// From where to where along the boat.
    pub(super) from: f64,
    pub(super) to: f64,
    /// Over how much of its ends it runs out to a point: a stealer does.
    pub(super) point: [f64; 2],
    /// Its width.
    pub(super) width: f64,
}

impl Run {
    /// A stealer lies between others, and where it ends they meet.
    fn makes_room(&self) -> bool {
        !self.id.number.is_plain()
    }

    /// How wide the strake, or the room kept for it, is somewhere along the boat.
    fn width_at(&self, x: f64) -> f64 {
        if !self.makes_room() {
            return self.width;
        }
        let share = |from: f64, to: f64| ((x - from) / (to - from)).clamp(0.0, 1.0);
        let [fore, aft] = self.point;
        let opened = match fore > 0.0 {
            true => share(self.from, self.from + fore),
            false => 1.0,
        };
        let closed = match aft > 0.0 {
            true => share(self.to, self.to - aft),
            false => 1.0,
        };
        self.width * opened.min(closed)
    }

    /// Where its width changes.
    fn bends(&self) -> [f64; 4] {
        let [fore, aft] = self.point;
        [self.from, self.from + fore, self.to - aft, self.to]
    }
}

/// Strakes stacked on one another.
#[derive(Clone, Debug, Default)]
pub(super) struct Stack {
    runs: Vec<Run>,
}

/// The edges of a strake: points along it, from the bow.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Edges {
    /// The edge nearer the keel.
    pub(super) lower: Vec<[f64; 2]>,
    /// The other.
    pub(super) upper: Vec<[f64; 2]>,
}

impl Stack {
    /// Of strakes from the keel.
    pub(super) fn new(runs: Vec<Run>) -> Self {
        Self { runs }
    }

    /// The strakes, from the keel.
    pub(super) fn runs(&self) -> &[Run] {
        &self.runs
    }

    /// How high they stand together at the most.
    pub(super) fn height(&self) -> f64 {
        self.runs.iter().map(|run| run.width).sum()
    }

    /// From where to where a strake lies across, somewhere along the boat.
    pub(super) fn across(&self, at: usize, x: f64) -> [f64; 2] {
        let below: f64 = self.runs.iter().take(at).map(|run| run.width_at(x)).sum();
        let width = self.runs.get(at).map_or(0.0, |run| run.width_at(x));
        [below, below + width]
    }

    /// The edges of a strake between two places along the boat.
    pub(super) fn edges(&self, at: usize, from: f64, to: f64) -> Edges {
        let rooms = self.runs.iter().take(at + 1).filter(|r| r.makes_room());
        let mut bends: Vec<f64> = rooms.flat_map(Run::bends).collect();
        bends.retain(|x| *x > from && *x < to);
        bends.extend([from, to]);
        bends.sort_unstable_by(f64::total_cmp);
        bends.dedup();
        let edge = |x: f64| {
            let [lower, upper] = self.across(at, x);
            ([x, lower], [x, upper])
        };
        let (lower, upper) = bends.into_iter().map(edge).unzip();
        Edges { lower, upper }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::hull::{Number, Side};

    fn run(number: Number, from: f64, width: f64) -> Run {
        let stealer = !number.is_plain();
        let side = Side::Port;
        Run {
            id: StrakeId { side, number },
            from,
            to: 1000.0,
            point: [if stealer { 100.0 } else { 0.0 }, 0.0],
            width,
        }
    }

    #[test]
    fn strakes_stand_on_one_another_and_make_room_for_a_stealer() {
        let stack = Stack::new(vec![
            run(Number::plain(1), 0.0, 120.0),
            run(Number::lettered(1, 'a').unwrap(), 500.0, 80.0),
            run(Number::plain(2), 0.0, 100.0),
        ]);
        assert_eq!(stack.height(), 300.0);
        assert_eq!(stack.across(2, 400.0), [120.0, 220.0]);
        assert_eq!(stack.across(2, 550.0), [160.0, 260.0]);
        assert_eq!(stack.across(2, 900.0), [200.0, 300.0]);
        let edges = stack.edges(2, 0.0, 1000.0);
        let lower = [
            [0.0, 120.0],
            [500.0, 120.0],
            [600.0, 200.0],
            [1000.0, 200.0],
        ];
        assert_eq!(edges.lower, lower);
    }
}
