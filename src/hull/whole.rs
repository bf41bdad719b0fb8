//! The whole hull: built once, then only asked.

use std::collections::BTreeMap;

use super::names::Named;
use super::{
    Crossing, CrossingId, FramesFrom, GravingPiece, Hardware, Joint, Member, Numbering,
    Particulars, Practice, Scantlings, Side, StrakeId, Water, Waterline,
};
use crate::joint::Zone;
use crate::tables::{GaugeSystem, Wood};
use crate::units::{Length, Units, count};

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
        let last = self.first + count(self.members.len());
        (self.first..last)
            .map(CrossingId)
            .zip(self.members.iter().copied())
    }

    /// Whether a crossing is one of this strake, or of one before it.
    pub(super) fn reaches(&self, id: CrossingId) -> bool {
        id.0 < self.first + count(self.members.len())
    }

    /// The member at a crossing of this strake.
    pub(super) fn member(&self, id: CrossingId) -> Option<Member> {
        let at = id.0.checked_sub(self.first)?;
        self.members.get(at as usize).copied()
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
    /// What strakes are called.
    pub(super) named: Named,
    pub(super) scantlings: Vec<Scantlings>,
    /// The strakes that have a joint at a place between members, by their place among all; rising.
    pub(super) jointed: BTreeMap<(Side, Member), Vec<u32>>,
    /// Of each crossing, the place of its strake among all.
    pub(super) strake_of: Vec<u32>,
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
        (0..count(self.zones.len())).map(CrossingId)
    }

    /// Every strake: port, starboard, deck, each by its number.
    pub fn strakes(&self) -> &[Strake] {
        &self.strakes
    }

    /// Every crossing with what lies there, quicker than one by one.
    #[expect(
        clippy::indexing_slicing,
        reason = "numbers of scantlings are given out by the hull that has them"
    )]
    pub fn crossings(&self) -> impl Iterator<Item = Crossing<'_>> {
        let zones = self.zones.iter();
        let each = self.strakes.iter().flat_map(|strake| {
            let members = strake.crossings().zip(&strake.scantlings);
            members.map(move |((id, member), scantlings)| (id, strake, member, scantlings))
        });
        let each = each.zip(zones);
        each.map(|((id, strake, member, scantlings), zone)| Crossing {
            id,
            strake,
            member,
            scantlings: &self.scantlings[*scantlings as usize],
            zone: *zone,
        })
    }

    /// What lies at a crossing of this hull.
    #[expect(
        clippy::indexing_slicing,
        reason = "numbers of crossings are given out by the hull that has them"
    )]
    pub fn crossing(&self, id: CrossingId) -> Crossing<'_> {
        let strake = &self.strakes[self.strake_of[id.index()] as usize];
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
        found.map(|i| CrossingId(strake.first + count(i)))
    }

    /// The crossings on either side at the same member: of the nearest strakes that lie on it, for
    /// where a stealer ends the strakes beside it meet.
    pub fn neighbours_across(&self, id: CrossingId) -> impl Iterator<Item = CrossingId> + '_ {
        let here = self.crossing(id);
        let at = self.strake_of.get(id.index()).map_or(0, |at| *at as usize);
        let place = (id.0 - here.strake.first) as usize;
        let there = |strake: &Strake| {
            (strake.id.side == here.strake.id.side)
                .then(|| self.find_abreast(strake, here.member, place))
                .flatten()
        };
        let (before, after) = match here.member {
            // Few strakes have one, and they are far between.
            Member::Butt(..) => {
                let all = self.jointed.get(&(here.strake.id.side, here.member));
                let all = all.map_or(&[][..], Vec::as_slice);
                let before = all.partition_point(|strake| (*strake as usize) < at);
                let of = |strake: Option<&u32>| there(self.strakes.get(*strake? as usize)?);
                let last = before.checked_sub(1).and_then(|last| all.get(last));
                (of(last), of(all.get(before + 1)))
            }
            _ => {
                let (before, after) = self.strakes.split_at(at);
                let before = before.iter().rev().find_map(there);
                (before, after.iter().skip(1).find_map(there))
            }
        };
        before.into_iter().chain(after)
    }

    /// The crossing of a strake with a member, where there is one. It is quick where that is one of
    /// the next few after the crossing `near`.
    pub(super) fn find_after(
        &self,
        strake: &Strake,
        member: Member,
        near: Option<CrossingId>,
    ) -> Option<CrossingId> {
        /// Between two frames lie at most both halves of a butt.
        const FEW: usize = 3;
        let ahead = near.and_then(|near| {
            let from = (near.0.checked_sub(strake.first)? as usize).checked_add(1)?;
            let next = strake.members.iter().enumerate().skip(from).take(FEW);
            next.into_iter().find(|(_, next)| **next == member)
        });
        match ahead {
            Some((at, _)) => Some(CrossingId(strake.first + count(at))),
            None => self.find(strake, member),
        }
    }

    /// The same, quick where it is near the place it has in a strake beside this one.
    fn find_abreast(&self, strake: &Strake, member: Member, place: usize) -> Option<CrossingId> {
        /// By so many crossings strakes beside each other mostly differ: the halves of two butts.
        const FEW: usize = 4;
        if strake.members.get(place) == Some(&member) {
            return Some(CrossingId(strake.first + count(place)));
        }
        let from = place.saturating_sub(FEW);
        let near = strake.members.iter().skip(from).take(2 * FEW + 1);
        match near.into_iter().position(|is| *is == member) {
            Some(at) => Some(CrossingId(strake.first + count(from + at))),
            None => self.find(strake, member),
        }
    }

    pub(super) fn find(&self, strake: &Strake, member: Member) -> Option<CrossingId> {
        let from_stern = self.numbering.frames == FramesFrom::Stern;
        let key = (member.along(from_stern), member);
        let at = strake
            .members
            .binary_search_by_key(&key, |m| (m.along(from_stern), *m))
            .ok()?;
        Some(CrossingId(strake.first + count(at)))
    }
}
