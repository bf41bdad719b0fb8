//! `refasten report`: one page for surveyor and insurer.

use std::path::PathBuf;

use clap::Args;

use super::days::Days;
use super::drawing::put;
use super::typed::Reading;
use super::working::Working;
use super::{Desk, Ended, Format, Stopped, season};
use crate::files::Folder;
use crate::record::Entry;
use crate::show::report::{self, Photo, Picture, Report};
use crate::text::Misread;
use crate::units::Season;

/// Write the report for surveyor and insurer
///
/// Verdict, map, findings, schedule and work done, with lines to sign. One HTML file that needs no network and no other file: to be read on a phone, printed on A4 or
/// Letter, and sent to a surveyor or an insurer.
#[derive(Debug, Args)]
#[command(after_help = "refasten report report.html")]
pub(super) struct MakeReport {
    /// The file to write, anew where it is there
    #[arg(value_name = "FILE.html")]
    file: PathBuf,
    /// The season whose work it tells: 2024, or 2024-25
    ///
    /// 2024 is the calendar year, 2024-25 goes from September to August; else the one of the day,
    /// from September to August.
    #[arg(long)]
    season: Option<String>,
    /// Put in the pictures of that season's entries
    #[arg(long)]
    photos: bool,
    #[command(flatten)]
    days: Days,
}

impl MakeReport {
    pub(super) fn run(self, desk: &mut Desk<'_>) -> Result<Ended, Stopped> {
        let today = desk.globals.today()?;
        let mut reading = Reading::default();
        let point = self.days.read(&mut reading, today);
        let file = self.file.display().to_string();
        let is_page = self.file.extension().is_some_and(|end| {
            let end = end.to_ascii_lowercase();
            end == "html" || end == "htm"
        });
        if !is_page {
            let misread = Misread::new(format!("`{file}` does not end in .html"));
            reading.slip(
                "FILE.html",
                misread.help("name the page to write, like report.html"),
            );
        }
        let season = reading.with("--season", self.season.as_ref(), |typed| {
            season::begun(typed, point.as_of)
        });
        reading.done(Some(())).map_err(Stopped::Wrong)?;
        let season = season.unwrap_or_else(|| Season::of(point.as_of));
        let working = Working::begin(desk, &["reading", "judging", "drawing"]);
        let (boat, folder) = point.boat_and_folder(desk.globals)?;
        working.now(1);
        let units = desk.globals.units_for(&boat);
        let page = season::summed(&boat, season, point.as_of, None, None, units, |summary| {
            working.now(2);
            let entries = summary.done.entries.iter().map(|(entry, _)| *entry);
            let photos: Vec<Photo> = match self.photos {
                true => entries.filter_map(|entry| photo(&folder, entry)).collect(),
                false => Vec::new(),
            };
            let report = Report {
                season: summary,
                photos: &photos,
                version: env!("CARGO_PKG_VERSION"),
            };
            let mut page = Vec::new();
            report::html(&report, &mut page)?;
            put(&self.file, "FILE.html", &page)?;
            desk.done = Some(format!("{file} is written"));
            drop(working);
            match desk.globals.format {
                Format::Text => report::told(&report, &file, desk.out, desk.layout)?,
                Format::Json => writeln!(desk.out, "{:#}", report::told_json(&report, &file))?,
            }
            Ok(())
        });
        page.map(|()| Ended::Done)
    }
}

/// The picture that an entry names, if it names one.
fn photo(folder: &Folder, entry: &Entry) -> Option<Photo> {
    let picture = folder.photo(entry)?;
    Some(Photo {
        entry: entry.number,
        path: entry.photo.clone()?,
        picture: picture.and_then(|bytes| Picture::of(&bytes)),
    })
}
