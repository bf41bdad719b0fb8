//! A page of text: wrapped sentences and quiet tables.

use std::borrow::Cow;
use std::io::{self, Write};

use comfy_table::{
    Cell, CellAlignment, ColumnConstraint, ContentArrangement, Table, Width, presets,
};

use super::figures;
use super::layout::{Layout, Tint};
use crate::text::Clean;

/// What is printed on a page without edges, a sentence or an item a line.
pub(super) fn lines(print: impl FnOnce(Page<'_>) -> io::Result<()>) -> io::Result<Vec<String>> {
    let mut out = Vec::new();
    print(Page::new(&mut out, u16::MAX))?;
    let text = String::from_utf8_lossy(&out);
    Ok(text.lines().map(|line| line.trim().to_owned()).collect())
}

/// Where text is printed, and how it is laid out.
pub(super) struct Page<'a> {
    out: &'a mut dyn Write,
    layout: Layout,
}

impl<'a> Page<'a> {
    pub(super) fn new(out: &'a mut dyn Write, layout: impl Into<Layout>) -> Self {
        let layout = layout.into();
        Self { out, layout }
    }

    /// Whether it is to be read aloud, so that nothing may be drawn.
    pub(super) fn is_plain(&self) -> bool {
        self.layout.plain
    }

    /// How many columns there are.
    pub(super) fn width(&self) -> u16 {
        self.layout.width
    }

    /// An empty line.
    pub(super) fn gap(&mut self) -> io::Result<()> {
        writeln!(self.out)
    }

    /// Sentences from the left edge; where they run on, they are indented by two.
    pub(super) fn line(&mut self, text: &str) -> io::Result<()> {
        self.wrapped("", text)
    }

    /// The same in a colour, where there is any.
    pub(super) fn headline(&mut self, tint: Tint, text: &str) -> io::Result<()> {
        self.tinted(tint, |page| page.flow("  ", 0, text))?;
        writeln!(self.out)
    }

    /// A word in a colour, where there is any, padded to `room`, and sentences after it.
    pub(super) fn told(
        &mut self,
        tint: Tint,
        word: &str,
        room: usize,
        text: &str,
    ) -> io::Result<()> {
        let room = if self.layout.plain { 0 } else { room };
        let column = room.max(word.chars().count() + 1);
        self.tinted(tint, |page| write!(page.out, "{word}"))?;
        write!(self.out, "{:1$}", "", column - word.chars().count())?;
        self.flow("  ", column, text)?;
        writeln!(self.out)
    }

    fn tinted(
        &mut self,
        tint: Tint,
        write: impl FnOnce(&mut Self) -> io::Result<()>,
    ) -> io::Result<()> {
        if !self.layout.colour {
            return write(self);
        }
        write!(self.out, "{}", tint.begins())?;
        write(self)?;
        write!(self.out, "{}", Tint::ENDS)
    }

    /// One item of a list.
    pub(super) fn item(&mut self, text: &str) -> io::Result<()> {
        self.wrapped("- ", text)
    }

    /// A line that is laid out already; blanks at its end are dropped.
    pub(super) fn laid_out(&mut self, line: &str) -> io::Result<()> {
        writeln!(self.out, "{}", line.trim_end())
    }

    /// Sentences after a word of their own; where they run on, they are indented by two.
    pub(super) fn wrapped(&mut self, first: &str, text: &str) -> io::Result<()> {
        self.hung(first, "  ", text)
    }

    /// Sentences that are all indented alike.
    pub(super) fn indented(&mut self, indent: &str, text: &str) -> io::Result<()> {
        self.hung(indent, indent, text)
    }

    /// Words one after another, broken between them where the page ends; a word wider than the
    /// page is broken within.
    pub(super) fn hung(&mut self, first: &str, indent: &str, text: &str) -> io::Result<()> {
        let spoken = self.layout.plain.then(|| aloud(first));
        let first = spoken.as_deref().unwrap_or(first);
        write!(self.out, "{first}")?;
        self.flow(indent, first.chars().count(), text)?;
        writeln!(self.out)
    }

