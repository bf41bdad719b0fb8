//! How a place in the planking is written.
//!
//! A place is `PLANKS MEMBERS`: `P3 F12`, `PS1-4+7 F2-9`, `D2-6 B4-8`, `S4 stem`, `P3 J14 fwd`,
//! `P3 all`, with a hole as `P3 F12.2`; a strake that has a name as `P garboard F12`. Places are joined by `and`. Nothing in a place needs
//! quoting in YAML, in a shell or in a spreadsheet's cell.

use std::fmt;

use super::{End, Holes, Member, MemberKind, Number, Sides, StrakeName};

/// A run of numbers, both ends included. A lettered number stands alone: `1-4` is four numbers,
/// and `3a` is never among them unless it is named.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Run {
    pub(super) first: Number,
    pub(super) last: Number,
}

impl Run {
    /// A single number.
    pub const fn one(number: Number) -> Self {
        Self {
            first: number,
            last: number,
        }
    }

    /// How many numbers it has.
    pub(super) fn count(self) -> usize {
        usize::from(self.last.value() - self.first.value()) + 1
    }

    /// Every number of the run.
    pub fn numbers(self) -> impl Iterator<Item = Number> + Clone {
        let more = self.first.value() + 1..=self.last.value();
        std::iter::once(self.first).chain(more.map(Number::plain))
    }

    /// Whether a number is in the run.
    pub fn has(self, number: Number) -> bool {
        self.first == number || (number.is_plain() && self.first <= number && number <= self.last)
    }

    /// Joins rising numbers into the fewest runs; those with a letter stand behind the rest, as
    /// in `1-44+12a`.
    pub fn join(numbers: impl IntoIterator<Item = Number>) -> Vec<Self> {
        let mut runs: Vec<Self> = Vec::new();
        let mut lettered = Vec::new();
        for number in numbers {
            match runs.last_mut() {
                _ if !number.is_plain() => lettered.push(Self::one(number)),
                Some(run) if run.last.value() + 1 == number.value() => run.last = number,
                _ => runs.push(Self::one(number)),
            }
        }
        runs.append(&mut lettered);
        runs
    }
}

impl fmt::Display for Run {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.first == self.last {
            self.first.fmt(f)
        } else {
            write!(f, "{}-{}", self.first, self.last)
        }
    }
}

/// Some members, and holes in their crossings: `F2-9`, `stem.1`, `J14 fwd`, `all`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct MemberPick {
    /// Which kind of member; `None` for `all`.
    pub kind: Option<MemberKind>,
    /// Which of them; empty where the kind has no numbers.
    pub runs: Vec<Run>,
    /// Which end of a butt block; `None` for both.
    pub end: Option<End>,
    /// Which holes there.
    pub holes: Holes,
}

impl MemberPick {
    /// How many members these picks name, each as often as it is named; `all` counts as one.
    pub(super) fn count(picks: &[Self]) -> usize {
        let of = |pick: &Self| {
            pick.runs
                .iter()
                .map(|run| run.count())
                .sum::<usize>()
                .max(1)
        };
        picks.iter().map(of).sum()
    }

    /// Each member named, one by one; nothing for `all`.
    pub fn members(&self) -> impl Iterator<Item = Member> + '_ {
        let kind = self.kind;
        let ends: &[End] = match (kind, self.end) {
            (Some(MemberKind::Butt), None) => &[End::Fwd, End::Aft],
            (Some(MemberKind::Butt), Some(End::Aft)) => &[End::Aft],
            _ => &[End::Fwd],
        };
        let unnumbered = kind
            .filter(|k| k.letter().is_none())
            .map(|k| k.member(Number::plain(0), End::Fwd));
        let numbered = kind
            .filter(|k| k.letter().is_some())
            .into_iter()
            .flat_map(move |k| {
                self.runs
                    .iter()
                    .flat_map(|run| run.numbers())
                    .flat_map(move |n| ends.iter().map(move |end| k.member(n, *end)))
            });
        unnumbered.into_iter().chain(numbered)
    }
}

impl fmt::Display for MemberPick {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.kind {
            None => f.write_str("all")?,
            Some(kind) => match kind.letter() {
                Some(letter) => {
                    write!(f, "{letter}")?;
                    write_runs(f, &self.runs)?;
                }
                None => kind.member(Number::plain(0), End::Fwd).fmt(f)?,
            },
        }
        if !self.holes.is_any() {
            write!(f, ".{}", self.holes)?;
        }
        match self.end {
            Some(end) => write!(f, " {end}"),
            None => Ok(()),
        }
    }
}

fn write_runs(f: &mut fmt::Formatter<'_>, runs: &[Run]) -> fmt::Result {
    for (i, run) in runs.iter().enumerate() {
        if i > 0 {
            f.write_str("+")?;
        }
        write!(f, "{run}")?;
    }
    Ok(())
}

/// Some strakes at some members.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Place {
    /// Which planking.
    pub sides: Sides,
    /// Which strakes of it; empty for every one, or for those that are named.
    pub strakes: Vec<Run>,
    /// What they are called; beside numbers, a check on these.
    pub names: Vec<StrakeName>,
    /// At which members.
    pub members: Vec<MemberPick>,
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.sides.fmt(f)?;
        write_runs(f, &self.strakes)?;
        for (i, name) in self.names.iter().enumerate() {
            write!(f, "{}{name}", if i > 0 { '+' } else { ' ' })?;
        }
        self.members
            .iter()
            .try_for_each(|pick| write!(f, " {pick}"))
    }
}

/// One or more places, joined by `and`.
///
/// ```
/// use refasten::hull::Places;
/// let places: Places = "PS1-4+7 F2-9 and P3 J14 fwd".parse()?;
/// assert_eq!(places.to_string(), "PS1-4+7 F2-9 and P3 J14 fwd");
/// # Ok::<(), refasten::text::Misread>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Places(pub Vec<Place>);

impl Places {
    /// Text for a person: the first few places and how many more there are.
    pub fn shown(&self, most: usize) -> String {
        let mut text = String::new();
        let more = self.0.len().saturating_sub(most);
        let first = self.0.iter().take(most);
        // A text takes all that is written to it.
        let _ = joined(&mut text, first);
        match more {
            0 => {}
            1 => text += " and 1 more place",
            n => text += &format!(" and {n} more places"),
        }
        text
    }
}

fn joined<'p>(to: &mut dyn fmt::Write, places: impl Iterator<Item = &'p Place>) -> fmt::Result {
    for (i, place) in places.enumerate() {
        if i > 0 {
            to.write_str(" and ")?;
        }
        write!(to, "{place}")?;
    }
    Ok(())
}

impl fmt::Display for Places {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        joined(f, self.0.iter())
    }
}
