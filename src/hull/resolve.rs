//! From a place that is written to the crossings it names.

use super::{Hull, Member, MemberPick, Number, Places, Run, Spot, Strake, StrakeId};
use crate::text::Misread;

/// A place may always name so many crossings, each counted as often as it is named.
const MAY_NAME: usize = 100_000;

/// And where the hull has more, each of them so often.
const OVER_AND_OVER: usize = 4;

impl Hull {
    /// The crossings and holes that a place names, each crossing once, in order.
    ///
    /// # Errors
    /// When any of them is not in this hull; the message says which, and what there is.
    pub fn resolve(&self, places: &Places) -> Result<Vec<Spot>, Misread> {
        let mut spots: Vec<Spot> = Vec::new();
        let mut named = 0_usize;
        let all = self.strakes.iter().map(|strake| strake.members.len());
        let most = all.sum::<usize>().saturating_mul(OVER_AND_OVER);
        let most = most.max(MAY_NAME);
        let places = self.numbered(places)?;
        for place in &places.0 {
            self.check_strakes(place)?;
            let strakes: Vec<&Strake> = self.strakes_of(place).collect();
            // Refused before any is looked up, so that a short text costs no memory.
            let each = strakes.iter().map(|strake| named_along(strake, place));
            named = each.fold(named, usize::saturating_add);
            if named > most {
                let says = format!("a place may name {most} crossings, and this names more");
                return Err(Misread::new(says).help("does it name the same ones over and over?"));
            }
            let before = spots.len();
            if let [_] = strakes.as_slice() {
                spots.reserve(MemberPick::count(&place.members));
            }
            for strake in strakes {
                for pick in &place.members {
                    match pick.kind {
                        None => spots.extend(strake.crossings().map(|(crossing, _)| Spot {
                            crossing,
                            holes: pick.holes,
                        })),
                        Some(_) => {
                            let mut last = None;
                            pick.members().try_for_each(|member| {
                                let found = self.find_after(strake, member, last);
                                last = found.or(last);
                                match found {
                                    Some(crossing) => spots.push(Spot {
                                        crossing,
                                        holes: pick.holes,
                                    }),
                                    // `PS F12` is every strake that crosses frame 12, not every strake.
                                    None if place.strakes.is_empty() => {}
                                    None => return Err(no_crossing(strake, member)),
                                }
                                Ok(())
                            })?;
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

    /// The strakes that a place names and that are there, in the order of all.
    fn strakes_of<'h>(&'h self, place: &'h super::Place) -> impl Iterator<Item = &'h Strake> {
        let one = Self::one_strake(place);
        // Most entries name one strake, and that one is found by its number.
        let range = match one.map(|id| self.strakes.binary_search_by_key(&id, |s| s.id)) {
            Some(Ok(at)) => at..at + 1,
            Some(Err(_)) => 0..0,
            None => 0..self.strakes.len(),
        };
        let strakes = self.strakes.get(range).unwrap_or_default().iter();
        strakes.filter(|strake| names(place, strake.id))
    }

    /// The strake that a place names, where it is one.
    fn one_strake(place: &super::Place) -> Option<StrakeId> {
        match (place.sides.each(), place.strakes.as_slice()) {
            ([side], [run]) if run.count() == 1 => Some(StrakeId {
                side: *side,
                number: run.first,
            }),
            _ => None,
        }
    }

    /// Every strake that a place names by number must be there.
    fn check_strakes(&self, place: &super::Place) -> Result<(), Misread> {
        if let Some(one) = Self::one_strake(place)
            && self.strakes.binary_search_by_key(&one, |s| s.id).is_ok()
        {
            return Ok(());
        }
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

/// How many crossings of a strake a place names, each as often as it is named.
fn named_along(strake: &Strake, place: &super::Place) -> usize {
    let all = place.members.iter().filter(|pick| pick.kind.is_none());
    let along = strake.members.len().saturating_mul(all.count());
    MemberPick::count(&place.members).saturating_add(along)
}

pub(super) fn no_crossing(strake: &Strake, member: Member) -> Misread {
    if let Member::Butt(number, _) = member {
        let says = format!("{} has no butt at J{number}", strake.id);
        return Misread::new(says).help(format!(
            "a butt block is listed under `joints` in hull.yaml: {{at: {} J{number}, kind: butt}}",
            strake.id
        ));
    }
    let says = format!("{} does not cross {member}", strake.id);
    let text: Vec<String> = super::fold::members_of(strake)
        .iter()
        .map(ToString::to_string)
        .collect();
    Misread::new(says).help(format!("it crosses {}", text.join(" ")))
}

pub(super) fn runs(numbers: &[Number]) -> String {
    let runs: Vec<String> = Run::join(numbers.iter().copied())
        .iter()
        .map(ToString::to_string)
        .collect();
    runs.join("+")
}

pub(super) fn names(place: &super::Place, id: StrakeId) -> bool {
    place.sides.each().contains(&id.side)
        && (place.strakes.is_empty() || place.strakes.iter().any(|run| run.has(id.number)))
}
