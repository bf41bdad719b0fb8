//! A log into which two people's entries were merged, put in order again.

use std::collections::{HashMap, HashSet};

use super::split_log;
use crate::record::{Did, Strike};
use crate::text::outline::{Node, Pair, Shape, outline};
use crate::text::tokens::Begins;

/// The longest entry that is looked into; a longer one is refused when it is read.
const LONGEST: usize = 64 * 1024;

/// Among how many entries of one number that a strike may mean it is looked for.
const MOST_ALIKE: usize = 64;

/// What putting a merged log in order does to it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Merged {
    /// The lines that a merge left in and that are taken out, from 1: its marks, and what stood
    /// there before either person wrote.
    pub marks: Vec<usize>,
    /// Entries that stand there twice in the same words and are kept once.
    pub twice: Vec<Known>,
    /// Entries out of their order that are put in their place.
    pub moved: Vec<Known>,
    /// Entries whose number is taken by another above them, and get a new one.
    pub renumbered: Vec<(Known, u32)>,
    /// Strikes that name one of those, and what they name now.
    pub strikes: Vec<(Known, String)>,
}

/// An entry as it stood in the merged log.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Known {
    /// The line it began on, from 1.
    pub line: usize,
    /// Its number there.
    pub entry: u32,
    /// The text of it that tells which it is: of a strike what it named, else deed and place.
    pub words: String,
}

/// The text of a log in order again, and what was done to it; `None` where it is in order.
///
/// Entries of one person follow each other with rising numbers, so where numbers fall back those
/// of another begin. Where a number of theirs is taken, all of them are numbered anew after those
/// above; where none is, they were out of order and are put in their place. A strike is known by
/// number, deed and place, as it is when it is read: it means the nearest such entry above it.
pub fn unmerge(text: &str) -> Option<(String, Merged)> {
    let mut merged = Merged::default();
    let (text, lines) = without_marks(text, &mut merged);
    let (mut entries, end) = entries(&text, &lines);
    let texts: Vec<&str> = entries.iter().map(|entry| entry.text).collect();
    let mut seen: HashMap<&str, usize> = HashMap::new();
    let mut twice = HashSet::new();
    for (at, text) in texts.iter().enumerate() {
        if *seen.entry(text.trim_end()).or_insert(at) != at {
            twice.insert(at);
        }
    }
    merged.twice.extend(
        twice_in_order(&twice)
            .into_iter()
            .filter_map(|at| entries.get(at).map(|entry| entry.known.clone())),
    );
    number(&mut entries, &twice, &mut merged)?;
    strikes(&mut entries, &twice, &mut merged);
    if merged == Merged::default() {
        return None;
    }
    let mut order: Vec<usize> = (0..entries.len()).collect();
    order.sort_by_key(|at| entries.get(*at).map(|entry| entry.number));
    let mut out = String::with_capacity(text.len());
    // What stands above the first entry stays there.
    out += entries.first().map_or("", |entry| entry.lead);
    for at in order {
        let Some(entry) = entries.get(at) else {
            continue;
        };
        if at > 0 {
            out += entry.lead;
        }
        if !twice.contains(&at) {
            out += &entry.written();
        }
    }
    out += end;
    Some((out, merged))
}

fn twice_in_order(twice: &HashSet<usize>) -> Vec<usize> {
    let mut order: Vec<usize> = twice.iter().copied().collect();
    order.sort_unstable();
    order
}

/// One entry and what is to become of it.
struct Entry<'t> {
    /// Comments and whatever else stands between it and the one above.
    lead: &'t str,
    text: &'t str,
    known: Known,
    /// Its number from now on.
    number: u32,
    /// Which it is, if it can be read.
    title: Option<Strike>,
    /// Which it strikes out, if it does.
    strikes: Option<Strike>,
    /// The digits of `entry` and of `strikes` in its text.
    digits: (std::ops::Range<usize>, Option<std::ops::Range<usize>>),
    /// The number it strikes out from now on.
    struck: Option<u32>,
}

impl Entry<'_> {
    /// Its text with its numbers as they are from now on.
    fn written(&self) -> String {
        let mut parts = vec![(self.digits.0.clone(), self.number)];
        parts.extend(self.digits.1.clone().zip(self.struck));
        parts.sort_by_key(|(at, _)| at.start);
        let mut text = self.text.to_owned();
        // From the end, so that what is before keeps its place.
        for (at, number) in parts.into_iter().rev() {
            text.replace_range(at, &number.to_string());
        }
        text
    }
}

/// The text without the marks of a merge and what was there before either side, and the number
/// that each line of it had.
fn without_marks(text: &str, merged: &mut Merged) -> (String, Vec<usize>) {
    let is = |line: &str, mark: &str| {
        let rest = line.strip_prefix(mark);
        rest.is_some_and(|rest| rest.is_empty() || rest.starts_with(' '))
    };
    let (mut kept, mut lines) = (String::with_capacity(text.len()), Vec::new());
    let (mut open, mut before) = (false, false);
    for (line, number) in text.split_inclusive('\n').zip(1..) {
        let words = line.trim_end();
        let opens = is(words, "<<<<<<<");
        let closes = open && is(words, ">>>>>>>");
        let old = open && is(words, "|||||||");
        let between = open && words == "=======";
        if opens || closes || old || between || before {
            merged.marks.push(number);
        } else {
            kept += line;
            lines.push(number);
        }
        open = (open || opens) && !closes;
        before = old || (before && !between && open);
    }
    (kept, lines)
}