    /// The words, from `column` on and without the end of the last line.
    fn flow(&mut self, indent: &str, mut column: usize, text: &str) -> io::Result<()> {
        let mut clean = Clean(text).text();
        let mut indent = indent;
        if self.layout.plain {
            // Read aloud, a backtick is a word of its own; a quotation mark is a pause.
            clean = Cow::Owned(clean.replace('`', "\""));
            indent = "";
        }
        let room = usize::from(self.width())
            .saturating_sub(indent.chars().count())
            .max(1);
        let mut begun = false;
        for word in clean.split_whitespace().flat_map(|word| pieces(word, room)) {
            let wide = word.chars().count();
            if begun && column + 1 + wide > usize::from(self.width()) {
                write!(self.out, "\n{indent}")?;
                column = indent.chars().count();
                begun = false;
            }
            if begun {
                self.out.write_all(b" ")?;
                column += 1;
            }
            self.out.write_all(word.as_bytes())?;
            column += wide;
            begun = true;
        }
        Ok(())
    }

    /// A table made by [`quiet`]; the columns that `whole` says are never broken into lines. On a
    /// page too narrow for it, or to be read aloud, its rows stand one under another, each cell
    /// after its head.
    pub(super) fn drawn(
        &mut self,
        table: &mut Table,
        whole: impl Fn(usize) -> bool,
    ) -> io::Result<()> {
        if self.layout.plain {
            return self.stacked(table);
        }
        let longest = longest_words(table);
        for ((number, column), longest) in table.column_iter_mut().enumerate().zip(longest) {
            column.set_padding((0, GAP));
            column.set_constraint(match whole(number) {
                true => ColumnConstraint::ContentWidth,
                // No word is broken; where that leaves no room, the table is not drawn.
                false => ColumnConstraint::LowerBoundary(Width::Fixed(longest + GAP)),
            });
        }
        let drawn = table.to_string();
        let is_wide = |line: &str| line.trim_end().chars().count() > usize::from(self.width());
        if drawn.lines().any(is_wide) {
            return self.stacked(table);
        }
        for line in drawn.lines() {
            self.laid_out(line)?;
        }
        Ok(())
    }

    /// The rows of a table one under another: the first cell, and under it the others that say
    /// something, each after its head.
    pub(super) fn stacked(&mut self, table: &Table) -> io::Result<()> {
        let heads: Vec<String> = table
            .header()
            .map(|row| {
                row.cell_iter()
                    .map(|cell| cell.content().replace('\n', " "))
                    .collect()
            })
            .unwrap_or_default();
        for row in table.row_iter() {
            let cells = row.cell_iter().map(Cell::content).zip(&heads);
            let mut said = cells.map(|(cell, head)| match (cell.trim(), head.as_str()) {
                ("" | NONE | "-", _) => String::new(),
                (cell, "") => cell.to_owned(),
                (cell, head) => format!("{head}: {cell}"),
            });
            if let Some(first) = said.next().filter(|first| !first.is_empty()) {
                self.line(&first)?;
            }
            let rest: Vec<String> = said.filter(|said| !said.is_empty()).collect();
            if !rest.is_empty() {
                self.wrapped("  ", &rest.join("; "))?;
            }
        }
        Ok(())
    }

    /// A table with its heads.
    pub(super) fn table<const N: usize>(
        &mut self,
        heads: [&str; N],
        rows: impl IntoIterator<Item = [String; N]>,
    ) -> io::Result<()> {
        let clean = |row: [String; N]| row.map(|cell| Clean(&cell).to_string());
        let mut rows: Vec<[String; N]> = rows.into_iter().map(clean).collect();
        let mut table = quiet(self.width());
        table.set_header(heads);
        let figures: Vec<bool> = (0..N)
            .map(|number| {
                let column = rows.iter_mut().filter_map(|row| row.get_mut(number));
                figures::aligned(&mut column.collect::<Vec<_>>())
            })
            .collect();
        table.add_rows(rows);
        for (column, figures) in table.column_iter_mut().zip(figures) {
            if figures {
                column.set_cell_alignment(CellAlignment::Right);
            }
        }
        // What a row is about is never broken.
        self.drawn(&mut table, |column| column == 0)
    }
}

/// Blanks between columns.
const GAP: u16 = 2;

/// A word longer than this may be broken.
const LONGEST_WORD: usize = 20;

