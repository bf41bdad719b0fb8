//! Joints and the pieces of planking between them, as rules look at them.

use std::collections::{BTreeMap, BTreeSet};

use super::Survey;
use super::lengthwise::HalfSpaces;
use crate::hull::{CrossingId, JointKind, Member, Strake};

/// A joint in one strake.
#[derive(Clone, Debug)]
pub(super) struct JointAt<'s> {
    /// How the planks meet.
    pub(super) kind: &'s JointKind,
    /// Its crossings in this strake.
    pub(super) crossings: Vec<CrossingId>,
}

/// A piece of planking between two joints that are not glued.
#[derive(Clone, Debug)]
pub(super) struct PieceOf {
    /// Along its run, from the bow.
    pub(super) crossings: Vec<CrossingId>,
    /// Whether it, or some of it, was hung in this record.
    pub(super) hung: bool,
}

impl JointKind {
    /// A scarf known to be glued, which makes two planks one.
    const fn is_glued(&self) -> bool {
        matches!(
            self,
            Self::Scarf {
                glued: Some(true),
                ..
            }
        )
    }
}

impl<'b> Survey<'b> {
    /// The joints that are there on the day, strake by strake: by the strake's place among all,
    /// and by where they lie along it.
    pub(super) fn joints(&self) -> BTreeMap<(usize, HalfSpaces), JointAt<'b>> {
        let strakes = self.hull.strakes();
        let mut joints: BTreeMap<(usize, HalfSpaces), JointAt<'b>> = BTreeMap::new();
        for joint in &self.hull.joints {
            for id in &joint.crossings {
                let crossing = self.hull.crossing(*id);
                let strake = strakes.binary_search_by_key(&crossing.strake.id, |strake| strake.id);
                let (Ok(strake), Some(at)) = (strake, HalfSpaces::of(crossing.member)) else {
                    continue;
                };
                if self.has_joint(*id) {
                    joints
                        .entry((strake, at))
                        .or_insert_with(|| JointAt {
                            kind: &joint.kind,
                            crossings: Vec::new(),
                        })
                        .crossings
                        .push(*id);
                }
            }
        }
        joints
    }

    /// The crossings of scarfs known to be glued.
    pub(super) fn glued(&self) -> BTreeSet<CrossingId> {
        let joints = self.hull.joints.iter();
        joints
            .filter(|joint| joint.kind.is_glued())
            .flat_map(|joint| joint.crossings.iter().copied())
            .collect()
    }

    /// The pieces of a strake from butt to butt: a scarf among the `glued` makes two planks one.
    pub(super) fn pieces(&self, strake: &Strake, glued: &BTreeSet<CrossingId>) -> Vec<PieceOf> {
        let mut pieces: Vec<PieceOf> = Vec::new();
        for plank in self.planks(strake) {
            let hung = plank
                .crossings
                .iter()
                .any(|id| self.state.hung(*id).is_some());
            let goes_on = |piece: &PieceOf| {
                let last = piece.crossings.last();
                last.is_some_and(|last| glued.contains(last))
            };
            match pieces.last_mut().filter(|piece| goes_on(piece)) {
                Some(piece) => {
                    piece.crossings.extend(&plank.crossings);
                    piece.crossings.dedup();
                    piece.hung |= hung;
                }
                None => pieces.push(PieceOf {
                    crossings: plank.crossings.clone(),
                    hung,
                }),
            }
        }
        pieces
    }

    /// From where to where a piece runs. A stem or other end is a space beyond the frame next to
    /// it.
    pub(super) fn run_of(&self, crossings: &[CrossingId]) -> Option<(HalfSpaces, HalfSpaces)> {
        let members = || crossings.iter().map(|id| self.hull.crossing(*id).member);
        let mut numbered = members().filter_map(HalfSpaces::of);
        let first = numbered.next()?;
        let last = numbered.next_back().unwrap_or(first);
        let space = if first <= last { 2 } else { -2 };
        let end = |member: Option<Member>| member.is_some_and(Member::is_hood_end);
        let from = first.0 - if end(members().next()) { space } else { 0 };
        let to = last.0 + if end(members().next_back()) { space } else { 0 };
        Some((HalfSpaces(from.min(to)), HalfSpaces(from.max(to))))
    }
}
