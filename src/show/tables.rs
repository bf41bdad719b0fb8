//! The reference tables in the terminal and as JSON, every figure with what it rests on.

use std::io::{self, Write};

use comfy_table::presets::NOTHING;
use comfy_table::{Cell, CellAlignment, ColumnConstraint, Table as Drawn, Width};
use serde_json::{Value, json};

use super::layout::Layout;
use super::page::Page;
use crate::tables::{Basis, Source, Table};

/// A column of long text is wrapped to this width before the table is split.
const WIDEST: usize = 30;

/// Blanks between columns.
const GAP: usize = 2;

/// Lists all tables with their titles, to `width` columns of the terminal.
///
/// # Errors
/// When the writer fails.
pub fn list(out: &mut dyn Write, layout: Layout) -> io::Result<()> {
    let named = |table: &Table| table.name.len();
    let widest = Table::all().iter().map(named).max().unwrap_or(0);
    let mut page = Page::new(out, layout);
    for table in Table::all() {
        let name = match layout.plain {
            true => format!("{}:", table.name),
            false => format!("{:widest$}  ", table.name),
        };
        page.wrapped(&name, table.title)?;
    }
    Ok(())
}

/// All tables as JSON: `tables`, each with its `name` and `title`.
///
/// # Errors
/// When the writer fails.
pub fn list_json(out: &mut dyn Write) -> io::Result<()> {
    let tables: Vec<Value> = Table::all()
        .iter()
        .map(|table| json!({"name": table.name, "title": table.title}))
        .collect();
    serde_json::to_writer_pretty(&mut *out, &json!({"format": 1, "tables": tables}))?;
    writeln!(out)
}

/// Draws one table to `width` columns of the terminal: its title, its columns in as many parts as
/// the width asks for, each with the first column; then its notes, what its figures rest on by the
/// numbers in brackets, and the sources by their keys.
///
/// # Errors
/// When the writer fails.
pub fn table(out: &mut dyn Write, table: &Table, layout: Layout) -> io::Result<()> {
    let mut marks = Marks::default();
    let mut page = Page::new(out, layout);
    page.line(table.title)?;
    let columns = columns(table, &mut marks);
    let (remarks, drawn): (Vec<&Column>, Vec<&Column>) = columns.iter().partition(|c| c.sparse);
    let width = usize::from(layout.width);
    let least = drawn.first().map_or(0, |first| first.width + GAP);
    // Row by row, no column is parted from the rest.
    let by_row = layout.plain || drawn.iter().skip(1).any(|c| least + c.width > width);
    let room = if by_row { usize::MAX } else { width };
    for mut part in parts(&drawn, room) {
        page.gap()?;
        widen(&mut part, width);
        draw(&mut page, &part, by_row)?;
    }
    let names = columns.first().map_or(&[][..], |first| &first.cells);
    for column in remarks {
        page.gap()?;
        for (name, remark) in names.iter().zip(&column.cells) {
            if !remark.is_empty() {
                let of = match column.heading.as_str() {
                    "note" => String::new(),
                    heading => format!(", {heading}"),
                };
                page.line(&format!("{name}{of}: {remark}"))?;
            }
        }
    }
    if !table.notes.is_empty() {
        page.gap()?;
    }
    for note in table.notes {
        page.line(note)?;
    }
    footnotes(&mut page, &marks.0)
}

fn footnotes(page: &mut Page, bases: &[&Basis]) -> io::Result<()> {
    if !bases.is_empty() {
        page.gap()?;
    }
    let mut sources: Vec<&Source> = Vec::new();
    for (at, basis) in bases.iter().enumerate() {
        let mark = format!("[{}] ", at + 1);
        let key = basis
            .source
            .map_or(String::new(), |source| format!("{}, ", source.key));
        let note = match basis.note {
            "" => String::new(),
            note => format!(": {note}"),
        };
        page.wrapped(&mark, &format!("{key}{}{note}", basis.status))?;
        sources.extend(basis.source.filter(|source| !sources.contains(source)));
    }
    for source in sources {
        page.line(&format!("{}: {}", source.key, source.title))?;
    }
    Ok(())
}

/// One table as JSON: `name`, `title`, `columns` and `rows` with the basis of every figure by its
/// number in `bases`, and `notes`.
///
/// # Errors
/// When the writer fails.
pub fn table_json(out: &mut dyn Write, table: &Table) -> io::Result<()> {
    let mut marks = Marks::default();
    let columns: Vec<Value> = table
        .columns
        .iter()
        .map(|column| {
            let basis = column.basis.map(|basis| marks.number(basis));
            json!({"name": column.name, "unit": column.unit, "basis": basis})
        })
        .collect();
    let rows: Vec<Value> = table
        .rows
        .iter()
        .map(|row| {
            row.iter()
                .map(|cell| match (cell.text, cell.basis) {
                    ("", _) => Value::Null,
                    (text, Some(basis)) => json!({"is": text, "basis": marks.number(basis)}),
                    (text, None) => json!({"is": text}),
                })
                .collect()
        })
        .collect();
    let bases: Vec<Value> = (1..)
        .zip(&marks.0)
        .map(|(number, basis)| {
            json!({
                "number": number,
                "source": basis.source.map(|source| source.title),
                "status": basis.status.word(),
                "note": basis.note,
            })
        })
        .collect();
    let whole = json!({
        "format": 1,
        "name": table.name,
        "title": table.title,
        "columns": columns,
        "rows": rows,
        "bases": bases,
        "notes": table.notes,
    });
    serde_json::to_writer_pretty(&mut *out, &whole)?;
    writeln!(out)
}

