//! What to buy as a table: for a spreadsheet, and in Markdown.

use std::io::{self, Write};

use super::{Buying, bought, tool};
use crate::refit::buy::Goods;
use crate::show::csv::{Cell, Csv};
use crate::text::Clean;

/// Prints the lines of the list for a spreadsheet.
///
/// # Errors
/// When `out` fails.
pub fn csv(buying: &Buying<'_>, out: &mut dyn Write) -> io::Result<()> {
    const HEADINGS: [&str; 13] = [
        "what",
        "ware",
        "kind",
        "metal",
        "size",
        "wood",
        "needed",
        "spares",
        "box_holds",
        "boxes",
        "buy",
        "price_hundredths",
        "money",
    ];
    let mut csv = Csv::begin(out, &HEADINGS)?;
    for line in &buying.list.goods {
        let (ware, kind, metal, wood) = match &line.goods {
            Goods::Fastening { kind, metal, .. } => ("fastening", Some(kind), *metal, None),
            Goods::Bung { wood, .. } => ("bung", None, None, *wood),
            Goods::Plug { wood, .. } => ("plug", None, None, *wood),
            Goods::Dowel { wood, .. } => ("dowel", None, None, *wood),
        };
        let price = line.boxed.price;
        csv.row(&[
            Cell::Text(buying.name(&line.goods)),
            Cell::text(Some(ware)),
            Cell::text(kind),
            Cell::text(metal.map(|metal| metal.name)),
            Cell::Text(buying.size(&line.goods)),
            Cell::text(wood.map(|wood| wood.name)),
            Cell::Number(line.needed),
            Cell::Number(line.spares),
            Cell::Number(u64::from(line.boxed.holds)),
            Cell::Number(line.boxed.boxes),
            Cell::Number(line.boxed.pieces()),
            // A point or a comma would be a day to some spreadsheet programs.
            price.map_or(Cell::Empty, |price| Cell::Number(price.hundredths())),
            Cell::text(price.and(buying.asked.stores.money.as_ref())),
        ])?;
    }
    csv.end()
}

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
