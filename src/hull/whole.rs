//! The whole hull: built once from what the owner wrote, then only asked.

use std::collections::{BTreeMap, BTreeSet};

use super::place::{MemberPicks, Strakes};
use super::waterline::Mark;
use super::{
    Crossing, CrossingId, FramesFrom, Joint, JointKind, Member, MemberKind, MemberPick, Number,
    Numbering, Particulars, Places, Run, Scantlings, Side, Spot, StrakeId, StrakesFrom, Water,
    Waterline,
};
use crate::joint::{Grain, Zone};
use crate::tables::{GaugeSystem, Metal, Wood};
use crate::text::{Fault, Misread, Origin, Step};
use crate::units::{Area, Length, Units};

/// The most crossings a hull may have; refused before anything is laid out.
const MOST_CROSSINGS: usize = 5_000_000;

/// The most crossings a place may name, each counted as often as it is named; refused before any
/// is looked up.
const MOST_NAMED: usize = 20_000_000;

/// Something an owner wrote, with where it was written.
#[derive(Clone, Debug)]
pub struct Placed<T> {
    /// Where.
    pub origin: Origin,
    /// What.
    pub is: T,
}

/// Strakes as the owner laid them out in one line.
#[derive(Clone, Debug)]
pub struct Laid {
    /// Which strakes.
    pub planks: Strakes,
    /// The members they cross.
    pub across: MemberPicks,
    /// Thickness of the planking.
    pub thickness: Option<Length>,
    /// Width of a plank.
    pub width: Option<Length>,
    /// Its wood.
    pub wood: Option<&'static Wood>,
}

/// A zone that the waterline does not tell.
#[derive(Clone, Debug)]
pub struct ZoneRule {
    /// How wet.
    pub zone: Zone,
    /// Where.
    pub place: Places,
}

/// Other metal in or on the wood.
#[derive(Clone, Debug)]
pub struct Hardware {
    /// What it is, in the owner's words.
    pub what: String,
    /// Its metal; `None` where it is not known.
    pub metal: Option<&'static Metal>,
    /// The crossings it lies on.
    pub crossings: Vec<CrossingId>,
    /// How much of it faces the water or the wood.
    pub area: Option<Area>,
    /// Where it was written.
    pub origin: Origin,
}

/// Everything the owner wrote about the hull, each value read, none yet fitted to another.
#[derive(Clone, Debug, Default)]
pub struct HullParts {
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
    /// Members and what they are of.
    pub members: Vec<Placed<(Vec<Member>, Scantlings)>>,
    /// Strakes.
    pub strakes: Vec<Placed<Laid>>,
    /// Marks of the waterline.
    pub waterline: Vec<Placed<Mark>>,
    /// Other zones.
    pub zones: Vec<Placed<ZoneRule>>,
    /// Joints: where, and what.
    pub joints: Vec<Placed<(Places, JointKind)>>,
    /// Other metal.
    pub hardware: Vec<Placed<HardwareParts>>,
    /// Whether something in it could not be read, so that what is missing proves nothing.
    pub incomplete: bool,
}

