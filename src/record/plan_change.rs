//! What carrying out the plan does to the holes.

use std::collections::BTreeMap;

use super::{Book, Content, FrameSide, Hole, PlankSide, SetId, State};
use crate::hull::CrossingId;

/// What carrying out the plan does to some crossings.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PlanChange {
    /// How many of each set are drawn.
    pub drawn: BTreeMap<SetId, u32>,
    /// How many of each set stay as metal and are no longer relied on.
    pub left_in: BTreeMap<SetId, u32>,
    /// How many go into holes that are there.
    pub in_old_holes: u32,
    /// How many go into new holes.
    pub in_new_holes: u32,
    /// Holes in planks that are closed for good.
    pub plugged: u32,
    /// Frame sides that stand open once the old are drawn, doweled before or instead of driving.
    pub frame_holes: u32,
}

impl Book {
    /// What lies between a state and the same with the plan carried out, at one crossing.
    pub fn change_at(&self, before: &State, after: &State, id: CrossingId) -> PlanChange {
        let mut change = PlanChange::default();
        let old = before.holes(id);
        for (at, new) in after.holes(id).iter().enumerate() {
            match old.get(at) {
                None => change.in_new_holes += 1,
                Some(old) if old == new => {}
                Some(old) => self.add(&mut change, old, new),
            }
        }
        change
    }

    fn add(&self, change: &mut PlanChange, old: &Hole, new: &Hole) {
        let set = self.fastening(old.fastening).set;
        if let (Content::InPlace(_), Content::LeftIn(_)) = (old.content, new.content) {
            *change.left_in.entry(set).or_default() += 1;
            return;
        }
        if old.has_metal() {
            *change.drawn.entry(set).or_default() += 1;
        }
        if new.has_metal() {
            change.in_old_holes += 1;
        } else if new.content.plank_side() == PlankSide::Plugged
            && old.content.plank_side() != PlankSide::Plugged
        {
            change.plugged += 1;
        }
        // Drawn whole or as a stub, it leaves the frame's hole open.
        let open = match old.content.frame_side() {
            FrameSide::Filled | FrameSide::Open | FrameSide::Stub => true,
            FrameSide::Doweled | FrameSide::Gone => false,
        };
        change.frame_holes += u32::from(open);
    }
}

impl PlanChange {
    /// Adds another.
    pub fn and(&mut self, other: Self) {
        for (mine, theirs) in [
            (&mut self.drawn, other.drawn),
            (&mut self.left_in, other.left_in),
        ] {
            for (set, count) in theirs {
                *mine.entry(set).or_default() += count;
            }
        }
        self.in_old_holes += other.in_old_holes;
        self.in_new_holes += other.in_new_holes;
        self.plugged += other.plugged;
        self.frame_holes += other.frame_holes;
    }
}