/// The entries whose number can be read, each with what stands above it, and what stands below the
/// last.
fn entries<'t>(text: &'t str, lines: &[usize]) -> (Vec<Entry<'t>>, &'t str) {
    let mut entries: Vec<Entry<'t>> = Vec::new();
    let mut done = 0;
    for piece in split_log(text, &mut Vec::new()) {
        let at = piece.origin.byte;
        let line = (piece.origin.line as usize).checked_sub(1);
        let line = line.and_then(|line| lines.get(line)).copied();
        let lead = text.get(done..at).unwrap_or_default();
        if let Some(entry) = entry(lead, piece.text, line.unwrap_or(0)) {
            done = at + piece.text.len();
            entries.push(entry);
        }
    }
    (entries, text.get(done..).unwrap_or_default())
}

fn entry<'t>(lead: &'t str, text: &'t str, line: usize) -> Option<Entry<'t>> {
    if text.len() > LONGEST {
        return None;
    }
    let root = outline(text, Begins::Line);
    let pairs = pairs(&root)?;
    let value = |key: &str| {
        let pair = pairs
            .iter()
            .find(|pair| text.get(pair.key.clone()).map(str::trim) == Some(key))?;
        let word = text.get(pair.value.at.clone())?;
        let bare = word.trim_matches(['"', '\'']);
        let start = pair.value.at.start + (word.len() - word.trim_start_matches(['"', '\'']).len());
        Some((bare, start))
    };
    let (digits, start) = value("entry")?;
    let number: u32 = crate::text::digits(digits)?;
    let own = start..start + digits.len();
    let did: Option<Did> = value("did").and_then(|(did, _)| did.parse().ok());
    let place = value("place").map(|(place, _)| place);
    let title = did.and_then(|did| match (did, place) {
        (Did::Struck, _) => Some(Strike {
            number,
            did,
            place: None,
        }),
        (_, place) => Some(Strike {
            number,
            did,
            place: Some(place?.parse().ok()?),
        }),
    });
    let strike = value("strikes").filter(|_| did == Some(Did::Struck));
    let strikes: Option<Strike> = strike.and_then(|(words, _)| words.parse().ok());
    let named = strike.filter(|_| strikes.is_some()).map(|(words, start)| {
        let first = words.find(|c: char| c.is_ascii_digit()).unwrap_or(0);
        let rest = words.get(first..).unwrap_or_default();
        let len = rest.find(|c: char| !c.is_ascii_digit());
        start + first..start + first + len.unwrap_or(rest.len())
    });
    let words = match (&strikes, did) {
        (Some(strike), _) => format!("strikes `{strike}`"),
        (None, Some(did)) => format!("{did} {}", place.unwrap_or_default()),
        (None, None) => String::new(),
    };
    Some(Entry {
        lead,
        text,
        known: Known {
            line,
            entry: number,
            words: words.trim_end().to_owned(),
        },
        number,
        title,
        strikes,
        digits: (own, named),
        struck: None,
    })
}

/// The keys of an entry.
fn pairs(root: &Node) -> Option<&[Pair]> {
    match &root.shape {
        Shape::List(items) if items.len() == 1 => match &items.first()?.shape {
            Shape::Map(pairs) => Some(pairs),
            _ => None,
        },
        _ => None,
    }
}

/// Numbers each run of rising numbers after the first; `None` where there are no numbers left.
fn number(entries: &mut [Entry<'_>], twice: &HashSet<usize>, merged: &mut Merged) -> Option<()> {
    let kept: Vec<usize> = (0..entries.len())
        .filter(|at| !twice.contains(at))
        .collect();
    let number_of = |entries: &[Entry<'_>], at: usize| entries.get(at).map(|e| e.known.entry);
    let runs: Vec<Vec<usize>> = kept
        .chunk_by(|one, next| number_of(entries, *one) < number_of(entries, *next))
        .map(<[usize]>::to_vec)
        .collect();
    let (mut used, mut last) = (HashSet::new(), 0_u32);
    for run in runs {
        let numbers: Vec<u32> = run
            .iter()
            .filter_map(|at| number_of(entries, *at))
            .collect();
        let taken = numbers.iter().any(|number| used.contains(number));
        let above = last;
        for at in run {
            let Some(entry) = entries.get_mut(at) else {
                continue;
            };
            if taken {
                entry.number = last.checked_add(1)?;
                merged.renumbered.push((entry.known.clone(), entry.number));
            } else if entry.number < above {
                merged.moved.push(entry.known.clone());
            }
            last = last.max(entry.number);
            used.insert(entry.number);
        }
    }
    Some(())
}

/// Lets every strike name the entry it meant by its new number.
fn strikes(entries: &mut [Entry<'_>], twice: &HashSet<usize>, merged: &mut Merged) {
    let mut latest: HashMap<u32, Vec<usize>> = HashMap::new();
    let mut found = Vec::new();
    for (at, entry) in entries.iter().enumerate() {
        if twice.contains(&at) {
            continue;
        }
        if let Some(strike) = &entry.strikes {
            let same = latest
                .get(&strike.number)
                .into_iter()
                .flatten()
                .rev()
                .take(MOST_ALIKE);
            let meant = same
                .filter_map(|at| entries.get(*at))
                .find(|entry| entry.title.as_ref() == Some(strike));
            found.extend(meant.map(|meant| (at, meant.number)));
        }
        latest.entry(entry.known.entry).or_default().push(at);
    }
    for (at, number) in found {
        let Some(entry) = entries.get_mut(at) else {
            continue;
        };
        let Some(strike) = entry
            .strikes
            .clone()
            .filter(|strike| strike.number != number)
        else {
            continue;
        };
        entry.struck = Some(number);
        let now = Strike { number, ..strike };
        merged.strikes.push((entry.known.clone(), now.to_string()));
    }
}
