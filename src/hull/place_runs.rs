//! Reading the numbers of a place: `1-4+7`, `3a`.

use std::ops::Range;

use super::{Number, Run};
use crate::text::Misread;

pub(super) fn read_runs(text: &str, start: usize, highest: u16) -> Result<Vec<Run>, Misread> {
    let mut at = start;
    let mut numbers: Vec<Run> = Vec::with_capacity(1);
    for part in text.split('+') {
        let here = at..at + part.len();
        at = here.end + 1;
        let run = match part.split_once('-') {
            None => Run::one(read_number(part, here, highest)?),
            Some((first, last)) => {
                let run = Run {
                    first: read_number(first, here.clone(), highest)?,
                    last: read_number(last, here.clone(), highest)?,
                };
                if !run.first.is_plain() || !run.last.is_plain() {
                    return Err(Misread::new(format!("`{part}` runs to or from a letter"))
                        .help("a run is of plain numbers; add the lettered one by itself: 1-4+3a")
                        .at(here));
                }
                if run.first > run.last {
                    return Err(Misread::new(format!("`{part}` runs backwards"))
                        .help(format!("write {last}-{first}"))
                        .at(here));
                }
                run
            }
        };
        numbers.push(run);
    }
    if numbers.len() == 1 {
        return Ok(numbers);
    }
    let mut rising = numbers.clone();
    rising.sort_unstable_by_key(|run| (run.first.is_plain(), *run));
    let again = rising.windows(2).find_map(|pair| match pair {
        [one, next] if next.has(one.last) || one.has(next.first) => Some(next.first),
        _ => None,
    });
    if let Some(again) = again {
        return Err(Misread::new(format!("`{text}` names {again} twice"))
            .help("name each number once")
            .at(start..at.saturating_sub(1)));
    }
    Ok(numbers)
}

fn read_number(text: &str, at: Range<usize>, highest: u16) -> Result<Number, Misread> {
    let end = text.find(|c: char| !c.is_ascii_digit());
    let (digits, rest) = text.split_at(end.unwrap_or(text.len()));
    let no = || {
        Misread::new(format!("`{text}` is not a number of this kind"))
            .help("a whole number, or one with a letter: 12, 12a")
            .at(at.clone())
    };
    if digits.is_empty() {
        return Err(no());
    }
    let n = match digits.parse::<u16>() {
        Ok(n) if n <= highest => n,
        _ => {
            return Err(Misread::new(format!("{digits} is too high a number"))
                .help(format!("at most {highest} here"))
                .at(at));
        }
    };
    let mut rest = rest.chars();
    match (rest.next(), rest.next()) {
        (None, _) => Ok(Number::plain(n)),
        (Some(letter), None) => Number::lettered(n, letter).ok_or_else(no),
        _ => Err(no()),
    }
}
