//! Everything that is printed of a boat, looked over for what must never come through.

use std::io::{self, Write};

use refasten::audit::{Rule, Survey, audit};
use refasten::files::Boat;
use refasten::files::sheet::{ENTRIES, entries};
use refasten::hull::{CrossingId, Holes, Spot};
use refasten::record::{self, Period, generations};
use refasten::refit::Order;
use refasten::refit::buy::{Asked, WhatFor, buy};
use refasten::sample;
use refasten::show::buy::Buying;
use refasten::show::export::{FASTENINGS, SETS, Table, fastenings, sets};
use refasten::show::inventory::Stock;
use refasten::show::map::{Ask, Dress, Map};
use refasten::show::season::{Judged, Summary};
use refasten::show::{self, Layout};
use refasten::units::{Season, Units};

use super::today;

/// A hull of more crossings than this is read and not printed: it takes longer, and shows nothing
/// that a smaller one does not.
const MOST: usize = 600;

/// Text for a terminal: nothing in it that the terminal would act on.
fn text(print: impl FnOnce(&mut dyn Write) -> io::Result<()>) {
    let mut out = Vec::new();
    print(&mut out).expect("a vector");
    let out = String::from_utf8(out).expect("text");
    let acts = |c: char| {
        c.is_control() && c != '\n'
            || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
    };
    assert!(!out.contains(acts), "{out:?}");
}

/// A page: no script and no picture but its own.
fn page(scripts: usize, print: impl FnOnce(&mut dyn Write) -> io::Result<()>) {
    let mut out = Vec::new();
    print(&mut out).expect("a vector");
    let out = String::from_utf8(out).expect("text").to_ascii_lowercase();
    assert_eq!(out.matches("<script").count(), scripts, "{out}");
    for tag in ["<img", "<iframe", "<object", "<x-"] {
        assert_eq!(out.matches(tag).count(), 0, "{tag} in {out}");
    }
    assert_eq!(out.matches("</html>").count(), 1);
}

