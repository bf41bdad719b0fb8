//! A sheet cut into cells that know where they stand.

use std::ops::Range;

use csv_core::{ReadFieldResult, Reader, ReaderBuilder};

use crate::text::{Fault, Origin};

use super::text::START;

/// The most columns a sheet may have.
const MOST_COLUMNS: usize = 200;
/// The longest cell, in bytes: as long as a record of the log.
const LONGEST: usize = 64 * 1024;
/// The most rows that are read.
const MOST_ROWS: u32 = 100_000;

const QUOTES: &str = "a cell with a quote in it stands between quotes and has each of its own \
                      twice; is the one that opens it closed?";

/// A cell with something in it.
#[derive(Clone, Debug)]
pub(super) struct Cell {
    /// Its column, from 0.
    pub(super) column: usize,
    /// What is in it, without the quotes round it.
    pub(super) text: String,
    /// Its bytes in the sheet.
    pub(super) at: Range<usize>,
}

/// A row with something in it.
#[derive(Clone, Debug)]
pub(super) struct Row {
    /// Its number, from 1, as a spreadsheet program counts.
    pub(super) number: u32,
    /// Where it begins.
    pub(super) origin: Origin,
    /// Its cells that are not blank.
    pub(super) cells: Vec<Cell>,
}

impl Row {
    /// The cell of a column.
    pub(super) fn cell(&self, column: usize) -> Option<&Cell> {
        self.cells.iter().find(|cell| cell.column == column)
    }
}

/// The letters of a column, as a spreadsheet program shows them: `A`, `Z`, `AA`.
pub(super) fn letters(column: usize) -> String {
    let mut letters = Vec::new();
    let mut rest = column;
    loop {
        letters.extend(('A'..='Z').nth(rest % 26));
        match rest / 26 {
            0 => break,
            more => rest = more - 1,
        }
    }
    letters.iter().rev().collect()
}

/// The rows of a text, blank ones left out. After a fault of the grid itself nothing more is read.
pub(super) struct Rows<'t> {
    text: &'t str,
    reader: Reader,
    separator: u8,
    buffer: Vec<u8>,
    at: usize,
    line: u32,
    number: u32,
    /// How many blank rows were passed over between others.
    pub(super) blank: u32,
    pending: u32,
    broken: bool,
}

impl<'t> Rows<'t> {
    /// The rows of a text whose cells are parted by `separator`.
    pub(super) fn of(text: &'t str, separator: u8) -> Self {
        Self {
            text,
            reader: ReaderBuilder::new().delimiter(separator).build(),
            separator,
            buffer: vec![0; LONGEST],
            at: 0,
            line: 1,
            number: 0,
            blank: 0,
            pending: 0,
            broken: false,
        }
    }

    /// Goes over a line that is not part of the table.
    pub(super) fn skip_line(&mut self) {
        let rest = self.text.get(self.at..).unwrap_or_default();
        self.at += rest.find('\n').map_or(rest.len(), |end| end + 1);
        self.line = self.line.saturating_add(1);
        self.number = self.number.saturating_add(1);
    }

    /// The next row that is not blank.
    pub(super) fn next_row(&mut self) -> Option<Result<Row, Box<Fault>>> {
        loop {
            if self.broken {
                return None;
            }
            let row = match self.read_row()? {
                Err(fault) => {
                    self.broken = true;
                    return Some(Err(fault));
                }
                Ok(row) => row,
            };
            if row.cells.is_empty() {
                self.pending = self.pending.saturating_add(1);
                continue;
            }
            self.blank = self.blank.saturating_add(std::mem::take(&mut self.pending));
            return Some(Ok(row));
        }
    }