/// Other metal as the owner wrote it.
#[derive(Clone, Debug)]
pub struct HardwareParts {
    /// What it is.
    pub what: String,
    /// Its metal; `None` where it is not known.
    pub metal: Option<&'static Metal>,
    /// Where it is.
    pub place: Places,
    /// How much of it there is.
    pub area: Option<Area>,
}

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
    first: u32,
    /// From the bow.
    members: Vec<Member>,
    scantlings: Vec<u32>,
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

    /// Its ends: the first and the last crossing, where a member that takes hood ends lies there.
    pub fn hood_ends(&self) -> impl Iterator<Item = CrossingId> + '_ {
        self.crossings()
            .filter(|(_, member)| member.is_hood_end())
            .map(|(id, _)| id)
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
    /// Other metal.
    pub hardware: Vec<Hardware>,
    /// Joints.
    pub joints: Vec<Joint>,
    pub(super) strakes: Vec<Strake>,
    pub(super) scantlings: Vec<Scantlings>,
    /// Of each crossing.
    zones: Vec<Zone>,
    waterline: Waterline,
    /// Crossings where two planks meet on the member itself; sorted.
    pub(super) on_member: Vec<CrossingId>,
    /// Whether something in it could not be read, so that what is missing proves nothing.
    incomplete: bool,
}

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
                    .insert(member, scantlings.len() as u32)
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
            hardware: Vec::new(),
            joints: Vec::new(),
            strakes: Vec::new(),
            scantlings,
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
        let refused = hull.set_blocks(&parts.joints, &mut laid, faults);
        hull.number_crossings(laid);
        let mut joints = parts.joints;
        joints.retain(|joint| !refused.contains(&joint.origin));
        hull.set_joints(joints, faults);
        hull.set_zones(&parts.waterline, &parts.zones, faults);
        for Placed {
            origin,
            is:
                HardwareParts {
                    what,
                    metal,
                    place,
                    area,
                },
        } in parts.hardware
        {
            let crossings = hull.crossings_at(&place, origin, faults);
            hull.hardware.push(Hardware {
                what,
                metal,
                crossings,
                area,
                origin,
            });
        }
        hull
    }

    /// Gives each butt block its two crossings. Gives back where a joint was written that no
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
            let JointKind::Butt { block, .. } = kind else {
                continue;
            };
            let scantling = self.scantlings.len() as u32;
            self.scantlings.push(Scantlings {
                siding: None,
                depth: block.and_then(|block| block.thickness),
                spacing: None,
                wood: block.and_then(|block| block.wood),
                grain: Grain::Side,
            });
            if let Err(says) = lay_butts(places, scantling, laid) {
                refused.insert(*origin);
                if !self.incomplete {
                    faults.push(Fault::new(Some(*origin), says).key("at"));
                }
            }
        }
        refused
    }

    fn number_crossings(&mut self, laid: LaidStrakes) {
        let from_stern = self.numbering.frames == FramesFrom::Stern;
        let mut first = 0;
        for (id, row) in laid {
            let mut members: Vec<(Member, u32)> = row.members.into_iter().collect();
            members.sort_unstable_by_key(|(member, _)| (member.along(from_stern), *member));
            let count = members.len() as u32;
            let (members, scantlings) = members.into_iter().unzip();
            self.strakes.push(Strake {
                id,
                thickness: row.thickness,
                width: row.width,
                wood: row.wood,
                first,
                members,
                scantlings,
            });
            first += count;
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
            let members = || crossings.iter().map(|id| self.crossing(*id).member);
            if matches!(kind, JointKind::Scarf { .. })
                && members().any(|m| matches!(m, Member::Butt(..)))
            {
                faults.push(
                    Fault::new(Some(origin), "a scarf has no butt block")
                        .key("at")
                        .help("name the frame it falls on, like S12 F9"),
                );
            }
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

    /// Whether nothing tells where her waterline is.
    pub fn has_no_waterline(&self) -> bool {
        self.waterline.is_unknown()
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

    fn find(&self, strake: &Strake, member: Member) -> Option<CrossingId> {
        let from_stern = self.numbering.frames == FramesFrom::Stern;
        let key = (member.along(from_stern), member);
        let at = strake
            .members
            .binary_search_by_key(&key, |m| (m.along(from_stern), *m))
            .ok()?;
        Some(CrossingId(strake.first + at as u32))
    }

    /// The crossings and holes that a place names, each crossing once, in order.
    ///
    /// # Errors
    /// When any of them is not in this hull; the message says which, and what there is.
    pub fn resolve(&self, places: &Places) -> Result<Vec<Spot>, Misread> {
        let mut spots: Vec<Spot> = Vec::new();
        let mut named = 0_usize;
        for place in &places.0 {
            self.check_strakes(place)?;
            let strakes = self.strakes.iter().filter(|strake| names(place, strake.id));
            named = MemberPick::count(&place.members)
                .saturating_mul(strakes.count())
                .saturating_add(named);
            if named > MOST_NAMED {
                let says = format!("a place may name {MOST_NAMED} crossings, and this names more");
                return Err(Misread::new(says).help("does it name the same ones over and over?"));
            }
            let before = spots.len();
            for strake in self.strakes.iter().filter(|strake| names(place, strake.id)) {
                for pick in &place.members {
                    match pick.kind {
                        None => spots.extend(strake.crossings().map(|(crossing, _)| Spot {
                            crossing,
                            holes: pick.holes,
                        })),
                        Some(_) => {
                            for member in pick.members() {
                                match self.find(strake, member) {
                                    Some(crossing) => spots.push(Spot {
                                        crossing,
                                        holes: pick.holes,
                                    }),
                                    // `PS F12` is every strake that crosses frame 12, not every strake.
                                    None if place.strakes.is_empty() => {}
                                    None => return Err(no_crossing(strake, member)),
                                }
                            }
                        }
                    }
                }
            }
            if spots.len() == before {
                return Err(Misread::new(format!("no planks cross at {place}"))
                    .help("are the members numbered so in hull.yaml?"));
            }
        }
        spots.sort_unstable();
        spots.dedup_by(|again, kept| {
            let same = again.crossing == kept.crossing;
            if same {
                kept.holes = kept.holes.or(again.holes);
            }
            same
        });
        Ok(spots)
    }

    /// Every strake that a place names by number must be there.
    fn check_strakes(&self, place: &super::Place) -> Result<(), Misread> {
        for side in place.sides.each() {
            let there: Vec<Number> = self
                .strakes
                .iter()
                .filter(|s| s.id.side == *side)
                .map(|s| s.id.number)
                .collect();
            let missing = place
                .strakes
                .iter()
                .flat_map(|run| run.numbers())
                .find(|n| there.binary_search(n).is_err());
            if let Some(missing) = missing {
                let says = format!("there is no strake {side}{missing}");
                return Err(match there.is_empty() {
                    true => Misread::new(says)
                        .help(format!("no planks of side {side} are in `strakes`")),
                    false => Misread::new(says).help(format!("there are {side}{}", runs(&there))),
                });
            }
            if there.is_empty() {
                return Err(Misread::new(format!("there are no strakes of side {side}"))
                    .help("lay them out under `strakes` in hull.yaml"));
            }
        }
        Ok(())
    }
}

fn no_crossing(strake: &Strake, member: Member) -> Misread {
    let says = format!("{} does not cross {member}", strake.id);
    if let Member::Butt(number, _) = member {
        return Misread::new(says).help(format!(
            "a butt block is listed under `joints` in hull.yaml: {{at: {} J{number}, kind: butt}}",
            strake.id
        ));
    }
    let text: Vec<String> = super::fold::members_of(strake)
        .iter()
        .map(ToString::to_string)
        .collect();
    Misread::new(says).help(format!("it crosses {}", text.join(" ")))
}

fn runs(numbers: &[Number]) -> String {
    let runs: Vec<String> = Run::join(numbers.iter().copied())
        .iter()
        .map(ToString::to_string)
        .collect();
    runs.join("+")
}

fn names(place: &super::Place, id: StrakeId) -> bool {
    place.sides.each().contains(&id.side)
        && (place.strakes.is_empty() || place.strakes.iter().any(|run| run.has(id.number)))
}

/// A strake before its crossings are numbered.
struct LaidStrake {
    thickness: Option<Length>,
    width: Option<Length>,
    wood: Option<&'static Wood>,
    /// And the scantling of each.
    members: BTreeMap<Member, u32>,
}

type LaidStrakes = BTreeMap<StrakeId, LaidStrake>;

/// Lays every strake over the members it is said to cross.
/// The members that are described.
struct Described {
    scantlings: BTreeMap<Member, u32>,
    /// Whether these are all, so that another one is a fault.
    whole: bool,
}

fn lay(strakes: &[Placed<Laid>], described: &Described, faults: &mut Vec<Fault>) -> LaidStrakes {
    let mut laid = LaidStrakes::new();
    let mut crossings = 0_usize;
    for Placed { origin, is } in strakes {
        let strakes = each_strake(&is.planks).count();
        crossings = strakes
            .saturating_mul(MemberPick::count(&is.across.0))
            .saturating_add(crossings);
        if crossings > MOST_CROSSINGS {
            faults.push(
                Fault::new(
                    Some(*origin),
                    format!("the planking has more than {MOST_CROSSINGS} crossings"),
                )
                .help("are the numbers of frames and strakes right?"),
            );
            return laid;
        }
        let members = members_across(&is.across, *origin, described, faults);
        let mut again: Vec<String> = Vec::new();
        for (side, number) in each_strake(&is.planks) {
            let id = StrakeId { side, number };
            let strake = LaidStrake {
                thickness: is.thickness,
                width: is.width,
                wood: is.wood,
                members: members.clone(),
            };
            if laid.insert(id, strake).is_some() {
                again.push(format!("strake {id}"));
            }
        }
        if let Some(says) = twice(&again, "laid out") {
            let fault = Fault::new(Some(*origin), says).key("planks");
            faults.push(fault.help("each strake has one line"));
        }
    }
    laid
}

/// That some things are there twice; nothing for none.
fn twice(again: &[String], done: &str) -> Option<String> {
    match again {
        [] => None,
        [one] => Some(format!("{one} is {done} twice")),
        [one, two] => Some(format!("{one} and {two} are {done} twice")),
        [one, .., last] => {
            let more = again.len() - 2;
            Some(format!("{one}, {last} and {more} more are {done} twice"))
        }
    }
}

/// Gives the butts at these places their crossings, each between two members of its strake.
fn lay_butts(places: &Places, scantling: u32, laid: &mut LaidStrakes) -> Result<(), String> {
    for place in &places.0 {
        for (id, strake) in laid.iter_mut().filter(|(id, _)| names(place, **id)) {
            let picks = place.members.iter();
            let butts = picks
                .filter(|pick| pick.kind == Some(MemberKind::Butt))
                .flat_map(MemberPick::members);
            for butt in butts {
                let before = butt.number().unwrap_or(Number::plain(0));
                let after = Number::plain(before.value() + 1);
                let of = match id.side.is_deck() {
                    true => Member::Beam,
                    false => Member::Frame,
                };
                let lies = |n| strake.members.contains_key(&of(n));
                if !lies(before) && !lies(after) {
                    // `PS J9` is every strake that can have a butt there, not every strake.
                    if place.strakes.is_empty() {
                        continue;
                    }
                    let (before, after) = (of(before), of(after));
                    return Err(format!(
                        "{id} crosses neither {before} nor {after}, so no butt lies between them"
                    ));
                }
                if strake.members.insert(butt, scantling).is_some() {
                    return Err(format!("{id} has a butt at {butt} already"));
                }
            }
        }
    }
    Ok(())
}

fn each_strake(planks: &Strakes) -> impl Iterator<Item = (Side, Number)> + '_ {
    planks.sides.each().iter().flat_map(|side| {
        planks
            .runs
            .iter()
            .flat_map(|run| run.numbers())
            .map(move |n| (*side, n))
    })
}

fn members_across(
    across: &MemberPicks,
    origin: Origin,
    described: &Described,
    faults: &mut Vec<Fault>,
) -> BTreeMap<Member, u32> {
    let mut members = BTreeMap::new();
    for pick in &across.0 {
        let fault = match pick.kind {
            None => Some((
                "`all` does not say which members",
                "name them, like stem F1-44 transom".to_owned(),
            )),
            Some(MemberKind::Butt) => Some((
                "butt blocks are not named here",
                "list them under `joints`; they join the strake by themselves".to_owned(),
            )),
            Some(_) if !pick.holes.is_any() => Some((
                "holes are not named here",
                "name the members only".to_owned(),
            )),
            Some(_) => None,
        };
        if let Some((says, help)) = fault {
            faults.push(Fault::new(Some(origin), says).key("across").help(help));
            continue;
        }
        let mut unknown = None;
        for member in pick.members() {
            match described.scantlings.get(&member) {
                Some(scantling) => {
                    members.insert(member, *scantling);
                }
                None if described.whole => unknown = unknown.or(Some(member)),
                None => {}
            }
        }
        if let Some(member) = unknown {
            let list = match member.kind() {
                MemberKind::Frame => "frames",
                MemberKind::Beam => "beams",
                _ => "ends",
            };
            faults.push(
                Fault::new(
                    Some(origin),
                    format!("{member} is crossed but not described"),
                )
                .key("across")
                .help(format!("give its sizes under `{list}`; `unknown` will do")),
            );
        }
    }
    members
}