/// The distinct grounds of a table, numbered from 1 in the order they are met.
#[derive(Default)]
struct Marks(Vec<&'static Basis>);

impl Marks {
    fn number(&mut self, basis: &'static Basis) -> usize {
        let known = self.0.iter().position(|b| *b == basis);
        known.unwrap_or_else(|| {
            self.0.push(basis);
            self.0.len() - 1
        }) + 1
    }
}

/// A column ready to be drawn, with its marks.
struct Column {
    heading: String,
    cells: Vec<String>,
    figures: bool,
    /// Remarks on a few of the rows, better told below than drawn.
    sparse: bool,
    /// What it takes without breaking a figure.
    width: usize,
    /// What its longest cell would take.
    longest: usize,
}

fn columns(table: &Table, marks: &mut Marks) -> Vec<Column> {
    let each = table.columns.iter().enumerate().map(|(at, column)| {
        let mark = column
            .basis
            .map(|basis| format!("[{}]", marks.number(basis)));
        let below: Vec<&str> = [Some(column.unit), mark.as_deref()]
            .into_iter()
            .flatten()
            .filter(|part| !part.is_empty())
            .collect();
        let below = below.join(" ");
        let heading = match below.as_str() {
            "" => column.name.to_owned(),
            below => format!("{}\n{below}", column.name),
        };
        let cells = cells(table, at, marks);
        let word = column.name.split(' ').map(long).max().unwrap_or(0);
        let longest = cells.iter().map(|cell| long(cell)).max().unwrap_or(0);
        let empty = cells.iter().filter(|cell| cell.is_empty()).count();
        Column {
            width: longest.min(WIDEST).max(word).max(long(&below)),
            sparse: column.label && at > 0 && 2 * empty >= cells.len(),
            figures: !column.label && longest <= WIDEST,
            heading,
            cells,
            longest,
        }
    });
    each.collect()
}

/// The cells of a column. A mark stands at a figure only where it rests on something else than its
/// column; the other figures of such a column make room for it, so that they stay in line.
fn cells(table: &Table, at: usize, marks: &mut Marks) -> Vec<String> {
    let Some(column) = table.columns.get(at) else {
        return Vec::new();
    };
    let cells: Vec<(&str, String)> = table
        .rows
        .iter()
        .filter_map(|row| row.get(at))
        .map(|cell| {
            let own = cell.basis.filter(|_| cell.basis != column.basis);
            let mark = own.map_or(String::new(), |b| format!(" [{}]", marks.number(b)));
            (cell.text, mark)
        })
        .collect();
    let room = cells.iter().map(|(_, mark)| long(mark)).max().unwrap_or(0);
    let marked = cells.into_iter().map(|(text, mark)| match text {
        "" => String::new(),
        text => format!("{text}{mark:room$}"),
    });
    marked.collect()
}

fn long(text: &str) -> usize {
    text.chars().count()
}

/// A column and the width it is drawn at.
type Placed<'a> = (&'a Column, usize);

/// The columns in as many parts as it takes for each to fit, the first column leading each.
fn parts<'a>(columns: &[&'a Column], width: usize) -> Vec<Vec<Placed<'a>>> {
    let Some((first, rest)) = columns.split_first() else {
        return Vec::new();
    };
    let first = (*first, first.width);
    let mut parts = Vec::new();
    let mut part = vec![first];
    let mut used = first.1;
    for column in rest {
        if part.len() > 1 && used + GAP + column.width > width {
            parts.push(std::mem::replace(&mut part, vec![first]));
            used = first.1;
        }
        used += GAP + column.width;
        part.push((column, column.width));
    }
    parts.push(part);
    parts
}

/// Gives the room that is left to columns that would otherwise be wrapped.
fn widen(part: &mut [Placed], width: usize) {
    let used: usize = part.iter().map(|(_, width)| width + GAP).sum();
    let mut room = (width + GAP).saturating_sub(used);
    for (column, width) in part {
        let more = column.longest.saturating_sub(*width).min(room);
        *width += more;
        room -= more;
    }
}

fn draw(page: &mut Page, part: &[Placed], by_row: bool) -> io::Result<()> {
    let mut drawn = Drawn::new();
    drawn.load_style(NOTHING);
    drawn.set_header(part.iter().map(|(column, _)| cell(column, &column.heading)));
    let rows = part.first().map_or(0, |(first, _)| first.cells.len());
    for row in 0..rows {
        let cells = part.iter().map(|(column, _)| {
            let text = column.cells.get(row).map_or("", String::as_str);
            cell(column, text)
        });
        drawn.add_row(cells);
    }
    if by_row {
        return page.stacked(&drawn);
    }
    for (column, (_, width)) in drawn.column_iter_mut().zip(part) {
        let narrow = |width: usize| u16::try_from(width).unwrap_or(u16::MAX);
        column.set_padding((0, narrow(GAP)));
        column.set_constraint(ColumnConstraint::Absolute(Width::Fixed(narrow(
            width + GAP,
        ))));
    }
    for line in drawn.lines() {
        page.laid_out(&line)?;
    }
    Ok(())
}

fn cell(column: &Column, text: &str) -> Cell {
    let alignment = match column.figures {
        true => CellAlignment::Right,
        false => CellAlignment::Left,
    };
    Cell::new(text).set_alignment(alignment)
}
