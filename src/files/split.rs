//! A file cut into the records it is made of, each to be read alone.

use std::collections::HashSet;

use crate::text::outline::{Shape, outline};
use crate::text::tokens::Begins;
use crate::text::{Clean, Fault, FileId, Origin};

use super::{LOG_HEADER, PLAN_HEADER, guard};

/// More faults than this in the cutting of one file are not told; the file is not what it says.
const MOST: usize = 100;

/// One record, as it is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Piece<'a> {
    /// Where it begins.
    pub origin: Origin,
    /// Its text.
    pub text: &'a str,
    /// What the text has around the record itself.
    pub wrap: Wrap,
}

#[cfg(test)]
impl<'a> Piece<'a> {
    /// A record at the head of a log.
    pub(super) const fn of_log(text: &'a str) -> Self {
        let origin = Origin {
            file: FileId::Log,
            byte: 0,
            line: 1,
        };
        Self {
            origin,
            text,
            wrap: Wrap::Dash,
        }
    }
}

/// What stands around a record in the text of its piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wrap {
    /// `- ` before it.
    Dash,
    /// A key and a colon before it.
    Key,
    /// Nothing.
    Bare,
}

/// One key of the hull file at the start of a line, with what belongs to it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part<'a> {
    /// The key.
    pub key: &'a str,
    /// Where it stands.
    pub origin: Origin,
    /// What belongs to it.
    pub body: Body<'a>,
}

/// What belongs to a key of the hull file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Body<'a> {
    /// Nothing, or only comments.
    Empty,
    /// A text or a map of keys.
    Value(Piece<'a>),
    /// The items of a list, each on its own.
    Items(Vec<Piece<'a>>),
    /// Something that cannot be cut up; the fault is told.
    Faulty,
}

impl Part<'_> {
    /// A fault of the key itself.
    pub fn fault(&self, says: impl Into<String>) -> Fault {
        Fault {
            bytes: Some(self.origin.byte..self.origin.byte + self.key.len()),
            ..Fault::new(Some(self.origin), says)
        }
    }
}

/// The entries of a log: each begins with `- ` at the start of a line and goes on over indented
/// lines. Anything else but comments and blank lines is a fault, and the reading goes on after it.
pub fn split_log<'a>(text: &'a str, faults: &mut Vec<Fault>) -> Vec<Piece<'a>> {
    split_lines(text, FileId::Log, faults)
}

/// The lines of a plan, which is built as a log is.
pub fn split_plan<'a>(text: &'a str, faults: &mut Vec<Fault>) -> Vec<Piece<'a>> {
    split_lines(text, FileId::Plan, faults)
}

/// The same of another file that is written as a log is.
pub(super) fn split_lines<'a>(
    text: &'a str,
    file: FileId,
    faults: &mut Vec<Fault>,
) -> Vec<Piece<'a>> {
    let mut cut = Cutter::new(text, file, faults);
    let mut pieces = Vec::new();
    while let Some(line) = cut.next_line() {
        if line.number == 1 {
            cut.check_version(&line);
        }
        if line.blank {
            continue;
        }
        let block = cut.block(&line, 0);
        if line.indent == 0 && line.item {
            pieces.push(Piece {
                origin: cut.origin(&line),
                text: block,
                wrap: Wrap::Dash,
            });
        } else {
            let says = "this line is neither an entry nor part of one";
            let help = "an entry begins with `- ` at the start of the line; its other lines begin \
                        with a space";
            cut.tell(&line, says, help);
        }
    }
    pieces
}

