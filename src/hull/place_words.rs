//! Reading a place from its words.

use std::ops::Range;
use std::str::FromStr;

use super::names::is_member;
use super::place_runs::read_runs;
use super::{
    End, HoleNumber, Holes, MemberKind, MemberPick, Number, Place, Places, Run, Sides, StrakeName,
};
use crate::text::{Misread, nearest};

const FORM: &str =
    "a place is planks and members: P3 F12, PS1-4 F2-9, D2-6 B4-8, S4 stem, P3 J14 fwd, P3 all";

impl FromStr for Places {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        if let Some(at) = text.find([',', ';']) {
            return Err(Misread::new("places are joined by `and`, never by a comma")
                .help("like S4 F14 and S5 F16; numbers by a plus, like F14+16")
                .at(at..at + 1));
        }
        let words = words(text);
        if words.is_empty() {
            return Err(Misread::new("a place is missing").help(FORM));
        }
        // A log keeps a place an entry, and most are one.
        let mut places = Vec::with_capacity(1);
        let (mut read, mut before) = (0, None);
        for place in words.split(|(_, word)| word.eq_ignore_ascii_case("and")) {
            let after = words.get(read + place.len()).copied();
            places.push(Place::read(place, after.or(before))?);
            read += place.len() + 1;
            before = after;
        }
        Ok(Self(places))
    }
}

impl FromStr for MemberPicks {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        let words = words(text);
        if words.is_empty() {
            return Err(Misread::new("no member is named").help(MEMBERS));
        }
        read_members(&words).map(Self)
    }
}

/// Members without planks, as in `across: stem F1-44 transom`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MemberPicks(pub Vec<MemberPick>);

/// Runs of numbers without a letter, as in `number: 1-44`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Runs(pub Vec<Run>);

impl FromStr for Runs {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        let start = text.len() - text.trim_start().len();
        read_runs(text.trim(), start, Number::HIGHEST_MEMBER).map(Self)
    }
}

/// Strakes without members, as in `planks: PS1-14`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Strakes {
    /// Which planking.
    pub sides: Sides,
    /// Which strakes.
    pub runs: Vec<Run>,
}

impl FromStr for Strakes {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        match words(text).as_slice() {
            [word] => {
                let (sides, runs) = read_planks(*word)?;
                if runs.is_empty() {
                    return Err(
                        Misread::new("the strakes have no numbers").help("like PS1-14 or D1-18")
                    );
                }
                Ok(Self { sides, runs })
            }
            _ => Err(
                Misread::new(format!("`{}` does not name strakes", text.trim()))
                    .help("like PS1-14, S3a or D1-18"),
            ),
        }
    }
}

type Word<'a> = (usize, &'a str);

fn words(text: &str) -> Vec<Word<'_>> {
    text.split_whitespace()
        .map(|word| (word.as_ptr() as usize - text.as_ptr() as usize, word))
        .collect()
}

const fn span(word: Word<'_>) -> Range<usize> {
    word.0..word.0 + word.1.len()
}

