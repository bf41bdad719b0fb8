//! What to buy, for someone on the way to the chandler.

use std::io::{self, Write};

use comfy_table::{Cell, CellAlignment};

use super::{Buying, bought, tool};
use crate::hull::{CrossingId, fold};
use crate::refit::buy::{Goods, Tool};
use crate::show::page::{Page, quiet};
use crate::show::{Layout, known};
use crate::text::Clean;

/// How many places a line names before it only counts them.
const MOST_PLACES: usize = 8;

/// Prints what to buy as text.
///
/// # Errors
/// When `out` fails.
pub fn text(buying: &Buying<'_>, out: &mut dyn Write, layout: Layout) -> io::Result<()> {
    let (asked, list) = (buying.asked, buying.list);
    let mut page = Page::new(out, layout);
    page.line(&format!(
        "{} on {}: what to buy",
        asked.hull.boat, asked.day
    ))?;
    if let Some(place) = buying.place {
        page.line(&format!("Asked about {place} only."))?;
    }
    known::text(&mut page, asked.book)?;
    page.line(&buying.purpose())?;
    if !list.goods.is_empty() {
        page.gap()?;
        goods(buying, &mut page, layout.width)?;
        total(buying, &mut page)?;
    }
    if !list.tools.is_empty() {
        page.gap()?;
        tools(buying, &mut page)?;
    }
    notes(buying, &mut page)
}

fn goods(buying: &Buying<'_>, page: &mut Page<'_>, width: u16) -> io::Result<()> {
    let list = buying.list;
    let priced = list.goods.iter().any(|line| line.boxed.price.is_some());
    let right = |text: String| Cell::new(text).set_alignment(CellAlignment::Right);
    let mut table = quiet(width);
    let mut heads: Vec<Cell> = vec![Cell::new("what")];
    heads.extend(["needed", "spare", "buy"].map(|head| right(head.to_owned())));
    if priced {
        heads.push(right("price".to_owned()));
    }
    table.set_header(heads);
    for line in &list.goods {
        let mut row = vec![
            Cell::new(Clean(&buying.name(&line.goods))),
            right(line.needed.to_string()),
            right(line.spares.to_string()),
            right(bought(&line.boxed)),
        ];
        if priced {
            let price = buying.price(&line.boxed);
            row.push(right(Clean(price.as_deref().unwrap_or("·")).to_string()));
        }
        table.add_row(row);
    }
    page.drawn(&mut table, |column| column > 0)
}

fn total(buying: &Buying<'_>, page: &mut Page<'_>) -> io::Result<()> {
    let Some((total, without)) = buying.list.total() else {
        return page.line("Together it costs more than can be counted.");
    };
    if without == buying.list.goods.len() {
        return Ok(());
    }
    let but = match without {
        0 => String::new(),
        1 => ", 1 line without a price not counted".to_owned(),
        without => format!(", {without} lines without a price not counted"),
    };
    page.line(&format!(
        "Together {}{but}; prices are those of your own list.",
        buying.money(&total.to_string())
    ))
}

fn tools(buying: &Buying<'_>, page: &mut Page<'_>) -> io::Result<()> {
    let names = |owned: bool| -> Vec<String> {
        let tools = buying.list.tools.iter().filter(|(_, own)| *own == owned);
        tools.map(|(of, _)| tool(*of, buying.asked.units)).collect()
    };
    let (get, own) = (names(false), names(true));
    page.line(&match get.is_empty() {
        true => "Tools: you own all that are asked for.".to_owned(),
        false => format!("Tools to get: {}", get.join("; ")),
    })?;
    if !own.is_empty() {
        page.line(&format!("You own: {}", own.join("; ")))?;
    }
    let odd = |(tool, _): &(Tool, bool)| matches!(tool, Tool::Odd(_));
    if buying.list.tools.iter().any(odd) {
        page.line("Name more sets of drills under `own` in hull.yaml for a nearer one.")?;
    }
    Ok(())
}

fn notes(buying: &Buying<'_>, page: &mut Page<'_>) -> io::Result<()> {
    let (asked, list) = (buying.asked, buying.list);
    let place = |ids: &[CrossingId]| fold(asked.hull, ids.iter().copied()).shown(MOST_PLACES);
    let mut notes: Vec<String> = Vec::new();
    for chosen in &list.chosen {
        let by = chosen.after;
        notes.push(format!(
            "{} ({}): {}, the pick's own choice; kind and metal are of what entry {} drove nearby on {}; plan it to settle it",
            place(&chosen.crossings),
            chosen.count,
            buying.name(&chosen.goods),
            by.number,
            by.date,
        ));
    }
    for unchosen in &list.unchosen {
        notes.push(format!(
            "no fastening chosen: {} {} at {}: {}",
            unchosen.holes,
            if unchosen.holes == 1 { "hole" } else { "holes" },
            place(&unchosen.crossings),
            unchosen.why
        ));
    }
    for (goods, crossings, why) in &list.unbored {
        notes.push(format!(
            "no drills told for {} at {}: {why}",
            buying.name(goods),
            place(crossings)
        ));
    }
    if !list.not_at.is_empty() {
        notes.push(format!(
            "not counted: what is planned at {}, where the plank is off or what it names is not there",
            place(&list.not_at)
        ));
    }
    if list.stopping > 0 {
        notes.push(format!("stopping for {} heads", list.stopping));
    }
    if list.unknown_cover > 0 {
        notes.push(format!(
            "what covers {} heads is not known",
            list.unknown_cover
        ));
    }
    let dowels = |goods: &Goods| matches!(goods, Goods::Dowel { .. });
    if list.goods.iter().any(|line| dowels(&line.goods)) {
        notes.push(
            "a dowel for each frame hole that stands open or will; sound ones that are used again need none, and one is thicker than the old hole it is named by: ream to sound wood first"
                .to_owned(),
        );
    }
    let spares = buying.spares();
    if notes.is_empty() && spares.is_empty() {
        return Ok(());
    }
    page.gap()?;
    for note in notes {
        page.item(&note)?;
    }
    for spare in spares {
        page.item(&format!("spares, {spare}"))?;
    }
    Ok(())
}
