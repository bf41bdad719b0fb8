//! What the owner calls a strake: garboard, sheer, broad strake.

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use std::str::FromStr;

use super::lay::each_strake;
use super::resolve::runs;
use super::{Hull, LaidNames, MemberKind, Number, Place, Places, Run, Side, Sides, StrakeId};
use crate::text::{Fault, Misread, nearest};

/// The name of a strake: words of letters a to z and figures joined by hyphens, so that it needs
/// no quotes in YAML, in a shell or in a spreadsheet. However it is typed, it is kept in small letters.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct StrakeName(String);

impl FromStr for StrakeName {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        const MOST: usize = 30;
        const FORM: &str = "a word or a few, in letters a to z: garboard, or broad-strake";
        let name = text.trim().to_lowercase();
        let words: Vec<&str> = name
            .split(|c: char| c.is_whitespace() || c == '-')
            .filter(|word| !word.is_empty())
            .collect();
        let refuse = |says: String| Err(Misread::new(says).help(FORM));
        let joined = words.join("-");
        if joined.len() < 2
            || !joined.starts_with(|c: char| c.is_ascii_alphabetic())
            || !words.iter().all(|word| is_plain(word))
        {
            return refuse(format!("`{}` is not a name for a strake", text.trim()));
        }
        if let Some(word) = words.iter().find(|word| is_taken(word)) {
            return refuse(format!("`{word}` means something else in a place"));
        }
        if joined.len() > MOST {
            return refuse(format!(
                "the name of a strake is at most {MOST} letters long"
            ));
        }
        Ok(Self(joined))
    }
}

impl fmt::Display for StrakeName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

fn is_plain(word: &str) -> bool {
    word.chars().all(|c| c.is_ascii_alphanumeric())
}

/// Whether a word of a place is one that names members.
pub(super) fn is_member(word: &str) -> bool {
    let name = word.split('.').next().unwrap_or_default();
    let numbered = name
        .strip_prefix(['f', 'F', 'b', 'B', 'k', 'K', 'j', 'J'])
        .is_some_and(|rest| rest.starts_with(|c: char| c.is_ascii_digit()));
    let is = |known: &str| name.eq_ignore_ascii_case(known);
    let named = || MemberKind::NAMED.iter().any(|(named, _)| is(named));
    numbered || named() || ["horn", "timber", "all"].into_iter().any(is)
}

/// Whether a word means something else wherever a place is written.
fn is_taken(word: &str) -> bool {
    is_member(word) || matches!(word, "and" | "then" | "fwd" | "forward" | "aft")
}

/// The names of strakes by side, each with its strakes.
pub(super) type Named = BTreeMap<(Side, StrakeName), BTreeSet<Number>>;

/// Fits names to the strakes there are.
pub(super) fn named(
    lines: &[LaidNames],
    is_there: impl Fn(StrakeId) -> bool,
    faults: &mut Vec<Fault>,
) -> Named {
    let mut named = Named::new();
    for line in lines {
        let mut missing = Vec::new();
        for (side, number) in each_strake(&line.planks) {
            let id = StrakeId { side, number };
            if !is_there(id) {
                missing.push(id.to_string());
            }
            let key = (side, line.name.clone());
            named.entry(key).or_default().insert(number);
        }
        if let Some(first) = missing.first() {
            let fault = Fault::new(Some(line.origin), format!("there is no strake {first}"));
            faults.push(fault.key("planks").help("lay it out under `strakes` first"));
        }
    }
    named
}

