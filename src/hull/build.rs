//! Fitting the parts of a hull together.

use std::collections::{BTreeMap, BTreeSet};

use super::lay::{Described, LaidStrakes, lay, lay_butts, twice};
use super::names::{Named, named};
use super::{
    CrossingId, FramesFrom, GravingPiece, Hardware, HardwareParts, Hull, HullParts, Joint,
    JointKind, Mark, Member, Placed, Places, Scantlings, Strake, StrakesFrom, Waterline, ZoneRule,
};
use crate::joint::{Grain, Zone};
use crate::text::{Fault, Misread, Origin, Step};
use crate::units::count;

impl Hull {
    /// Fits the parts together. Everything that does not fit is told in `faults`; the hull then
    /// holds what did, so that further faults can be found in one run.
    pub fn build(parts: HullParts, faults: &mut Vec<Fault>) -> Self {
        let mut scantlings = Vec::new();
        let mut scantlings_of: BTreeMap<Member, u32> = BTreeMap::new();
        for Placed {
            origin,
            is: (members, scantling),
        } in parts.members
        {
            let mut again: Vec<String> = Vec::new();
            for member in members {
                if scantlings_of
                    .insert(member, count(scantlings.len()))
                    .is_some()
                {
                    again.push(member.to_string());
                }
            }
            if let Some(says) = twice(&again, "described") {
                faults.push(Fault::new(Some(origin), says).help("each member has one line"));
            }
            scantlings.push(scantling);
        }
        let mut hull = Self {
            boat: parts.boat,
            particulars: parts.particulars,
            water: parts.water,
            numbering: parts.numbering,
            gauges: parts.gauges,
            units: parts.units,
            practice: parts.practice,
            hardware: Vec::new(),
            graving_pieces: Vec::new(),
            joints: Vec::new(),
            strakes: Vec::new(),
            named: Named::new(),
            scantlings,
            jointed: BTreeMap::new(),
            strake_of: Vec::new(),
            zones: Vec::new(),
            waterline: Waterline::default(),
            on_member: Vec::new(),
            incomplete: parts.incomplete,
        };
        let described = Described {
            scantlings: scantlings_of,
            whole: !hull.incomplete,
        };
        let mut laid = lay(&parts.strakes, &described, faults);
        let whole = !hull.incomplete;
        let mut unknown = Vec::new();
        hull.named = named(&parts.names, |id| laid.contains_key(&id), &mut unknown);
        faults.extend(unknown.into_iter().filter(|_| whole));
        let refused = hull.set_blocks(&parts.joints, &mut laid, faults);
        hull.number_crossings(laid);
        let mut joints = parts.joints;
        joints.retain(|joint| !refused.contains(&joint.origin));
        hull.set_joints(joints, faults);
        hull.set_zones(&parts.waterline, &parts.zones, faults);
        for Placed { origin, is } in parts.graving_pieces {
            hull.graving_pieces.push(GravingPiece {
                crossings: hull.crossings_at(&is.place, origin, faults),
                width: is.width,
                wood: is.wood,
                glued: is.glued,
            });
        }
        for Placed {
            origin,
            is:
                HardwareParts {
                    what,
                    metal,
                    place,
                    area,
                    is_anode,
                },
        } in parts.hardware
        {
            let crossings = hull.crossings_at(&place, origin, faults);
            hull.hardware.push(Hardware {
                what,
                metal,
                crossings,
                area,
                is_anode,
                origin,
            });
        }
        hull
    }

    /// Gives each joint between frames its two crossings. Gives back where a joint was written that no
    /// plank can have, its fault told.
    fn set_blocks(
        &mut self,
        joints: &[Placed<(Places, JointKind)>],
        laid: &mut LaidStrakes,
        faults: &mut Vec<Fault>,
    ) -> BTreeSet<Origin> {
        let mut refused = BTreeSet::new();
        for Placed {
            origin,
            is: (places, kind),
        } in joints
        {
            // A scarf between frames has no block behind it.
            let block = match kind {
                JointKind::Butt { block, .. } => *block,
                JointKind::Scarf { .. } => None,
            };
            let scantling = count(self.scantlings.len());
            self.scantlings.push(Scantlings {
                siding: None,
                depth: block.and_then(|block| block.thickness),
                spacing: None,
                wood: block.and_then(|block| block.wood),
                grain: Grain::Side,
            });
            if let Err((says, help)) = lay_butts(places, &self.named, scantling, laid) {
                refused.insert(*origin);
                if !self.incomplete {
                    faults.push(Fault::new(Some(*origin), says).key("at").help(help));
                }
            }
        }
        refused
    }