/// The keys of the hull file with what belongs to each, lists cut into their items. A key given
/// twice, and a line that belongs to no key, is a fault, and the reading goes on after it.
pub fn split_hull<'a>(text: &'a str, faults: &mut Vec<Fault>) -> Vec<Part<'a>> {
    let mut cut = Cutter::new(text, FileId::Hull, faults);
    let mut parts: Vec<Part<'a>> = Vec::new();
    let mut known: HashSet<&str> = HashSet::new();
    while let Some(line) = cut.next_line() {
        if line.blank {
            continue;
        }
        let Some((key, rest)) = key_of(&line) else {
            cut.block(&line, 0);
            let says = "this line is neither a key nor part of one";
            let help = "a key begins at the start of the line and ends with a colon; its other \
                        lines begin with a space";
            cut.tell(&line, says, help);
            continue;
        };
        let origin = cut.origin(&line);
        let bare = rest.trim();
        let body = if bare.is_empty() || bare.starts_with('#') {
            cut.body(origin)
        } else {
            let piece = Piece {
                origin,
                text: cut.block(&line, 0),
                wrap: Wrap::Key,
            };
            if bare.starts_with('[') {
                cut.flow_items(piece)
            } else {
                Body::Value(piece)
            }
        };
        if known.insert(key) {
            parts.push(Part { key, origin, body });
        } else {
            let says = format!("`{}` is given twice", Clean(key));
            cut.tell(&line, says, "put all of it under one key");
        }
    }
    parts
}

/// The key a line begins with, and what follows its colon.
fn key_of<'a>(line: &Line<'a>) -> Option<(&'a str, &'a str)> {
    if line.indent > 0 || line.item || line.text.starts_with(['{', '[', '}', ']', '"', '\'']) {
        return None;
    }
    let words = line.text.trim_end();
    match words.split_once(": ").or_else(|| words.split_once(":\t")) {
        Some((key, rest)) if !key.contains(" #") => Some((key.trim_end(), rest)),
        _ => words
            .split_once(" #")
            .map_or(words, |(before, _)| before.trim_end())
            .strip_suffix(':')
            .map(|key| (key, "")),
    }
}

/// One line and where it stands.
#[derive(Clone, Copy)]
struct Line<'a> {
    text: &'a str,
    byte: usize,
    number: u32,
    /// Spaces it begins with.
    indent: usize,
    /// Empty, or only a comment.
    blank: bool,
    /// Whether a dash begins it.
    item: bool,
}

struct Cutter<'a, 'f> {
    text: &'a str,
    file: FileId,
    byte: usize,
    number: u32,
    /// The line that was looked at last: most are looked at as the end of one record and then taken
    /// as the beginning of the next.
    seen: Option<Line<'a>>,
    told: usize,
    faults: &'f mut Vec<Fault>,
}

impl<'a, 'f> Cutter<'a, 'f> {
    fn new(text: &'a str, file: FileId, faults: &'f mut Vec<Fault>) -> Self {
        Self {
            text,
            file,
            byte: 0,
            number: 0,
            seen: None,
            told: 0,
            faults,
        }
    }

