//! The report: one page for owner, surveyor and insurer, to be read, printed and signed.

mod cells;
mod end;
mod findings;
mod maps;
mod schedule;
mod sources;
mod verdict;
mod work;

use std::io::{self, Write};

use base64::prelude::{BASE64_STANDARD, Engine as _};
use serde_json::{Value, json};

use super::Layout;
use super::html::{Head, page};
use super::page::Page;
use super::season::Summary;
use crate::text::Clean;
use sources::Sources;

/// A report of a boat.
#[derive(Debug)]
pub struct Report<'b> {
    /// The season of work it tells of; its last day is the day of the report.
    pub season: &'b Summary<'b>,
    /// Pictures of that work, where they are asked for.
    pub photos: &'b [Photo],
    /// The version of the program that made it.
    pub version: &'b str,
}

/// A picture that an entry names.
#[derive(Clone, Debug)]
pub struct Photo {
    /// The number of the entry.
    pub entry: u32,
    /// Its path in the boat's folder.
    pub path: String,
    /// The picture, or why it is not shown.
    pub picture: Result<Picture, String>,
}

/// A picture that a page can hold.
#[derive(Clone, Debug)]
pub struct Picture {
    /// Its kind, as browsers name it.
    pub media: &'static str,
    /// Its bytes in base 64.
    pub base64: String,
}

impl Picture {
    /// The picture that some bytes are.
    ///
    /// # Errors
    /// In words, where they are none that every browser shows.
    pub fn of(bytes: &[u8]) -> Result<Self, String> {
        let media = match bytes {
            [0xFF, 0xD8, 0xFF, ..] => "image/jpeg",
            [0x89, b'P', b'N', b'G', ..] => "image/png",
            _ => return Err("it is neither a JPEG nor a PNG picture".to_owned()),
        };
        Ok(Self {
            media,
            base64: BASE64_STANDARD.encode(bytes),
        })
    }
}

/// Writes the report as one page.
///
/// # Errors
/// Where it cannot be written to `out`.
pub fn html(report: &Report<'_>, out: &mut dyn Write) -> io::Result<()> {
    let survey = report.season.last.survey;
    let title = format!("{}: fastening record of {}", survey.hull.boat, survey.day);
    let style = format!("{}{}", include_str!("report.css"), maps::colours());
    let head = Head {
        title: &title,
        style: &style,
        script: None,
    };
    page(out, &head, |html| {
        html.within("main", &[], |html| {
            verdict::write(report, html)?;
            maps::write(report, html)?;
            let mut sources = Sources::default();
            findings::write(report, &mut sources, html)?;
            schedule::write(report, html)?;
            work::write(report, html)?;
            sources.write(html)?;
            end::write(report, html)
        })
    })
}

/// Prints what was written.
///
/// # Errors
/// Where it cannot be printed to `out`.
pub fn told(
    report: &Report<'_>,
    file: &str,
    out: &mut dyn Write,
    layout: Layout,
) -> io::Result<()> {
    let mut page = Page::new(out, layout);
    let last = &report.season.last;
    page.line(&format!(
        "{}: {} on {}, {}",
        Clean(file),
        last.survey.hull.boat,
        last.survey.day,
        last.outcome.verdict.words()
    ))?;
    for photo in report.photos {
        if let Err(why) = &photo.picture {
            page.item(&format!("{} is not shown: {why}", photo.path))?;
        }
    }
    page.line("open it in a browser, print it, or send it: it needs no other file")
}

/// The same for other programs.
pub fn told_json(report: &Report<'_>, file: &str) -> Value {
    let last = &report.season.last;
    let shown = report.photos.iter().filter(|photo| photo.picture.is_ok());
    json!({
        "format": 1,
        "boat": last.survey.hull.boat,
        "wrote": file,
        "as_of": last.survey.day.to_string(),
        "season": report.season.season.to_string(),
        "verdict": last.outcome.verdict.words(),
        "photos": shown.count(),
    })
}
