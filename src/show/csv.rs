//! Tables for spreadsheet programs: UTF-8 with the mark they look for, lines as they end them,
//! and no cell that is run or made a date.

use std::io::{self, Write};

use crate::text::guard;

/// The mark by which spreadsheet programs know UTF-8.
const MARK: &str = "\u{feff}";

/// What stands in a cell.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Cell {
    /// Nothing.
    Empty,
    /// A whole number.
    Number(u64),
    /// A day or a year, to be taken as one.
    Day(String),
    /// A text, to be taken as it stands whatever it looks like.
    Text(String),
}

impl Cell {
    /// A text, where there is one.
    pub fn text(text: Option<impl ToString>) -> Self {
        text.map_or(Self::Empty, |text| Self::Text(text.to_string()))
    }
}

/// A table as it is written.
pub struct Csv<'o>(csv::Writer<&'o mut dyn Write>);

impl<'o> Csv<'o> {
    /// Begins a table with the headings of its columns.
    ///
    /// # Errors
    /// What the writer gives, here and below.
    pub fn begin(out: &'o mut dyn Write, headings: &[&str]) -> io::Result<Self> {
        out.write_all(MARK.as_bytes())?;
        let mut csv = csv::WriterBuilder::new()
            .terminator(csv::Terminator::CRLF)
            .from_writer(out);
        csv.write_record(headings).map_err(plain)?;
        Ok(Self(csv))
    }

    /// Adds a row.
    ///
    /// # Errors
    /// What the writer gives; [`io::ErrorKind::Other`] where it has not as many cells as there are
    /// headings.
    pub fn row(&mut self, cells: &[Cell]) -> io::Result<()> {
        for cell in cells {
            match cell {
                Cell::Empty => self.0.write_field(""),
                Cell::Number(number) => self.0.write_field(number.to_string()),
                Cell::Day(day) => self.0.write_field(day),
                Cell::Text(text) => self.0.write_field(guard(text).as_ref()),
            }
            .map_err(plain)?;
        }
        self.0.write_record(None::<&[u8]>).map_err(plain)
    }

    /// Ends the table.
    ///
    /// # Errors
    /// What the writer gives.
    pub fn end(mut self) -> io::Result<()> {
        self.0.flush()
    }
}

/// What the system said: whoever was reading may have seen enough, and that is no failure.
fn plain(error: csv::Error) -> io::Error {
    match error.into_kind() {
        csv::ErrorKind::Io(error) => error,
        other => io::Error::other(format!("the table does not hold together: {other:?}")),
    }
}

#[cfg(test)]
mod tests {
    use std::io::{self, Write};

    use super::{Cell, Csv};

    /// A pipe that nobody reads.
    struct Closed(bool);

    impl Write for Closed {
        fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
            // The mark still goes through.
            match std::mem::replace(&mut self.0, true) {
                true => Err(io::ErrorKind::BrokenPipe.into()),
                false => Ok(bytes.len()),
            }
        }

        fn flush(&mut self) -> io::Result<()> {
            Ok(())
        }
    }

    #[test]
    fn a_closed_pipe_is_told_as_one() {
        let mut pipe = Closed(false);
        let mut csv = Csv::begin(&mut pipe, &["note"]).unwrap();
        let long = Cell::Text("x".repeat(100_000));
        let error = csv.row(&[long]).unwrap_err();
        assert_eq!(error.kind(), io::ErrorKind::BrokenPipe);
    }

    #[test]
    fn a_table_is_as_spreadsheet_programs_want_it() {
        let mut out = Vec::new();
        let mut csv = Csv::begin(&mut out, &["entry", "note"]).unwrap();
        csv.row(&[Cell::Number(1), Cell::text(Some("a, \"b\"\nc"))])
            .unwrap();
        csv.row(&[Cell::Empty, Cell::text(Some("=1+1"))]).unwrap();
        assert!(csv.row(&[Cell::Empty]).is_err());
        csv.end().unwrap();
        assert_eq!(
            String::from_utf8(out).unwrap(),
            "\u{feff}entry,note\r\n1,\"a, \"\"b\"\"\nc\"\r\n,'=1+1\r\n"
        );
    }
}