    fn peek(&mut self) -> Option<Line<'a>> {
        if let Some(seen) = self.seen.filter(|seen| seen.byte == self.byte) {
            return Some(seen);
        }
        let rest = self.text.get(self.byte..)?;
        let text = rest.split_inclusive('\n').next()?;
        let words = text.trim_start_matches(' ');
        let bare = words.trim_start();
        self.seen = Some(Line {
            text,
            byte: self.byte,
            number: self.number.saturating_add(1),
            indent: text.len() - words.len(),
            blank: bare.is_empty() || bare.starts_with('#'),
            item: words.strip_prefix('-').is_some_and(|after| {
                after.is_empty() || after.starts_with([' ', '\t', '\n', '\r'])
            }),
        });
        self.seen
    }

    fn next_line(&mut self) -> Option<Line<'a>> {
        if self.told >= MOST {
            return None;
        }
        let line = self.peek()?;
        self.byte += line.text.len();
        self.number = line.number;
        Some(line)
    }

    fn origin(&self, line: &Line<'_>) -> Origin {
        Origin {
            file: self.file,
            byte: line.byte,
            line: line.number,
        }
    }

    /// The text from a line just taken over all lines that are indented deeper than `indent`.
    fn block(&mut self, first: &Line<'a>, indent: usize) -> &'a str {
        let mut end = first.byte + first.text.len();
        let (mut byte, mut number) = (self.byte, self.number);
        while let Some(line) = self.peek() {
            let closes = line.text.trim_start().starts_with(['}', ']']);
            if !line.blank && line.indent <= indent && !closes && !line.text.starts_with('\t') {
                break;
            }
            self.byte += line.text.len();
            self.number = line.number;
            if !line.blank {
                end = self.byte;
                (byte, number) = (self.byte, self.number);
            }
        }
        (self.byte, self.number) = (byte, number);
        self.text.get(first.byte..end).unwrap_or_default()
    }

    /// What stands under a key whose own line says no more.
    fn body(&mut self, key: Origin) -> Body<'a> {
        let first = loop {
            match self.peek() {
                Some(line) if line.blank => {
                    self.next_line();
                }
                Some(line) => break line,
                None => return Body::Empty,
            }
        };
        if first.item {
            return self.items(first.indent);
        }
        if first.indent == 0 {
            return Body::Empty;
        }
        let Some(line) = self.next_line() else {
            return Body::Empty;
        };
        self.block(&line, 0);
        Body::Value(Piece {
            origin: key,
            text: self.text.get(key.byte..self.byte).unwrap_or_default(),
            wrap: Wrap::Key,
        })
    }

    /// The items of a list that begin with a dash at this indent.
    fn items(&mut self, indent: usize) -> Body<'a> {
        let mut items = Vec::new();
        while let Some(line) = self.peek() {
            if !line.blank && line.indent == 0 && !(line.item && indent == 0) {
                break;
            }
            let Some(line) = self.next_line() else { break };
            if line.blank {
                continue;
            }
            if line.item && line.indent == indent {
                items.push(Piece {
                    origin: self.origin(&line),
                    text: self.block(&line, indent),
                    wrap: Wrap::Dash,
                });
            } else {
                self.block(&line, indent);
                let says = "this line is in none of the items of the list";
                let help = "the items of a list begin with `- ` straight under each other; their \
                            other lines stand further in";
                self.tell(&line, says, help);
            }
        }
        Body::Items(items)
    }

    /// The items of a list between brackets.
    fn flow_items(&mut self, piece: Piece<'a>) -> Body<'a> {
        let before = self.faults.len();
        guard::guard(&piece, self.faults);
        if self.faults.len() > before {
            return Body::Faulty;
        }
        let root = outline(piece.text, Begins::Line);
        let Shape::Map(pairs) = root.shape else {
            return Body::Value(piece);
        };
        let Some(Shape::List(nodes)) = pairs.into_iter().next().map(|pair| pair.value.shape) else {
            return Body::Value(piece);
        };
        let (mut line, mut counted) = (piece.origin.line, 0);
        let mut items = Vec::new();
        for node in nodes {
            let between = piece.text.get(counted..node.at.start).unwrap_or_default();
            let lines = between.bytes().filter(|byte| *byte == b'\n').count();
            line = line.saturating_add(u32::try_from(lines).unwrap_or(u32::MAX));
            counted = node.at.start;
            items.push(Piece {
                origin: Origin {
                    byte: piece.origin.byte + node.at.start,
                    line,
                    ..piece.origin
                },
                text: piece.text.get(node.at).unwrap_or_default(),
                wrap: Wrap::Bare,
            });
        }
        Body::Items(items)
    }

    fn tell(&mut self, line: &Line<'_>, says: impl Into<String>, help: &str) {
        self.told += 1;
        let mut says = says.into();
        if self.told == MOST {
            says.push_str(", and the file is not read further after so many like it");
        }
        let start = line.byte + line.indent;
        let fault = Fault {
            bytes: Some(start..line.byte + line.text.trim_end().len().max(line.indent)),
            ..Fault::new(Some(self.origin(line)), says)
        };
        self.faults.push(fault.help(help));
    }

    /// A first line such as `# refasten log 1` says which form the file has.
    fn check_version(&mut self, line: &Line<'_>) {
        let (header, word) = match self.file {
            FileId::Plan => (PLAN_HEADER, "plan"),
            FileId::Hull | FileId::Log | FileId::Typed | FileId::Added => (LOG_HEADER, "log"),
        };
        let number = line
            .text
            .strip_prefix(header.trim_end_matches('1'))
            .and_then(|rest| rest.trim().parse::<u32>().ok());
        if number.is_some_and(|number| number > 1) {
            let says = format!("this {word} was written by a newer version of the program");
            self.tell(line, says, &format!("this version reads `{header}`"));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn texts<'a>(pieces: &[Piece<'a>]) -> Vec<(u32, &'a str)> {
        pieces.iter().map(|p| (p.origin.line, p.text)).collect()
    }

    #[test]
    fn a_log_is_cut_at_its_dashes_and_bad_lines_hide_nothing() {
        let log = "# refasten log 1\n- {a: 1}\n\n# c\n- {a: 2,\n  # inside\n   b: 3}\noops\n  more\n- a: 4\n  b: 5\n\n - late\n- {a: 6\n}\n";
        let mut faults = Vec::new();
        let pieces = split_log(log, &mut faults);
        assert_eq!(
            texts(&pieces),
            [
                (2, "- {a: 1}\n"),
                (5, "- {a: 2,\n  # inside\n   b: 3}\n"),
                (10, "- a: 4\n  b: 5\n\n - late\n"),
                (14, "- {a: 6\n}\n"),
            ]
        );
        assert_eq!(faults.len(), 1);
        assert_eq!(&log[faults[0].bytes.clone().unwrap()], "oops");
        for piece in pieces {
            assert!(log[piece.origin.byte..].starts_with(piece.text));
        }
    }

    #[test]
    fn a_log_of_a_newer_form_is_refused() {
        let mut faults = Vec::new();
        split_log("# refasten log 1\r\n", &mut faults);
        assert!(faults.is_empty());
        split_log("# refasten log 2\n", &mut faults);
        assert!(faults[0].says.contains("newer version"));
    }

    #[test]
    fn a_hull_is_cut_at_its_keys_and_their_items() {
        let hull = "boat: Whimbrel # hers\nparticulars: {built: 1958,\n  at: yard}\nframes:\n  # from bow\n  - {number: 1}\n  - number: 2\n    wood: oak\nends:\n- {member: stem}\n\nzones:\n\nwaterline: [F1 9, # bow\n  F22 7]\nnumbering:\n  frames: from bow\n";
        let mut faults = Vec::new();
        let parts = split_hull(hull, &mut faults);
        assert_eq!(faults, []);
        let keys: Vec<_> = parts.iter().map(|part| part.key).collect();
        assert_eq!(
            keys,
            [
                "boat",
                "particulars",
                "frames",
                "ends",
                "zones",
                "waterline",
                "numbering"
            ]
        );
        let items = |at: usize| match &parts[at].body {
            Body::Items(pieces) => texts(pieces),
            Body::Value(piece) => vec![(0, piece.text)],
            _ => Vec::new(),
        };
        assert_eq!(items(0), [(0, "boat: Whimbrel # hers\n")]);
        assert_eq!(items(1), [(0, "particulars: {built: 1958,\n  at: yard}\n")]);
        assert_eq!(
            items(2),
            [
                (6, "  - {number: 1}\n"),
                (7, "  - number: 2\n    wood: oak\n")
            ]
        );
        assert_eq!(items(3), [(10, "- {member: stem}\n")]);
        assert_eq!(parts[4].body, Body::Empty);
        assert_eq!(items(5), [(14, "F1 9"), (15, "F22 7")]);
        assert_eq!(items(6), [(0, "numbering:\n  frames: from bow\n")]);
    }

    #[test]
    fn every_bad_line_of_a_hull_is_told() {
        let hull = "- loose\nboat: a\nframes:\n  - {number: 1}\n stray\n  - {number: 2}\nboat: b\nno key here\n  of any kind\nbeams: [1, 2\nends: x\n";
        let mut faults = Vec::new();
        let parts = split_hull(hull, &mut faults);
        let told: Vec<_> = faults
            .iter()
            .map(|f| (&hull[f.bytes.clone().unwrap()], f.says.as_str()))
            .collect();
        assert_eq!(
            told,
            [
                ("- loose", "this line is neither a key nor part of one"),
                ("stray", "this line is in none of the items of the list"),
                ("boat: b", "`boat` is given twice"),
                ("no key here", "this line is neither a key nor part of one"),
                ("[", "the `[` that opens here is never closed"),
            ]
        );
        let frames = parts.iter().find(|part| part.key == "frames").unwrap();
        let Body::Items(items) = &frames.body else {
            panic!()
        };
        assert_eq!(
            texts(items),
            [(4, "  - {number: 1}\n"), (6, "  - {number: 2}\n")]
        );
        assert!(parts.iter().any(|part| part.key == "ends"));
    }
}
