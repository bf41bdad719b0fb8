//! Faults drawn for a terminal: the line, a caret under the words, and what would be right.

use std::io::{self, Write};
use std::ops::Range;

use annotate_snippets::{AnnotationKind, Element, Group, Level, Origin, Renderer, Snippet};

use super::clean::is_unsafe;
use super::{Clean, Fault, FileId, locate};

/// More faults than this are counted and not drawn.
const MOST: usize = 100;

/// Narrower than this no terminal is taken to be.
const NARROWEST: usize = 40;

/// A line of more bytes than this is only pointed to: no person wrote it.
const LONGEST_LINE: usize = 16 * 1024;

/// Columns left free: a cut through wide characters may come out a little wider than asked.
const SPARE: usize = 4;

/// Columns kept for what stands before and after the caret in a long line.
const CONTEXT: usize = 16;

/// The names and texts of the files that faults are in.
#[derive(Clone, Debug, Default)]
pub struct Texts<'a>(Vec<(FileId, &'a str, &'a str)>);

impl<'a> Texts<'a> {
    /// Adds a file: the name to show it by, and its text.
    #[must_use]
    pub fn with(mut self, file: FileId, name: &'a str, text: &'a str) -> Self {
        self.0.push((file, name, text));
        self
    }

    fn get(&self, file: FileId) -> Option<(&'a str, &'a str)> {
        let found = self.0.iter().find(|(id, ..)| *id == file);
        found.map(|(_, name, text)| (*name, *text))
    }
}

/// Where a fault stands, for people and programs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Spot<'a> {
    /// The name of the file.
    pub file: &'a str,
    /// The line, from 1.
    pub line: u32,
    /// The column of its first character in the line, counted in characters from 1.
    pub column: usize,
    /// The column after its last character on that line.
    pub end: usize,
    /// The line, without its end.
    text: &'a str,
    /// The byte of its first character in the line, and the one after its last.
    bytes: Range<usize>,
}

/// Where a fault stands; `None` where it is in no file, or in one that is not among the texts.
pub fn spot<'a>(fault: &Fault, texts: &Texts<'a>) -> Option<Spot<'a>> {
    let origin = fault.origin?;
    let (file, text) = texts.get(origin.file)?;
    let at = locate(text, fault)?;
    let before = text.get(..at.start).unwrap_or_default();
    let start = before.rfind('\n').map_or(0, |end| end + 1);
    // Only the record is counted through, not the file.
    let lines = text
        .get(origin.byte.min(at.start)..at.start)
        .unwrap_or_default();
    let lines = lines.bytes().filter(|byte| *byte == b'\n').count();
    let rest = text.get(start..).unwrap_or_default();
    let line = rest.split('\n').next().unwrap_or_default();
    let line = line.strip_suffix('\r').unwrap_or(line);
    let from = (at.start - start).min(line.len());
    let to = (at.end - start).clamp(from, line.len());
    let column = |byte: usize| 1 + line.get(..byte).unwrap_or_default().chars().count();
    Some(Spot {
        file,
        line: origin
            .line
            .saturating_add(u32::try_from(lines).unwrap_or(u32::MAX)),
        column: column(from),
        end: column(to),
        text: line,
        bytes: from..to,
    })
}

/// Faults with where they stand, sorted by file and place, those of the command line first.
pub fn in_order<'f, 'a>(
    faults: &'f [Fault],
    texts: &Texts<'a>,
) -> Vec<(&'f Fault, Option<Spot<'a>>)> {
    let mut placed: Vec<_> = faults
        .iter()
        .map(|fault| (fault, spot(fault, texts)))
        .collect();
    placed.sort_by_key(|(fault, spot)| {
        let place = spot.as_ref().map(|spot| (spot.line, spot.column));
        (fault.origin.map(|origin| origin.file), place)
    });
    placed
}

/// Draws faults, sorted by file and place, those of the command line first, and counts them.
///
/// Nothing drawn of a file is wider than `width` columns; colour only where `colour` is asked for.
///
/// # Errors
///
/// What the writer gives.
pub fn draw(
    out: &mut dyn Write,
    faults: &[Fault],
    texts: &Texts<'_>,
    width: usize,
    colour: bool,
) -> io::Result<()> {
    let width = width.max(NARROWEST);
    let placed = in_order(faults, texts);
    let renderer = if colour {
        Renderer::styled()
    } else {
        Renderer::plain()
    };
    let renderer = renderer.term_width(width - SPARE);
    for (fault, spot) in placed.iter().take(MOST) {
        writeln!(out, "{}\n", one(&renderer, fault, spot.as_ref(), width))?;
    }
    count(out, faults)
}

