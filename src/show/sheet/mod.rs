//! The shed sheet: what is worked from at the boat. On paper it carries the whole job; on a phone
//! that runs its script the same file is an app that needs no network.

mod brief;
mod codes;
mod data;
mod fastenings;
mod paper;

use std::io::{self, Write};

use serde_json::{Value, json};

use super::html::{Head, Script, page};
use super::layout::Layout;
use super::page::Page;
use crate::hull::{CrossingId, Hull, Places};
use crate::record::{Book, State};
use crate::units::{Day, Units};
use fastenings::Fastenings;

/// The most crossings on a sheet: more is hundreds of pages, and slow to open on a phone.
pub const MOST_CROSSINGS: usize = 4_000;

/// The script: what can be done, then what is tapped.
const SCRIPT: Script = Script {
    text: concat!(include_str!("rules.js"), include_str!("app.js")),
    sha256: include_str!("script.sha256").trim_ascii_end(),
};

/// What a sheet is made from.
#[derive(Clone, Copy, Debug)]
pub struct Sheet<'b> {
    /// The hull.
    pub hull: &'b Hull,
    /// Her sets and entries.
    pub book: &'b Book,
    /// Every hole after the last entry.
    pub state: &'b State,
    /// The day the sheet is made.
    pub day: Day,
    /// Its crossings, each once, in order.
    pub crossings: &'b [CrossingId],
    /// Where they are, as it was asked for; `None` for the whole boat.
    pub place: Option<&'b Places>,
    /// How sizes are shown.
    pub units: Units,
}

impl Sheet<'_> {
    /// The number of the last entry of the log, 0 where there is none.
    fn after(&self) -> u32 {
        self.book.entries().last().map_or(0, |entry| entry.number)
    }

    /// What record the sheet was made from, as every row that is carried back says it.
    fn made_from(&self) -> String {
        let Self { hull, day, .. } = self;
        format!("{} after entry {} on {day}", hull.boat, self.after())
    }

    /// Where it is, in words.
    fn place(&self) -> String {
        self.place
            .map_or_else(|| "the whole boat".to_owned(), ToString::to_string)
    }

    /// Its crossings by strake.
    fn strakes(&self) -> impl Iterator<Item = &[CrossingId]> {
        let strake = |id: &CrossingId| self.hull.crossing(*id).strake.id;
        self.crossings.chunk_by(move |a, b| strake(a) == strake(b))
    }
}

/// Writes the sheet as one page.
///
/// # Errors
/// Where it cannot be written to `out`.
pub fn html(sheet: &Sheet<'_>, out: &mut dyn Write) -> io::Result<()> {
    let title = format!("Shed sheet of {}", sheet.hull.boat);
    let head = Head {
        title: &title,
        style: include_str!("sheet.css"),
        script: Some(SCRIPT),
    };
    let fastenings = Fastenings::of(sheet);
    page(out, &head, |html| {
        brief::write(sheet, &fastenings, html)?;
        html.own(include_str!("app.html"))?;
        paper::write(sheet, &fastenings, html)?;
        html.data("sheet-data", &data::json(sheet, &fastenings))
    })
}

/// Prints what was written, and what to do with it.
///
/// # Errors
/// Where it cannot be printed to `out`.
pub fn told(
    sheet: &Sheet<'_>,
    file: &str,
    holes: u32,
    out: &mut dyn Write,
    layout: Layout,
) -> io::Result<()> {
    let mut page = Page::new(out, layout);
    let crossings = sheet.crossings.len();
    page.line(&format!(
        "{file}: {}, {crossings} crossings and {holes} holes, after entry {}",
        sheet.place(),
        sheet.after()
    ))?;
    page.line("print it or open it on a phone; `refasten import` takes what is carried back")
}

/// The same for other programs.
pub fn told_json(sheet: &Sheet<'_>, file: &str, holes: u32) -> Value {
    json!({
        "format": 1,
        "boat": sheet.hull.boat,
        "wrote": file,
        "place": sheet.place.map(ToString::to_string),
        "after_entry": sheet.after(),
        "made": sheet.day.to_string(),
        "crossings": sheet.crossings.len(),
        "holes": holes,
    })
}