    fn read_row(&mut self) -> Option<Result<Row, Box<Fault>>> {
        self.pass_empty_lines();
        let (start, first_line) = (self.at, self.line);
        let origin = Origin {
            byte: start,
            line: first_line,
            ..START
        };
        if start >= self.text.len() {
            return None;
        }
        self.number = self.number.saturating_add(1);
        let number = self.number;
        let fault = |says: String, at: Range<usize>| Fault {
            bytes: Some(at),
            ..Fault::new(Some(origin), says)
        };
        if number > MOST_ROWS {
            let says = format!("the sheet has more than {} thousand rows", MOST_ROWS / 1000);
            let fault = fault(says, start..start + 1).help("is it the right file?");
            return Some(Err(Box::new(fault)));
        }
        let mut cells = Vec::new();
        for column in 0.. {
            let named = |says: String| format!("cell {}{number}: {says}", letters(column));
            let (range, len, ends) = match self.read_cell() {
                Ok(cell) => cell,
                Err(from) => {
                    let says = named(format!("it is longer than {} KiB", LONGEST / 1024));
                    let help = "is a quote opened here that is never closed?";
                    return Some(Err(Box::new(fault(says, from..from + 1).help(help))));
                }
            };
            if let Some(says) = self.quotes_amiss(range.clone()) {
                let says = named(says.to_owned());
                let at = range.start..range.start + 1;
                return Some(Err(Box::new(fault(says, at).help(QUOTES))));
            }
            let bytes = self.buffer.get(..len).unwrap_or_default();
            let text = String::from_utf8_lossy(bytes);
            if !text.trim().is_empty() {
                if column >= MOST_COLUMNS {
                    let says = named(format!("the sheet has more than {MOST_COLUMNS} columns"));
                    let fault = fault(says, range).help("is it the right file?");
                    return Some(Err(Box::new(fault)));
                }
                let text = text.into_owned();
                cells.push(Cell {
                    column,
                    text,
                    at: range,
                });
            }
            if ends {
                break;
            }
        }
        let taken = self.text.get(start..self.at).unwrap_or_default();
        let lines = taken.bytes().filter(|byte| *byte == b'\n').count();
        self.line = first_line.saturating_add(u32::try_from(lines).unwrap_or(u32::MAX));
        Some(Ok(Row {
            number,
            origin,
            cells,
        }))
    }

    /// Goes over lines with nothing on them, which the reader below would not count.
    fn pass_empty_lines(&mut self) {
        let bytes = self.text.as_bytes();
        if self.at > 0 && bytes.get(self.at - 1..=self.at) == Some(b"\r\n") {
            self.at += 1;
            self.line = self.line.saturating_add(1);
        }
        loop {
            let rest = bytes.get(self.at..).unwrap_or_default();
            let len = match rest {
                [b'\r', b'\n', ..] => 2,
                [b'\r' | b'\n', ..] => 1,
                _ => return,
            };
            if rest.get(len - 1) == Some(&b'\n') {
                self.line = self.line.saturating_add(1);
            }
            self.at += len;
            self.number = self.number.saturating_add(1);
            self.pending = self.pending.saturating_add(1);
        }
    }

    /// Reads a cell into the buffer: its bytes in the text, how many it has without its quotes, and
    /// whether it is the last of its row. Where it is too long, the byte it begins at.
    fn read_cell(&mut self) -> Result<(Range<usize>, usize, bool), usize> {
        let bytes = self.text.as_bytes();
        let (start, mut len) = (self.at, 0);
        loop {
            let rest = bytes.get(self.at..).unwrap_or_default();
            let into = self.buffer.get_mut(len..).unwrap_or_default();
            let (result, taken, given) = self.reader.read_field(rest, into);
            self.at += taken;
            len += given;
            match result {
                ReadFieldResult::InputEmpty => {}
                ReadFieldResult::OutputFull => return Err(start),
                ReadFieldResult::End => return Ok((start..self.at, len, true)),
                ReadFieldResult::Field { record_end } => {
                    let last = self.at.checked_sub(1).and_then(|last| bytes.get(last));
                    let parted = last.is_some_and(|byte| {
                        *byte == self.separator || record_end && matches!(byte, b'\r' | b'\n')
                    });
                    let end = self.at - usize::from(parted && self.at > start && taken > 0);
                    return Ok((start..end, len, record_end));
                }
            }
        }
    }

    /// What is wrong with the quotes of a cell.
    fn quotes_amiss(&self, at: Range<usize>) -> Option<&'static str> {
        let raw = self.text.get(at).unwrap_or_default();
        let mut rest = raw.strip_prefix('"')?;
        loop {
            let Some(quote) = rest.find('"') else {
                return Some("the quote that opens here is never closed");
            };
            rest = rest.get(quote + 1..).unwrap_or_default();
            match rest.strip_prefix('"') {
                Some(more) => rest = more,
                None if rest.trim().is_empty() => return None,
                None => return Some("there is text after the closing quote"),
            }
        }
    }
}