impl Place {
    /// Reads one place, beside which this `and` stands where there are several.
    fn read(words: &[Word<'_>], and: Option<Word<'_>>) -> Result<Self, Misread> {
        let Some((planks, members)) = words.split_first() else {
            return Err(Misread::new("there is no place beside this `and`")
                .help(FORM)
                .at(and.map_or(0..0, span)));
        };
        let (sides, strakes) = read_planks(*planks)?;
        let named = members.iter().take_while(|word| !is_member(word.1));
        let (called, members) = members.split_at(named.count());
        let names = read_names(called)?;
        if let (Some(first), true) = (called.first(), members.is_empty()) {
            if is_nearly_a_member(first.1) {
                return Err(not_a_member(*first));
            }
            let called: Vec<String> = names.iter().map(ToString::to_string).collect();
            let called = format!("{} {}", planks.1, called.join("+"));
            return Err(Misread::new(format!("`{called}` has no member"))
                .help(format!(
                    "say where along the planks: {called} F12, or {called} all"
                ))
                .at(span(*first)));
        }
        if members.is_empty() {
            return Err(Misread::new(format!("`{}` has no member", planks.1))
                .help(format!(
                    "say where along the planks: {} F12, or {} all",
                    planks.1, planks.1
                ))
                .at(span(*planks)));
        }
        Ok(Self {
            sides,
            strakes,
            names,
            members: read_members(members)?,
        })
    }
}

fn read_planks(word: Word<'_>) -> Result<(Sides, Vec<Run>), Misread> {
    let end = word.1.find(|c: char| !c.is_ascii_alphabetic());
    let (letters, rest) = word.1.split_at(end.unwrap_or(word.1.len()));
    let sides = Sides::from_letters(letters).ok_or_else(|| {
        Misread::new(format!("`{}` does not name planks", word.1))
            .help("planks begin with P, S or PS for the shell, D for the deck: P3, PS1-4, D2")
            .at(span(word))
    })?;
    let member = rest.find(|c: char| matches!(c.to_ascii_uppercase(), 'F' | 'J' | 'K'));
    if let Some(at) = member.filter(|at| rest.get(at + 1..).is_some_and(starts_with_digit)) {
        let (planks, members) = word.1.split_at(letters.len() + at);
        let misread = Misread::new("a blank is missing between planks and members");
        return Err(misread
            .help(format!("write {planks} {members}"))
            .at(span(word)));
    }
    let runs = match rest {
        "" => Vec::new(),
        numbers => read_runs(numbers, word.0 + letters.len(), Number::HIGHEST_STRAKE)?,
    };
    Ok((sides, runs))
}

/// The names of strakes, of one word or several, joined by a plus: `broad strake+garboard`.
fn read_names(words: &[Word<'_>]) -> Result<Vec<StrakeName>, Misread> {
    let Some(first) = words.first() else {
        return Ok(Vec::new());
    };
    let called: Vec<&str> = words.iter().map(|word| word.1).collect();
    let names = called.join("-");
    let names = names.split('+').map(str::parse);
    names
        .collect::<Result<_, _>>()
        .map_err(|_: Misread| not_a_member(*first))
}

fn starts_with_digit(text: &str) -> bool {
    text.starts_with(|c: char| c.is_ascii_digit())
}

const MEMBERS: &str = "members are F12, B3, K9, J14, stem, sternpost, horn timber, transom or all";

fn read_members(words: &[Word<'_>]) -> Result<Vec<MemberPick>, Misread> {
    let mut picks = Vec::with_capacity(words.len());
    let mut rest = words;
    while let Some((&word, after)) = rest.split_first() {
        let (name, holes) = split_holes(word)?;
        let numbered = name.get(1..).is_some_and(starts_with_digit);
        let named = MemberKind::NAMED
            .iter()
            .find(|(named, _)| !numbered && name.eq_ignore_ascii_case(named));
        rest = after;
        let mut pick = MemberPick {
            kind: None,
            runs: Vec::new(),
            end: None,
            holes,
        };
        if name.eq_ignore_ascii_case("horn") {
            match after.split_first() {
                Some((&timber, after)) if split_holes(timber)?.0.eq_ignore_ascii_case("timber") => {
                    pick.holes = split_holes(timber)?.1;
                    pick.kind = Some(MemberKind::HornTimber);
                    rest = after;
                }
                _ => {
                    return Err(Misread::new("`horn` alone is not a member")
                        .help("write horn timber")
                        .at(span(word)));
                }
            }
        } else if let Some((_, kind)) = named {
            pick.kind = Some(*kind);
        } else if !name.eq_ignore_ascii_case("all") {
            let kind = match name.chars().next() {
                Some('F' | 'f') => MemberKind::Frame,
                Some('B' | 'b') => MemberKind::Beam,
                Some('K' | 'k') => MemberKind::Keel,
                Some('J' | 'j') => MemberKind::Butt,
                _ => return Err(not_a_member(word)),
            };
            let numbers = name.get(1..).unwrap_or_default();
            if !numbers.starts_with(|c: char| c.is_ascii_digit()) {
                return Err(not_a_member(word));
            }
            pick.kind = Some(kind);
            pick.runs = read_runs(numbers, word.0 + 1, Number::HIGHEST_MEMBER)?;
            if kind == MemberKind::Butt
                && let Some((&end, after)) = rest.split_first()
            {
                let is = |word| end.1.eq_ignore_ascii_case(word);
                pick.end = match (is("fwd") || is("forward"), is("aft")) {
                    (true, _) => Some(End::Fwd),
                    (_, true) => Some(End::Aft),
                    _ => None,
                };
                if pick.end.is_some() {
                    rest = after;
                }
            }
        }
        picks.push(pick);
    }
    Ok(picks)
}

/// Whether a word is a slip of the pen for one that names members: nearly one, or a letter with a
/// number, which few would call a strake.
fn is_nearly_a_member(word: &str) -> bool {
    word.contains(|c: char| c.is_ascii_digit())
        || nearest(word, MemberKind::NAMED.iter().map(|(name, _)| *name)).is_some()
}

fn not_a_member(word: Word<'_>) -> Misread {
    let names = MemberKind::NAMED
        .iter()
        .map(|(name, _)| *name)
        .chain(["all"]);
    let help = match nearest(word.1, names) {
        Some(near) => format!("did you mean `{near}`?"),
        None => MEMBERS.to_owned(),
    };
    Misread::new(format!("`{}` is not a member", word.1))
        .help(help)
        .at(span(word))
}

/// Takes the hole numbers off the end of a member: `F12.2`, `F3-9.1-2`.
fn split_holes<'a>(word: Word<'a>) -> Result<(&'a str, Holes), Misread> {
    let Some((name, numbers)) = word.1.split_once('.') else {
        return Ok((word.1, Holes::ANY));
    };
    let start = word.0 + name.len() + 1;
    let holes = read_runs(numbers, start, u16::from(Holes::MOST))?
        .into_iter()
        .flat_map(Run::numbers)
        .map(|n| HoleNumber::new(usize::from(n.value())).filter(|_| n.is_plain()))
        .collect::<Option<Holes>>()
        .ok_or_else(|| {
            Misread::new("a hole has a plain number")
                .help("like P3 F12.2")
                .at(start..start + numbers.len())
        })?;
    Ok((name, holes))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_place_of_the_grammar_is_printed_as_it_was_written() {
        for text in [
            "P3 F12",
            "PS1-4+7 F2-9",
            "D2-6 B4-8",
            "S4 stem",
            "P3 J14",
            "P3 J14 fwd",
            "P3 J14 aft F20",
            "PS1 K9-30",
            "P3 all",
            "D all",
            "P3 F12.2",
            "P1-3 F12-14.1-2+4",
            "S3a F12a",
            "DP2 B4 and DS2 B4",
            "DPS1 all",
            "P9 horn timber sternpost.3 transom",
            "P3 J14.2 fwd",
            "PS F0",
        ] {
            let places: Places = text.parse().unwrap_or_else(|e| panic!("{text}: {e}"));
            assert_eq!(places.to_string(), text);
        }
        assert_eq!(
            "ps1-4 f2-9 AND p3 Horn Timber"
                .parse::<Places>()
                .unwrap()
                .to_string(),
            "PS1-4 F2-9 and P3 horn timber"
        );
    }

    #[test]
    fn what_is_not_a_place_says_why() {
        for (text, says) in [
            (
                "P3 F12, F13",
                "places are joined by `and`, never by a comma",
            ),
            ("", "a place is missing"),
            ("P3", "`P3` has no member"),
            ("P3 F12 and", "there is no place beside this `and`"),
            ("X3 F12", "`X3` does not name planks"),
            ("P3 Q12", "`Q12` is not a member"),
            ("P3 F", "`F` is not a member"),
            ("P3 F9-2", "`9-2` runs backwards"),
            ("P3 F1-4000000000", "4000000000 is too high a number"),
            ("P1000 F1", "1000 is too high a number"),
            ("P3 F12.65", "65 is too high a number"),
            ("P3 F12.0", "a hole has a plain number"),
            ("P3 F3a-9", "`3a-9` runs to or from a letter"),
            ("P3 horn", "`horn` alone is not a member"),
            ("S3F4", "a blank is missing between planks and members"),
            ("P3 F12é", "`12é` is not a number of this kind"),
        ] {
            assert_eq!(text.parse::<Places>().unwrap_err().says, says, "{text}");
        }
        assert_eq!(
            "P3 transon".parse::<Places>().unwrap_err().help.unwrap(),
            "did you mean `transom`?"
        );
    }
}