/// A table for a spreadsheet program: no cell that it would run.
fn cells(columns: &[&str], rows: impl FnOnce(&mut Table<'_>) -> io::Result<()>) {
    let mut out = Vec::new();
    let mut table = Table::csv(&mut out, columns).expect("a vector");
    rows(&mut table).expect("a vector");
    table.end().expect("a vector");
    let out = String::from_utf8(out).expect("text");
    // A quoted cell may have a line that begins so; it is not one of its own.
    if !out.contains('"') {
        let mut cells = out.split(['\n', '\r', ',', ';', '\t']);
        let run = |cell: &&str| cell.starts_with(['=', '+', '@']);
        assert_eq!(cells.find(run), None, "{out}");
    }
}

/// Prints a boat in every form there is.
pub fn printed(boat: &Boat) {
    let (hull, book, day) = (&boat.hull, &boat.book, today());
    let crossings: Vec<CrossingId> = hull.crossing_ids().collect();
    if crossings.len() > MOST {
        return;
    }
    for (units, layout) in [
        (Units::Inch, Layout::from(80)),
        (
            Units::Metric,
            Layout {
                plain: true,
                ..Layout::from(40)
            },
        ),
    ] {
        let survey = Survey::new(hull, book, &boat.limits, &boat.accepted, day, units);
        stock(boat, &crossings, units, layout);
        work(boat, &survey, layout);
        judged(&survey, layout);
        season(boat, &survey, layout);
    }
    cells(ENTRIES, |table| entries(boat, table));
    text(|out| show::check::text(out, 80.into(), hull, book));
}

fn stock(boat: &Boat, crossings: &[CrossingId], units: Units, layout: Layout) {
    let (hull, book, day) = (&boat.hull, &boat.book, today());
    let state = book.state(hull, Some(day));
    let stock = Stock {
        hull,
        book,
        state: &state,
        day,
        crossings,
        units,
    };
    for by in ["frame", "strake", "metal", "set", "state", "zone"] {
        let by = by.parse().expect("what is counted by");
        text(|out| show::inventory::text(&stock, by, out, layout));
        show::inventory::json(&stock, by);
    }
    text(|out| show::inventory::each_text(&stock, out, layout));
    show::inventory::each_json(&stock);
    cells(&FASTENINGS, |table| fastenings(&stock, table));
    cells(&SETS, |table| sets(hull, book, units, table));
    let spots = crossings.iter().map(|crossing| Spot {
        crossing: *crossing,
        holes: Holes::ANY,
    });
    let spots: Vec<Spot> = spots.collect();
    let asked = record::Asked {
        spots: &spots,
        set: None,
        metal: None,
    };
    let told = show::history::History {
        events: &record::history(book, hull, &asked, Some(day)),
        holes: show::generations::Holes {
            hull,
            book,
            state: &state,
            day,
            had: &generations(book, hull, &spots, day),
        },
        place: None,
        set: None,
        metal: None,
    };
    text(|out| show::history::text(&told, units, out, layout));
    show::history::json(&told);
    let sheet = show::sheet::Sheet {
        hull,
        book,
        state: &book.state(hull, None),
        day,
        crossings,
        place: None,
        units,
    };
    page(2, |out| show::sheet::html(&sheet, out));
}

fn work(boat: &Boat, survey: &Survey<'_>, layout: Layout) {
    let (hull, book) = (&boat.hull, &boat.book);
    let planned = Survey::new(
        hull,
        book,
        &boat.limits,
        &boat.accepted,
        today(),
        survey.units,
    );
    let todo = show::todo::Todo {
        survey,
        order: &Order::of(survey, &planned.as_planned()),
        place: None,
    };
    text(|out| show::todo::text(out, layout, &todo, true));
    json(|out| show::todo::json(out, &todo));
    let asked = Asked {
        hull,
        book,
        limits: &boat.limits,
        stores: &boat.stores,
        day: today(),
        within: None,
        what_for: WhatFor::All,
        units: survey.units,
    };
    let buying = Buying {
        asked: &asked,
        list: &buy(&asked),
        place: None,
    };
    text(|out| show::buy::text(&buying, out, layout));
    text(|out| show::buy::markdown(&buying, out));
    show::buy::json(&buying);
    show::buy::csv(&buying, &mut io::sink()).expect("a sink");
}

fn json(print: impl FnOnce(&mut dyn Write) -> io::Result<()>) {
    let mut out = Vec::new();
    print(&mut out).expect("a vector");
    serde_json::from_slice::<serde_json::Value>(&out).expect("it is JSON");
}

fn judged(survey: &Survey<'_>, layout: Layout) {
    let outcome = audit(survey, Rule::all());
    let told = show::audit::Audit {
        survey,
        outcome: &outcome,
        place: None,
        only: &[],
    };
    text(|out| show::audit::text(out, layout, &told, true));
    json(|out| show::audit::json(out, &told));
    for ask in [
        Ask::Metal,
        Ask::State,
        Ask::Age,
        Ask::Hold,
        Ask::Findings(&outcome),
    ] {
        let map = Map::new(survey, ask);
        text(|out| show::map::text(&map, out, layout));
        show::map::json(&map);
        let mut out = Vec::new();
        show::map::drawing(&map, Dress::Alone, &mut out).expect("a vector");
        let out = String::from_utf8(out).expect("text");
        let drawing = roxmltree::Document::parse(&out).expect("it is XML");
        let mut names = drawing.descendants().map(|node| node.tag_name().name());
        assert!(!names.any(|name| matches!(name, "script" | "image" | "a")));
    }
}

fn season(boat: &Boat, last: &Survey<'_>, layout: Layout) {
    let (hull, book, day) = (&boat.hull, &boat.book, today());
    let season = Season::of(day);
    let period = Period {
        first: season.first(),
        last: day,
    };
    let first = Survey::new(
        hull,
        book,
        &boat.limits,
        &boat.accepted,
        period.first,
        last.units,
    );
    // Limits of her own may leave no number to be as sure of; the command says so.
    let Ok(confidence) = sample::confidence(&boat.limits) else {
        return;
    };
    let outcomes = [&first, last].map(|survey| audit(survey, Rule::all()));
    let summary = Summary {
        season,
        place: None,
        done: &record::done(book, hull, period, &|_| true),
        first: Judged {
            survey: &first,
            outcome: &outcomes[0],
        },
        last: Judged {
            survey: last,
            outcome: &outcomes[1],
        },
        sample: show::sample::Sample {
            survey: last,
            reading: &sample::read(last, Some(period.first)),
            place: None,
            confidence,
            share: sample::share_to_show(&boat.limits).share(),
        },
    };
    text(|out| show::season::text(out, layout, &summary));
    show::season::json(&summary);
    text(|out| show::sample::read(out, layout, &summary.sample));
    let report = show::report::Report {
        season: &summary,
        photos: &[],
        version: "0",
    };
    page(0, |out| show::report::html(&report, out));
}
