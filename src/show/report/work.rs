//! What was done this season and by whom, what stands open, and what the samples prove.

use std::io;

use super::cells::{list, table};
use super::{Photo, Report};
use crate::hull::{CrossingId, fold};
use crate::record::Entry;
use crate::show::html::Html;
use crate::show::numbers::{counted, grouped};
use crate::show::page::lines;
use crate::show::places::in_short_words;
use crate::show::sample::said;
use crate::show::season::Moved;
use crate::show::work::line;

pub(super) fn write(report: &Report<'_>, html: &mut Html<'_>) -> io::Result<()> {
    let season = report.season;
    let survey = season.last.survey;
    let title = format!("Done from {} to {}", season.season.first(), season.until());
    html.put("h2", &[], &title)?;
    if season.done.entries.is_empty() {
        html.put("p", &[], "No work is logged.")?;
    } else {
        hands(report, html)?;
        moved(report, html)?;
        let (hull, book) = (survey.hull, survey.book);
        let work = season.done.work.iter();
        list(html, work.map(|work| line(hull, book, work, survey.units)))?;
        photos(report, html)?;
    }
    open(report, html)?;
    samples(report, html)
}

fn numbers(moved: Moved) -> [String; 3] {
    [moved.pulled, moved.broken, moved.driven].map(grouped)
}

fn hands(report: &Report<'_>, html: &mut Html<'_>) -> io::Result<()> {
    let season = report.season;
    let caption = format!(
        "{} on {}",
        counted(season.done.entries.len(), "entry", "entries"),
        counted(season.days(), "day", "days")
    );
    let hands = season.hands();
    let rows = hands.iter().map(|(name, hand)| {
        let [pulled, broken, driven] = numbers(hand.moved);
        let days = grouped(hand.days.len());
        let name = name.unwrap_or("nobody named").to_owned();
        [name, days, grouped(hand.entries), pulled, broken, driven]
    });
    table(
        html,
        &caption,
        ["By", "Days", "Entries", "Pulled", "Broken", "Driven"],
        [false, true, true, true, true, true],
        rows,
    )
}

fn moved(report: &Report<'_>, html: &mut Html<'_>) -> io::Result<()> {
    let moved = report.season.moved();
    if moved.is_empty() {
        return Ok(());
    }
    let rows = moved.iter().map(|([metal, kind, size], moved)| {
        let [pulled, broken, driven] = numbers(*moved);
        [
            format!("{metal} {kind}"),
            size.clone(),
            pulled,
            broken,
            driven,
        ]
    });
    table(
        html,
        "What came out and what went in",
        ["Fastening", "Size", "Pulled", "Broken", "Driven"],
        [false, false, true, true, true],
        rows,
    )
}

/// Pictures that are asked for, each with the entry that names it.
fn photos(report: &Report<'_>, html: &mut Html<'_>) -> io::Result<()> {
    if report.photos.is_empty() {
        return Ok(());
    }
    html.put("h3", &[], "Pictures")?;
    html.within("div", &[("class", "photos")], |html| {
        report.photos.iter().try_for_each(|photo| {
            let entries = report.season.done.entries.iter().map(|(entry, _)| *entry);
            let entry = entries.clone().find(|entry| entry.number == photo.entry);
            entry.map_or(Ok(()), |entry| figure(html, entry, photo))
        })
    })
}

fn figure(html: &mut Html<'_>, entry: &Entry, photo: &Photo) -> io::Result<()> {
    let place = entry.place().map_or_else(String::new, ToString::to_string);
    let caption = format!(
        "{} {} {place}, entry {}",
        entry.date,
        entry.did(),
        entry.number
    );
    html.within("figure", &[], |html| {
        match &photo.picture {
            Ok(picture) => {
                let source = format!("data:{};base64,{}", picture.media, picture.base64);
                html.alone("img", &[("src", &source), ("alt", &caption)])?;
            }
            Err(why) => html.put("p", &[], &format!("{} is not shown: {why}", photo.path))?,
        }
        html.put("figcaption", &[], &caption)
    })
}

fn open(report: &Report<'_>, html: &mut Html<'_>) -> io::Result<()> {
    let season = report.season;
    let hull = season.last.survey.hull;
    let place = |crossings: Vec<CrossingId>| in_short_words(&fold(hull, crossings)).to_string();
    html.put(
        "h2",
        &[],
        &format!("What stands open on {}", season.until()),
    )?;
    let (holes, off) = (season.open(), season.off());
    let bare = season.last.outcome.standing.bungs_missing;
    if holes.is_empty() && off.is_empty() && bare == 0 {
        return html.put("p", &[], "No hole, no plank off, no bare head.");
    }
    let holes = (!holes.is_empty()).then(|| {
        let count = counted(holes.len(), "crossing", "crossings");
        format!("Holes in the plank at {count}: {}", place(holes))
    });
    let off = (!off.is_empty()).then(|| format!("Planks off: {}", place(off)));
    let bare = (bare > 0).then(|| counted(bare, "bare head", "bare heads"));
    list(html, [holes, off, bare].into_iter().flatten())
}

fn samples(report: &Report<'_>, html: &mut Html<'_>) -> io::Result<()> {
    let sample = &report.season.sample;
    html.put("h2", &[], "What those drawn for a look prove")?;
    let groups = sample.reading.groups.iter();
    let drawn: Vec<_> = groups
        .filter(|group| group.first.is_some() || group.targeted.pulled > 0)
        .collect();
    if drawn.is_empty() {
        return html.put(
            "p",
            &[],
            "None was drawn this season, so nothing is proved of the rest.",
        );
    }
    let sure = format!(
        "At {} confidence, each of one zone and one metal alone. Only those drawn by lot speak for the rest.",
        sample.sure()
    );
    html.put("p", &[], &sure)?;
    for group in drawn {
        let says = lines(|mut page| said(&mut page, sample, group))?;
        let mut says = says.into_iter();
        html.put("h3", &[], &says.next().unwrap_or_default())?;
        list(html, says)?;
    }
    Ok(())
}
