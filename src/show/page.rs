//! A page of plain text: wrapped sentences and quiet tables.

use std::io::{self, Write};

use comfy_table::{Cell, ColumnConstraint, ContentArrangement, Table, presets};

use crate::text::Clean;

/// Where text is printed, and how wide it may be.
pub(super) struct Page<'a> {
    out: &'a mut dyn Write,
    width: u16,
}

impl<'a> Page<'a> {
    pub(super) fn new(out: &'a mut dyn Write, width: u16) -> Self {
        Self { out, width }
    }

    /// How many columns there are.
    pub(super) fn width(&self) -> u16 {
        self.width
    }

    /// An empty line.
    pub(super) fn gap(&mut self) -> io::Result<()> {
        writeln!(self.out)
    }

    /// Sentences from the left edge; where they run on, they are indented by two.
    pub(super) fn line(&mut self, text: &str) -> io::Result<()> {
        self.wrapped("", text)
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
        let clean = Clean(text).to_string();
        let room = usize::from(self.width)
            .saturating_sub(indent.chars().count())
            .max(1);
        let mut column = first.chars().count();
        write!(self.out, "{first}")?;
        let mut begun = false;
        for word in clean.split_whitespace().flat_map(|word| pieces(word, room)) {
            let wide = word.chars().count();
            if begun && column + 1 + wide > usize::from(self.width) {
                write!(self.out, "\n{indent}")?;
                column = indent.chars().count();
                begun = false;
            }
            if begun {
                write!(self.out, " ")?;
                column += 1;
            }
            write!(self.out, "{word}")?;
            column += wide;
            begun = true;
        }
        writeln!(self.out)
    }

    /// A table made by [`quiet`]; the columns that `whole` says are never broken into lines. On a
    /// page too narrow for it, its rows stand one under another, each cell with its head.
    pub(super) fn drawn(
        &mut self,
        table: &mut Table,
        whole: impl Fn(usize) -> bool,
    ) -> io::Result<()> {
        for (number, column) in table.column_iter_mut().enumerate() {
            column.set_padding((0, 2));
            if whole(number) {
                column.set_constraint(ColumnConstraint::ContentWidth);
            }
        }
        let drawn = table.to_string();
        let is_wide = |line: &str| line.trim_end().chars().count() > usize::from(self.width);
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
    fn stacked(&mut self, table: &Table) -> io::Result<()> {
        let heads: Vec<String> = table
            .header()
            .map(|row| {
                row.cell_iter()
                    .map(|cell| cell.content().replace('\n', " "))
                    .collect()
            })
            .unwrap_or_default();
        for row in table.row_iter() {
            let mut cells = row.cell_iter().map(Cell::content).zip(&heads);
            if let Some((first, _)) = cells.next().filter(|(first, _)| !first.is_empty()) {
                self.line(&first)?;
            }
            let said = cells.filter(|(cell, _)| !["", "·"].contains(&cell.as_str()));
            let said: Vec<String> = said.map(|(cell, head)| format!("{head} {cell}")).collect();
            if !said.is_empty() {
                self.wrapped("  ", &said.join(", "))?;
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
        let mut table = quiet(self.width);
        table.set_header(heads);
        for row in rows {
            table.add_row(row.map(|cell| Clean(&cell).to_string()));
        }
        // What a row is about is never broken.
        self.drawn(&mut table, |column| column == 0)
    }
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
        let cut = rest
            .char_indices()
            .nth(room)
            .map_or(rest.len(), |(cut, _)| cut);
        let (piece, more) = rest.split_at(cut);
        rest = more;
        (!piece.is_empty()).then_some(piece)
    })
}

#[cfg(test)]
mod tests {
    use super::Page;

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
                "                                  seen",
                "garboard strakes  rivets renewed",
                "P2                built           1951",
                "",
            ]
            .join("\n")
        );
        assert_eq!(
            at(18),
            "garboard strakes\n  what rivets\n  renewed\nP2\n  what built,\n  first seen 1951\n"
        );
    }
}
