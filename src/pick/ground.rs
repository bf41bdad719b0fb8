//! What a boat's own record answers before a question is asked: plank, member, zone.

use crate::hull::{CrossingId, Hull, MemberKind, Places, Side, fold};
use crate::joint::spacing::Along;
use crate::joint::{Grain, Zone};
use crate::record::{Book, Hole, State};
use crate::tables::Wood;
use crate::text::Misread;
use crate::units::Length;

/// What lies at a crossing, as far as picking a screw goes. `None` stands for what is not known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ground {
    /// Thickness of the plank.
    pub plank: Option<Length>,
    /// Its wood.
    pub plank_wood: Option<&'static Wood>,
    /// What the plank lies on, as it is called; `member` where it is several.
    pub on: &'static str,
    /// Depth of the member.
    pub member: Option<Length>,
    /// Its wood.
    pub member_wood: Option<&'static Wood>,
    /// How its grain lies to the screw.
    pub grain: Grain,
    /// How wet it is.
    pub zone: Zone,
}

impl Ground {
    /// What lies at all of these crossings alike.
    ///
    /// # Errors
    /// Where they are not alike: one screw does not answer for them all. The help says where each
    /// kind is.
    pub fn of(hull: &Hull, state: &State, crossings: &[CrossingId]) -> Result<Self, Misread> {
        const MOST_KINDS: usize = 4;
        let mut kinds: Vec<(Self, Vec<CrossingId>)> = Vec::new();
        let on = called(hull, crossings);
        for id in crossings {
            let crossing = hull.crossing(*id);
            let member = state.scantlings(hull, *id);
            let ground = Self {
                on,
                plank: state.thickness(hull, *id).or(crossing.strake.thickness),
                plank_wood: state.plank_wood(hull, *id).or(crossing.strake.wood),
                member: member.depth,
                member_wood: member.wood,
                grain: member.grain,
                zone: crossing.zone,
            };
            match kinds.iter_mut().find(|(kind, _)| *kind == ground) {
                Some((_, at)) => at.push(*id),
                None => kinds.push((ground, vec![*id])),
            }
        }
        match kinds.as_slice() {
            [(ground, _)] => Ok(*ground),
            [] => Err(Misread::new("no crossing is named")),
            many => {
                let places: Vec<String> = many
                    .iter()
                    .take(MOST_KINDS)
                    .map(|(_, at)| short(&fold(hull, at.iter().copied())))
                    .collect();
                let says = format!(
                    "these crossings are of {} kinds, and no one screw answers for them all",
                    many.len()
                );
                Err(Misread::new(says)
                    .help(format!("ask for one kind at a time: {}", places.join("; "))))
            }
        }
    }
}

/// What the planks lie on there, as it is called.
fn called(hull: &Hull, crossings: &[CrossingId]) -> &'static str {
    let mut words = crossings
        .iter()
        .map(|id| match hull.crossing(*id).member.kind() {
            MemberKind::Frame => "frame",
            MemberKind::Butt => "butt block",
            MemberKind::Keel => "keel",
            MemberKind::Beam => "beam",
            MemberKind::Stem => "stem",
            MemberKind::Sternpost => "sternpost",
            MemberKind::HornTimber => "horn timber",
            MemberKind::Transom => "transom",
        });
    match words.next() {
        Some(first) if words.all(|word| word == first) => first,
        _ => "member",
    }
}

fn short(places: &Places) -> String {
    places.shown(1)
}

/// What a boat's record says of the room at crossings, as far as they are alike.
#[derive(Clone, Debug, Default)]
pub struct Spot {
    /// Width of the plank.
    pub width: Option<Length>,
    /// What they have along the plank.
    pub along: Option<Along>,
    /// How many were built there.
    pub count: Option<u8>,
    /// The diameters of the holes at the one that has the most of them.
    pub old: Vec<Option<Length>>,
}

impl Spot {
    /// The room at these crossings.
    pub fn of(hull: &Hull, book: &Book, state: &State, crossings: &[CrossingId]) -> Self {
        let along = |id: &CrossingId| {
            let crossing = hull.crossing(*id);
            let kind = crossing.member.kind();
            if crossing.member.is_hood_end() {
                let starboard = crossing.strake.id.side == Side::Starboard;
                Some(Along::HoodEnd { starboard })
            } else if matches!(kind, MemberKind::Frame | MemberKind::Beam) {
                Some(Along::Sided(state.scantlings(hull, *id).siding?))
            } else {
                None
            }
        };
        let most = crossings.iter().max_by_key(|id| state.holes(**id).len());
        let holes = most.map_or(&[][..], |id| state.holes(*id));
        let diameter = |hole: &Hole| book.fastening(hole.fastening).size?.diameter();
        Self {
            width: alike(crossings, |id| hull.crossing(*id).strake.width),
            along: alike(crossings, along),
            count: alike(crossings, |id| {
                Some(state.expected(*id)).filter(|count| *count > 0)
            }),
            old: holes.iter().map(diameter).collect(),
        }
    }
}

/// What all of them have, if it is the same.
fn alike<T: PartialEq>(
    crossings: &[CrossingId],
    of: impl Fn(&CrossingId) -> Option<T>,
) -> Option<T> {
    let mut each = crossings.iter().map(of);
    let first = each.next()??;
    each.all(|other| other.as_ref() == Some(&first))
        .then_some(first)
}