/// What parts the cells of a sheet: of comma, semicolon and tab the one that parts its first line
/// into the most cells.
pub(super) fn separator(text: &str) -> u8 {
    let line = text
        .lines()
        .find(|line| !line.trim().is_empty())
        .unwrap_or_default();
    let count = |separator: &u8| {
        let mut quoted = false;
        line.bytes()
            .filter(|byte| {
                quoted ^= *byte == b'"';
                !quoted && byte == separator
            })
            .count()
    };
    // Of equals the last is taken, so the comma stands last.
    [b'\t', b';', b',']
        .into_iter()
        .max_by_key(count)
        .unwrap_or(b',')
}

#[cfg(test)]
mod tests {
    use super::{Rows, letters, separator};

    /// Each row as its number, its line and its cells by letter.
    fn rows(text: &str) -> (Vec<String>, Option<String>) {
        let mut rows = Rows::of(text, separator(text));
        let (mut told, mut fault) = (Vec::new(), None);
        while let Some(row) = rows.next_row() {
            match row {
                Err(wrong) => fault = Some(wrong.says),
                Ok(row) => {
                    let cells = row.cells.iter().map(|cell| {
                        let raw = &text[cell.at.clone()];
                        let bare = raw.trim_matches('"').replace("\"\"", "\"");
                        assert_eq!(bare.trim_matches('"'), cell.text.trim_matches('"'));
                        format!("{}={}", letters(cell.column), cell.text)
                    });
                    let cells: Vec<String> = cells.collect();
                    let line = row.origin.line;
                    let before = text[..row.origin.byte].matches('\n').count() + 1;
                    assert_eq!(line as usize, before, "{text:?}");
                    told.push(format!("{}/{line} {}", row.number, cells.join(" ")));
                }
            }
        }
        (told, fault)
    }

    #[test]
    fn rows_keep_their_numbers_over_blank_ones_and_line_ends_in_cells() {
        for end in ["\n", "\r\n"] {
            let text = "a,b\n\n,,\n1,\"x\ny\"\n\n\n,2".replace('\n', end);
            let xy = format!("B=x{end}y");
            let told = [
                "1/1 A=a B=b".to_owned(),
                format!("4/4 A=1 {xy}"),
                "7/8 B=2".to_owned(),
            ];
            assert_eq!(rows(&text), (told.to_vec(), None));
        }
        let old = rows("a;b\r1;2\r\r3;4").0;
        assert_eq!(old, ["1/1 A=a B=b", "2/1 A=1 B=2", "4/1 A=3 B=4"]);
    }

    #[test]
    fn the_separator_is_what_parts_the_first_line_most() {
        for (line, is) in [
            ("date,did", b','),
            ("\n\ndate;did,done;place", b';'),
            ("date\tdid", b'\t'),
            ("\"a;b;c\",d", b','),
            ("date", b','),
        ] {
            assert_eq!(separator(line), is, "{line}");
        }
    }

    #[test]
    fn quotes_that_do_not_fit_are_told_where_they_open() {
        let fault = |text: &str| rows(text).1.unwrap_or_default();
        assert_eq!(
            fault("a,b\n1,\"head off\n2,x\n"),
            "cell B2: the quote that opens here is never closed"
        );
        assert_eq!(
            fault("a,b\n1,\"head off\n2,\"x\"\n"),
            "cell B2: there is text after the closing quote"
        );
        let long = format!("a\n{}", "x".repeat(65 * 1024));
        assert_eq!(fault(&long), "cell A2: it is longer than 64 KiB");
        let wide = format!("{}x", ",".repeat(200));
        assert_eq!(
            fault(&wide),
            "cell GS1: the sheet has more than 200 columns"
        );
        assert_eq!(fault("a,b\n7/8\",\"3\"\"\"\n"), "");
    }

    #[test]
    fn columns_have_the_letters_a_program_shows() {
        for (column, name) in [
            (0, "A"),
            (25, "Z"),
            (26, "AA"),
            (51, "AZ"),
            (701, "ZZ"),
            (702, "AAA"),
        ] {
            assert_eq!(letters(column), name);
        }
    }
}