/// The columns that the longest word of each column takes.
fn longest_words(table: &mut Table) -> Vec<u16> {
    let mut longest: Vec<usize> = vec![0; table.column_count()];
    for row in table.header().into_iter().chain(table.row_iter()) {
        for (cell, longest) in row.cell_iter().zip(&mut longest) {
            let content = cell.content();
            let words = content.split_whitespace().map(|word| word.chars().count());
            *longest = words.chain([*longest]).max().unwrap_or(0);
        }
    }
    let capped = longest.into_iter().map(|word| word.min(LONGEST_WORD));
    capped
        .map(|word| u16::try_from(word).unwrap_or(u16::MAX))
        .collect()
}

/// Stands in a table where a count is nought, so that the eye finds the others.
pub(super) const NONE: &str = "·";

/// What stands before a sentence, without what only the eye reads: blanks that keep a column, and
/// the dash of a list.
fn aloud(first: &str) -> String {
    let words = first.split_whitespace().filter(|word| *word != "-");
    words.flat_map(|word| [word, " "]).collect()
}

/// A table without lines, as wide as the page at the most.
pub(super) fn quiet(width: u16) -> Table {
    let mut table = Table::new();
    table
        .load_style(presets::NOTHING)
        .set_content_arrangement(ContentArrangement::Dynamic)
        .set_width(width);
    table
}

/// A word in pieces no wider than there is room for.
fn pieces(word: &str, room: usize) -> impl Iterator<Item = &str> {
    let mut rest = word;
    std::iter::from_fn(move || {
        let cut = match rest.len() <= room {
            true => rest.len(),
            false => rest
                .char_indices()
                .nth(room)
                .map_or(rest.len(), |(cut, _)| cut),
        };
        let (piece, more) = rest.split_at(cut);
        rest = more;
        (!piece.is_empty()).then_some(piece)
    })
}

#[cfg(test)]
mod tests {
    use super::{Layout, Page, Tint};

    fn at(width: u16) -> String {
        let mut out = Vec::new();
        let rows = [
            ["garboard strakes", "rivets renewed", ""],
            ["P2", "built", "1951"],
        ];
        let rows = rows.map(|row| row.map(str::to_owned));
        Page::new(&mut out, width)
            .table(["where", "what", "first\nseen"], rows)
            .unwrap();
        String::from_utf8(out).unwrap()
    }

    #[test]
    fn a_table_too_wide_for_the_page_is_told_row_by_row() {
        assert_eq!(
            at(60),
            [
                "where             what            first",
                "                                   seen",
                "garboard strakes  rivets renewed",
                "P2                built            1951",
                "",
            ]
            .join("\n")
        );
        assert_eq!(
            at(18),
            [
                "where: garboard",
                "  strakes",
                "  what: rivets",
                "  renewed",
                "where: P2",
                "  what: built;",
                "  first seen: 1951",
                ""
            ]
            .join("\n")
        );
    }

    #[test]
    fn colour_only_adds_to_what_is_there_without_it() {
        let printed = |colour: bool| {
            let mut out = Vec::new();
            let layout = Layout {
                colour,
                ..Layout::from(18)
            };
            let mut page = Page::new(&mut out, layout);
            page.headline(Tint::Bold, "what must be put right first")
                .unwrap();
            page.told(Tint::Stop, "stop", 7, "bare steel under water")
                .unwrap();
            String::from_utf8(out).unwrap()
        };
        let bare = printed(false);
        assert_eq!(
            bare,
            "what must be put\n  right first\nstop   bare steel\n  under water\n"
        );
        let coloured = printed(true);
        assert!(
            coloured.contains("\u{1b}[1;31mstop\u{1b}[0m   bare"),
            "{coloured:?}"
        );
        let stripped = coloured
            .replace(Tint::Bold.begins(), "")
            .replace(Tint::Stop.begins(), "")
            .replace(Tint::ENDS, "");
        assert_eq!(stripped, bare);
    }

    #[test]
    fn read_aloud_nothing_is_drawn() {
        let mut out = Vec::new();
        let layout = Layout {
            plain: true,
            ..Layout::from(60)
        };
        let mut page = Page::new(&mut out, layout);
        page.item("`rivets` of 1951").unwrap();
        page.wrapped("  1. ", "P2 F4").unwrap();
        page.table(
            ["set", "left\nin", "open"],
            [["rivets", "·", "3"].map(str::to_owned)],
        )
        .unwrap();
        assert_eq!(
            String::from_utf8(out).unwrap(),
            "\"rivets\" of 1951\n1. P2 F4\nset: rivets\nopen: 3\n"
        );
    }
}