impl Hull {
    /// Places with their strakes by number and no names.
    ///
    /// # Errors
    /// Where a strake has no such name, or is named beside another number.
    pub fn numbered<'p>(&self, places: &'p Places) -> Result<Cow<'p, Places>, Misread> {
        number(&self.named, places)
    }

    /// What a strake is called, where it has a name.
    pub fn name_of(&self, id: StrakeId) -> Option<&StrakeName> {
        let mut names = self.named.iter();
        let found = names.find(|((side, _), of)| *side == id.side && of.contains(&id.number));
        found.map(|((_, name), _)| name)
    }

    /// Places as they are told to a person: beside the numbers of strakes their name, where all of
    /// them have one. They can be read again.
    pub fn spoken(&self, mut places: Places) -> Places {
        for place in &mut places.0 {
            if place.strakes.is_empty() || !place.names.is_empty() {
                continue;
            }
            let numbers: BTreeSet<Number> =
                place.strakes.iter().flat_map(|r| r.numbers()).collect();
            let sides = place.sides.each();
            let of_first = |((side, _), of): &(&(Side, StrakeName), &BTreeSet<Number>)| {
                sides.first() == Some(side) && **of == numbers
            };
            let name = self.named.iter().find(of_first).map(|((_, name), _)| name);
            let everywhere = |name: &&StrakeName| {
                sides
                    .iter()
                    .all(|side| self.named.get(&(*side, (*name).clone())) == Some(&numbers))
            };
            place.names.extend(name.filter(everywhere).cloned());
        }
        places
    }
}

/// Places with their strakes by number, by these names.
pub(super) fn number<'p>(named: &Named, places: &'p Places) -> Result<Cow<'p, Places>, Misread> {
    if places.0.iter().all(|place| place.names.is_empty()) {
        return Ok(Cow::Borrowed(places));
    }
    let mut numbered = Vec::new();
    for place in &places.0 {
        if place.names.is_empty() {
            numbered.push(place.clone());
            continue;
        }
        let sides = place.sides.each();
        let of_each: Vec<(Side, BTreeSet<Number>)> = sides
            .iter()
            .map(|side| Ok((*side, numbers_of(named, *side, &place.names)?)))
            .collect::<Result<_, Misread>>()?;
        let told: BTreeSet<Number> = place.strakes.iter().flat_map(|run| run.numbers()).collect();
        if let Some((side, of)) = of_each.iter().find(|(_, of)| !told.is_subset(of)) {
            let of: Vec<Number> = of.iter().copied().collect();
            let names: Vec<String> = place.names.iter().map(ToString::to_string).collect();
            let told: Vec<Number> = told.into_iter().collect();
            let names = names.join("+");
            let says = format!("{side}{} is not named {names}", runs(&told));
            return Err(Misread::new(says).help(format!("{names} is {side}{}", runs(&of))));
        }
        if !told.is_empty() {
            numbered.push(Place {
                names: Vec::new(),
                ..place.clone()
            });
            continue;
        }
        let alike = of_each
            .windows(2)
            .all(|two| matches!(two, [a, b] if a.1 == b.1));
        let by_number = |sides: Sides, of: &BTreeSet<Number>| Place {
            sides,
            names: Vec::new(),
            strakes: Run::join(of.iter().copied()),
            members: place.members.clone(),
        };
        match of_each.first() {
            Some((_, of)) if alike => numbered.push(by_number(place.sides, of)),
            _ => numbered.extend(
                of_each
                    .iter()
                    .map(|(side, of)| by_number(Sides::One(*side), of)),
            ),
        }
    }
    Ok(Cow::Owned(Places(numbered)))
}

/// The strakes of a side that have these names.
fn numbers_of(
    named: &Named,
    side: Side,
    names: &[StrakeName],
) -> Result<BTreeSet<Number>, Misread> {
    let mut numbers = BTreeSet::new();
    for name in names {
        match named.get(&(side, name.clone())) {
            Some(of) => numbers.extend(of),
            None => {
                let known: Vec<&str> = named.keys().map(|(_, name)| name.0.as_str()).collect();
                let members = MemberKind::NAMED.iter().map(|(named, _)| *named);
                let help = match nearest(&name.0, known.iter().copied().chain(members)) {
                    Some(near) if near != name.0 => format!("did you mean `{near}`?"),
                    _ => "a strake gets its name under `names` in hull.yaml".to_owned(),
                };
                let says = format!("no strake of side {side} is named {name}");
                return Err(Misread::new(says).help(help));
            }
        }
    }
    Ok(numbers)
}
