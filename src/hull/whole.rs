//! The whole hull: built once, then only asked.

use super::{
    Crossing, CrossingId, FramesFrom, GravingPiece, Hardware, Joint, Member, Numbering,
    Particulars, Practice, Scantlings, StrakeId, Water, Waterline,
};
use crate::joint::Zone;
use crate::tables::{GaugeSystem, Wood};
use crate::units::{Length, Units};

/// One strake as it lies.
#[derive(Clone, Debug)]
pub struct Strake {
    /// Which it is.
    pub id: StrakeId,
    /// Thickness of its planking.
    pub thickness: Option<Length>,
    /// Width of a plank.
    pub width: Option<Length>,
    /// Its wood.
    pub wood: Option<&'static Wood>,
    pub(super) first: u32,
    /// From the bow.
    pub(super) members: Vec<Member>,
    pub(super) scantlings: Vec<u32>,
}

impl Strake {
    /// Its crossings, from the bow.
    pub fn crossings(&self) -> impl DoubleEndedIterator<Item = (CrossingId, Member)> + '_ {
        (self.first..)
            .map(CrossingId)
            .take(self.members.len())
            .zip(self.members.iter().copied())
            .collect::<Vec<_>>()
            .into_iter()
    }
}

/// A hull that fits together.
#[derive(Clone, Debug)]
pub struct Hull {
    /// Her name.
    pub boat: String,
    /// Her particulars.
    pub particulars: Particulars,
    /// Her water.
    pub water: Water,
    /// How she is numbered.
    pub numbering: Numbering,
    /// The screw gauges in use.
    pub gauges: GaugeSystem,
    /// The units to show.
    pub units: Units,
    /// The practices she is judged by.
    pub practice: Practice,
    /// Other metal.
    pub hardware: Vec<Hardware>,
    /// Pieces let into planks.
    pub graving_pieces: Vec<GravingPiece>,
    /// Joints.
    pub joints: Vec<Joint>,
    pub(super) strakes: Vec<Strake>,
    pub(super) scantlings: Vec<Scantlings>,
    /// Of each crossing.
    pub(super) zones: Vec<Zone>,
    pub(super) waterline: Waterline,
    /// Crossings where two planks meet on the member itself; sorted.
    pub(super) on_member: Vec<CrossingId>,
    /// Whether something in it could not be read, so that what is missing proves nothing.
    pub(super) incomplete: bool,
}

impl Hull {
    /// Whether nothing tells where her waterline is.
    pub fn has_no_waterline(&self) -> bool {
        self.waterline.is_unknown()
    }

    /// The number of the strake at the waterline at a member of the shell, with the share of the
    /// next one where it runs between two: 6.5 is between the sixth and the seventh. `None` where
    /// nothing tells.
    pub fn waterline_at(&self, member: Member) -> Option<f64> {
        let from_stern = self.numbering.frames == FramesFrom::Stern;
        self.waterline.height_at(member.along(from_stern))
    }

    /// How many crossings there are.
    pub fn crossing_count(&self) -> usize {
        self.zones.len()
    }

    /// Every crossing's number.
    pub fn crossing_ids(&self) -> impl Iterator<Item = CrossingId> + Clone + use<> {
        (0..self.zones.len() as u32).map(CrossingId)
    }

    /// Every strake: port, starboard, deck, each by its number.
    pub fn strakes(&self) -> &[Strake] {
        &self.strakes
    }

    /// What lies at a crossing of this hull.
    pub fn crossing(&self, id: CrossingId) -> Crossing<'_> {
        let strake = &self.strakes[self.strakes.partition_point(|s| s.first <= id.0) - 1];
        let at = (id.0 - strake.first) as usize;
        Crossing {
            id,
            strake,
            member: strake.members[at],
            scantlings: &self.scantlings[strake.scantlings[at] as usize],
            zone: self.zones[id.index()],
        }
    }

    /// The crossings on either side of one along its strake: the fastenings nearest to it along
    /// the plank. Those in the keel rabbet neighbour each other and none on frames.
    pub fn neighbours_along(&self, id: CrossingId) -> impl Iterator<Item = CrossingId> + '_ {
        let strake = self.crossing(id).strake;
        let at = (id.0 - strake.first) as usize;
        let in_rabbet = move |i: usize| matches!(strake.members.get(i), Some(Member::Keel(_)));
        let lane = move |i: &usize| in_rabbet(*i) == in_rabbet(at);
        let before = (0..at).rev().find(lane);
        let after = (at + 1..strake.members.len()).find(lane);
        let found = before.into_iter().chain(after);
        found.map(|i| CrossingId(strake.first + i as u32))
    }

    /// The crossings on either side at the same member: of the nearest strakes that lie on it, for
    /// where a stealer ends the strakes beside it meet.
    pub fn neighbours_across(&self, id: CrossingId) -> impl Iterator<Item = CrossingId> + '_ {
        let here = self.crossing(id);
        let at = self.strakes.partition_point(|s| s.id < here.strake.id);
        let there = |strake: &Strake| {
            (strake.id.side == here.strake.id.side)
                .then(|| self.find(strake, here.member))
                .flatten()
        };
        let (before, after) = self.strakes.split_at(at);
        let before = before.iter().rev().find_map(there);
        let after = after.iter().skip(1).find_map(there);
        before.into_iter().chain(after)
    }

    pub(super) fn find(&self, strake: &Strake, member: Member) -> Option<CrossingId> {
        let from_stern = self.numbering.frames == FramesFrom::Stern;
        let key = (member.along(from_stern), member);
        let at = strake
            .members
            .binary_search_by_key(&key, |m| (m.along(from_stern), *m))
            .ok()?;
        Some(CrossingId(strake.first + at as u32))
    }
}
