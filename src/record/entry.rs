//! Entries: dated lines of the log.

use std::borrow::Cow;
use std::fmt;
use std::str::FromStr;

use super::{Deed, Did};
use crate::hull::{Hull, Places};
use crate::text::{Misread, Origin, digits};
use crate::units::Day;

/// One dated line of the log.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// Its number; numbers rise through the file.
    pub number: u32,
    /// The day it was done.
    pub date: Day,
    /// What was done and where, or which entry is struck out.
    pub what: What,
    /// Who did it.
    pub by: Option<String>,
    /// Anything else worth telling.
    pub note: Option<String>,
    /// A picture of it, as a path in the boat folder.
    pub photo: Option<String>,
    /// The day it was written down, where that is told: not before its date, not after today.
    pub written: Option<Day>,
    /// What it was taken from, where it was not logged by hand.
    pub from: Option<String>,
    /// Where it was written.
    pub origin: Origin,
}

/// What an entry tells.
#[derive(Clone, Debug, PartialEq)]
pub enum What {
    /// Something done to fastenings.
    Done {
        /// What.
        deed: Deed,
        /// Where.
        place: Places,
        /// To which set, where more than one stands there.
        set: Option<String>,
        /// How many there should be, as a check.
        count: Option<u32>,
    },
    /// An earlier entry struck out.
    Struck {
        /// Which.
        strike: Strike,
        /// Why.
        why: Option<String>,
    },
}

impl Entry {
    /// The word for what it tells.
    pub const fn did(&self) -> Did {
        match &self.what {
            What::Done { deed, .. } => deed.did(),
            What::Struck { .. } => Did::Struck,
        }
    }

    /// Where it was done; nowhere for a strike.
    pub const fn place(&self) -> Option<&Places> {
        match &self.what {
            What::Done { place, .. } => Some(place),
            What::Struck { .. } => None,
        }
    }

    /// The set it names, where it names one.
    pub(super) fn set(&self) -> Option<&str> {
        match &self.what {
            What::Done { set, .. } => set.as_deref(),
            What::Struck { .. } => None,
        }
    }

    /// Names strakes by number wherever the owner's names stand, so that an entry and its strike are
    /// the same however each was written. A name that is not there is told when it is looked up.
    pub(super) fn number_strakes(&mut self, hull: &Hull) {
        let number = |places: &mut Places| {
            if let Ok(Cow::Owned(numbered)) = hull.numbered(places) {
                *places = numbered;
            }
        };
        match &mut self.what {
            What::Struck { strike, .. } => strike.place.iter_mut().for_each(number),
            What::Done { place, deed, .. } => {
                number(place);
                if let Deed::PlankHung(plank) = deed {
                    plank.joints.iter_mut().for_each(number);
                }
            }
        }
    }

    /// The words that name it in a strike: `4 broken S5 F16.2`.
    pub fn title(&self) -> Strike {
        Strike {
            number: self.number,
            did: self.did(),
            place: self.place().cloned(),
        }
    }
}

/// An entry named by number, deed and place, so that a slip of the number strikes nothing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Strike {
    /// Its number.
    pub number: u32,
    /// What it tells.
    pub did: Did,
    /// Where; `None` for a strike.
    pub place: Option<Places>,
}

impl fmt::Display for Strike {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.number, self.did)?;
        match &self.place {
            Some(place) => write!(f, " {place}"),
            None => Ok(()),
        }
    }
}

impl FromStr for Strike {
    type Err = Misread;

    fn from_str(text: &str) -> Result<Self, Misread> {
        const FORM: &str = "name the entry by number, what was done and place: 4 broken S5 F16.2";
        let trimmed = text.trim();
        let start = text.len() - text.trim_start().len();
        let (number, rest) = trimmed.split_once(' ').unwrap_or((trimmed, ""));
        let number = digits(number).filter(|n| *n > 0).ok_or_else(|| {
            Misread::new(format!("`{number}` is not the number of an entry")).help(FORM)
        })?;
        if rest.is_empty() {
            return Err(Misread::new("what the entry did is missing").help(FORM));
        }
        let (did, place) = read_did(rest)?;
        let place = match (did, place) {
            (Did::Struck, None) => None,
            (Did::Struck, Some(_)) => {
                return Err(Misread::new("a strike has no place").help("like 9 struck"));
            }
            (_, None) => return Err(Misread::new("the place of the entry is missing").help(FORM)),
            (_, Some(place)) => {
                let at = start + trimmed.len() - place.len();
                Some(
                    place
                        .parse()
                        .map_err(|m: Misread| m.shifted(at, place.len()))?,
                )
            }
        };
        Ok(Self { number, did, place })
    }
}

/// The deed at the start of a text, of one word or two, and what follows it.
fn read_did(text: &str) -> Result<(Did, Option<&str>), Misread> {
    let mut blanks = text.match_indices(' ').map(|(at, _)| at);
    let (first, second) = (blanks.next(), blanks.next());
    let cut = |at: Option<usize>| match at {
        Some(at) => (text.get(..at).unwrap_or(text), text.get(at + 1..)),
        None => (text, None),
    };
    let (two, one) = (cut(first.and(second)), cut(first));
    // No deed of two words begins with one that is a deed of its own.
    one.0
        .parse()
        .map(|did| (did, one.1))
        .or_else(|misread| Ok((two.0.parse().map_err(|_: Misread| misread)?, two.1)))
}
