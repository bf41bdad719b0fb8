//! What to buy as a table in Markdown.

use std::io::{self, Write};

use super::{Buying, bought, tool};
use crate::text::Clean;

/// Prints what to buy as a table in Markdown, and the tools to get under it.
///
/// # Errors
/// When `out` fails.
pub fn markdown(buying: &Buying<'_>, out: &mut dyn Write) -> io::Result<()> {
    let (asked, list) = (buying.asked, buying.list);
    let heading = format!("{} on {}: what to buy", asked.hull.boat, asked.day);
    writeln!(out, "# {}\n\n{}\n", plain(&heading), buying.purpose())?;
    writeln!(out, "| what | needed | spare | buy | price |")?;
    writeln!(out, "|---|---:|---:|---:|---:|")?;
    for line in &list.goods {
        writeln!(
            out,
            "| {} | {} | {} | {} | {} |",
            plain(&buying.name(&line.goods)),
            line.needed,
            line.spares,
            bought(&line.boxed),
            plain(&buying.price(&line.boxed).unwrap_or_default())
        )?;
    }
    let to_get: Vec<_> = list.tools.iter().filter(|(_, owned)| !owned).collect();
    if !to_get.is_empty() {
        writeln!(out, "\nTools to get:\n")?;
    }
    for (of, _) in to_get {
        writeln!(out, "- {}", plain(&tool(*of, asked.units)))?;
    }
    let spares = buying.spares();
    if !spares.is_empty() {
        writeln!(out, "\nSpares:\n")?;
    }
    for spare in spares {
        writeln!(out, "- {}", plain(&spare))?;
    }
    Ok(())
}

/// A text that means nothing to Markdown.
fn plain(text: &str) -> String {
    let mut plain = String::new();
    for c in Clean(text).to_string().chars() {
        if matches!(
            c,
            '\\' | '|' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '#' | '&'
        ) {
            plain.push('\\');
        }
        plain.push(c);
    }
    plain
}