    fn number_crossings(&mut self, laid: LaidStrakes) {
        let from_stern = self.numbering.frames == FramesFrom::Stern;
        let mut first = 0;
        for (id, row) in laid {
            let place = count(self.strakes.len());
            for butt in row.butts.keys() {
                self.jointed
                    .entry((id.side, *butt))
                    .or_default()
                    .push(place);
            }
            let mut members: Vec<(Member, u32)> = row.members.to_vec();
            members.extend(row.butts);
            // Two runs that rise already: a stable sort joins them.
            members.sort_by_key(|(member, _)| (member.along(from_stern), *member));
            let many = members.len();
            let (members, scantlings) = members.into_iter().unzip();
            self.strake_of.extend(std::iter::repeat_n(place, many));
            self.strakes.push(Strake {
                id,
                thickness: row.thickness,
                width: row.width,
                wood: row.wood,
                first,
                members,
                scantlings,
            });
            first += count(many);
        }
        self.zones = vec![Zone::Underwater; first as usize];
    }

    fn set_joints(&mut self, joints: Vec<Placed<(Places, JointKind)>>, faults: &mut Vec<Fault>) {
        for Placed {
            origin,
            is: (places, kind),
        } in joints
        {
            let crossings = self.crossings_at_key(&places, origin, "at", faults);
            let on_member: Vec<CrossingId> = crossings
                .iter()
                .copied()
                .filter(|id| !matches!(self.crossing(*id).member, Member::Butt(..)))
                .collect();
            self.on_member.extend(on_member);
            self.joints.push(Joint {
                origin,
                kind,
                crossings,
            });
        }
        self.on_member.sort_unstable();
        self.on_member.dedup();
    }

    fn set_zones(
        &mut self,
        marks: &[Placed<Mark>],
        rules: &[Placed<ZoneRule>],
        faults: &mut Vec<Fault>,
    ) {
        let from_stern = self.numbering.frames == FramesFrom::Stern;
        let mut seen = BTreeMap::new();
        for Placed { origin, is } in marks {
            if seen.insert(is.frame, ()).is_some() {
                faults.push(
                    Fault::new(
                        Some(*origin),
                        format!("the waterline has two marks at F{}", is.frame),
                    )
                    .help("one for each frame"),
                );
            }
        }
        let marks: Vec<Mark> = marks.iter().map(|mark| mark.is).collect();
        self.waterline = Waterline::through(&marks, from_stern);
        let strakes_from: StrakesFrom = self.numbering.strakes;
        let zones: Vec<Zone> = self
            .strakes
            .iter()
            .flat_map(|strake| {
                strake
                    .members
                    .iter()
                    .map(move |member| (strake.id, *member))
            })
            .map(|(id, member)| match id.side.is_deck() {
                true => Zone::Deck,
                false => self
                    .waterline
                    .zone(id.number, member.along(from_stern), strakes_from),
            })
            .collect();
        self.zones = zones;
        // The first rule that names a crossing wins, so the last is laid first.
        for Placed { origin, is } in rules.iter().rev() {
            for id in self.crossings_at(&is.place, *origin, faults) {
                if let Some(zone) = self.zones.get_mut(id.index()) {
                    *zone = is.zone;
                }
            }
        }
    }

    fn crossings_at(
        &self,
        places: &Places,
        origin: Origin,
        faults: &mut Vec<Fault>,
    ) -> Vec<CrossingId> {
        self.crossings_at_key(places, origin, "place", faults)
    }

    fn crossings_at_key(
        &self,
        places: &Places,
        origin: Origin,
        key: &'static str,
        faults: &mut Vec<Fault>,
    ) -> Vec<CrossingId> {
        match self.resolve(places) {
            Ok(spots) => spots.into_iter().map(|spot| spot.crossing).collect(),
            Err(misread) => {
                faults.extend(self.not_there(origin, key, misread));
                Vec::new()
            }
        }
    }

    /// The fault of a place that is not in this hull; none where part of her could not be read.
    pub fn not_there(&self, origin: Origin, key: &'static str, misread: Misread) -> Option<Fault> {
        (!self.incomplete).then(|| Fault::misread(Some(origin), vec![Step::Key(key)], misread))
    }
}