/// Tells faults to be read aloud: the same, in the same order, with nothing drawn.
///
/// # Errors
///
/// What the writer gives.
pub fn tell(out: &mut dyn Write, faults: &[Fault], texts: &Texts<'_>) -> io::Result<()> {
    // Read aloud, a backtick is a word of its own; a quotation mark is a pause.
    let aloud = |text: &str| Clean(text).to_string().replace('`', "\"");
    for (fault, spot) in in_order(faults, texts).iter().take(MOST) {
        writeln!(out, "error: {}", aloud(&fault.says))?;
        if let Some(spot) = spot {
            let (file, line, column) = (Clean(spot.file), spot.line, spot.column);
            writeln!(out, "at: {file}, line {line}, column {column}")?;
        }
        if let Some(help) = &fault.help {
            writeln!(out, "help: {}", aloud(help))?;
        }
        writeln!(out)?;
    }
    count(out, faults)
}

/// The closing line: how many, in how many files.
fn count(out: &mut dyn Write, faults: &[Fault]) -> io::Result<()> {
    let mut files: Vec<_> = faults
        .iter()
        .filter_map(|fault| Some(fault.origin?.file))
        .collect();
    files.sort_unstable();
    files.dedup();
    if files.is_empty() {
        return Ok(());
    }
    if let Some(more) = faults.len().checked_sub(MOST + 1) {
        writeln!(out, "and {} more", more + 1)?;
    }
    let plural = |count: usize| if count == 1 { "" } else { "s" };
    writeln!(
        out,
        "{} fault{} in {} file{}; nothing was written",
        faults.len(),
        plural(faults.len()),
        files.len(),
        plural(files.len())
    )
}

fn one(renderer: &Renderer, fault: &Fault, spot: Option<&Spot<'_>>, width: usize) -> String {
    let title = Level::ERROR.primary_title(wrapped(&fault.says, width - 7));
    let help = fault.help.as_ref();
    let Some(spot) = spot else {
        let mut groups = vec![Group::with_title(title)];
        if let Some(help) = help {
            let help = Level::HELP.secondary_title(wrapped(help, width - 6));
            groups.push(Group::with_title(help));
        }
        // Without a place there is nothing to draw between the two lines.
        let drawn = renderer.render(&groups);
        return drawn
            .lines()
            .filter(|line| line.trim() != "|")
            .collect::<Vec<_>>()
            .join("\n");
    };
    let gutter = spot.line.to_string().len() + 3;
    let line = usize::try_from(spot.line).unwrap_or(usize::MAX);
    let mut elements: Vec<Element<'_>> = Vec::new();
    if spot.text.len() > LONGEST_LINE {
        let place = Origin::path(spot.file).line(line).char_column(spot.column);
        elements.push(place.into());
    } else {
        let (text, under) = shown(spot, width.saturating_sub(gutter + CONTEXT));
        let snippet = Snippet::source(text)
            .path(spot.file)
            .line_start(line)
            .annotation(AnnotationKind::Primary.span(under));
        elements.push(snippet.into());
    }
    if let Some(help) = help {
        let room = width.saturating_sub(gutter + 7);
        elements.push(Level::HELP.message(wrapped(help, room)).into());
    }
    renderer.render(&[Group::with_title(title).elements(elements)])
}

/// The line as it may be shown, each control character as one U+FFFD so that columns stay true,
/// and the bytes in it to put the caret under: those of the spot, or as many of them as fit into
/// `room` columns, so that a long line can be cut around them.
fn shown(spot: &Spot<'_>, room: usize) -> (String, Range<usize>) {
    let mut line = String::new();
    let (mut from, mut to, mut used) = (None, None, 0);
    for (byte, c) in spot.text.char_indices() {
        let start = line.len();
        match c {
            '\t' => line.push(c),
            _ if is_unsafe(c) => line.push(char::REPLACEMENT_CHARACTER),
            _ => line.push(c),
        }
        if byte >= spot.bytes.start {
            from = from.or(Some(start));
            // A tab is drawn as four columns, and nothing else is wider than two.
            used += match c {
                '\t' => 4,
                _ if c.is_ascii() => 1,
                _ => 2,
            };
            if byte >= spot.bytes.end || used > room {
                to = to.or(Some(start));
            }
        }
    }
    let from = from.unwrap_or(line.len());
    let to = to.unwrap_or(line.len()).max(from);
    (line, from..to)
}

