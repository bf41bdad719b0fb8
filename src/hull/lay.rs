//! Laying strakes over the members they cross, before crossings are numbered.

use std::collections::BTreeMap;
use std::rc::Rc;

use super::names::{Named, number};
use super::resolve::names;
use super::{
    Laid, Member, MemberKind, MemberPick, MemberPicks, Number, Placed, Places, Side, StrakeId,
    Strakes,
};
use crate::tables::Wood;
use crate::text::{Fault, Origin};
use crate::units::Length;

/// The most crossings a hull may have; refused before anything is laid out.
pub(super) const MOST_CROSSINGS: usize = 5_000_000;

/// A strake before its crossings are numbered.
pub(super) struct LaidStrake {
    pub(super) thickness: Option<Length>,
    pub(super) width: Option<Length>,
    pub(super) wood: Option<&'static Wood>,
    /// The members it crosses, in their order, and the scantling of each.
    pub(super) members: Rc<[(Member, u32)]>,
    /// Its joints between members.
    pub(super) butts: BTreeMap<Member, u32>,
}

impl LaidStrake {
    fn crosses(&self, member: Member) -> bool {
        let at = self.members.binary_search_by_key(&member, |(is, _)| *is);
        at.is_ok()
    }
}

pub(super) type LaidStrakes = BTreeMap<StrakeId, LaidStrake>;

/// The members that are described.
pub(super) struct Described {
    pub(super) scantlings: BTreeMap<Member, u32>,
    /// Whether these are all, so that another one is a fault.
    pub(super) whole: bool,
}

/// Lays every strake over the members it is said to cross.
pub(super) fn lay(
    strakes: &[Placed<Laid>],
    described: &Described,
    faults: &mut Vec<Fault>,
) -> LaidStrakes {
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
                    format!(
                        "the planking has more than {} million crossings",
                        MOST_CROSSINGS / 1_000_000
                    ),
                )
                .help("are the numbers of frames and strakes right?"),
            );
            return laid;
        }
        let members = members_across(&is.across, *origin, described, faults);
        let members: Rc<[(Member, u32)]> = members.into_iter().collect();
        let mut again: Vec<String> = Vec::new();
        for (side, number) in each_strake(&is.planks) {
            let id = StrakeId { side, number };
            let strake = LaidStrake {
                thickness: is.thickness,
                width: is.width,
                wood: is.wood,
                members: Rc::clone(&members),
                butts: BTreeMap::new(),
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
pub(super) fn twice(again: &[String], done: &str) -> Option<String> {
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
pub(super) fn lay_butts(
    places: &Places,
    named: &Named,
    scantling: u32,
    laid: &mut LaidStrakes,
) -> Result<(), (String, &'static str)> {
    // A name that is not there is told when the joint is fitted.
    let Ok(places) = number(named, places) else {
        return Ok(());
    };
    for place in &places.0 {
        let picks = place.members.iter();
        let butts: Vec<Member> = picks
            .filter(|pick| pick.kind == Some(MemberKind::Butt))
            .flat_map(MemberPick::members)
            .collect();
        for (id, strake) in laid.iter_mut().filter(|(id, _)| names(place, **id)) {
            for butt in butts.iter().copied() {
                let before = butt.number().unwrap_or(Number::plain(0));
                let after = Number::plain(before.value() + 1);
                let of = match id.side.is_deck() {
                    true => Member::Beam,
                    false => Member::Frame,
                };
                let lies = |n| strake.crosses(of(n));
                if !lies(before) && !lies(after) {
                    // `PS J9` is every strake that can have a butt there, not every strake.
                    if place.strakes.is_empty() {
                        continue;
                    }
                    let (before, after) = (of(before), of(after));
                    let says = format!(
                        "{id} crosses neither {before} nor {after}, so no joint lies between them"
                    );
                    return Err((says, "is the number of the joint right?"));
                }
                if strake.butts.insert(butt, scantling).is_some() {
                    let says = format!("{id} has a joint at J{before} already");
                    return Err((says, "each joint has one line"));
                }
            }
        }
    }
    Ok(())
}

pub(super) fn each_strake(planks: &Strakes) -> impl Iterator<Item = (Side, Number)> + '_ {
    planks.sides.each().iter().flat_map(|side| {
        planks
            .runs
            .iter()
            .flat_map(|run| run.numbers())
            .map(move |n| (*side, n))
    })
}

pub(super) fn members_across(
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
