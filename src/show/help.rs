//! The help of the program or of a command, short enough for a screen.

use std::io::{self, Write};

use super::layout::Layout;
use super::page::Page;

/// The help of the program or of a command.
#[derive(Clone, Debug, Default)]
pub struct Help {
    /// What it does, a paragraph each.
    pub says: Vec<String>,
    /// How it is written.
    pub usage: String,
    /// What may be typed, group by group.
    pub groups: Vec<Group>,
    /// A sentence on what goes with every command.
    pub everywhere: String,
    /// Command lines that can be tried as they stand.
    pub examples: Vec<String>,
}

/// Commands, places or options of a kind.
#[derive(Clone, Debug, Default)]
pub struct Group {
    /// What stands over them.
    pub heading: String,
    /// Each as it is typed, and what it does.
    pub rows: Vec<(String, String)>,
}

/// Prints it.
///
/// # Errors
///
/// What the writer gives.
pub fn text(out: &mut dyn Write, layout: Layout, help: &Help) -> io::Result<()> {
    let mut page = Page::new(out, layout);
    for (at, says) in help.says.iter().enumerate() {
        page.indented("", says)?;
        if at == 0 {
            page.gap()?;
        }
    }
    if help.says.len() > 1 {
        page.gap()?;
    }
    page.wrapped("Usage: ", &help.usage)?;
    for group in &help.groups {
        page.gap()?;
        page.line(&group.heading)?;
        rows(&mut page, &group.rows)?;
    }
    if !help.everywhere.is_empty() {
        page.gap()?;
        page.indented("", &help.everywhere)?;
    }
    if !help.examples.is_empty() {
        page.gap()?;
        page.line(if help.examples.len() == 1 {
            "Example"
        } else {
            "Examples"
        })?;
    }
    for example in &help.examples {
        page.laid_out(&format!("  {example}"))?;
    }
    Ok(())
}

/// What is typed in a column, and what it does beside it; read aloud, with a colon between.
pub(super) fn rows(
    page: &mut Page<'_>,
    rows: &[(impl AsRef<str>, impl AsRef<str>)],
) -> io::Result<()> {
    let wide = |row: &(_, _)| AsRef::<str>::as_ref(&row.0).chars().count();
    let most = usize::from(page.width()) / 2;
    let room = rows.iter().map(wide).filter(|wide| *wide <= most).max();
    let room = room.unwrap_or(most);
    let beside = " ".repeat(room + 4);
    for row in rows {
        let (typed, does) = (row.0.as_ref(), row.1.as_ref());
        if page.is_plain() {
            page.hung(&format!("{typed}:"), "", does)?;
        } else if wide(row) > room {
            page.laid_out(&format!("  {typed}"))?;
            page.indented(&beside, does)?;
        } else {
            page.hung(&format!("  {typed:room$}  "), &beside, does)?;
        }
    }
    Ok(())
}