/// A sentence broken between words into lines of at most `width` columns.
fn wrapped(text: &str, width: usize) -> String {
    let text = Clean(text).to_string();
    let (mut out, mut used) = (String::new(), 0);
    for word in text.split(' ') {
        let len = word.chars().count();
        if used > 0 && used + 1 + len > width {
            out.push('\n');
            used = 0;
        } else if used > 0 {
            out.push(' ');
            used += 1;
        }
        out.push_str(word);
        used += len;
    }
    out
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::super::Origin;
    use super::{Fault, FileId, LONGEST_LINE, MOST, Range, Texts, draw, is_unsafe, spot};

    const LOG: &str = "# refasten log 1\n- {entry: 1, place: S4 F14, note: \"née 日本 \u{1b}[31m red\", size: 14, set: built}\n";

    fn drawn(text: &str, faults: &[Fault], width: usize) -> String {
        let texts = Texts::default().with(FileId::Log, "log.yaml", text);
        let mut out = Vec::new();
        draw(&mut out, faults, &texts, width, false).expect("a vector takes everything");
        String::from_utf8(out).expect("drawings are text")
    }

    fn origin(byte: usize, line: u32) -> Option<Origin> {
        let file = FileId::Log;
        Some(Origin { file, byte, line })
    }

    fn bytes(at: Range<usize>) -> Fault {
        Fault {
            bytes: Some(at),
            ..Fault::new(origin(0, 1), "it is wrong")
        }
    }

    #[test]
    fn faults_are_drawn_in_order_with_carets_and_counted() {
        let faults = [
            Fault::new(origin(17, 2), "a bare number is not a size")
                .key("size")
                .help(
                    "write the length too, as `14 x 2in`, with the gauge first and the length after it",
                ),
            Fault::new(None, "there is no boat here").help("name one by --boat"),
            bytes(2..10),
        ];
        let expected = "\
error: there is no boat here
help: name one by --boat

error: it is wrong
 --> log.yaml:1:3
  |
1 | # refasten log 1
  |   ^^^^^^^^

error: a bare number is not a size
 --> log.yaml:2:61
  |
2 | - {entry: 1, place: S4 F14, note: \"née 日本 \u{fffd}[31m red\", size: 14, set: built}
  |                                                               ^^
  |
  = help: write the length too, as `14 x 2in`, with the gauge first and the length
          after it

3 faults in 1 file; nothing was written
";
        assert_eq!(drawn(LOG, &faults, 88), expected);
    }

    #[test]
    fn a_long_line_is_cut_around_the_caret() {
        let size = Fault::new(origin(17, 2), "a bare number is not a size").key("size");
        let cut = drawn(LOG, &[size], 60);
        assert!(cut.contains("2:61\n") && cut.contains("size: 14"), "{cut}");
        assert!(cut.contains("2 | ..."), "{cut}");
    }

    #[test]
    fn an_endless_line_is_only_pointed_to() {
        let out = drawn(&"x".repeat(LONGEST_LINE + 1), &[bytes(2..10)], 80);
        assert!(
            out.starts_with("error: it is wrong\n--> log.yaml:1:3\n\n1 fault"),
            "{out}"
        );
    }

    #[test]
    fn a_spot_counts_characters() {
        let size = Fault::new(origin(17, 2), "bare").key("size");
        let texts = Texts::default().with(FileId::Log, "log.yaml", LOG);
        let spot = spot(&size, &texts).expect("it is in the file");
        assert_eq!(
            (spot.file, spot.line, spot.column, spot.end),
            ("log.yaml", 2, 61, 63)
        );
    }

    #[test]
    fn a_flood_of_faults_is_cut_off_and_counted() {
        let faults = vec![bytes(2..10); MOST + 2];
        let out = drawn(LOG, &faults, 80);
        assert_eq!(out.matches("it is wrong").count(), MOST);
        assert!(out.ends_with("and 2 more\n102 faults in 1 file; nothing was written\n"));
    }

    #[test]
    fn colour_comes_only_when_asked_for() {
        let texts = Texts::default().with(FileId::Log, "log.yaml", LOG);
        let mut out = Vec::new();
        draw(&mut out, &[bytes(2..10)], &texts, 80, true).expect("a vector takes everything");
        assert!(out.contains(&0x1b));
        assert!(!drawn(LOG, &[bytes(2..10)], 80).contains('\u{1b}'));
    }

    /// Columns a drawing takes, at most.
    fn columns(line: &str) -> usize {
        let wide = |c: char| usize::from(!c.is_ascii() && c != char::REPLACEMENT_CHARACTER);
        line.chars().map(|c| 1 + wide(c)).sum()
    }

    proptest! {
        #[test]
        fn nothing_is_wider_than_the_terminal_or_unsafe(
            line in "[a-c日\t\u{1b}\u{9b}\u{202e}\u{200b} ]{0,200}",
            from in 0usize..200,
            len in 0usize..200,
            width in 40usize..120,
        ) {
            let out = drawn(&line, &[bytes(from..from + len)], width);
            for line in out.lines() {
                prop_assert!(columns(line) <= width, "{line}");
                prop_assert!(!line.chars().any(is_unsafe));
            }
        }
    }
}
