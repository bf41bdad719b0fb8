//! Where in a file a fault's words stand, worked out only when it is to be shown.

use std::ops::Range;

use super::outline::{Node, Pair, Shape, outline};
use super::tokens::Begins;
use super::{Fault, Step};

/// The longest record that is searched; a longer one is refused before it is read.
const LONGEST: usize = 64 * 1024;

/// The bytes of a file that a fault is about; `None` for a fault that is in no file.
///
/// Falls back to the record's first line where its words cannot be found.
pub fn locate(text: &str, fault: &Fault) -> Option<Range<usize>> {
    let origin = fault.origin?;
    if let Some(bytes) = &fault.bytes {
        return Some(bounded(text, bytes));
    }
    let record = record_at(text, origin.byte);
    let slice = text.get(record.clone()).unwrap_or_default();
    let found = if slice.len() > LONGEST {
        None
    } else {
        let before = text.get(..origin.byte).unwrap_or_default();
        let line = before.rfind('\n').map_or(0, |end| end + 1);
        let begins = if before.get(line..).unwrap_or_default().trim().is_empty() {
            Begins::Line
        } else {
            Begins::Inside
        };
        in_record(slice, begins, fault)
    };
    let within = found.unwrap_or_else(|| first_line(slice, 0..slice.len()));
    Some(bounded(
        text,
        &(record.start + within.start..record.start + within.end),
    ))
}

/// The bytes of the record that begins at `byte`: on to the next line that is no deeper than its
/// first line and neither blank, a comment nor a closing bracket.
fn record_at(text: &str, byte: usize) -> Range<usize> {
    let start = floor(text, byte);
    let before = text.get(..start).unwrap_or_default();
    let line = before.rfind('\n').map_or(0, |end| end + 1);
    let rest = text.get(line..).unwrap_or_default();
    let indent = rest.len() - rest.trim_start_matches(' ').len();
    let (mut end, mut at, mut deeper) = (line, line, true);
    for (number, line) in rest.split_inclusive('\n').enumerate() {
        let words = line.trim();
        let own = line.len() - line.trim_start_matches(' ').len();
        let blank = words.is_empty() || words.starts_with('#');
        if number > 0 && !blank {
            deeper = own > indent || words.starts_with(['}', ']']);
        }
        if !deeper || at - start.min(at) > LONGEST {
            break;
        }
        at += line.len();
        if !blank || number == 0 {
            end = at;
        }
    }
    start..end.max(start)
}

fn in_record(text: &str, begins: Begins, fault: &Fault) -> Option<Range<usize>> {
    let root = outline(text, begins);
    let mut node = &root;
    // A record may stand alone in a list or under its key; its path does not say so.
    loop {
        if let Some(found) = follow(text, node, &fault.path) {
            return Some(match (found, &fault.within) {
                (Found::Value(value), Some(within)) => narrowed(text, value, within),
                (Found::Value(value), None) => first_line(text, value.at.clone()),
                (Found::Name(name), _) => name,
            });
        }
        node = match &node.shape {
            Shape::List(items) if items.len() == 1 => items.first()?,
            Shape::Map(pairs) if pairs.len() == 1 => &pairs.first()?.value,
            _ => return None,
        };
    }
}

enum Found<'a> {
    Value(&'a Node),
    Name(Range<usize>),
}

fn follow<'a>(text: &str, root: &'a Node, path: &[Step]) -> Option<Found<'a>> {
    let mut node = match &root.shape {
        // The dash before a record is not part of it.
        Shape::List(items) if path.is_empty() && items.len() == 1 => items.first()?,
        _ => root,
    };
    for (number, step) in path.iter().enumerate() {
        match (step, &node.shape) {
            (Step::Key(key), Shape::Map(pairs)) => {
                let pair = pairs.iter().find(|pair| named(text, pair, key))?;
                if pair.value.shape == Shape::Nothing {
                    return Some(Found::Name(pair.key.clone()));
                }
                node = &pair.value;
            }
            (Step::Name(key), Shape::Map(pairs)) if number + 1 == path.len() => {
                let pair = pairs.iter().find(|pair| named(text, pair, key))?;
                return Some(Found::Name(pair.key.clone()));
            }
            (Step::Item(item), Shape::List(items)) => node = items.get(*item)?,
            // One text stands for a list of one.
            (Step::Item(0), Shape::Plain | Shape::Quoted) => {}
            _ => return None,
        }
    }
    Some(Found::Value(node))
}

fn named(text: &str, pair: &Pair, key: &str) -> bool {
    let written = text.get(pair.key.clone()).unwrap_or_default();
    let bare = written
        .strip_prefix(['"', '\''])
        .and_then(|rest| rest.strip_suffix(['"', '\'']));
    bare.unwrap_or(written) == key
}

/// The bytes of part of a value, where they are written as they are read.
fn narrowed(text: &str, value: &Node, within: &Range<usize>) -> Range<usize> {
    let inner = match value.shape {
        Shape::Plain => value.at.clone(),
        Shape::Quoted => value.at.start + 1..value.at.end.saturating_sub(1),
        _ => return first_line(text, value.at.clone()),
    };
    let written = text.get(inner.clone()).unwrap_or_default();
    let changed = match value.shape {
        Shape::Quoted => written.contains(['\\', '\n']) || written.contains("''"),
        _ => written.contains('\n'),
    };
    if changed || within.end > written.len() || within.start > within.end {
        return first_line(text, value.at.clone());
    }
    inner.start + within.start..inner.start + within.end
}

/// What of the bytes stands on the first line that has anything on it.
fn first_line(text: &str, at: Range<usize>) -> Range<usize> {
    let part = text.get(at.clone()).unwrap_or_default();
    let start = at.start + (part.len() - part.trim_start().len());
    let line = text
        .get(start..at.end.max(start))
        .and_then(|part| part.lines().next())
        .unwrap_or_default();
    start..start + line.trim_end().trim_end_matches(',').len()
}

/// A range that lies in the text, on the edges of its characters.
fn bounded(text: &str, bytes: &Range<usize>) -> Range<usize> {
    let start = floor(text, bytes.start);
    let mut end = bytes.end.clamp(start, text.len());
    while !text.is_char_boundary(end) {
        end += 1;
    }
    start..end
}

fn floor(text: &str, byte: usize) -> usize {
    let mut at = byte.min(text.len());
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}
